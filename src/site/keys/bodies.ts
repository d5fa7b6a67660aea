/** Keys of a system, its bodies of water and its circulation. */

import type { Result } from "../../foundation/index.ts";
import { parseSalinity } from "../../foundation/index.ts";
import { salinityFromConductivity, salinityFromSpecificGravity } from "../../science/index.ts";
import type { Written } from "../shape/fields.ts";
import { block, must, optional, partsOf } from "../shape/fields.ts";
import type { Reader } from "../shape/reader.ts";
import { choice, listOf, monthsAgo, nameOf, orNone, quantity, textReader, yesNo } from "../shape/reader.ts";
import { CORALS, FISH_GROUPS, ROLES, SOLUTION_SALTS, SOLUTIONS } from "./words.ts";

/** Range of the equations of state that convert SG and conductivity. */
const LEAST_SALINITY = 2;
const MOST_SALINITY = 42;

/** Practical salinity of a text in any of the three ways of writing it. */
export function practicalSalinity(text: string): Result<number> {
  const written = parseSalinity(text);
  if (!written.ok) return written;
  const { value } = written;
  const salinity =
    value.kind === "practical"
      ? value.salinity
      : value.kind === "specific-gravity"
        ? salinityFromSpecificGravity(value.specificGravity, value.referenceC)
        : salinityFromConductivity(value.mSPerCm, value.temperatureC);
  if (Number.isFinite(salinity) && salinity >= LEAST_SALINITY && salinity <= MOST_SALINITY)
    return { ok: true, value: salinity };
  const problem = {
    code: "quantity/out-of-range",
    message: `'${text}' is not a salinity of sea water (${LEAST_SALINITY} to ${MOST_SALINITY} ppt)`,
    hint: "usual is 35 ppt, that is 1.0264 SG at 25 degC or 53.1 mS/cm at 25 degC",
  };
  return { ok: false, problem };
}

export const salinity = textReader(
  "a salinity, like `35 ppt`, `1.0264 SG at 25 degC` or `53.1 mS/cm at 25 degC`",
  { type: "string", examples: ["35 ppt", "1.0264 SG at 25 degC"] },
  practicalSalinity,
  (value) => `${Number(value.toFixed(2))} ppt`,
);

export const SALT_WATER_KEYS = {
  salt: optional(salinity, "Salinity.", "35 ppt", { slips: ["salinity"] }),
  temperature: optional(quantity("temperature", { min: 0, max: 40 }), "Temperature at which it is kept.", "25.5 degC", {
    weight: 2,
    why: "harm by heat and cold is counted from what the animals are used to",
  }),
  alkalinity: optional(quantity("alkalinity", { max: 40 }), "Alkalinity.", "8 dKH"),
  calcium: optional(quantity("calcium", { max: 2000 }), "Calcium.", "420 mg/L"),
  magnesium: optional(quantity("magnesium", { max: 4000 }), "Magnesium.", "1300 mg/L"),
  nitrate: optional(quantity("nitrate", { max: 1000 }), "Nitrate, as NO3.", "5 mg/L"),
  phosphate: optional(quantity("phosphate", { max: 50 }), "Phosphate, as PO4.", "0.05 mg/L"),
};

export const SOLUTION_KEYS = {
  solution: must(choice(SOLUTIONS), "What it gives."),
  salt: optional(
    choice(SOLUTION_SALTS),
    "What is dissolved.",
    "bicarbonate, calcium-chloride, magnesium-chloride or ethanol, to fit; none for other",
  ),
  strength: optional(
    textReader(
      "a strength: `1.0 meq/mL` of alkalinity, `0.9 mmol/mL` of calcium or magnesium, `0.3 g/mL` of anything else",
      { type: "string", examples: ["1.0 meq/mL", "0.9 mmol/mL", "0.3 g/mL"] },
      (text) => ({ ok: true, value: text }),
      (value) => value,
    ),
    "How much is in each millilitre.",
    "1 meq/mL, 1 mmol/mL or 0.3 g/mL",
    { weight: 2, why: "a stronger bottle does more harm when its pump sticks on" },
  ),
};

export type WrittenWater =
  | { readonly kind: "fresh" | "limewater" | "salt-as-usual" }
  | { readonly kind: "salt"; readonly keys: Written<typeof SALT_WATER_KEYS> }
  | { readonly kind: "solution"; readonly keys: Written<typeof SOLUTION_KEYS> };

