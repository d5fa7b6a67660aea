/** Top-level keys of a site file. */

import type { Written } from "../shape/fields.ts";
import { block, must, optional, partsOf } from "../shape/fields.ts";
import { listOf, text } from "../shape/reader.ts";
import { SYSTEM_KEYS } from "./bodies.ts";
import { DEVICE_KEYS } from "./devices.ts";
import { CIRCUMSTANCE_KEYS, ladderStep, PERSON_KEYS } from "./people.ts";
import { HUB_KEYS, LINK_KEYS, POWER_KEYS, silenceWatch } from "./power.ts";
import { ROOM_KEYS } from "./rooms.ts";
import { RULE_KEYS, SENSOR_KEYS } from "./sensors-and-rules.ts";

export const SITE_KEYS = {
  site: must(text("the name of the place", 120), "Name of the place.", ["name"]),
  zone: optional(
    text("an IANA time zone, like `Europe/London`", 60),
    "Time zone of all clock times in the file.",
    "UTC",
    {
      weight: 2,
      why: "who sleeps and who is at work goes by the local clock",
      slips: ["timezone", "time-zone"],
    },
  ),
  about: optional(text("a sentence or two", 2000), "For readers of the file; not used.", "nothing", {
    slips: ["description", "notes"],
  }),
  rooms: optional(partsOf(ROOM_KEYS, "a room"), "Air around the water.", "one room called `room`"),
  power: optional(block(POWER_KEYS, "power"), "Where power comes from.", "one circuit called `house`, no battery"),
  links: optional(
    partsOf(LINK_KEYS, "a link"),
    "How messages leave.",
    "`router` and `line` where there is a hub, else none",
  ),
  hubs: optional(
    partsOf(HUB_KEYS, "a hub"),
    "What reads sensors, runs rules and switches sockets.",
    "one called `hub` where there are sensors or rules, else none",
  ),
  systems: must(partsOf(SYSTEM_KEYS, "a system"), "Bodies of water that share their circulation.", ["tanks", "system"]),
  devices: optional(partsOf(DEVICE_KEYS, "a device"), "Everything that acts.", "none"),
  sensors: optional(partsOf(SENSOR_KEYS, "a sensor"), "Everything that measures.", "none", {
    weight: 1,
    why: "without sensors only a person who looks can notice anything",
  }),
  rules: optional(partsOf(RULE_KEYS, "a rule"), "What the hub does by itself, and what it tells.", "none", {
    weight: 1,
    why: "without rules nothing acts and nothing is told",
  }),
  people: optional(partsOf(PERSON_KEYS, "a person"), "Who can be told and who can act.", "nobody", {
    weight: 1,
    why: "with nobody described, nobody comes",
  }),
  ladder: optional(
    listOf(ladderStep, 50),
    "Who is told first, and who next when nobody answers.",
    "the people in the order of the file, 10 min apart",
  ),
  "silence-watch": optional(
    silenceWatch,
    "A watch outside the house that turns silence of the hub into a notice.",
    "none",
    {
      weight: 1,
      why: "when the hub, the router or the power dies, silence is the only sign",
      slips: ["heartbeat", "dead-man", "deadman"],
    },
  ),
  circumstances: optional(
    partsOf(CIRCUMSTANCE_KEYS, "a circumstance"),
    "Moments at which faults are rehearsed.",
    "day, night and away",
  ),
};

export type WrittenSite = Written<typeof SITE_KEYS>;
