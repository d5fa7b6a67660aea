/** Keys of a sensor and of a rule. */
import { must, optional, singleEntries, under } from "../shape/fields.ts";
import type { Found, Reader } from "../shape/reader.ts";
import {
  choice,
  listOf,
  monthsAgo,
  nameOf,
  orNone,
  quantity,
  text,
  textOf,
  textReader,
  timeWindow,
} from "../shape/reader.ts";
import type { Place } from "../text/site-error.ts";
import { QUANTITIES } from "./words.ts";

/** A text in the unit of what the sensor measures; read when that is known. */
function inItsUnit(example: string): Reader<string> {
  return textReader(
    `an amount in the unit of what it measures, like \`${example}\``,
    { type: "string", examples: [example] },
    (written) => ({ ok: true, value: written }),
    (value) => value,
  );
}

export const SENSOR_KEYS = {
  measures: must(choice(QUANTITIES), "What it measures.", ["kind", "quantity"]),
  in: optional(nameOf("a body"), "Body in which it sits.", "see `at`"),
  at: optional(
    nameOf("a body, room, device or circuit"),
    "Part at which it sits; one of `in` and `at` must be written.",
    "see `in`",
    { slips: ["on", "where"] },
  ),
  hub: optional(orNone(nameOf("a hub")), "Hub that reads it; `none` for a display on the wall.", "the first hub", {
    slips: ["by"],
  }),
  type: optional(
    text("a word from the table of sensor types", 40),
    "Its principle, which decides how it fails.",
    "the most usual one for what it measures",
  ),
  noise: optional(inItsUnit("0.03 degC"), "Standard deviation of its noise.", "usual for its type"),
  resolution: optional(inItsUnit("0.1 degC"), "Smallest step that it shows.", "usual for its type"),
  lag: optional(quantity("duration", { max: 86400 }), "Time in which it follows 63 % of a step.", "usual for its type"),
  offset: optional(inItsUnit("0.2 degC"), "Constant error that it has now.", "none (0)"),
  drift: optional(inItsUnit("0.03 pH/month"), "How its error grows.", "usual for its type", {
    weight: 2,
    why: "a drifting probe moves whatever is controlled by it",
  }),
  "float-at": optional(
    quantity("volume"),
    "Volume of the body at which a float begins to float.",
    "the body's volume",
    {
      weight: 1,
      why: "it decides at which level the float speaks",
      slips: ["level"],
    },
  ),
  every: optional(
    quantity("duration", { max: 1e7 }, "h"),
    "Time between the results of a machine tester.",
    "continuous; 6 h for alkalinity",
  ),
  "silent-after": optional(
    orNone(quantity("duration", { min: 1, max: 1e7 })),
    "Its hub raises a notice when nothing has come from it for so long: a rule called `name-silent`.",
    "none",
    { weight: 2, why: "a sensor that falls silent leaves whatever relies on it blind" },
  ),
  "flat-after": optional(
    orNone(quantity("duration", { min: 60, max: 1e7 })),
    "Its hub raises a notice when its reading has not moved for so long: a rule called `name-flat`.",
    "none",
    { weight: 2, why: "a sensor that keeps its last value looks like the best of all readings" },
  ),
  tested: optional(
    monthsAgo(),
    "How long ago it was proved against the real thing (a wet cloth, a lifted float, a second meter), or `never`.",
    "never",
    {
      weight: 1,
      why: "a sensor that nobody tests may have been dead for months",
      slips: ["last-tested", "calibrated"],
    },
  ),
};

/** A condition as it was written: one entry a sensor, and how long it must hold. */
export interface WrittenCondition {
  readonly terms: readonly {
    readonly sensor: string;
    readonly sensorPlace: Place;
    readonly text: string;
    readonly place: Place;
  }[];
  readonly forS: Found<number> | null;
}

const holdTime = quantity("duration", { max: 1e7 });

const condition: Reader<WrittenCondition> = {
  words: "sensors, each with what must be so, like `{ display-temp: above 27.2 degC, for: 10 min }`",
  schema: {
    type: "object",
    minProperties: 1,
    properties: { for: { description: "How long it must hold.", ...holdTime.schema } },
    additionalProperties: { type: "string" },
  },
  print: (value) => value.terms.map((term) => `${term.sensor} ${term.text}`).join(" and "),
  read: (tree, at) => {
    const entries = singleEntries(tree, at, condition.words);
    if (entries === undefined) return undefined;
    const terms: WrittenCondition["terms"][number][] = [];
    let forS: Found<number> | null = null;
    for (const { key, keyPlace, value } of entries) {
      if (key === "for") {
        const seconds = holdTime.read(value, under(at, "for"));
        if (seconds !== undefined) forS = { value: seconds, place: value.place };
        continue;
      }
      const written = textOf(value, under(at, key), "a comparison like 'above 27.2 degC'");
      if (written !== undefined) terms.push({ sensor: key, sensorPlace: keyPlace, text: written, place: value.place });
    }
    if (terms.length === 0 && at.report.clean) {
      at.report.error(
        tree.place,
        at.where,
        "rule/no-condition",
        "no sensor is named here",
        "write a sensor and what must be so, like { display-temp: above 27.2 degC }",
      );
      return undefined;
    }
    return { terms, forS };
  },
};

export interface WrittenAct {
  readonly device: string;
  readonly devicePlace: Place;
  readonly state: "on" | "off";
}

const onOff = choice(["on", "off"]);

const acts: Reader<readonly WrittenAct[]> = {
  words: "devices, each `on` or `off`, like `{ heater-1: off }`",
  schema: { type: "object", additionalProperties: { enum: ["on", "off", true, false] } },
  print: (value) => value.map((act) => `${act.device} ${act.state}`).join(", "),
  read: (tree, at) => {
    const entries = singleEntries(tree, at, acts.words);
    return entries?.flatMap(({ key, keyPlace, value }) => {
      const state = onOff.read(value, under(at, key));
      return state === undefined ? [] : [{ device: key, devicePlace: keyPlace, state }];
    });
  },
};

export const RULE_KEYS = {
  hub: optional(nameOf("a hub"), "Hub that runs it.", "the first hub"),
  when: must(condition, "All of these must hold, `for` as long as is said.", ["if"]),
  until: optional(orNone(condition), "Ends what the rule does.", "when `when` no longer holds"),
  do: optional(acts, "What it switches.", "nothing", { slips: ["then", "act", "set"] }),
  notice: optional(orNone(choice(["urgent", "soon", "note"])), "Raises a notice of this weight.", "none", {
    slips: ["alarm", "alert", "notify"],
  }),
  says: optional(text("a sentence", 200), "Words that go with the notice.", "the rule's name and its condition", {
    slips: ["message", "text"],
  }),
  "at-most": optional(
    orNone(quantity("duration", { min: 1 })),
    "What it does ends after this long, whatever the sensors say.",
    "no limit",
    { slips: ["max", "limit"] },
  ),
  "not-oftener": optional(quantity("duration"), "Not again within this time.", "no limit (0 s)", {
    slips: ["cooldown"],
  }),
  only: optional(listOf(timeWindow()), "Only in these windows.", "always", { slips: ["during"] }),
  tested: optional(monthsAgo(), "How long ago it was last seen to work, or `never`.", "as its hub's `tested`", {
    slips: ["tried"],
  }),
};
