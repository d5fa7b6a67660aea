/** The two time axes: logarithmic from the moment of the fault on the board, linear on a timeline. Both in minutes. */

/** The board looks this far, min: 14 days. */
export const BOARD_END_MIN = 14 * 1440;

/** Labelled moments of the board's axis, min. A phone leaves out the `dense` ones. */
export const BOARD_TICKS: readonly { readonly min: number; readonly label: string; readonly dense: boolean }[] = [
  { min: 0, label: "0", dense: false },
  { min: 1, label: "1\u00a0min", dense: true },
  { min: 10, label: "10\u00a0min", dense: false },
  { min: 60, label: "1\u00a0h", dense: false },
  { min: 360, label: "6\u00a0h", dense: false },
  { min: 1440, label: "1\u00a0d", dense: false },
  { min: 4320, label: "3\u00a0d", dense: true },
  { min: BOARD_END_MIN, label: "14\u00a0d", dense: false },
];

export type Scale = (minutes: number) => number;

/** log10(1 + t / 1 min): the first minute is as wide as it deserves, and 14 days still fit. */
export function boardScale(width: number): Scale {
  const end = Math.log10(1 + BOARD_END_MIN);
  return (minutes) => (width * Math.log10(1 + Math.min(Math.max(minutes, 0), BOARD_END_MIN))) / end;
}

export function linearScale(left: number, right: number, endMin: number, fromMin = 0): Scale {
  return (minutes) =>
    left + ((right - left) * (Math.min(Math.max(minutes, fromMin), endMin) - fromMin)) / (endMin - fromMin);
}

/** Distances that a reader of clocks finds natural, min. */
const CLOCK_STEPS_MIN = [1, 2, 5, 10, 15, 30, 60, 120, 180, 240, 360, 720, 1440, 2880, 5760, 10_080];

/** Distance between evenly spaced moments of which at most `most` gaps lie in a span, min. */
export function clockStep(spanMin: number, most: number): number {
  return CLOCK_STEPS_MIN.find((candidate) => spanMin / candidate <= most) ?? Math.ceil(spanMin / most);
}

/** Evenly spaced moments of a span, counted from the fault, at most `most` gaps. */
export function clockTicks(endMin: number, most: number, fromMin = 0): readonly number[] {
  const step = clockStep(endMin - fromMin, most);
  const first = Math.ceil(fromMin / step - 1e-9);
  return Array.from({ length: Math.floor(endMin / step + 1e-9) - first + 1 }, (_, i) => (first + i) * step);
}

/** Round values inside a range for grid lines, at most `most` of them. */
export function gridValues(
  low: number,
  high: number,
  most: number,
): { readonly values: readonly number[]; readonly step: number } {
  const rough = (high - low) / Math.max(1, most);
  const power = 10 ** Math.floor(Math.log10(rough));
  const step =
    [1, 2, 5, 10].map((factor) => factor * power).find((candidate) => candidate >= rough * (1 - 1e-9)) ?? 10 * power;
  const first = Math.ceil(low / step - 1e-9);
  const last = Math.floor(high / step + 1e-9);
  return { values: Array.from({ length: Math.max(0, last - first + 1) }, (_, i) => (first + i) * step), step };
}
