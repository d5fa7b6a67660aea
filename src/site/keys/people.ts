/** Keys of people, the ladder and the circumstances. */
import { parseQuantity } from "../../foundation/index.ts";
import { block, must, optional, partsOf, readFields } from "../shape/fields.ts";
import type { Reader } from "../shape/reader.ts";
import {
  choice,
  complainAbout,
  listOf,
  localTime,
  monthsAgo,
  nameOf,
  orNone,
  quantity,
  returningMoment,
  timeWindow,
  yesNo,
} from "../shape/reader.ts";
import { CHANNELS, SKILLS } from "./words.ts";

export const PERSON_KEYS = {
  "reached-by": optional(
    listOf(choice(CHANNELS)),
    "How a notice reaches them. Only `call` and `siren` wake a sleeper.",
    "push",
    {
      weight: 1,
      why: "a silent message at night is read in the morning",
      slips: ["reached", "channels", "contact"],
    },
  ),
  asleep: optional(orNone(timeWindow()), "When they sleep.", "23:00-06:30", {
    weight: 2,
    why: "faults of the night wait for it to end",
    slips: ["sleeps"],
  }),
  "on-site": optional(listOf(timeWindow()), "When they are in the building and need no travel.", "never", {
    weight: 1,
    why: "someone in the building acts in minutes",
    slips: ["onsite", "at-home", "home"],
  }),
  busy: optional(listOf(timeWindow()), "When they can not answer a phone.", "never"),
  travel: optional(quantity("duration", { max: 1e6 }, "min"), "From where they are to the tanks.", "30 min", {
    weight: 1,
    why: "help is at least this far away",
  }),
  can: optional(
    listOf(choice(SKILLS)),
    "What they can do.",
    "everything for the first person, call keeper for others",
    { weight: 1, why: "a person who can not act can only call one who can", slips: ["skills", "may"] },
  ),
  tested: optional(monthsAgo(), "How long ago they last answered a trial message, or `never`.", "never", {
    weight: 2,
    why: "an old number or a silent phone is found by trying it",
  }),
  looks: optional(listOf(returningMoment()), "When they look at the tanks of their own accord.", "never", {
    weight: 1,
    why: "what no sensor tells is seen only by someone who looks",
    slips: ["checks", "visits"],
  }),
};

export interface WrittenStep {
  readonly person: string;
  readonly afterMin: number | null;
}

export const STEP_KEYS = {
  person: must(nameOf("a person"), "Who is told."),
  after: optional(
    quantity("duration", { max: 1e6 }, "min"),
    "Time without an answer from the one before.",
    "10 min; at once for the first",
  ),
};
const stepBlock = block(STEP_KEYS, "a step of the ladder");

/** A step of the ladder: `keeper`, `after 10 min caretaker`, or `{ person: caretaker, after: 10 min }`. */
export const ladderStep: Reader<WrittenStep> = {
  words: "a person, like `keeper`, or a wait and a person, like `after 10 min caretaker`",
  schema: { anyOf: [{ type: "string", examples: ["keeper", "after 10 min caretaker"] }, stepBlock.schema] },
  print: (step) => (step.afterMin === null ? step.person : `after ${step.afterMin} min ${step.person}`),
  read: (tree, at) => {
    if (tree.kind === "map") {
      const written = readFields(tree, STEP_KEYS, at, "a step of the ladder");
      return written?.person === undefined
        ? undefined
        : { person: written.person.value, afterMin: written.after?.value ?? null };
    }
    if (tree.kind !== "text")
      return complainAbout(
        at,
        tree,
        "ladder/form",
        "a step of the ladder is a name",
        "write it like 'after 10 min caretaker'",
      );
    if (!/^after\s/i.test(tree.text)) return { person: tree.text, afterMin: null };
    const match = /^after\s+(.+?)\s+([^\s]+)$/i.exec(tree.text);
    if (match === null)
      return complainAbout(
        at,
        tree,
        "ladder/form",
        `'${tree.text}' is not a step of the ladder`,
        "write it like 'after 10 min caretaker'",
      );
    const wait = parseQuantity(match[1], "duration", { max: 6e7 });
    if (!wait.ok)
      return complainAbout(at, tree, wait.problem.code, wait.problem.message, "write it like 'after 10 min caretaker'");
    return { person: match[2], afterMin: wait.value.value / 60 };
  },
};

export const AWAY_KEYS = {
  "back-after": optional(
    quantity("duration", { max: 1e8 }, "h"),
    "When they are back and can act.",
    "at the end of the horizon",
    { slips: ["back", "returns"] },
  ),
  "replies-after": optional(
    quantity("duration", { max: 1e8 }, "min"),
    "When they have read a message and answered it.",
    "4 h",
    { slips: ["replies"] },
  ),
};

export const CIRCUMSTANCE_KEYS = {
  starts: must(localTime(), "Local date and time at which the fault happens.", ["start", "from", "at"]),
  horizon: optional(quantity("duration", { min: 3600, max: 366 * 86400 }, "d"), "How far a drill is followed.", "7 d", {
    slips: ["days", "lasts"],
  }),
  away: optional(partsOf(AWAY_KEYS, "an absence"), "Who is away.", "nobody"),
  closed: optional(yesNo(), "The building is closed: nobody is on site, the set-back holds all day.", "no"),
  reservoirs: optional(
    orNone(quantity("share")),
    "How full the reservoirs and containers are.",
    "as each body's `fill` says",
  ),
};
