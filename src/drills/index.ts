/**
 * Drills: rehearse a failure before it happens.
 *
 * A drill crosses three things that know nothing of each other: a site, a fault, and a verdict. Same seed and same
 * version, same run, bit for bit, on any number of threads.
 *
 * Looks down on: twin, rules, site, science, foundation. Never heard of: watch, storage, server, web.
 */

export { circumstanceNamed, tellDrill } from "./by-name.ts";
export { type Judged, judgeInReach, judgeToHorizon } from "./drill.ts";
export { ENGINE } from "./engine.ts";
export { type Fault, type FaultMode, faultId, faultsOf, findFault } from "./faults/index.ts";
export { drillGrid } from "./grid.ts";
export { offThread } from "./off-thread.ts";
export { Rehearser } from "./pair.ts";
export { READ_MIN } from "./people.ts";
export { type PlainLife, plainLife } from "./plain-life.ts";
export { type PairCensus, type PlannedDrill, pairCensus, planPairs, planSingles } from "./plan.ts";
export { type RehearsalOptions, rehearse } from "./rehearsal.ts";
export { type ReportOptions, reportDrill } from "./report.ts";
export type { SettledLife } from "./settled.ts";
export { Stage } from "./stage.ts";
export type * from "./types.ts";
export { duration, signedDuration } from "./words.ts";