const waterWord = choice(["salt", "fresh", "limewater"]);
const saltBlock = block(SALT_WATER_KEYS, "salt water");
const solutionBlock = block(SOLUTION_KEYS, "a solution");

const water: Reader<WrittenWater> = {
  words: "`salt`, `fresh`, `limewater`, the keys of salt water, or the keys of a solution",
  schema: { anyOf: [waterWord.schema, saltBlock.schema, solutionBlock.schema] },
  print: (value) => (value.kind === "salt-as-usual" ? "salt" : value.kind),
  read: (tree, at) => {
    if (tree.kind === "map" && tree.entries.some((entry) => entry.key === "solution")) {
      const keys = solutionBlock.read(tree, at);
      return keys === undefined ? undefined : { kind: "solution", keys };
    }
    if (tree.kind === "map") {
      const keys = saltBlock.read(tree, at);
      return keys === undefined ? undefined : { kind: "salt", keys };
    }
    const word = waterWord.read(tree, at);
    if (word === undefined) return undefined;
    return { kind: word === "salt" ? "salt-as-usual" : word };
  },
};

export const LIVESTOCK_KEYS = {
  corals: optional(orNone(choice(CORALS)), "Kind of corals.", "none", {
    weight: 1,
    why: "corals are harmed by heat and chemistry before fish are",
  }),
  "coral-area": optional(
    quantity("area"),
    "Tissue area of the corals.",
    "40 % of the water surface where there are corals",
  ),
  "alkalinity-use": optional(
    quantity("alkalinity per day"),
    "Alkalinity that the life in this body takes up at normal water, as the fall in dKH a day that a test of the system's water would show without dosing.",
    "what is dosed into the system, so that it is steady; without dosing 0.1 dKH/d for soft corals, 0.2 for others",
    { weight: 2, why: "it sets how soon a stopped doser is felt", slips: ["alkalinity-demand", "demand"] },
  ),
  fish: optional(quantity("mass"), "Live weight of all fish.", "none (0 g)", {
    weight: 1,
    why: "fish use up the oxygen when flow stops",
    slips: ["fishes"],
  }),
  "fish-kind": optional(
    choice(FISH_GROUPS),
    "Which tolerance fits them: ordinary reef fish, restless swimmers that need more oxygen, or seahorses.",
    "reef-fish",
  ),
  invertebrates: optional(
    yesNo(),
    "Shrimps, urchins, snails, anemones, which bear fresh water badly.",
    "yes where there are corals, else no",
  ),
  plants: optional(quantity("mass"), "Seagrass and macroalgae, dry weight.", "none (0 g)"),
};

