/** Mains, circuits, batteries and the sockets that a hub switches. */
import { closeAbove, mend, unplug, unplugAndClose } from "./ends.ts";
import type { FaultMode } from "./fault.ts";
import { circuitsWhere, devicesWhere, leakTrips, switchedDevices } from "./parts.ts";
import { batteryModes } from "./power-batteries.ts";
import { mainsModes } from "./power-mains.ts";
import { counted, generic, guess, reported } from "./rates.ts";

/** A pump with a bad winding, mA. */
const WINDING_LEAK_MA = 60;
/** Water on a plug board, mA. */
const WET_LEAK_MA = 80;
const WET_MOTORS = ["return-pump", "wave-pump", "skimmer", "chiller", "top-off"];

export const powerModes: readonly FaultMode[] = [
  ...mainsModes,
  {
    mode: "trips",
    group: "power",
    name: "Leakage protection of the circuit opens for no lasting cause",
    onset: "sudden",
    of: "circuit",
    parts: circuitsWhere((circuit) => circuit.tripsOnLeakMA !== null),
    inject: (bench, part) => bench.set(part, "open", 1),
    end: { act: "close the protection of {part}", needs: "reset", minutes: 10, apply: closeAbove },
    sight: "dark",
    rate: guess(0.3, "damp plugs: one in three wet circuits a year"),
    helps: [
      "pumps and heaters shared out over two protected circuits",
      "a sensor of power behind {part}, with a notice",
    ],
  },
  {
    mode: "opens",
    group: "power",
    name: "Breaker of the circuit opens",
    onset: "sudden",
    of: "circuit",
    parts: circuitsWhere((circuit) => circuit.tripsOnLeakMA === null),
    inject: (bench, part) => bench.set(part, "open", 1),
    end: { act: "close the breaker of {part}", needs: "reset", minutes: 10, apply: closeAbove },
    sight: "dark",
    rate: generic(0.09, "breakers of industry, with the overloads of a household besides"),
    helps: ["pumps and heaters shared out over two circuits", "a sensor of power behind {part}, with a notice"],
  },
  {
    mode: "stays-open-after-blink",
    group: "power",
    name: "Protection stays open after a blink of the mains",
    onset: "sudden",
    of: "circuit",
    parts: circuitsWhere((circuit) => circuit.staysOpenAfterCut),
    inject: (bench, part) => bench.set(part, "open", 1),
    end: { act: "close the protection of {part}", needs: "reset", minutes: 10, apply: closeAbove },
    sight: "dark",
    rate: counted(1, "North American homes have 1.0 ordinary cuts a year; this kind stays open after each"),
    helps: [
      "protection of the kind that closes again by itself, put in by an electrician",
      "a sensor of power behind {part}, with a notice",
    ],
  },
  {
    mode: "strip-burns-out",
    group: "power",
    name: "Socket strip burns out",
    onset: "sudden",
    of: "circuit",
    parts: circuitsWhere((circuit) => circuit.on !== null),
    inject: (bench, part) => bench.set(part, "open", 1),
    end: {
      act: "put another strip in place of {part}",
      needs: "repair",
      minutes: 20,
      apply: (bench, part) => bench.closeCircuit(part),
    },
    sight: "smell",
    rate: guess(0.01, "thin contacts under constant load, in salt air"),
    helps: ["life support shared out over two strips", "a better strip, away from damp", "a smoke alarm in the room"],
  },
  {
    mode: "gets-wet",
    group: "power",
    name: "Water gets into plugs or sockets and opens the protection",
    onset: "sudden",
    of: "circuit",
    parts: circuitsWhere((circuit, site) => leakTrips(site, circuit.id, WET_LEAK_MA)),
    inject: (bench, part) => bench.set(part, "leakMA", WET_LEAK_MA),
    end: {
      act: "dry the sockets of {part}, then close the protection",
      needs: "reset",
      minutes: 40,
      apply(bench, part) {
        bench.release(part, "leakMA");
        closeAbove(bench, part);
      },
    },
    sight: "dark",
    rate: reported(0.05, "a frequent end of small leaks"),
    helps: [
      "sockets above the highest water, with drip loops",
      "pumps and heaters shared out over two protected circuits",
    ],
  },
  {
    mode: "leaks-current",
    group: "power",
    name: "Motor leaks current into the water and opens the protection",
    onset: "sudden",
    of: "device",
    parts: devicesWhere(
      (device, site) =>
        WET_MOTORS.includes(device.kind) && device.on !== null && leakTrips(site, device.on, WINDING_LEAK_MA),
    ),
    inject: (bench, part) => bench.set(part, "leakMA", WINDING_LEAK_MA),
    end: {
      act: "find and unplug {part}, then close the protection",
      needs: "reset",
      minutes: 30,
      apply: unplugAndClose,
    },
    sight: "dark",
    rate: guess(0.02, "old pumps leak before they die"),
    helps: ["pumps and heaters shared out over two protected circuits", "a yearly meter test of old pumps"],
  },
  {
    mode: "socket-stays-on",
    group: "power",
    name: "Relay of a hub's socket welds shut",
    onset: "sudden",
    of: "device",
    parts: switchedDevices("return-pump", "wave-pump", "air-pump", "light", "feeder", "steriliser", "other"),
    inject: (bench, part) => bench.set(part, "socket", 1),
    end: { act: "pull the plug of {part}", needs: "unplug", minutes: 5, apply: unplug },
    sight: "nothing",
    rate: generic(0.006, "one switched channel in fifty fails in a year, a third of these closed where motors start"),
    helps: ["a sensor of power on {part}, and a notice when it draws some while switched off"],
  },
  ...batteryModes,
  {
    mode: "socket-stays-off",
    group: "power",
    name: "Relay of a hub's socket no longer closes",
    onset: "sudden",
    of: "device",
    parts: devicesWhere((device) => device.by !== null && device.kind !== "siren"),
    inject: (bench, part) => bench.set(part, "socket", -1),
    end: { act: "move {part} to a socket that works", needs: "unplug", minutes: 5, apply: mend },
    sight: "nothing",
    rate: generic(0.016, "one switched channel in fifty fails in a year, most of these open"),
    helps: ["a sensor of power or flow on {part} with a notice", "a second device on another socket"],
  },
];
