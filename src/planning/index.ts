/**
 * Planning: plans and answers from a site and what was rehearsed of it. Pure: no clock, no chance, no disk.
 *
 * Looks down on: drills, twin, rules, site, science, foundation. Never heard of: storage, watch, server, web.
 */
export type {
  Ability,
  Dosing,
  FirstSiteAnswers,
  HeaterSwitch,
  Life,
  Messages,
  PersonAnswers,
  Plugging,
  Reach,
  TankAnswers,
  TopOff,
  TopOffSwitch,
  Whereabouts,
} from "./first-site/answers.ts";
export { ANOTHER_PERSON, USUAL_ANSWERS, USUAL_TANK } from "./first-site/answers.ts";
export type { Assumption } from "./first-site/first-site.ts";
export { firstSite } from "./first-site/first-site.ts";
export { slug } from "./first-site/names.ts";
export type { JournalEntry, JournalLine, TakenBack } from "./papers/journal.ts";
export { applyJournal } from "./papers/journal.ts";
export { makePapers } from "./papers/papers.ts";
export type * from "./papers/types.ts";
export type { Effort, Remedy, RemedyKind, RoughCost } from "./remedies/index.ts";
export { EFFORTS, ranked, remediesFor } from "./remedies/index.ts";
