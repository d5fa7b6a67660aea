/** Heaters, chillers and fans: too much heat, too little, and what should have stopped it. */
import { deviceById, type Site } from "../../site/index.ts";
import { mend, unplug, unplugAndClose } from "./ends.ts";
import type { FaultMode } from "./fault.ts";
import { coolingModes } from "./heat-cooling.ts";
import {
  devicesOf,
  devicesWhere,
  leakTrips,
  pluggedDevicesWhere,
  quarterly,
  sparesOf,
  switchedDevices,
} from "./parts.ts";
import { generic, guess } from "./rates.ts";

/** Leakage of a cracked heater in salt water, mA: far over any 30 mA protection. */
const CRACK_LEAK_MA = 60;

const OF_HEATERS = "one heater in seven fails in a year of mid life, by what advice pages say of their lifetimes";

/** Heaters of one system that share their batch with this one, itself among them. */
function batchOf(site: Site, heater: string): readonly string[] {
  const own = deviceById(site, heater);
  const same = site.devices.filter(
    (other) => other.kind === "heater" && other.batch === own.batch && other.system === own.system,
  );
  return same.map((one) => one.id);
}

/** The first heater of every batch of two or more in a system. */
function batchLeaders(site: Site): readonly string[] {
  const leads = (id: string) => batchOf(site, id)[0] === id && batchOf(site, id).length > 1;
  const named = site.devices.filter((device) => device.kind === "heater" && device.batch !== null);
  return named.filter((device) => leads(device.id)).map((device) => device.id);
}

