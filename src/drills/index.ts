/**
 * Drills: rehearse a failure before it happens.
 *
 * A drill crosses three things that know nothing of each other: a site, a fault, and a verdict. Same seed and same
 * version, same run, bit for bit.
 */
export type * from "./types.ts";
