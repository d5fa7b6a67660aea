/**
 * Planning: plans and answers by search.
 *
 * Looks down on: drills, twin, site, science, foundation. Never heard of: watch, server, web.
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
export {
  EFFORTS,
  type Effort,
  type Remedy,
  type RemedyKind,
  type RoughCost,
  ranked,
  remediesFor,
} from "./remedies/index.ts";
