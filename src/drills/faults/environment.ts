/** Weather, the building, the room around the tanks. */
import { bodyById, type Room } from "../../site/index.ts";
import { mend } from "./ends.ts";
import type { FaultMode } from "./fault.ts";
import { watersWhere } from "./parts.ts";
import { guess, reported } from "./rates.ts";

/** Rooms with water in circulation. */
function tankRooms(fits: (room: Room) => boolean): FaultMode["parts"] {
  const waters = watersWhere(() => true);
  return (site) => {
    const wet = waters(site).map((id) => bodyById(site, id).room);
    return site.rooms.filter((room) => wet.includes(room.id) && fits(room)).map((room) => room.id);
  };
}

/** Sun through a window onto the tank, W per square metre of water surface. */
const SUN_W_PER_M2 = 250;

/** What guests and shut windows add to the usual air of a room for days, ppm. */
const STUFFY_PPM = 800;

/** Ice in bags, fans, open windows at night; taken as ending the excess of the room. */
const COOL_BY_HAND: FaultMode["end"] = {
  act: "cool by hand with fans, bags of ice and shade",
  needs: "everything",
  minutes: 30,
  apply: mend,
};
const WARM_BY_HAND: FaultMode["end"] = {
  act: "warm {part} with a heater of another kind and wrap the tank",
  needs: "everything",
  minutes: 30,
  apply: mend,
};

export const environmentModes: readonly FaultMode[] = [
  {
    mode: "heat-wave",
    group: "environment",
    name: "Heat wave of five days, 10 °C above the season",
    onset: "sudden",
    of: "room",
    parts: tankRooms(() => true),
    inject: (bench, part) => bench.set(part, "outsideK", 10),
    lastsMin: 7200,
    end: COOL_BY_HAND,
    sight: "nothing",
    rate: reported(0.3, "by region; the third of summers that has one"),
    helps: [
      "a fan over the water that starts when it grows warm",
      "a rule that puts out the lights when it grows warm",
      "a blind",
    ],
  },
  {
    mode: "cold-snap",
    group: "environment",
    name: "Cold snap of five days, 12 °C below the season",
    onset: "sudden",
    of: "room",
    parts: tankRooms(() => true),
    inject: (bench, part) => bench.set(part, "outsideK", -12),
    lastsMin: 7200,
    end: WARM_BY_HAND,
    sight: "nothing",
    rate: reported(0.3, "by region; the third of winters that has one"),
    helps: ["heaters with power to spare for the coldest room", "a notice when they run nearly all the time"],
  },
  {
    mode: "heating-fails",
    group: "environment",
    name: "Room's heating fails",
    onset: "sudden",
    of: "room",
    parts: tankRooms(() => true),
    inject: (bench, part) => bench.set(part, "heatingOff", 1),
    end: WARM_BY_HAND,
    sight: "nothing",
    rate: guess(0.1, "boilers fail once in ten winters for more than a day"),
    helps: ["heaters with power to spare for the coldest room", "an air temperature sensor in {part} with a notice"],
  },
  {
    mode: "cooling-fails",
    group: "environment",
    name: "Room's air conditioning fails",
    onset: "sudden",
    of: "room",
    parts: tankRooms((room) => room.coolsToC !== null),
    inject: (bench, part) => bench.set(part, "coolingOff", 1),
    end: COOL_BY_HAND,
    sight: "nothing",
    rate: guess(0.1, "as chillers, most often in a heat wave"),
    helps: ["a fan over the water that starts when it grows warm", "an air temperature sensor in {part} with a notice"],
  },
  {
    mode: "heat-wave-no-cooling",
    group: "environment",
    name: "Air conditioning fails in a heat wave",
    onset: "sudden",
    of: "room",
    parts: tankRooms((room) => room.coolsToC !== null),
    inject(bench, part) {
      bench.set(part, "outsideK", 10);
      bench.set(part, "coolingOff", 1);
    },
    lastsMin: 7200,
    end: COOL_BY_HAND,
    sight: "nothing",
    rate: guess(0.05, "coolers fail three times as often when they work hardest"),
    helps: [
      "a chiller or a fan over the water that does not hang on the building",
      "an air temperature sensor in {part} with a notice",
    ],
  },
  {
    mode: "overheated",
    group: "environment",
    name: "Two kilowatts of heat are left on in the room",
    onset: "sudden",
    of: "room",
    parts: tankRooms(() => true),
    inject: (bench, part) => bench.set(part, "heatW", 2000),
    lastsMin: 1440,
    end: { act: "switch off what heats {part}", needs: "unplug", minutes: 5, apply: mend },
    sight: "nothing",
    rate: guess(0.05, "electric heaters, ovens, a radiator valve that sticks"),
    helps: ["an air temperature sensor in {part} with a notice", "a fan over the water that starts when it grows warm"],
  },
  {
    mode: "stuffy",
    group: "environment",
    name: "Closed house fills with carbon dioxide",
    onset: "sudden",
    of: "room",
    parts: tankRooms(() => true),
    inject: (bench, part) => bench.set(part, "co2Ppm", STUFFY_PPM),
    lastsMin: 2880,
    end: { act: "open the windows of {part}", needs: "reset", minutes: 5, apply: mend },
    sight: "nothing",
    rate: reported(1, "every winter with guests and shut windows"),
    helps: ["outside air to the skimmer", "a CO2 meter in {part}"],
  },
  {
    mode: "sun-on-the-tank",
    group: "environment",
    name: "Sun stands on the tank for four hours",
    onset: "sudden",
    of: "body",
    parts: watersWhere((body) => body.role === "display"),
    inject: (bench, part) => bench.set(part, "sunW", SUN_W_PER_M2 * bodyById(bench.site, part).surfaceM2),
    lastsMin: 240,
    end: { act: "draw the blind before {part}", needs: "reset", minutes: 5, apply: mend },
    sight: "display",
    rate: guess(1, "some weeks of the year, where a window allows it"),
    helps: ["a blind", "a fan over the water that starts when it grows warm"],
  },
];
