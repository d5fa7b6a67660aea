/**
 * Draws a plot as SVG that stands by itself: it brings its own ground, since a page that shows it may be light while the reader's
 * system is dark, and chooses ground and ink together.
 */
import { type Curve, type Growth, inProportion, largest, power, written } from "./curve.ts";

/** Where and when the figures were made. */
export interface Made {
  readonly date: string;
  readonly machine: string;
}

/** Pixels. */
const WIDTH = 640;
const HEIGHT = 420;
const LEFT = 64;
const RIGHT = WIDTH - 32;
const TOP = 74;
const BOTTOM = HEIGHT - 98;
const LEGEND_LINE = 22;
const DOT = 4;
const FRAME = 6;
/** About so many steps an axis. */
const STEPS = 5;

/** Colours of the app: ground, ink, second ink, grid, and one for each curve. */
const LIGHT = { ground: "#fcfbf7", ink: "#10243d", soft: "#3f5268", grid: "#cdd1d0", curves: ["#24539b", "#be1f50"] };
const DARK = { ground: "#121f2a", ink: "#dde5e6", soft: "#afbdc6", grid: "#2c4153", curves: ["#6aa2ea", "#ee6c8e"] };

const UNITS = { ms: "milliseconds", s: "seconds" };

/** Both scales: amounts to the right, costs upwards, each from nothing. */
interface Scales {
  readonly amounts: readonly number[];
  readonly costs: readonly number[];
  readonly x: (amount: number) => number;
  readonly y: (cost: number) => number;
}

export function draw(growth: Growth, made: Made): string {
  const { title, amounts, costOf, costUnit, runs, curves } = growth;
  const scales = scalesOf(curves);
  const costs = `${UNITS[costUnit]} ${costOf}`;
  return `${[
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${WIDTH} ${HEIGHT}" width="${WIDTH}" height="${HEIGHT}" role="img" aria-labelledby="title">`,
    `<title id="title">${plain(`${title}, ${costs}`)}</title>`,
    `<style>${style()}</style>`,
    `<rect class="ground" width="${WIDTH}" height="${HEIGHT}"/>`,
    text(20, 30, "title", title),
    text(20, TOP - 20, "soft", costs),
    ...grid(scales),
    text((LEFT + RIGHT) / 2, BOTTOM + 40, "soft middle", amounts),
    ...curves.flatMap((curve, place) => curveLines(curve, place, scales)),
    ...curves.flatMap(legend),
    text(
      20,
      HEIGHT - 34,
      "soft",
      `Best of ${runs} runs each, ${made.date}. Dashed: in proportion to the largest point.`,
    ),
    text(20, HEIGHT - 15, "soft", made.machine),
    "</svg>",
  ].join("\n")}\n`;
}

function style(): string {
  const coloured = ({ ground, ink, soft, grid: lines, curves }: typeof LIGHT) =>
    [
      `.ground{fill:${ground}}`,
      `text{fill:${ink}}`,
      `.soft{fill:${soft}}`,
      `.grid{stroke:${lines}}`,
      `.axis{stroke:${soft}}`,
      ...curves.map((colour, place) => `.c${place}{stroke:${colour};fill:${place === 0 ? colour : "none"}}`),
    ].join("");
  return [
    'text{font:13px system-ui,"Segoe UI","Noto Sans",Arial,sans-serif}',
    ".title{font-size:17px;font-weight:600}",
    ".middle{text-anchor:middle}.end{text-anchor:end}",
    "rect{stroke-width:1.75}.dashed{stroke-width:1.25;stroke-dasharray:6 5}",
    coloured(LIGHT),
    `@media (prefers-color-scheme:dark){${coloured(DARK)}}`,
  ].join("");
}

function scalesOf(curves: readonly Curve[]): Scales {
  const points = curves.flatMap((curve) => curve.points);
  const amounts = ticks(Math.max(...points.map(({ amount }) => amount)));
  const costs = ticks(Math.max(...points.map(({ cost }) => cost)));
  const share = (value: number, marks: readonly number[]) => value / marks[marks.length - 1];
  return {
    amounts,
    costs,
    x: (amount) => LEFT + (RIGHT - LEFT) * share(amount, amounts),
    y: (cost) => BOTTOM - (BOTTOM - TOP) * share(cost, costs),
  };
}

/** From nothing to at least `most` in steps of 1, 2 or 5 times a power of ten. */
export function ticks(most: number): number[] {
  const rough = most / STEPS;
  const ten = 10 ** Math.floor(Math.log10(rough));
  const step = ten * ([1, 2, 5].find((times) => times * ten >= rough * (1 - 1e-9)) ?? 10);
  return Array.from({ length: Math.ceil(most / step - 1e-9) + 1 }, (_, place) => place * step);
}

function grid({ amounts, costs, x, y }: Scales): string[] {
  return [
    ...costs.flatMap((cost) => [
      line("grid", LEFT, y(cost), RIGHT, y(cost)),
      text(LEFT - 8, y(cost) + 4.5, "soft end", written(cost)),
    ]),
    ...amounts.flatMap((amount) => [
      line("axis", x(amount), BOTTOM, x(amount), BOTTOM + 5),
      text(x(amount), BOTTOM + 20, "soft middle", written(amount)),
    ]),
    line("axis", LEFT, BOTTOM, RIGHT, BOTTOM),
    line("axis", LEFT, TOP, LEFT, BOTTOM),
  ];
}

/** The points, and the straight line of proportion; nothing joins the points, or it would hide that line. */
function curveLines(curve: Curve, place: number, { x, y }: Scales): string[] {
  const { amount: most } = largest(curve);
  return [
    line(`dashed c${place}`, x(0), y(0), x(most), y(inProportion(curve, most))),
    ...curve.points.map(({ amount, cost }) => mark(place, x(amount), y(cost))),
  ];
}

/** Top left, where a growing curve leaves room. */
function legend(curve: Curve, place: number): string[] {
  const y = TOP + 16 + place * LEGEND_LINE;
  return [
    mark(place, LEFT + 20, y),
    text(LEFT + 32, y + 4.5, "", `${curve.name}: power ${power(curve.points).toFixed(2)}`),
  ];
}

/** A dot for the first curve and a frame for the second, so that colour is not needed and a dot shows within a frame. */
function mark(place: number, x: number, y: number): string {
  if (place === 0) return `<circle class="c0" cx="${pixels(x)}" cy="${pixels(y)}" r="${DOT}"/>`;
  return `<rect class="c${place}" x="${pixels(x - FRAME)}" y="${pixels(y - FRAME)}" width="${2 * FRAME}" height="${2 * FRAME}"/>`;
}

function line(kind: string, x1: number, y1: number, x2: number, y2: number): string {
  return `<line class="${kind}" x1="${pixels(x1)}" y1="${pixels(y1)}" x2="${pixels(x2)}" y2="${pixels(y2)}"/>`;
}

function text(x: number, y: number, kind: string, words: string): string {
  return `<text x="${pixels(x)}" y="${pixels(y)}"${kind === "" ? "" : ` class="${kind}"`}>${plain(words)}</text>`;
}

function pixels(value: number): string {
  return String(Math.round(value * 10) / 10);
}

/** Words without what XML would read as its own. */
function plain(words: string): string {
  return words.replaceAll("&", "&amp;").replaceAll("<", "&lt;");
}
