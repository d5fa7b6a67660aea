/** Keys of a room. */
import { block, must, optional } from "../shape/fields.ts";
import { choice, listOf, orNone, quantity, timeWindow, wholeNumber, yesNo } from "../shape/reader.ts";
import { CLIMATES } from "./words.ts";

const roomTemperature = quantity("temperature", { min: -10, max: 45 });

export const SET_BACK_KEYS = {
  holds: must(roomTemperature, "The lower temperature.", ["temperature"]),
  during: must(listOf(timeWindow()), "When it holds; while a building is closed it holds all day.", ["when", "at"]),
};

export const ROOM_KEYS = {
  air: optional(quantity("volume", { min: 1000 }, "m3"), "Air in the room.", "60 m3", {
    weight: 3,
    why: "a small room warms, dampens and fills with carbon dioxide sooner",
    slips: ["volume", "size"],
  }),
  holds: optional(roomTemperature, "Air temperature that the building's heating holds.", "20 degC", {
    weight: 2,
    why: "the water cools towards it when heating fails",
    slips: ["temperature", "heated-to"],
  }),
  "set-back": optional(
    orNone(block(SET_BACK_KEYS, "a set-back")),
    "Lower setting at night, at weekends or in holidays.",
    "never set back",
  ),
  "cools-to": optional(
    orNone(quantity("temperature", { min: 5, max: 45 })),
    "Air conditioning keeps the room at or under this.",
    "no air conditioning",
    {
      weight: 2,
      why: "without cooling a heat wave comes into the water",
      slips: ["air-conditioning", "cooling"],
    },
  ),
  "time-constant": optional(
    quantity("duration", { min: 3600, max: 3e6 }, "h"),
    "Hours in which the unheated room closes 63 % of its gap to the outside.",
    "30 h",
    {
      weight: 1,
      why: "it sets how cold a power cut makes the room, and how soon",
      slips: ["cools-in"],
    },
  ),
  outside: optional(choice(CLIMATES), "Climate outside.", "temperate-coast", {
    weight: 2,
    why: "it sets the cold of January and the heat of August",
    slips: ["climate"],
  }),
  "air-changes": optional(
    quantity("times per hour", { max: 30 }),
    "How often the room's air is renewed, from outside and from the rest of the house.",
    "1.5 /h",
    {
      slips: ["ventilation"],
    },
  ),
  people: optional(wholeNumber(0, 5000, 2), "People breathing in the room while it is occupied.", "2", {
    slips: ["occupants"],
  }),
  occupied: optional(listOf(timeWindow()), "When they are there.", "weekdays 18:00-08:00 and weekends"),
  "floor-drain": optional(yesNo(), "A drain in the floor takes spilled water.", "no", {
    weight: 2,
    why: "water on a floor without a drain does harm below",
    slips: ["drain"],
  }),
};
