/** Keys of power, links and hubs, and of the watch outside the house. */
import { block, must, optional, partsOf } from "../shape/fields.ts";
import { choice, listOf, monthsAgo, nameOf, orNone, quantity, yesNo } from "../shape/reader.ts";

export const CIRCUIT_KEYS = {
  on: optional(
    orNone(nameOf("a circuit")),
    "The circuit it hangs from: a strip on a ring, a ring on a main switch.",
    "straight from the mains",
    { slips: ["from", "via"] },
  ),
  limit: optional(
    quantity("current", { aboveZero: true, max: 1000 }),
    "Current at which its breaker or fuse opens.",
    "16 A (15 A where the mains are below 150 V)",
    {
      slips: ["breaker", "fuse", "amps"],
    },
  ),
  "trips-on-leak": optional(
    orNone(quantity("current", { aboveZero: true, max: 5 }, "mA")),
    "Leakage current that trips it; `none` where it has no leakage protection.",
    "30 mA (5 mA where the mains are below 150 V)",
    {
      weight: 2,
      why: "one wet plug takes everything behind the same leakage breaker",
      slips: ["rcd", "gfci", "leakage"],
    },
  ),
  "stays-open-after-cut": optional(
    yesNo(),
    "After a power cut the protection stays open until someone closes it.",
    "no",
    {
      weight: 2,
      why: "a breaker that stays open turns a short cut into a long one",
    },
  ),
};

export const BATTERY_KEYS = {
  kind: optional(choice(["battery", "generator"]), "What it is.", "battery"),
  energy: must(quantity("energy", { aboveZero: true }), "Energy that can be used; for a generator, that of its fuel.", [
    "capacity",
  ]),
  power: optional(quantity("power", { min: 1 }), "Most power that it gives.", "what empties it in one hour", {
    slips: ["watts"],
  }),
  feeds: optional(
    listOf(nameOf("a device, a link or a hub")),
    "What it carries when their own circuit is dead, besides what is `on` it.",
    "only what is on it",
    {
      slips: ["carries", "for"],
    },
  ),
  on: optional(
    orNone(nameOf("a circuit")),
    "Circuit that charges it; `none` for loose cells.",
    "the first circuit; none for a generator",
  ),
  "starts-itself": optional(yesNo(), "Takes over without anyone's hand.", "yes; no for a generator", {
    weight: 1,
    why: "if a person must start it, nothing runs until they come",
  }),
  "last-tried": optional(monthsAgo(), "How long ago someone pulled the plug to try it, or `never`.", "never", {
    weight: 1,
    why: "a battery that nobody tries may be dead, and counts so in the risk",
    slips: ["tested", "tried"],
  }),
};

export const LINK_KEYS = {
  kind: optional(
    choice(["local", "internet", "mobile"]),
    "Network in the house, line out of it, or radio to the phone network.",
    "internet where it goes `via` another link, else local; mobile where it is called so",
  ),
  on: optional(
    orNone(nameOf("a circuit or a battery")),
    "What powers it; `none` where it needs no power here.",
    "the first circuit for a local link, none for the others",
    {
      weight: 1,
      why: "a router that dies with the mains takes every notice with it",
    },
  ),
  via: optional(orNone(nameOf("a link")), "The link that it needs.", "none"),
};

export const HUB_KEYS = {
  on: optional(orNone(nameOf("a circuit or a battery")), "What powers it.", "the first circuit", {
    weight: 1,
    why: "no rule runs and no notice leaves while the hub has no power",
  }),
  "reads-every": optional(
    quantity("duration", { min: 1, max: 3600 }),
    "How often it reads its sensors and runs its rules.",
    "10 s",
  ),
  "sends-over": optional(
    listOf(nameOf("a link")),
    "Ways out for notices; any one that works is enough. `[]` where it can tell nobody.",
    "every link of kind internet or mobile",
    {
      weight: 1,
      why: "a notice needs one way out that still works",
    },
  ),
  watchdog: optional(yesNo(), "Restarts itself when it hangs.", "no", {
    weight: 2,
    why: "a hung hub keeps everything as it was until someone notices",
  }),
  siren: optional(yesNo(), "Beeps loud enough for someone in the building.", "no"),
  tested: optional(
    monthsAgo(),
    "How long ago each of its rules was last tried and its notices seen to arrive, or `never`.",
    "never",
    { weight: 2, why: "a rule left off after service, or a muted notice, is found by trying it" },
  ),
};

export const POWER_KEYS = {
  mains: optional(quantity("voltage", { min: 90, max: 480 }), "Mains voltage.", "230 V", {
    slips: ["voltage", "volts"],
  }),
  circuits: optional(
    partsOf(CIRCUIT_KEYS, "a circuit"),
    "Circuits, from the main switch down to the strip.",
    "one circuit called `house`",
    {
      weight: 1,
      why: "what shares a circuit fails together",
    },
  ),
  batteries: optional(partsOf(BATTERY_KEYS, "a battery"), "Batteries and generators.", "none"),
};

export const SILENCE_WATCH_KEYS = {
  after: optional(
    quantity("duration", { min: 60, max: 1e6 }, "min"),
    "Silence after which it tells someone.",
    "30 min",
  ),
  tells: must(listOf(nameOf("a person")), "Whom it tells.", ["people", "who"]),
  tested: optional(monthsAgo(), "How long ago its notice was last seen to arrive, or `never`.", "never"),
};

export const silenceWatch = orNone(block(SILENCE_WATCH_KEYS, "a silence watch"));
