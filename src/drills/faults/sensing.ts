/** Sensors that lie, freeze, fall silent, or would not speak when it counts. */
import type { Sensor, Site } from "../../site/index.ts";
import { mend } from "./ends.ts";
import type { Bench, FaultMode } from "./fault.ts";
import { sensorsOf, sensorsWhere } from "./parts.ts";
import { generic, guess, reported } from "./rates.ts";
import { pull, REPLACE } from "./sensing-acts.ts";
import { contactModes } from "./sensing-contacts.ts";
import { probeModes } from "./sensing-probes.ts";
import { temperatureSensorModes } from "./sensing-temperature.ts";

const PUT_BACK: FaultMode["end"] = { act: "put {part} back into the water", needs: "reset", minutes: 5, apply: mend };

/** Numbers, not contacts. */
const NUMBERS = [
  "temperature",
  "ph",
  "salinity",
  "oxygen",
  "alkalinity",
  "orp",
  "level",
  "flow",
  "power",
  "air-temperature",
  "air-co2",
  "light",
] as const;

const inWater = sensorsWhere((sensor) => sensor.atKind === "body");

/** Sensors in the water that one hub reads for its rules. */
function onHub(site: Site, hub: string): readonly Sensor[] {
  const read = inWater(site);
  return site.sensors.filter((sensor) => sensor.hub === hub && read.includes(sensor.id));
}

/** All probes of a quantity were set with the same bad fluid. */
function badFluid(quantity: "ph" | "salinity", offset: number): Pick<FaultMode, "parts" | "inject" | "end"> {
  const all = sensorsOf(quantity);
  return {
    parts: (site) => (all(site).length > 0 ? ["*"] : []),
    inject(bench: Bench) {
      for (const sensor of all(bench.site)) bench.set(sensor, "offset", offset);
    },
    end: {
      act: "calibrate all probes again with fresh fluid",
      needs: "repair",
      minutes: 45,
      apply(bench) {
        for (const sensor of all(bench.site)) bench.release(sensor, "offset");
      },
    },
  };
}

export const sensingModes: readonly FaultMode[] = [
  ...temperatureSensorModes,
  ...probeModes,
  ...contactModes,
  {
    mode: "shows-zero",
    group: "sensing",
    name: "Sensor fails and shows zero",
    onset: "sudden",
    of: "sensor",
    parts: sensorsOf("ph", "salinity", "oxygen", "orp", "alkalinity", "level"),
    inject: pull("fixed", 0),
    end: REPLACE,
    sight: "display",
    rate: generic(0.05, "transducers of industry fail once in two years; most in other ways"),
    helps: ["rules that act only on values that can be", "a notice that asks for a look before anything is dosed"],
  },
  {
    mode: "out-of-water",
    group: "sensing",
    name: "Probe hangs in the air",
    onset: "sudden",
    of: "sensor",
    parts: sensorsWhere(
      (sensor) =>
        sensor.atKind === "body" && ["temperature", "ph", "salinity", "oxygen", "orp"].includes(sensor.measures),
    ),
    inject: pull("dry", 1),
    end: PUT_BACK,
    sight: "display",
    rate: reported(0.1, "common after cleaning"),
    helps: [
      "a firm holder for {part}",
      "a second sensor, and a notice when they differ",
      "a limit on what a rule may do in an hour",
    ],
  },
  {
    mode: "freezes",
    group: "sensing",
    name: "Sensor keeps showing its last value",
    onset: "sudden",
    of: "sensor",
    parts: sensorsOf(...NUMBERS),
    inject: pull("frozen", 1),
    end: { act: "restart or replace {part}", needs: "reset", minutes: 10, apply: mend },
    sight: "nothing",
    rate: reported(0.1, "common where sensors speak over a network"),
    helps: ["a rule on a value that does not change for an hour", "a second sensor, and a notice when they differ"],
  },
  {
    mode: "falls-silent",
    group: "sensing",
    name: "Sensor falls silent",
    onset: "sudden",
    of: "sensor",
    parts: sensorsOf(...NUMBERS, "leak", "mains", "float"),
    inject: pull("silent", 1),
    end: { act: "restart or replace {part}", needs: "reset", minutes: 10, apply: mend },
    sight: "display",
    rate: generic(0.1, "transducers of industry fail once in two years; wired household ones less"),
    helps: ["a rule on silence of {part} for ten minutes", "sockets that fall to a harmless state"],
  },
  {
    mode: "probe-board-shifts",
    group: "sensing",
    name: "All temperature sensors of one hub shift together",
    onset: "sudden",
    of: "hub",
    parts: (site) => site.hubs.filter((hub) => onHub(site, hub.id).some(isTemperature)).map((hub) => hub.id),
    inject(bench, part) {
      for (const sensor of onHub(bench.site, part)) if (isTemperature(sensor)) bench.set(sensor.id, "offset", -2);
    },
    end: {
      act: "replace the probe inputs of {part}",
      needs: "repair",
      minutes: 45,
      apply(bench, part) {
        for (const sensor of onHub(bench.site, part)) if (isTemperature(sensor)) bench.release(sensor.id, "offset");
      },
    },
    sight: "nothing",
    rate: guess(0.01, "one reference for all inputs"),
    helps: [
      "a temperature sensor that does not hang on {part}",
      "a heater thermostat of its own just above the rule's limit",
    ],
  },
  {
    mode: "probes-fall-silent",
    group: "sensing",
    name: "Probe inputs of one hub die together",
    onset: "sudden",
    of: "hub",
    parts: (site) => site.hubs.filter((hub) => onHub(site, hub.id).length > 0).map((hub) => hub.id),
    inject(bench, part) {
      for (const sensor of onHub(bench.site, part)) bench.set(sensor.id, "silent", 1);
    },
    end: {
      act: "restart {part} or replace its probe inputs",
      needs: "reset",
      minutes: 20,
      apply(bench, part) {
        for (const sensor of onHub(bench.site, part)) bench.release(sensor.id, "silent");
      },
    },
    sight: "display",
    rate: reported(0.05, "buses that one wet plug takes down"),
    helps: [
      "a rule on silence for ten minutes",
      "sensors shared out over two hubs",
      "sockets that fall to a harmless state",
    ],
  },
  {
    mode: "ph-fluid-bad",
    group: "sensing",
    name: "All pH probes were set with bad fluid and read 0.3 too high",
    onset: "sudden",
    of: "system",
    ...badFluid("ph", 0.3),
    sight: "nothing",
    rate: reported(0.05, "opened bottles are good for half a year or so"),
    helps: ["two lots of calibration fluid, with dates", "a look at the step that calibration makes"],
  },
  {
    mode: "salinity-fluid-bad",
    group: "sensing",
    name: "All salinity probes were set with bad fluid and read 2 too high",
    onset: "sudden",
    of: "system",
    ...badFluid("salinity", 2),
    sight: "nothing",
    rate: reported(0.05, "a bottle that has evaporated a little"),
    helps: ["a second way to measure salinity", "two lots of calibration fluid, with dates"],
  },
];

function isTemperature(sensor: Sensor): boolean {
  return sensor.measures === "temperature";
}
