/** Plain life without a fault: what a day or a month looks like. */
import type { Circumstance } from "../site/index.ts";
import { advance, restore, type TwinEvent } from "../twin/index.ts";
import { ENGINE } from "./engine.ts";
import { evenGrid, Recorder } from "./recorder.ts";
import type { ReportOptions } from "./report.ts";
import { toDrillEvent } from "./report-events.ts";
import type { Stage } from "./stage.ts";
import type { DrillEvent, Trace } from "./types.ts";

export interface PlainLife {
  readonly site: string;
  readonly engine: string;
  readonly seed: number;
  readonly circumstance: string;
  readonly starts: string;
  readonly days: number;
  readonly events: readonly DrillEvent[];
  readonly trace: Trace;
}

export function plainLife(
  stage: Stage,
  circumstance: Circumstance,
  options: ReportOptions & { readonly days: number },
): PlainLife {
  const all = stage.model.systems.map((system) => system.index);
  const setting = stage.setting(circumstance, all, options.days);
  const recorder = new Recorder(setting, options.only, options.stepMin);
  const events: TwinEvent[] = [];
  restore(setting.twin, setting.start);
  advance(setting.twin, 0);
  setting.twin.onEvent = (event) => events.push(event);
  for (const tS of evenGrid(options.days, options.stepMin)) {
    advance(setting.twin, tS);
    recorder.take(setting.twin, tS);
  }
  setting.twin.onEvent = null;
  return {
    site: stage.model.site.name,
    engine: ENGINE,
    seed: stage.seed,
    circumstance: circumstance.id,
    starts: circumstance.startsLocal,
    days: options.days,
    events: events.map(toDrillEvent),
    trace: recorder.trace(),
  };
}
