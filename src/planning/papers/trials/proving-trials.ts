/** Every trial that a site asks for, in the order of what it proves. */
import type { Site } from "../../../site/index.ts";
import type { Trial } from "../types.ts";
import { peopleTrials } from "./people-trials.ts";
import { powerTrials } from "./power-trials.ts";
import { ruleTrials } from "./rule-trials.ts";
import { sensorTrials } from "./sensor-trials.ts";
import { waterTrials } from "./water-trials.ts";

/**
 * Trials on the real place that show that each rule, backup, way of telling and person works. None heats, cools, doses or drains
 * the water that animals live in, and none opens anything live.
 */
export function provingTrials(site: Site): readonly Trial[] {
  return [
    ...powerTrials(site),
    ...waterTrials(site),
    ...peopleTrials(site),
    ...sensorTrials(site),
    ...ruleTrials(site),
  ];
}
