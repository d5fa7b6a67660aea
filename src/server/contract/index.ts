/**
 * Contract: the types and parsers that the server and the web app share.
 *
 * The one room that `web/` may look into. It holds no behaviour of either side: shapes, and doors that check them.
 */

export type {
  AnswerProblem,
  FirstSite,
  FirstSiteAnswers,
  FirstSiteStart,
  PersonAnswers,
  TakenIn,
  TankAnswers,
} from "./first-site.ts";
export {
  LIMITS,
  parseFirstSite,
  parseFirstSiteAnswers,
  parseFirstSiteStart,
  parseTakenIn,
} from "./first-site.ts";
export {
  ContractError,
  parseDrillReport,
  parseEditAnswer,
  parseFieldsAnswer,
  parseKeepConflict,
  parseProblem,
  parseRehearsalAnswer,
  parseSiteAnswer,
  parseTrialAnswer,
} from "./parse.ts";

export type { RemediesAnswer, Remedy, RoughCost } from "./remedies.ts";
export { parseRemediesAnswer } from "./remedies.ts";
export type {
  Battery,
  Body,
  Circuit,
  Circumstance,
  DefaultUsed,
  Described,
  Device,
  DrillEvent,
  DrillReport,
  DrillResult,
  EditAnswer,
  EditQuestion,
  FieldFacts,
  FieldsAnswer,
  Flow,
  Hub,
  KeepConflict,
  Link,
  Person,
  Problem,
  RehearsalAnswer,
  RehearsalReport,
  RehearsalState,
  Room,
  RuleSpec,
  Sensor,
  SettledLife,
  Site,
  SiteAnswer,
  SiteEdit,
  SiteProblem,
  System,
  TimeWindow,
  Trace,
  TrialAnswer,
  VerdictKind,
  WrittenValue,
} from "./types.ts";
