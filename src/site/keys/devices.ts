/** Keys of a device. */

import type { Written } from "../shape/fields.ts";
import { block, must, optional } from "../shape/fields.ts";
import type { Reader } from "../shape/reader.ts";
import {
  choice,
  listOf,
  monthsAgo,
  nameOf,
  orNone,
  quantity,
  text,
  textReader,
  timeWindow,
  yesNo,
} from "../shape/reader.ts";
import { DEVICE_KINDS } from "./words.ts";

const ageMonths = quantity("duration", { max: 1e9 }, "months");

export const OWN_FLOAT_KEYS = {
  "fills-below": must(quantity("volume"), "Volume of the body below which it fills.", ["on", "below"]),
  "stops-at": must(quantity("volume"), "Volume at which it stops.", ["off", "until"]),
  "spare-stops-at": optional(
    orNone(quantity("volume")),
    "Volume at which a second float of its own stops it.",
    "no second float",
    { weight: 1, why: "one float alone decides when filling ends" },
  ),
  "longest-run": optional(
    orNone(quantity("duration", { min: 1 })),
    "It stops after running this long, whatever the float says.",
    "no time limit",
    {
      weight: 1,
      why: "a stuck float lets the whole reservoir in",
    },
  ),
};

export const SPARE_KEYS = {
  "last-tried": optional(monthsAgo(), "How long ago it was last seen to work, or `never`.", "never", {
    weight: 1,
    why: "a spare that nobody tries counts as doubtful",
    slips: ["tested", "tried"],
  }),
};

export type WrittenSpare = Written<typeof SPARE_KEYS> | null;
const spareBlock = block(SPARE_KEYS, "a spare");
const spare: Reader<WrittenSpare> = {
  words: "`yes`, `no`, or `{ last-tried: 3 months }`",
  schema: { anyOf: [{ enum: ["yes", "no", true, false] }, spareBlock.schema] },
  print: (value) => (value === null ? "no" : "yes"),
  read: (tree, at) => {
    if (tree.kind === "map") return spareBlock.read(tree, at);
    const said = yesNo().read(tree, at);
    return said === undefined ? undefined : said ? {} : null;
  },
};

/** A text whose meaning depends on the kind of the device; read when the kind is known. */
function later(words: string, examples: readonly string[]): Reader<string> {
  return textReader(
    words,
    { type: "string", examples },
    (written) => ({ ok: true, value: written }),
    (value) => value,
  );
}

