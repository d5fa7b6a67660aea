/**
 * Remedies: changes to the site file that would close findings, as edits by keys, with rough cost and minutes.
 *
 * A library, and an order in which to try it: no effect is claimed here. Looks down on: drills (types), site, science,
 * foundation. Never heard of: storage, watch, server, web, the text of the file.
 */
export { EFFORTS, type Effort } from "./efforts.ts";
export { ranked, remediesFor } from "./remedies-for.ts";
export type { Remedy, RemedyKind, RoughCost } from "./remedy.ts";
