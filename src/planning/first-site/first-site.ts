/** From the answers of a conversation to the text of a first site file, what is wrong with it, and what it assumes. */
import { type DefaultUsed, loadSite, type Site, type SiteError } from "../../site/index.ts";
import type { FirstSiteAnswers } from "./answers.ts";
import { inline, type Marks, type Piece, piece, textOf } from "./pieces.ts";
import { type Plan, planSite, usualOf } from "./plan.ts";
import {
  circumstancePieces,
  type Loads,
  linkPieces,
  peoplePieces,
  powerPieces,
  rulePieces,
  sensorPieces,
} from "./write-around.ts";
import { devicePieces, systemPieces } from "./write-water.ts";

/** Something that is taken for granted. */
export interface Assumption {
  /** A sentence. */
  readonly text: string;
  /** Why it matters to the verdicts; empty where the sentence says it. */
  readonly why: string;
}

/** An error of the loader, and the answer that it is about; empty where it is about none alone. */
export interface AnswerError extends SiteError {
  readonly field: string;
}

export interface FirstSite {
  readonly text: string;
  /** Null while an answer can't be read. */
  readonly site: Site | null;
  readonly errors: readonly AnswerError[];
  readonly assumptions: readonly Assumption[];
  /** What each blank is taken as, by field. */
  readonly usual: Readonly<Record<string, string>>;
}

/** What the loader assumes by itself is told down to this many; the rest is in `check`. */
const LOADER_ASSUMPTIONS = 12;

/** Keys whose name alone says too little in a sentence. */
const KEY_WORDS: Readonly<Record<string, string>> = {
  on: "power supply of its own",
  "back-siphon": "water that runs back down",
  "back-siphon-unbroken": "water that runs back past a blocked siphon break",
  drain: "most that the drain carries",
  "spare-drain": "second drain",
  "longest-run": "limit to how long it runs",
  "spare-stops-at": "second float",
  "cut-out": "independent cut-out",
  "time-constant": "time in which it cools",
  "silence-watch": "watch outside the house",
  "without-hub": "state without the hub",
  holds: "water held",
};

const HEADING =
  "A first description of this place, made from a short conversation. What begins with 'Assumed' was not said by anyone: put it right where it is wrong. What is not written takes a usual value, which 'slackwater check' lists.";

/**
 * The first site file of a place.
 *
 * @param file Name for the messages.
 */
export function firstSite(answers: FirstSiteAnswers, file: string): FirstSite {
  const plan = planSite(answers);
  // Once without knowing what the circuits carry, then with breakers that fit what hangs on them.
  const sketch = loadSite(textOf(HEADING, piecesOf(plan, {})), file).site;
  const pieces = piecesOf(plan, sketch === null ? {} : loadsOf(sketch));
  const text = textOf(HEADING, pieces);
  const { site, errors, defaults } = loadSite(text, file);
  const marks: Marks = Object.assign(marksOfParts(plan), ...pieces.map((each) => each.marks ?? {}));
  const own = pieces.flatMap(({ assumes }) => (assumes === undefined ? [] : [{ text: sentence(assumes), why: "" }]));
  return {
    text,
    site,
    errors: onePerField(errors.map((error) => ({ ...error, field: fieldOf(error.where, marks) }))),
    assumptions: [...own, ...ofLoader(defaults)],
    usual: usualOf(plan),
  };
}

/** What the loader takes for granted and what decides verdicts; parts of which the same is taken are told together. */
function ofLoader(defaults: readonly DefaultUsed[]): readonly Assumption[] {
  const groups = new Map<string, DefaultUsed[]>();
  for (const each of defaults.filter(({ weight }) => weight === 1)) {
    const key = `${each.key}\n${each.value}`;
    groups.set(key, [...(groups.get(key) ?? []), each]);
  }
  return [...groups.values()].slice(0, LOADER_ASSUMPTIONS).map((group) => {
    const [{ key, part, value, why }] = group;
    const words = KEY_WORDS[key] ?? key.replaceAll("-", " ");
    const whose = part === key ? "" : group.map((each) => each.part).join(", ");
    const text =
      value === "none"
        ? `There is no ${words}${whose === "" ? "" : ` at ${whose}`}.`
        : `The ${words}${whose === "" ? "" : ` of ${whose}`} is taken as ${value}.`;
    return { text, why: `${sentence(why)}.` };
  });
}

function piecesOf(plan: Plan, loads: Loads): readonly Piece[] {
  return [
    piece(0, `site: ${inline(plan.place.text)}`, null, { site: plan.place.field }),
    piece(0, `zone: ${inline(plan.zone.text)}`, null, { zone: plan.zone.field }),
    piece(0, "rooms:"),
    piece(
      2,
      `room: ${inline({ holds: "20 degC", outside: "temperate-coast" })}`,
      "all tanks stand in one room that is heated to 20 degC and not cooled in summer, in a mild climate by the sea.",
    ),
    ...powerPieces(plan, loads),
    ...linkPieces(plan),
    ...systemPieces(plan),
    ...devicePieces(plan),
    ...sensorPieces(plan),
    ...rulePieces(plan),
    ...peoplePieces(plan),
    ...circumstancePieces(plan),
  ];
}

/** What hangs on each circuit, and on those that hang from it, A. */
function loadsOf(site: Site): Loads {
  const loads: Record<string, number> = {};
  for (const device of site.devices) {
    for (let id = device.on; id !== null; id = site.circuits.find((circuit) => circuit.id === id)?.on ?? null) {
      loads[id] = (loads[id] ?? 0) + device.powerW / site.mains.volts;
    }
  }
  return loads;
}

/** What is wrong with a part as a whole comes from the size of its tank, on which the rest was built. */
function marksOfParts(plan: Plan): Record<string, string> {
  return Object.fromEntries(
    plan.tanks.flatMap((tank) => {
      const { answers: _, field: __, called: ___, ...parts } = tank;
      const ids = Object.values(parts).flat();
      return ids.filter((id) => typeof id === "string").map((id) => [id, tank.volume.field]);
    }),
  );
}

/** The answer at a place of the file, or at the nearest key above it: "keeper.reached-by[2]" is about "keeper.reached-by". */
function fieldOf(where: string, marks: Marks): string {
  for (let at = where; at !== ""; at = at.replace(/(\[\d+\]|\.?[^.[]*)$/, "")) {
    if (Object.hasOwn(marks, at)) return marks[at];
  }
  return "";
}

/** One answer may stand in several places of the file: what is wrong with it is told once. */
function onePerField(errors: readonly AnswerError[]): readonly AnswerError[] {
  const told = new Set<string>();
  return errors.filter(({ field, message }) => {
    const key = `${field}\n${field === "" ? message : ""}`;
    if (told.has(key)) return false;
    told.add(key);
    return true;
  });
}

function sentence(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