export const DEVICE_KEYS = {
  kind: must(choice(DEVICE_KINDS), "What it is.", ["type", "role"]),
  in: must(nameOf("a body"), "Body that it acts on: where its heat, light or water goes.", ["at", "to", "body"]),
  from: optional(
    orNone(nameOf("a body")),
    "Body that it draws from.",
    "the only reservoir of the system that fits, for a top-off; must be written for a doser; none for the rest",
    { slips: ["source"] },
  ),
  power: optional(quantity("power", { min: 0 }), "Electrical power when it runs.", "usual for its kind and size", {
    weight: 2,
    why: "power makes heat, and heat decides how far a stuck heater goes",
    slips: ["watts", "wattage"],
  }),
  heat: optional(
    later("a power or a share of the electrical power, like `30 W` or `80 %`", ["80 %", "30 W"]),
    "Heat that it brings into the water; negative for a chiller.",
    "all of a heater's power, 95 % of a pump's, 15 % of a light's, minus 250 % of a chiller's",
  ),
  flow: optional(
    quantity("flow", { max: 1e6 }),
    "Flow when it runs: water, for an air pump air, for a skimmer the water through it.",
    "usual for its kind and the size of the body",
    {
      weight: 2,
      why: "flow carries heat and oxygen through the system",
      slips: ["rate"],
    },
  ),
  on: optional(
    orNone(nameOf("a circuit")),
    "Where it is plugged: a circuit, or a battery that stands between; `none` where it runs on cells.",
    "the first circuit",
    {
      weight: 1,
      why: "what shares a circuit fails together",
      slips: ["circuit", "plug", "socket", "plugged"],
    },
  ),
  by: optional(
    orNone(nameOf("a hub")),
    "Hub that switches its socket; `none` where it is plugged straight in.",
    "the hub whose rules switch it, else none",
    { slips: ["hub", "switched-by", "controller"] },
  ),
  "without-hub": optional(
    choice(["on", "off", "as it was"]),
    "What its socket falls to when its hub is dead or hung.",
    "as it was",
    {
      weight: 1,
      why: "a heater or top-off that stays on when the hub hangs has nothing else to stop it",
      slips: ["falls-to", "fallback", "fail-state"],
    },
  ),
  normally: optional(
    choice(["on", "off"]),
    "What it does when no rule says otherwise.",
    "off for a spare, a siren and whatever a rule switches on; else on",
  ),
  "own-thermostat": optional(
    orNone(quantity("temperature", { min: 0, max: 45 })),
    "Its built-in thermostat: a heater stops above it, a chiller or fan starts above it.",
    "the body's temperature where no rule switches the heater; 1.5 K above it for a chiller or fan; none otherwise",
    {
      weight: 1,
      why: "it is what still stops a heater when its hub or probe is wrong",
      slips: ["thermostat", "set-to"],
    },
  ),
  "own-hysteresis": optional(
    quantity("temperature difference", { min: 0.01, max: 10 }),
    "Difference between its switching on and off.",
    "0.5 K",
  ),
  "cut-out": optional(
    orNone(quantity("temperature", { min: 10, max: 60 })),
    "Independent cut-out in series with it.",
    "none",
    { weight: 1, why: "without it a thermostat that sticks has nothing behind it", slips: ["cutout", "limiter"] },
  ),
  "own-float": optional(
    orNone(block(OWN_FLOAT_KEYS, "a float")),
    "Built-in level control of a top-off or refill valve; `none` where a hub or timer decides.",
    "keeps the body at its volume, where no rule switches it",
  ),
  schedule: optional(listOf(timeWindow()), "When it works, in local time.", "always; 10:00-20:00 for a light", {
    slips: ["hours", "times"],
  }),
  amount: optional(
    later("an amount a day: `40 mL/d` of a doser, `2 g/d` of a feeder, `4 L/d` of a water change", [
      "40 mL/d",
      "2 g/d",
      "4 L/d",
    ]),
    "What it gives a day.",
    "nothing (0)",
    {
      weight: 2,
      why: "it sets how long the bottle lasts and what is missing when it stops",
      slips: ["dose", "per-day"],
    },
  ),
  doses: optional(
    quantity("times per day", { min: 1, max: 1440 }),
    "In how many portions a day.",
    "12 /d for a doser, 2 /d for a feeder, 24 /d for a water change",
    { slips: ["portions"] },
  ),
  holds: optional(quantity("mass"), "What a feeder's drum holds.", "seven days of its amount", { slips: ["drum"] }),
  par: optional(
    quantity("light", { max: 3000 }),
    "Light at the corals at noon.",
    "100 for soft, 130 for large-polyp, 180 for mixed, 280 for small-polyp corals; 120 otherwise",
  ),
  "can-siphon": optional(
    yesNo(),
    "Its outlet lies under water or below the level of its source, so that it can run on without power.",
    "yes for a top-off or water change, else no",
    {
      weight: 1,
      why: "a siphon runs on whatever the switches say",
    },
  ),
  spare: optional(spare, "It is a spare that waits.", "no"),
  age: optional(ageMonths, "How old it is.", "12 months"),
  cleaned: optional(ageMonths, "How long ago it was last cleaned.", "6 months, or its age if that is less", {
    weight: 2,
    why: "a pump that was not cleaned for a year may not start again after a power cut",
  }),
  batch: optional(
    orNone(text("a short word", 60)),
    "Equal words mean the same make and age, which fail together.",
    "none",
  ),
  tested: optional(
    monthsAgo(),
    "How long ago its own safeguards (cut-out, second float, run limit) were last seen to work, or `never`.",
    "never",
    { weight: 2, why: "a cut-out or second float that nobody tries may be dead" },
  ),
};

/** Keys that mean something for some kinds only. */
export const KINDS_OF_KEY: Readonly<
  Partial<Record<keyof typeof DEVICE_KEYS, readonly (typeof DEVICE_KINDS)[number][]>>
> = {
  "own-thermostat": ["heater", "chiller", "fan"],
  "own-hysteresis": ["heater", "chiller", "fan"],
  "cut-out": ["heater", "light", "steriliser", "other"],
  "own-float": ["top-off", "refill-valve"],
  amount: ["doser", "feeder", "water-change"],
  doses: ["doser", "feeder", "water-change"],
  holds: ["feeder"],
  par: ["light"],
};
