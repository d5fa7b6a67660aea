/** Numbers as they stand on screens, in the manner of the reader: figures joined to their units by no-break spaces. */
import { groupThousands, manner } from "./manner.ts";
import { digitsShown, shown } from "./units.ts";

const NO_BREAK = "\u00a0";
export const MINUS = "\u2212";
const HOUR_MIN = 60;
const DAY_MIN = 1440;

/** A length of time in two parts at most: "12 s", "50 min", "4 h 35 min", "3 d 18 h". The sign is left out. */
export function span(minutes: number): string {
  const size = Math.abs(minutes);
  if (size > 0 && size < 0.995) return unit(Math.max(1, Math.round(size * 60)), "s");
  const wholeMin = Math.round(size);
  if (wholeMin < HOUR_MIN) return unit(wholeMin, "min");
  if (wholeMin < DAY_MIN) return pair(Math.floor(wholeMin / HOUR_MIN), "h", wholeMin % HOUR_MIN, "min");
  const wholeH = Math.round(size / HOUR_MIN);
  return pair(Math.floor(wholeH / 24), "d", wholeH % 24, "h");
}

/** How long a piece of work took: in seconds up to two minutes, where minutes would say too little. */
export function workTime(seconds: number): string {
  return seconds < 120 ? unit(Math.max(1, Math.round(seconds)), "s") : span(seconds / 60);
}

/** "+ 4 h 35 min" or "− 38 min". */
export function signedSpan(minutes: number): string {
  return `${minutes < 0 ? MINUS : "+"}${NO_BREAK}${span(minutes)}`;
}

function unit(value: number, name: string): string {
  return `${value}${NO_BREAK}${name}`;
}

/** Minutes after hours take two digits, so that columns of them line up. */
function pair(large: number, largeUnit: string, small: number, smallUnit: string): string {
  if (small === 0) return unit(large, largeUnit);
  const digits = smallUnit === "min" ? String(small).padStart(2, "0") : String(small);
  return `${unit(large, largeUnit)}${NO_BREAK}${digits}${NO_BREAK}${smallUnit}`;
}

/** A number with so many digits after the point, a true minus, and the marks of the reader's locale. */
export function figure(value: number, digits = 0): string {
  const [whole, rest] = Math.abs(value).toFixed(digits).split(".");
  const grouped = whole.length > 3 ? groupThousands(Number(whole), manner()) : whole;
  const isZero = Number(Math.abs(value).toFixed(digits)) === 0;
  return `${value < 0 && !isZero ? MINUS : ""}${grouped}${rest === undefined ? "" : `${manner().decimal}${rest}`}`;
}

/** A figure and its unit. The value comes in the unit named; it is shown in the reader's. */
export function measure(value: number, unitName: string, digits = 0): string {
  return withUnit(bare(value, unitName, digits), shown(unitName).unit);
}

/** The figure of `measure` alone, for columns and axes with the unit (`unitShown`) at their head. */
export function bare(value: number, unitName: string, digits = 0): string {
  const { toShown, factor } = shown(unitName);
  const turned = toShown(value);
  return figure(turned, digitsShown(turned, factor, digits));
}

/** The name of the unit in which `measure` shows values of this one. */
export function unitShown(unitName: string): string {
  return shown(unitName).unit;
}

/** How far two values lie apart: 1 \u00b0C of difference is 1.8 \u00b0F and not 33.8. */
export function difference(value: number, unitName: string, digits = 0): string {
  const { factor, unit: name } = shown(unitName);
  return withUnit(figure(value * factor, digitsShown(value * factor, factor, digits)), name);
}

function withUnit(text: string, name: string): string {
  return name === "" ? text : `${text}${NO_BREAK}${name}`;
}

/** Digits after the point that tell neighbouring grid lines of this distance apart. */
export function digitsFor(step: number): number {
  return Math.max(0, Math.min(4, Math.ceil(-Math.log10(step) - 1e-9)));
}

/** First letter large and a stop at the end: the engine's phrases as sentences. */
export function asSentence(text: string): string {
  const trimmed = text.trim();
  if (trimmed === "") return "";
  const begun = trimmed.charAt(0).toUpperCase() + trimmed.slice(1);
  return /[.?]$/.test(begun) ? begun : `${begun}.`;
}

/** Figures in a written sentence joined to their units, so that no line ends between them. */
export function joinUnits(text: string): string {
  return text
    .replace(/(\d) (?=(?:s|min|h|d|L|mL|W|Wh|A|dKH|ppm|\u00b0C|mg\/L|L\/h|%)(?![\w/]))/g, `$1${NO_BREAK}`)
    .replace(/(\d\u00a0[hd]) (?=\d)/g, `$1${NO_BREAK}`);
}
