/** Doses that are too much or too little, and water changes that do not balance. */
import { deviceById } from "../../site/index.ts";
import { isDoser, mixtureModes } from "./dosing-mixtures.ts";
import { changeWaterOf, mend, mendAndRefill, unplug } from "./ends.ts";
import type { FaultMode } from "./fault.ts";
import { devicesOf, devicesWhere } from "./parts.ts";
import { guess, reported } from "./rates.ts";

/** Drops a fifth of a litre to two litres an hour through idle rollers; the middle by its logarithm, L/h. */
const CONTAINER_SIPHON_L_PER_H = 0.6;

export const dosingModes: readonly FaultMode[] = [
  {
    mode: "will-not-stop",
    group: "dosing",
    name: "Dosing pump will not stop",
    onset: "sudden",
    of: "device",
    parts: devicesWhere((device) => isDoser(device) && device.flowLPerH > 0),
    inject(bench, part) {
      bench.set(part, "thermostat", 1);
      bench.set(part, "schedule", 1);
      if (deviceById(bench.site, part).by !== null) bench.set(part, "socket", 1);
    },
    end: { act: "pull the plug of {part}", needs: "unplug", minutes: 5, apply: unplug },
    sight: "noise",
    rate: guess(0.003, "shorted driver or hung output, three in a thousand a year"),
    helps: [
      "a container that holds no more than the animals bear at once",
      "a pH limit that cuts the socket of {part}",
      "a weaker solution",
    ],
  },
  {
    mode: "stops",
    group: "dosing",
    name: "Dosing pump stops",
    onset: "sudden",
    of: "device",
    parts: devicesOf("doser"),
    inject: (bench, part) => bench.set(part, "dead", 1),
    end: { act: "replace {part} and dose by hand meanwhile", needs: "repair", minutes: 20, apply: mend },
    sight: "nothing",
    rate: guess(0.04, "pump heads of this size"),
    helps: ["a test of alkalinity twice a week, or a tester that does it", "a mark and a date on the container"],
  },
  {
    mode: "air-lock",
    group: "dosing",
    name: "Dosing pump turns, but nothing comes",
    onset: "sudden",
    of: "device",
    parts: devicesWhere(isDoser),
    inject: (bench, part) => bench.set(part, "idle", 1),
    end: { act: "clear the hose of {part}", needs: "repair", minutes: 15, apply: mend },
    sight: "nothing",
    rate: guess(0.06, "clogged, cracked or unhooked hoses"),
    helps: ["a level notice on the container of {part}", "a test of alkalinity twice a week, or a tester that does it"],
  },
  {
    mode: "wears",
    group: "dosing",
    name: "Dosing hose wears and gives less",
    onset: "creeping",
    of: "device",
    parts: devicesWhere(isDoser),
    // A hose loses 5 to 20 % over months before it tears; the last month, in which it goes fastest, is taken.
    inject: (bench, part) => bench.set(part, "outputPerDay", -0.007),
    end: { act: "put a new hose into {part} and measure its dose", needs: "repair", minutes: 20, apply: mend },
    sight: "nothing",
    rate: reported(0.8, "every hose, within a year or so"),
    helps: ["a measured dose every three months, a new hose every year", "a weekly test of alkalinity"],
  },
  {
    mode: "siphons",
    group: "dosing",
    name: "Dosing container siphons through the idle pump",
    onset: "sudden",
    of: "device",
    parts: devicesWhere((device) => isDoser(device) && device.canSiphon),
    inject: (bench, part) => bench.set(part, "siphonLPerH", CONTAINER_SIPHON_L_PER_H),
    end: { act: "lift the hose of {part} out", needs: "unplug", minutes: 10, apply: mendAndRefill },
    sight: "nothing",
    rate: reported(0.02, "now and then, where containers stand higher than the outlet"),
    helps: ["a container that stands lower than the outlet of {part}", "an outlet in the air", "a small container"],
  },
  {
    mode: "dose-repeated",
    group: "dosing",
    name: "Whole day's dose is given again at once after a restart",
    onset: "sudden",
    of: "device",
    parts: devicesWhere((device) => isDoser(device) && device.amountPerDay > 0),
    inject(bench, part) {
      const own = deviceById(bench.site, part);
      if (own.from !== null) bench.move(own.from, own.in, own.amountPerDay / 1000);
    },
    end: {
      act: "change some water",
      needs: "water-change",
      minutes: 45,
      apply: (bench, part) => changeWaterOf(bench, deviceById(bench.site, part).in, 0.2),
    },
    sight: "cloud",
    rate: guess(0.05, "seen when clocks change and schedules are replayed"),
    helps: ["a daily limit in the doser that survives a restart", "small doses of a weaker solution"],
  },
  {
    mode: "stops",
    group: "dosing",
    name: "Automatic water change stops",
    onset: "sudden",
    of: "device",
    parts: devicesOf("water-change"),
    inject: (bench, part) => bench.set(part, "dead", 1),
    end: { act: "mend {part}", needs: "repair", minutes: 30, apply: mend },
    sight: "nothing",
    rate: guess(0.1, "pump heads of this size"),
    helps: ["a mark and a date on the reservoir", "water changes by hand meanwhile"],
  },
  {
    mode: "unbalanced",
    group: "dosing",
    name: "Water change takes out more than it brings",
    onset: "creeping",
    of: "device",
    parts: devicesWhere((device) => device.kind === "water-change" && device.amountPerDay > 0),
    // Two heads that have worn apart by a fifth: about 0.2 of salinity a week at usual changes.
    inject: (bench, part) => bench.set(part, "wasteLPerH", (0.2 * deviceById(bench.site, part).amountPerDay) / 24),
    end: { act: "put new hoses into both heads of {part}", needs: "repair", minutes: 30, apply: mend },
    sight: "nothing",
    rate: reported(0.5, "every pair of heads in time"),
    helps: ["a weekly salinity test with another instrument", "both hoses changed on the same day"],
  },
  ...mixtureModes,
];
