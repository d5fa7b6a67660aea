/** Worker thread of a rehearsal: makes its own stage once, then runs the drills it is sent. */
import { workerData } from "node:worker_threads";
import type { Site } from "../site/index.ts";
import { Rehearser } from "./pair.ts";
import { plainHarms } from "./plain-harm.ts";
import { planOf } from "./plan.ts";
import { Stage } from "./stage.ts";
import type { DrillResult, PlainHarm } from "./types.ts";

interface Given {
  readonly site: Site;
  readonly seed: number;
  readonly pairs: boolean;
}

const { site, seed, pairs } = workerData as Given;
const stage = new Stage(site, seed);
const rehearser = new Rehearser(stage);
const plan = planOf(stage.model, pairs);

/** Runs the drills at these places of the plan; none asks for the harm of plain life. */
export default function run(places: readonly number[]): DrillResult[] | PlainHarm[] {
  if (places.length === 0) return plainHarms(stage);
  return places.map((place) => rehearser.run(plan[place]));
}
