/** Reported against simulated, one line for each thing that a report lets us hold the drill to. */
import { type DrillReport, duration, type Trace } from "../../src/drills/index.ts";
import type { Figure, Incident, Mark } from "./record.ts";

export interface Line {
  /** `verdict`, `shows first`, `learned by`, `order`, or the name of a figure. */
  readonly what: string;
  readonly reported: string;
  readonly simulated: string;
  readonly tolerance: string;
  readonly fits: boolean;
}

/** All lines of an incident: its course first, then its figures. */
export function linesOf(incident: Incident, report: DrillReport): readonly Line[] {
  return [...courseLines(incident, report), ...incident.figures.map((one) => figureLine(one, report))];
}

function courseLines(incident: Incident, report: DrillReport): readonly Line[] {
  const lines = [verdictLine(incident, report)];
  if (incident.first !== null) lines.push(firstLine(incident.first, report));
  if (incident.learned !== null) lines.push(learnedLine(incident.learned, report));
  if (incident.order.length > 0) lines.push(orderLine(incident.order, report));
  return lines;
}

function verdictLine({ expected, because }: Incident, { verdict }: DrillReport): Line {
  const fits = expected.some((one) => one === verdict);
  return { what: "verdict", reported: expected.join(" or "), simulated: verdict, tolerance: because, fits };
}

/** `display.temperature` is a matter of temperature, `wave.on` of a pump that stands. */
function firstLine(first: string, report: DrillReport): Line {
  const sign = report.events.find((event) => event.text.startsWith("first measurable sign"));
  const what = sign?.part ?? "nothing";
  const after = report.minutes.sign === null ? "" : ` after ${duration(report.minutes.sign)}`;
  const fits = what.split(".").at(-1) === first;
  return { what: "shows first", reported: first, simulated: `${what}${after}`, tolerance: "", fits };
}

interface Learned {
  readonly tMin: number;
  readonly who: string;
  readonly by: string;
}

/** Whoever knew first: by a message that could have been read, or by a look at the tanks. */
function firstToLearn(report: DrillReport): Learned | null {
  const all = report.events.flatMap((event): Learned[] => {
    if (event.person === null || (event.kind !== "look" && event.kind !== "message")) return [];
    const channel = /\((\w+)\)$/.exec(event.text)?.[1] ?? "message";
    return [{ tMin: event.t_min, who: event.person, by: event.kind === "look" ? "looking" : channel }];
  });
  return all.sort((a, b) => a.tMin - b.tMin)[0] ?? null;
}

function learnedLine(wanted: NonNullable<Incident["learned"]>, report: DrillReport): Line {
  const found = firstToLearn(report);
  const fits = wanted === "nobody" ? found === null : found?.who === wanted.who && found.by === wanted.by;
  return {
    what: "learned by",
    reported: wanted === "nobody" ? wanted : `${wanted.who}, by ${wanted.by}`,
    simulated: found === null ? "nobody" : `${found.who}, by ${found.by}, after ${duration(found.tMin)}`,
    tolerance: "",
    fits,
  };
}

/** A moment of the drill with its band, min; Infinity where it did not come. */
interface Span {
  readonly from: number;
  readonly to: number;
}

function spanOf(mark: Mark, report: DrillReport): Span {
  const { minutes } = report;
  const far = Number.POSITIVE_INFINITY;
  const at = (minute: number | null | undefined): Span => ({ from: minute ?? far, to: minute ?? far });
  switch (mark) {
    case "sign":
      return at(minutes.sign);
    case "learned":
      return at(firstToLearn(report)?.tMin);
    case "act":
      return at(minutes.acting);
    case "harm":
      return { from: minutes.harm_early ?? far, to: minutes.harm_late ?? far };
  }
}

function orderLine(order: readonly Mark[], report: DrillReport): Line {
  const spans = order.map((mark) => spanOf(mark, report));
  const fits = spans.every(({ from }, place) => Number.isFinite(from) && from <= (spans[place + 1]?.to ?? from));
  const told = order.map((mark, place) => ({ mark, span: spans[place] })).sort((a, b) => a.span.from - b.span.from);
  return {
    what: "order",
    reported: order.join(", "),
    simulated: told.map(({ mark, span }) => `${mark} ${spanWords(span)}`).join(", "),
    tolerance: order.includes("harm") ? "harm counts with its band" : "",
    fits,
  };
}

function spanWords({ from, to }: Span): string {
  if (!Number.isFinite(from)) return "never";
  if (from === to) return duration(from);
  return Number.isFinite(to) ? `${duration(from)} to ${duration(to)}` : `${duration(from)} or later`;
}

function figureLine(figure: Figure, report: DrillReport): Line {
  const value = simulatedOf(figure, report);
  return {
    what: figure.what,
    reported: `${boundWords(figure)} ${figure.unit}`,
    simulated: value === null ? "does not come" : `${shown(value)} ${figure.unit}`,
    tolerance: `${toleranceWords(figure)}${figure.reason}`,
    fits: value !== null && isWithin(value, figure),
  };
}

/** Three digits are more than a report has. */
function shown(value: number): string {
  return String(Number(value.toPrecision(3)));
}

function simulatedOf(figure: Figure, report: DrillReport): number | null {
  if (figure.minutes !== null) {
    const minutes = report.minutes[figure.minutes];
    return minutes === null ? null : minutes / 60;
  }
  const trace = figure.course === "alone" ? report.unattended.trace : report.trace;
  return takenFrom(figure, trace);
}

function takenFrom(figure: Figure, trace: Trace): number {
  const values = trace.truth[figure.quantity ?? ""];
  if (values === undefined) throw new Error(`No curve is called '${figure.quantity}' (figure '${figure.what}')`);
  const from = figure.at ?? 0;
  const to = figure.at ?? figure.until ?? 0;
  const taken = values.filter((_, place) => trace.t_min[place] >= from && trace.t_min[place] <= to);
  if (taken.length === 0) throw new Error(`The curve of '${figure.what}' has no value at ${from} min`);
  switch (figure.take) {
    case "value":
    case "most":
      return Math.max(...taken);
    case "least":
      return Math.min(...taken);
    case "rise":
      return Math.max(...taken) - values[0];
    case "fall":
      return values[0] - Math.min(...taken);
  }
}

function boundWords({ reported }: Figure): string {
  if (typeof reported === "number") return String(reported);
  return "atMost" in reported ? `at most ${reported.atMost}` : `at least ${reported.atLeast}`;
}

function toleranceWords({ tolerance }: Figure): string {
  if (tolerance === null) return "";
  return "within" in tolerance ? `± ${tolerance.within}: ` : `× or ÷ ${tolerance.factor}: `;
}

function isWithin(value: number, { reported, tolerance }: Figure): boolean {
  const least = typeof reported === "number" ? reported : "atLeast" in reported ? reported.atLeast : null;
  const most = typeof reported === "number" ? reported : "atMost" in reported ? reported.atMost : null;
  return (
    (least === null || value >= widened(least, tolerance, -1)) &&
    (most === null || value <= widened(most, tolerance, 1))
  );
}

function widened(bound: number, tolerance: Figure["tolerance"], way: 1 | -1): number {
  if (tolerance === null) return bound;
  if ("within" in tolerance) return bound + way * tolerance.within;
  return way > 0 ? bound * tolerance.factor : bound / tolerance.factor;
}
