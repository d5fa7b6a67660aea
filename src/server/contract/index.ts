/**
 * Contract: the types and parsers that the server and the web app share.
 *
 * The one room that `web/` may look into. It holds no behaviour of either side: shapes, and doors that check them.
 */
export type { PairCell, PairCellAnswer, PairCensus, PairDrill, PairsAnswer } from "./pairs.ts";
export { parsePairCellAnswer, parsePairsAnswer } from "./pairs.ts";
export { ContractError, parseDrillReport, parseProblem, parseRehearsalAnswer, parseSiteAnswer } from "./parse.ts";
export type {
  Battery,
  Body,
  Circuit,
  Circumstance,
  Device,
  DrillEvent,
  DrillReport,
  DrillResult,
  Flow,
  Hub,
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
  SiteProblem,
  System,
  TimeWindow,
  Trace,
  VerdictKind,
} from "./types.ts";