export const BODY_KEYS = {
  role: optional(
    choice(ROLES),
    "What it is for.",
    "reservoir for fresh or lime water, container for a solution; for salt water: sump where a circulation begins and nothing lives, reservoir where it is in no circulation, else display",
    {
      slips: ["kind", "type"],
    },
  ),
  volume: must(
    quantity("volume", { aboveZero: true, max: 1e7 }),
    "Water in it in normal running, net of rock and sand; for a reservoir or container, when full.",
    ["litres", "size", "working"],
  ),
  brim: optional(
    quantity("volume", { aboveZero: true, max: 2e7 }),
    "Water that it holds to the rim before it runs over.",
    "volume plus 3 cm over its surface for a display, plus 25 % for a sump, plus 5 % for the rest",
    {
      weight: 1,
      why: "what is free above the water decides whether a stopped pump floods the floor",
      slips: ["rim", "total", "gross", "capacity"],
    },
  ),
  intake: optional(
    quantity("volume"),
    "Least water at which a pump in it still draws.",
    "25 % of the volume in a sump, 10 % elsewhere, 5 % in a reservoir or container",
    {
      weight: 2,
      why: "below it the pump runs dry, and no more than what lies above it can be pumped onto the floor",
    },
  ),
  "heater-dry": optional(quantity("volume"), "Water below which a heater in it is dry.", "60 % of the volume", {
    weight: 2,
    why: "a heater out of the water burns",
  }),
  surface: optional(quantity("area", { min: 0.0001 }), "Open water surface.", "from volume and depth", {
    weight: 2,
    why: "gas exchange, evaporation and the rise of water all go by the surface",
    slips: ["area"],
  }),
  depth: optional(
    quantity("length", { min: 0.01, max: 30 }),
    "Depth of water.",
    "from volume and surface; else as usual for its size",
    { slips: ["height"] },
  ),
  lid: optional(choice(["open", "mesh", "lid"]), "Cover.", "open; lid for a reservoir or container"),
  walls: optional(
    quantity("heat conductance"),
    "Heat that passes its walls and bottom, per degree of difference.",
    "from its size, for 10 mm glass standing on foam",
    {
      weight: 2,
      why: "it sets how fast the water cools and how hot a stuck heater makes it",
      slips: ["heat-loss", "ua"],
    },
  ),
  holds: optional(water, "What water is in it.", "salt water of the usual values", {
    slips: ["water", "contains", "temperature", "salinity"],
  }),
  livestock: optional(block(LIVESTOCK_KEYS, "livestock"), "What lives in it.", "nothing", {
    weight: 1,
    why: "where nothing lives nothing can come to harm",
    slips: ["animals", "life"],
  }),
  rock: optional(
    quantity("mass", {}, "kg"),
    "Live rock; carries the filter bacteria.",
    "0.1 kg per litre in a display, else none",
  ),
  sand: optional(quantity("mass", {}, "kg"), "Sand.", "none"),
  fill: optional(quantity("share"), "How full it is kept, as a share of its volume.", "100 %", {
    weight: 2,
    why: "a half-empty reservoir runs out in half the time",
  }),
  room: optional(nameOf("a room"), "Room it stands in, where that is not the system's.", "the system's room"),
};

export const FLOW_KEYS = {
  name: optional(nameOf("this circulation"), "Its name.", "`from-to-to`, such as sump-to-display"),
  from: must(nameOf("a body"), "Where the pump draws."),
  to: must(nameOf("a body"), "Where the water goes, and from where it runs back."),
  by: optional(orNone(nameOf("a pump")), "The pump; `none` for chambers that share their water.", "none", {
    slips: ["pump"],
  }),
  "back-siphon": optional(
    quantity("volume"),
    "Water that runs back through the pipe when the pump stops, beyond the weir's head.",
    "2 cm over the surface it is pumped to, and 3 L of pipe",
    {
      weight: 1,
      why: "it must fit into the free part of the sump",
    },
  ),
  "back-siphon-unbroken": optional(
    quantity("volume"),
    "How much more runs back when the siphon-break hole is blocked.",
    "10 cm over the surface it is pumped to",
    {
      weight: 1,
      why: "a snail in the siphon-break hole must not flood the floor",
    },
  ),
  "check-valve": optional(yesNo(), "A check valve is meant to hold the water back.", "no"),
  drain: optional(quantity("flow"), "What the drain back carries at most.", "1.5 times the pump's flow", {
    weight: 1,
    why: "a drain with little to spare runs over when it clogs a little",
    slips: ["drain-capacity"],
  }),
  "spare-drain": optional(quantity("flow"), "What a second drain carries.", "none (0 L/h)", {
    weight: 1,
    why: "without it one blocked drain empties the sump onto the floor",
    slips: ["emergency-drain"],
  }),
  "weir-head": optional(
    quantity("volume"),
    "Water that stands above the weir in normal running.",
    "from the flow over a toothed weir 40 cm wide",
  ),
  drop: optional(quantity("length", { max: 5 }), "Height by which the water falls on its way back.", "20 cm", {
    weight: 2,
    why: "falling water brings in much of the oxygen",
  }),
  tested: optional(
    monthsAgo(),
    "How long ago the plug was pulled to see siphon break, check valve and spare drain work, or `never`.",
    "never",
    { weight: 2, why: "a siphon break or spare drain that nobody tries may be grown shut" },
  ),
};

export const SYSTEM_KEYS = {
  room: optional(nameOf("a room"), "Room it stands in.", "the first room"),
  bodies: must(partsOf(BODY_KEYS, "a body"), "Its bodies of water.", ["tanks", "body"]),
  circulation: optional(
    listOf(block(FLOW_KEYS, "a circulation")),
    "Pumped ways of water with their gravity way back.",
    "none",
    { slips: ["flows", "flow", "circulations"] },
  ),
};
