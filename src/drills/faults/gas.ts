/** Calcium reactors and carbon dioxide. */
import { deviceById } from "../../site/index.ts";
import { mend, unplug } from "./ends.ts";
import type { FaultMode } from "./fault.ts";
import { devicesOf, switchedDevices } from "./parts.ts";
import { generic, guess, reported } from "./rates.ts";

/** A chamber of five litres at full gas, mol CO2. */
const CHAMBER_CO2_MOL = 0.13;
/** A small bottle that empties into a living room within a day, ppm over outside. */
const BOTTLE_LEAK_PPM = 4000;

export const gasModes: readonly FaultMode[] = [
  {
    mode: "gas-stuck-open",
    group: "gas",
    name: "Gas valve of the reactor sticks open",
    onset: "sudden",
    of: "device",
    parts: devicesOf("calcium-reactor"),
    inject: (bench, part) => bench.set(part, "gasOpen", 1),
    end: { act: "close the bottle of {part}", needs: "unplug", minutes: 5, apply: mend },
    sight: "noise",
    rate: generic(0.036, "solenoid valves last eight years, three in ten fail open"),
    helps: [
      "a second valve in series, closed by the pH of the tank",
      "a needle valve that cannot pass more than the tank bears",
    ],
  },
  {
    mode: "end-of-bottle-dump",
    group: "gas",
    name: "Nearly empty bottle dumps its last gas through the reactor",
    onset: "sudden",
    of: "device",
    parts: devicesOf("calcium-reactor"),
    inject: (bench, part) => bench.set(part, "gasOpen", 1),
    lastsMin: 240,
    end: { act: "close the bottle of {part}", needs: "unplug", minutes: 5, apply: mend },
    sight: "noise",
    rate: reported(0.2, "a known trait of simple regulators, at one bottle in ten"),
    helps: ["a regulator of two stages", "a new bottle before the old one is empty", "a pH limit that closes the gas"],
  },
  {
    mode: "gas-runs-out",
    group: "gas",
    name: "Gas bottle of the reactor is empty",
    onset: "sudden",
    of: "device",
    parts: devicesOf("calcium-reactor"),
    inject: (bench, part) => bench.set(part, "strength", 0),
    end: { act: "put a full bottle on {part}", needs: "refill", minutes: 20, apply: mend },
    sight: "display",
    rate: reported(1, "every few months a bottle ends; once a year unnoticed"),
    helps: [
      "a spare bottle and a weekly look at the gauge",
      "a test of alkalinity twice a week, or a tester that does it",
    ],
  },
  {
    mode: "effluent-clogs",
    group: "gas",
    name: "Reactor's effluent clogs drop by drop",
    onset: "creeping",
    of: "device",
    parts: devicesOf("calcium-reactor"),
    // A drip valve with lime in it closes within a week.
    inject: (bench, part) => bench.set(part, "outputPerDay", -0.15),
    end: { act: "clean the outlet of {part}", needs: "repair", minutes: 20, apply: mend },
    sight: "nothing",
    rate: reported(1, "common, several times a year where nobody cleans"),
    helps: ["a pump on the effluent in place of a valve", "a test of alkalinity twice a week"],
  },
  {
    mode: "stops",
    group: "gas",
    name: "Reactor's pump stops",
    onset: "sudden",
    of: "device",
    parts: devicesOf("calcium-reactor"),
    inject: (bench, part) => bench.set(part, "dead", 1),
    end: { act: "free or replace the pump of {part}", needs: "repair", minutes: 30, apply: mend },
    sight: "still",
    rate: generic(0.16, "between pumps and motors of industry"),
    helps: ["a test of alkalinity twice a week", "a notice when {part} draws no power"],
  },
  {
    mode: "chamber-empties",
    group: "gas",
    name: "Reactor chamber empties its acid water into the tank",
    onset: "sudden",
    of: "device",
    parts: devicesOf("calcium-reactor"),
    inject: (bench, part) => bench.pour(deviceById(bench.site, part).in, "co2", CHAMBER_CO2_MOL),
    end: { act: "shut the outlet of {part} and stir up the surface", needs: "unplug", minutes: 10, apply: mend },
    sight: "water",
    rate: guess(0.02, "hoses that slip at service"),
    helps: ["a chamber that is small beside the tank", "more surface movement"],
  },
  {
    mode: "socket-stays-on",
    group: "gas",
    name: "Relay of the reactor's socket welds shut",
    onset: "sudden",
    of: "device",
    parts: switchedDevices("calcium-reactor"),
    inject: (bench, part) => bench.set(part, "socket", 1),
    end: { act: "pull the plug of {part}", needs: "unplug", minutes: 5, apply: unplug },
    sight: "nothing",
    rate: generic(0.004, "one switched channel in fifty fails in a year, a fifth of these closed"),
    helps: ["gas that passes no more than the tank bears, even when always on", "a pH notice"],
  },
  {
    mode: "bottle-leaks",
    group: "gas",
    name: "CO2 bottle leaks into the room",
    onset: "sudden",
    of: "room",
    parts(site) {
      const bodies = site.devices.filter((device) => device.kind === "calcium-reactor").map((device) => device.in);
      const rooms = site.bodies.filter((body) => bodies.includes(body.id)).map((body) => body.room);
      return site.rooms.filter((room) => rooms.includes(room.id)).map((room) => room.id);
    },
    inject: (bench, part) => bench.set(part, "co2Ppm", BOTTLE_LEAK_PPM),
    lastsMin: 1440,
    end: { act: "air the room and close the bottle", needs: "unplug", minutes: 10, apply: mend },
    sight: "nothing",
    rate: guess(0.02, "fittings that were changed and not tried with soapy water"),
    helps: ["a CO2 meter in {part} with a notice, for people before animals", "soapy water on every new fitting"],
  },
];
