/** The part of docs/performance.md that the bench writes: figures, pictures, and what they show. */
import { type Growth, inWords, written } from "./curve.ts";
import type { Made } from "./draw.ts";

const FROM = "<!-- growth: from here to the next mark `bench/growth.ts --write` writes -->";
const TO = "<!-- growth ends -->";
/** Characters a line. */
const LINE = 128;

/** The page with new figures; all outside the two marks stays as it is. */
export function withGrowth(page: string, growths: readonly Growth[], made: Made): string {
  const from = page.indexOf(FROM);
  const to = page.indexOf(TO);
  if (from < 0 || to < from) throw new Error(`The page has no place for the figures: it needs "${FROM}", then "${TO}"`);
  return `${page.slice(0, from + FROM.length)}\n\n${section(growths, made)}\n\n${page.slice(to)}`;
}

function section(growths: readonly Growth[], made: Made): string {
  return [`Measured on ${made.date}: ${made.machine}.`, ...growths.flatMap(ofGrowth)].join("\n\n");
}

function ofGrowth(growth: Growth): string[] {
  const { file, title, curves } = growth;
  return [
    `![${title}: points, and dashed the straight line of proportion](performance/${file}.svg)`,
    wrapped(curves.map((curve) => inWords(growth, curve)).join(" ")),
    tableOf(growth),
  ];
}

/** Broken into lines at spaces, as the page is written by hand. */
function wrapped(text: string): string {
  const lines = [""];
  for (const word of text.split(" ")) {
    const last = lines.length - 1;
    const longer = lines[last] === "" ? word : `${lines[last]} ${word}`;
    if (longer.length <= LINE) lines[last] = longer;
    else lines.push(word);
  }
  return lines.join("\n");
}

/** One column for each amount, one row for each curve. */
function tableOf({ amounts, costUnit, costOf, curves }: Growth): string {
  const row = (cells: readonly string[]) => `| ${cells.join(" | ")} |`;
  const header = curves[0].points.map(({ amount }) => written(amount));
  return [
    row([amounts, ...header]),
    row(["---", ...header.map(() => "---")]),
    ...curves.map(({ name, points }) =>
      row([`${name}, ${costUnit} ${costOf}`, ...points.map(({ cost }) => written(cost))]),
    ),
  ].join("\n");
}
