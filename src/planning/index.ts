/**
 * Planning: plans and answers from a site and what was rehearsed of it. Pure: no clock, no chance, no disk.
 *
 * Looks down on: drills, twin, rules, site, science, foundation. Never heard of: storage, server, web.
 */
export type { JournalEntry, JournalLine, TakenBack } from "./papers/journal.ts";
export { applyJournal } from "./papers/journal.ts";
export { makePapers } from "./papers/papers.ts";
export type * from "./papers/types.ts";
