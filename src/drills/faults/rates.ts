/**
 * How often things fail, in four grades of trust. The factor says how many times more or less it may be.
 *
 * Most rates of the trade have never been counted. Where nobody has, the source says "guess", and verdicts never depend on
 * it: only the sums over years do.
 */
import type { FaultRate } from "./fault.ts";

/** A statistic with a denominator. */
export function counted(perYear: number, source: string): FaultRate {
  return { perYear, factor: 1.5, source: `counted: ${source}` };
}

/** Industrial reliability data for like parts, moved to salt water. */
export function generic(perYear: number, source: string): FaultRate {
  return { perYear, factor: 3, source: `industrial data: ${source}` };
}

/** What keepers and weak public tallies report. */
export function reported(perYear: number, source: string): FaultRate {
  return { perYear, factor: 4, source: `keepers' reports: ${source}` };
}

/** No count exists; a careful order of magnitude. */
export function guess(perYear: number, source: string): FaultRate {
  return { perYear, factor: 7, source: `guess: ${source}` };
}
