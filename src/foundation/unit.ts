/** What a unit and a dimension are, and the ways in which people write rates. */

export interface Unit {
  /** As it is printed and normally written. */
  readonly symbol: string;
  readonly factor: number;
  readonly shift?: number;
  /** Other ways of writing it; compared without regard to case. */
  readonly also?: readonly string[];
}

export interface DimensionFacts {
  /** In words, for messages: "a volume". */
  readonly words: string;
  readonly example: string;
  /** Canonical unit first. */
  readonly units: readonly Unit[];
  /** Least and greatest canonical value that can be meant at all. */
  readonly min: number;
  readonly max: number;
  /** True where a number without a unit can mean one thing only. */
  readonly bare?: boolean;
  /** Canonical value = written number where no unit is written; otherwise as the canonical unit. */
  readonly bareFactor?: number;
}

/** `L/h`, `l per h`, `L/hour` ...: the ways of writing one unit per another. */
export function per(tops: readonly string[], bottoms: readonly string[]): string[] {
  return tops.flatMap((top) =>
    bottoms.flatMap((bottom) => [`${top}/${bottom}`, `${top} per ${bottom}`, `${top} a ${bottom}`]),
  );
}

export const HOUR = ["h", "hr", "hour"];
export const DAY = ["d", "day"];
export const MINUTE = ["min", "minute"];