export const heatModes: readonly FaultMode[] = [
  {
    mode: "stays-on",
    group: "heat",
    name: "Heater will not switch off",
    onset: "sudden",
    of: "device",
    parts: pluggedDevicesWhere((device) => device.kind === "heater" && device.ownThermostatC !== null),
    inject: (bench, part) => bench.set(part, "thermostat", 1),
    end: { act: "pull the plug of {part}", needs: "unplug", minutes: 5, apply: unplug },
    sight: "nothing",
    rate: guess(0.03, `${OF_HEATERS}; a fifth of these taken to weld on`),
    helps: [
      "a hub socket or cut-out in series that opens {part} at 27.5 °C",
      "two heaters of half the power, so that one stuck on cannot cook",
      "a temperature notice 1 °C above normal",
    ],
  },
  {
    mode: "socket-stays-on",
    group: "heat",
    name: "Relay of the heater's socket welds shut",
    onset: "sudden",
    of: "device",
    parts: switchedDevices("heater"),
    inject: (bench, part) => bench.set(part, "socket", 1),
    end: { act: "pull the plug of {part}", needs: "unplug", minutes: 5, apply: unplug },
    sight: "nothing",
    rate: generic(0.004, "one switched channel in fifty fails in a year, a fifth of these closed"),
    helps: ["a heater with a thermostat of its own, set 1 °C higher", "a second temperature sensor on another hub"],
  },
  {
    mode: "stops",
    group: "heat",
    name: "Heater stops heating",
    onset: "sudden",
    of: "device",
    parts: devicesOf("heater"),
    inject: (bench, part) => bench.set(part, "dead", 1),
    end: { act: "put another heater in place of {part}", needs: "repair", minutes: 20, apply: mend },
    sight: "nothing",
    rate: guess(0.1, `${OF_HEATERS}; seven in ten of these simply go cold`),
    helps: ["a second heater, set 1 °C lower", "a notice at 1.5 °C below normal", "a tried spare on the shelf"],
  },
  {
    mode: "cracks",
    group: "heat",
    name: "Heater cracks and leaks current into the water",
    onset: "sudden",
    of: "device",
    parts: pluggedDevicesWhere(
      (device, site) => device.kind === "heater" && device.on !== null && leakTrips(site, device.on, CRACK_LEAK_MA),
    ),
    inject(bench, part) {
      bench.set(part, "output", 0);
      bench.set(part, "leakMA", CRACK_LEAK_MA);
    },
    end: { act: "unplug {part} and close the breaker", needs: "reset", minutes: 15, apply: unplugAndClose },
    sight: "nothing",
    rate: guess(0.015, `${OF_HEATERS}; one in ten of these at its shell or seal`),
    helps: [
      "pumps on another protected circuit than the heaters",
      "a guard around {part}, and a new one every three years",
      "a notice when a circuit goes dead",
    ],
  },
  {
    mode: "set-too-high",
    group: "heat",
    name: "Heater's dial is knocked 3 °C up",
    onset: "sudden",
    of: "device",
    parts: pluggedDevicesWhere((device) => device.kind === "heater" && device.ownThermostatC !== null),
    inject: (bench, part) => bench.set(part, "setPointC", 3),
    end: { act: "turn {part} back", needs: "reset", minutes: 5, apply: mend },
    sight: "nothing",
    rate: guess(0.05, "a slip at cleaning once in twenty years"),
    helps: [
      "a hub socket that cuts {part} off above 27 °C",
      "a mark on the dial, and a look at it after every cleaning",
    ],
  },
  {
    mode: "set-too-low",
    group: "heat",
    name: "Heater's dial is knocked 4 °C down",
    onset: "sudden",
    of: "device",
    parts: devicesWhere((device) => device.kind === "heater" && device.ownThermostatC !== null),
    inject: (bench, part) => bench.set(part, "setPointC", -4),
    end: { act: "turn {part} back", needs: "reset", minutes: 5, apply: mend },
    sight: "nothing",
    rate: guess(0.05, "a slip at cleaning once in twenty years"),
    helps: ["a notice at 1.5 °C below normal", "a second heater with a setting of its own"],
  },
  {
    mode: "batch-stays-on",
    group: "heat",
    name: "Heaters of one batch weld on together",
    onset: "sudden",
    of: "device",
    parts: (site) => batchLeaders(site).filter((id) => deviceById(site, id).ownThermostatC !== null),
    inject(bench, part) {
      for (const heater of batchOf(bench.site, part)) bench.set(heater, "thermostat", 1);
    },
    end: {
      act: "pull the plugs of {part} and of its twins, and heat by hand",
      needs: "unplug",
      minutes: 10,
      apply(bench, part) {
        for (const heater of batchOf(bench.site, part)) bench.release(heater);
      },
    },
    sight: "nothing",
    rate: guess(0.002, "one in fifteen of the failures of like parts is shared"),
    helps: ["heaters of different make and age", "one cut-out above all heaters"],
  },
  {
    mode: "batch-stops",
    group: "heat",
    name: "Heaters of one batch die in the same week",
    onset: "sudden",
    of: "device",
    parts: batchLeaders,
    inject(bench, part) {
      for (const heater of batchOf(bench.site, part)) bench.set(heater, "dead", 1);
    },
    end: {
      act: "put another heater in place of {part} and its twins",
      needs: "repair",
      minutes: 30,
      apply(bench, part) {
        for (const heater of batchOf(bench.site, part)) bench.release(heater);
      },
    },
    sight: "nothing",
    rate: guess(0.007, "one in fifteen of the failures of like parts is shared"),
    helps: ["heaters of different make and age", "a tried spare on the shelf", "a notice at 1.5 °C below normal"],
  },
  {
    mode: "cut-out-dead",
    group: "heat",
    name: "Heater's independent cut-out has stopped working",
    onset: "latent",
    of: "device",
    parts: devicesWhere((device) => device.cutOutC !== null),
    inject: (bench, part) => bench.set(part, "cutOut", 1),
    end: { act: "put in another cut-out for {part}", needs: "repair", minutes: 30, apply: mend },
    sight: "nothing",
    rate: guess(0.05, "safety switches that nobody tries"),
    helps: [
      "a trial of the cut-out every three months, in a cup of warm water",
      "a hub rule that cuts {part} off as well",
    ],
    triedEveryMonths: () => null,
    backs: (_site, part) => [part],
  },
  {
    mode: "spare-dead",
    group: "heat",
    name: "Spare heater or cooler has been dead for months",
    onset: "latent",
    of: "device",
    parts: sparesOf("heater", "chiller", "fan"),
    inject: (bench, part) => bench.set(part, "dead", 1),
    end: { act: "buy another for {part} and try it", needs: "repair", minutes: 30, apply: mend },
    sight: "nothing",
    rate: guess(0.2, "household alarms that nobody tries are dead in a quarter of homes; taken a little better"),
    helps: ["a trial run of {part} every month, written down", "a spare that works a little every day"],
    triedEveryMonths: (site, part) => quarterly(deviceById(site, part).spare?.lastTriedMonths),
    backs: sameWork,
  },
  ...coolingModes,
];

/** Devices of the same kind in the same system that work every day. */
function sameWork(site: Site, part: string): readonly string[] {
  const own = deviceById(site, part);
  const working = site.devices.filter((other) => other.id !== part && other.spare === null);
  return working.filter((other) => other.kind === own.kind && other.system === own.system).map((one) => one.id);
}
