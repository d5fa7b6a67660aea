/** An incident rehearsed: its own drill held against the report, and what a rehearsal without hindsight says. */
import {
  circumstanceNamed,
  type DrillReport,
  type DrillResult,
  judgeInReach,
  planPairs,
  type RehearsalReport,
  rehearse,
  reportDrill,
  Stage,
} from "../../src/drills/index.ts";
import { type Line, linesOf } from "./lines.ts";
import { faultsOf, placeOf, unknowingPlaceOf } from "./place.ts";
import type { Incident } from "./record.ts";

const SEED = 1;
/** Spacing of the curves, min: every moment of a figure is a multiple of it. */
const STEP_MIN = 10;

export interface Drilled {
  readonly incident: Incident;
  readonly report: DrillReport;
  readonly lines: readonly Line[];
}

/** Runs the drill of the incident. */
export function drillIncident(incident: Incident): Drilled {
  const site = placeOf(incident);
  const only = incident.figures.flatMap(({ quantity }) => quantity ?? []);
  const report = reportDrill(
    new Stage(site, SEED),
    faultsOf(incident, site),
    circumstanceNamed(site, incident.circumstance),
    { stepMin: STEP_MIN, only: only.length > 0 ? only : ["floor.water_l"], everywhere: false },
  );
  return { incident, report, lines: linesOf(incident, report) };
}

export interface Warned {
  /** Drills of the incident's faults, alone and as pairs, whose verdict is late or unseen. */
  readonly called: readonly DrillResult[];
  /** All drills of the incident's faults. */
  readonly drills: readonly DrillResult[];
  readonly rehearsal: RehearsalReport;
}

/** Rehearses the place as if nothing had happened yet. */
export async function rehearseUnknowing(incident: Incident, threads: number): Promise<Warned> {
  const site = unknowingPlaceOf(incident);
  const rehearsal = await rehearse(site, { seed: SEED, threads, pairs: false, nowS: () => 0 });
  const isOfIncident = (result: DrillResult) =>
    result.faults.every((fault) => incident.faults.includes(`${fault.part}.${fault.mode}`));
  const stage = new Stage(site, SEED);
  const pairs = planPairs(stage.model).drills.filter((drill) =>
    drill.faults.every((fault) => incident.faults.includes(`${fault.part}.${fault.mode.mode}`)),
  );
  const drills = [
    ...rehearsal.drills.filter(isOfIncident),
    ...pairs.map((drill) => judgeInReach(stage, drill.faults, drill.circumstance).result),
  ];
  return { rehearsal, drills, called: drills.filter(({ verdict }) => verdict === "late" || verdict === "unseen") };
}
