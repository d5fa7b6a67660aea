/** Floats, levels, leaks, flow and power: what says yes or no. */
import { bodyById, type Site } from "../../site/index.ts";
import { mend } from "./ends.ts";
import type { FaultMode } from "./fault.ts";
import {
  firstOfEachKind,
  guardedBy,
  guardedByRules,
  isGuard,
  quarterly,
  sensorsOf,
  sensorsOfRule,
  sensorsWhere,
} from "./parts.ts";
import { guess, reported } from "./rates.ts";
import { pull, REPLACE, sensorById } from "./sensing-acts.ts";

/** Moves a level sensor by a share of the normal volume of its body. */
function shiftLevel(share: number): FaultMode["inject"] {
  return (bench, part) => {
    const at = sensorById(bench.site, part)?.at;
    if (at !== undefined) bench.set(part, "offset", share * bodyById(bench.site, at).volumeL);
  };
}

/** Floats that a protecting rule reads: they never move until the day they are needed. */
const guardFloats = sensorsWhere(
  (sensor, site) =>
    sensor.measures === "float" && site.rules.some((rule) => isGuard(rule) && sensorsOfRule(rule).includes(sensor.id)),
);

/** What a sensor gives away, and what the rules that read it act on. */
function guards(site: Site, part: string): readonly string[] {
  const sensor = sensorById(site, part);
  const rules = site.rules.filter((rule) => sensorsOfRule(rule).includes(part));
  const own = sensor === undefined ? [] : guardedBy(site, sensor);
  return firstOfEachKind(site, [...new Set([...own, ...guardedByRules(site, rules)])]);
}

export const contactModes: readonly FaultMode[] = [
  {
    mode: "reads-high",
    group: "sensing",
    name: "Level sensor reads too high",
    onset: "sudden",
    of: "sensor",
    parts: sensorsOf("level"),
    inject: shiftLevel(0.3),
    end: REPLACE,
    sight: "display",
    rate: guess(0.05, "films, salt, a hose that holds water"),
    helps: ["a float besides {part}", "a low-level switch that stops pump and heater"],
  },
  {
    mode: "reads-low",
    group: "sensing",
    name: "Level sensor reads too low",
    onset: "sudden",
    of: "sensor",
    parts: sensorsOf("level"),
    inject: shiftLevel(-0.3),
    end: REPLACE,
    sight: "display",
    rate: guess(0.05, "films, foam, a slipped holder"),
    helps: ["a float besides {part}", "a longest run for the top-off", "a small reservoir"],
  },
  {
    mode: "noisy",
    group: "sensing",
    name: "Level sensor is fooled by foam and waves",
    onset: "sudden",
    of: "sensor",
    parts: sensorsOf("level"),
    inject: pull("noiseFactor", 10),
    end: { act: "clean {part} and give it a tube of still water", needs: "repair", minutes: 20, apply: mend },
    sight: "display",
    rate: reported(0.3, "needs cleaning every month"),
    helps: ["a tube of still water around {part}", "a rule that waits before it acts"],
  },
  {
    mode: "stuck-wet",
    group: "sensing",
    name: "Float sticks up and always says wet",
    onset: "sudden",
    of: "sensor",
    parts: sensorsOf("float"),
    inject: pull("fixed", 1),
    end: { act: "free {part}", needs: "repair", minutes: 10, apply: mend },
    sight: "nothing",
    rate: guess(0.07, "floats in neglected sumps stick once in ten years, most often up"),
    helps: ["a second sensor of another kind", "a finger under {part} every month"],
  },
  {
    mode: "stuck-dry",
    group: "sensing",
    name: "Float hangs and always says dry",
    onset: "sudden",
    of: "sensor",
    parts: sensorsOf("float"),
    inject: pull("fixed", 0),
    end: { act: "free {part}", needs: "repair", minutes: 10, apply: mend },
    sight: "nothing",
    rate: guess(0.03, "floats in neglected sumps stick once in ten years, less often down"),
    helps: [
      "a longest run for whatever fills on it",
      "a second float above {part}",
      "a finger under {part} every month",
    ],
  },
  {
    mode: "seized",
    group: "sensing",
    name: "Guarding float is seized where it stands",
    onset: "latent",
    of: "sensor",
    parts: guardFloats,
    inject: pull("frozen", 1),
    end: { act: "free {part} and lift it", needs: "repair", minutes: 10, apply: mend },
    sight: "nothing",
    rate: guess(0.1, "a float that never moves in a neglected sump, for each year untouched"),
    helps: ["a finger under {part} every month, written down", "a second guard of another kind"],
    triedEveryMonths: (site, part) => quarterly(sensorById(site, part)?.testedMonths),
    backs: guards,
  },
  {
    mode: "shows-nothing",
    group: "sensing",
    name: "Flow sensor is blocked and shows no flow",
    onset: "sudden",
    of: "sensor",
    parts: sensorsOf("flow", "power"),
    inject: pull("fixed", 0),
    end: REPLACE,
    sight: "display",
    rate: reported(0.5, "paddles stop within months"),
    helps: ["power and flow looked at together", "a cleaned paddle every month"],
  },
  {
    mode: "dead",
    group: "sensing",
    name: "Leak sensor is dead",
    onset: "latent",
    of: "sensor",
    parts: sensorsOf("leak"),
    inject: pull("fixed", 0),
    end: REPLACE,
    sight: "nothing",
    rate: guess(0.1, "one in ten a year where nobody proves them"),
    helps: ["a wet cloth on {part} every month, written down", "a second leak sensor"],
    triedEveryMonths: (site, part) => quarterly(sensorById(site, part)?.testedMonths),
    backs: guards,
  },
  {
    mode: "false-wet",
    group: "sensing",
    name: "Leak sensor says wet on a dry floor",
    onset: "sudden",
    of: "sensor",
    parts: sensorsOf("leak"),
    inject: pull("fixed", 1),
    end: { act: "dry {part}", needs: "reset", minutes: 5, apply: mend },
    sight: "display",
    rate: reported(0.2, "splashes and damp"),
    helps: ["a rule that only tells on a first sign and acts on a second", "{part} a little off the floor"],
  },
  {
    mode: "stuck-present",
    group: "sensing",
    name: "Power sensor says that all is well whatever happens",
    onset: "latent",
    of: "sensor",
    parts: sensorsOf("mains"),
    inject: pull("fixed", 1),
    end: REPLACE,
    sight: "nothing",
    rate: guess(0.05, "welded contacts, or a sensor on the wrong side of the breaker"),
    helps: ["a trial of {part} every three months: pull its plug", "{part} at the load, behind the breaker"],
    triedEveryMonths: (site, part) => quarterly(sensorById(site, part)?.testedMonths),
    backs: guards,
  },
  {
    mode: "false-absent",
    group: "sensing",
    name: "Power sensor says that the circuit is dead",
    onset: "sudden",
    of: "sensor",
    parts: sensorsOf("mains"),
    inject: pull("fixed", 0),
    end: REPLACE,
    sight: "display",
    rate: guess(0.05, "loose plugs and dead relays"),
    helps: ["rules on power that only tell"],
  },
];
