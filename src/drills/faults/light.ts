/** Light that stays on, stays off, or is not what it was. */
import { mend, unplugAndClose } from "./ends.ts";
import type { FaultMode } from "./fault.ts";
import { devicesOf, devicesWhere, leakTrips } from "./parts.ts";
import { guess, reported } from "./rates.ts";

const FALLEN_LEAK_MA = 300;

export const lightModes: readonly FaultMode[] = [
  {
    mode: "stays-on",
    group: "light",
    name: "Light's timer sticks and it shines day and night",
    onset: "sudden",
    of: "device",
    parts: devicesWhere((device) => device.kind === "light" && device.schedule.length > 0),
    inject: (bench, part) => bench.set(part, "schedule", 1),
    end: { act: "set the timer of {part} again", needs: "reset", minutes: 10, apply: mend },
    sight: "nothing",
    rate: guess(0.03, "timers and sockets of this kind"),
    helps: ["a light sensor with a notice at night", "a rule that cuts {part} off when the water is warm"],
  },
  {
    mode: "stays-off",
    group: "light",
    name: "Light stays off",
    onset: "sudden",
    of: "device",
    parts: devicesOf("light"),
    inject: (bench, part) => bench.set(part, "dead", 1),
    end: { act: "replace the supply of {part}", needs: "repair", minutes: 20, apply: mend },
    sight: "dark",
    rate: guess(0.025, "drivers and fans of lamps, one in forty a year"),
    helps: ["a second lamp", "a light sensor with a notice at noon"],
  },
  {
    mode: "full-power",
    group: "light",
    name: "Light comes back at full power after a reset",
    onset: "sudden",
    of: "device",
    parts: devicesOf("light"),
    inject: (bench, part) => bench.set(part, "output", 2),
    end: { act: "set the strength of {part} again", needs: "reset", minutes: 10, apply: mend },
    sight: "nothing",
    rate: reported(0.05, "after updates and power cuts"),
    helps: ["a lamp that keeps its settings without power", "a light sensor with a limit"],
  },
  {
    mode: "clock-wrong",
    group: "light",
    name: "Light's clock is eight hours off",
    onset: "sudden",
    of: "device",
    parts: devicesWhere((device) => device.kind === "light" && device.schedule.length > 0),
    inject: (bench, part) => bench.set(part, "clockH", 8),
    end: { act: "set the clock of {part}", needs: "reset", minutes: 10, apply: mend },
    sight: "dark",
    rate: reported(0.1, "after a power cut, or with the time zone of a travelling phone"),
    helps: ["a timer that keeps its time without power", "a light sensor with a notice at noon"],
  },
  {
    mode: "fades",
    group: "light",
    name: "Light grows dim as its own fan seizes",
    onset: "creeping",
    of: "device",
    parts: devicesOf("light"),
    // Diodes fade over years, but a lamp whose fan has seized throttles itself within weeks.
    inject: (bench, part) => bench.set(part, "outputPerDay", -0.03),
    end: { act: "clean or replace the fan of {part}", needs: "repair", minutes: 30, apply: mend },
    sight: "noise",
    rate: guess(0.3, "small fans in salt air last one to three years"),
    helps: ["a yearly measurement of light", "a new fan every two years"],
  },
  {
    mode: "falls-in-wet",
    group: "light",
    name: "Lamp falls into the water and opens the protection",
    onset: "sudden",
    of: "device",
    parts: devicesWhere(
      (device, site) => device.kind === "light" && device.on !== null && leakTrips(site, device.on, FALLEN_LEAK_MA),
    ),
    inject(bench, part) {
      bench.set(part, "output", 0);
      bench.set(part, "leakMA", FALLEN_LEAK_MA);
    },
    end: {
      act: "unplug {part}, take it out and close the breaker",
      needs: "reset",
      minutes: 20,
      apply: unplugAndClose,
    },
    sight: "dark",
    rate: guess(0.005, "hangers and clamps that let go"),
    helps: ["a second hanger on {part}", "lights on another protected circuit than pumps"],
  },
];
