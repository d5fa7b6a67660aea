/** Sensors that lie, freeze, fall silent, or would not speak when it counts. */
import { bodyById, type Sensor, type Site } from "../../site/index.ts";
import { mend } from "./ends.ts";
import type { Bench, FaultMode } from "./fault.ts";
import { guardedBy, guardedByRules, isGuard, quarterly, sensorsOf, sensorsOfRule, sensorsWhere } from "./parts.ts";
import { generic, guess, reported } from "./rates.ts";

function sensorById(site: Site, id: string): Sensor | undefined {
  return site.sensors.find((sensor) => sensor.id === id);
}

/** Sets a lever to a value on the part itself. */
function pull(lever: string, value: number): FaultMode["inject"] {
  return (bench, part) => bench.set(part, lever, value);
}

/** Moves a level sensor by a share of the normal volume of its body. */
function shiftLevel(share: number): FaultMode["inject"] {
  return (bench, part) => {
    const at = sensorById(bench.site, part)?.at;
    if (at !== undefined) bench.set(part, "offset", share * bodyById(bench.site, at).volumeL);
  };
}

const REPLACE: FaultMode["end"] = { act: "replace or clean {part}", needs: "repair", minutes: 20, apply: mend };
const CALIBRATE: FaultMode["end"] = { act: "clean and calibrate {part}", needs: "repair", minutes: 30, apply: mend };
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

const TWO_PROBES = "a second temperature sensor of another kind, and a notice when they differ by 0.8 °C";

/** What a broken lead shows: a thermistor then seems deep frozen, a platinum resistor red hot. */
const LEAD_BROKEN_C = { thermistor: -40, platinum: 850 } as const;
const LEAD_SHORTED_C = { thermistor: 125, platinum: -200 } as const;

function leadFault(shown: Readonly<Record<keyof typeof LEAD_BROKEN_C, number>>): FaultMode["inject"] {
  return (bench, part) => {
    const type = sensorById(bench.site, part)?.type;
    if (type === "thermistor" || type === "platinum") bench.set(part, "fixed", shown[type]);
  };
}

const hasLead = sensorsWhere(
  (sensor) => sensor.measures === "temperature" && (sensor.type === "thermistor" || sensor.type === "platinum"),
);
const isDigital = sensorsWhere((sensor) => sensor.measures === "temperature" && sensor.type === "digital");

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
  return [...new Set([...own, ...guardedByRules(site, rules)])];
}

function onHub(site: Site, hub: string): readonly Sensor[] {
  return site.sensors.filter((sensor) => sensor.hub === hub && sensor.atKind === "body");
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
  {
    mode: "reads-low",
    group: "sensing",
    name: "Temperature sensor reads 3 °C too low",
    onset: "sudden",
    of: "sensor",
    parts: sensorsOf("temperature"),
    inject: pull("offset", -3),
    end: REPLACE,
    sight: "nothing",
    rate: guess(0.01, "a third of hard faults of temperature sensors, three in a hundred a year"),
    helps: [TWO_PROBES, "a heater thermostat of its own just above the rule's limit"],
  },
  {
    mode: "reads-high",
    group: "sensing",
    name: "Temperature sensor reads 3 °C too high",
    onset: "sudden",
    of: "sensor",
    parts: sensorsOf("temperature"),
    inject: pull("offset", 3),
    end: REPLACE,
    sight: "nothing",
    rate: guess(0.01, "a third of hard faults of temperature sensors, three in a hundred a year"),
    helps: [TWO_PROBES, "a heater with a thermostat of its own just below the rule's limit"],
  },
  {
    mode: "drifts-low",
    group: "sensing",
    name: "Temperature sensor drifts low as water creeps in",
    onset: "creeping",
    of: "sensor",
    parts: sensorsOf("temperature"),
    // From the first trace of water to nonsense in two or three weeks.
    inject: pull("offsetPerDay", -0.15),
    end: REPLACE,
    sight: "nothing",
    rate: guess(0.01, "a third of hard faults of temperature sensors, three in a hundred a year"),
    helps: [TWO_PROBES, "a monthly look with another thermometer"],
  },
  {
    mode: "lead-broken",
    group: "sensing",
    name: "Lead of the temperature sensor breaks",
    onset: "sudden",
    of: "sensor",
    parts: hasLead,
    inject: leadFault(LEAD_BROKEN_C),
    end: REPLACE,
    sight: "display",
    rate: guess(0.015, "half of hard faults of temperature sensors"),
    helps: ["a rule that acts only on values between 15 and 35 °C", TWO_PROBES],
  },
  {
    mode: "lead-shorted",
    group: "sensing",
    name: "Lead of the temperature sensor is shorted",
    onset: "sudden",
    of: "sensor",
    parts: hasLead,
    inject: leadFault(LEAD_SHORTED_C),
    end: REPLACE,
    sight: "display",
    rate: guess(0.005, "a sixth of hard faults of temperature sensors"),
    helps: ["a rule that acts only on values between 15 and 35 °C", TWO_PROBES],
  },
  {
    mode: "shows-minus-127",
    group: "sensing",
    name: "Digital temperature sensor reports -127 °C, its code for no answer",
    onset: "sudden",
    of: "sensor",
    parts: isDigital,
    inject: pull("fixed", -127),
    end: REPLACE,
    sight: "display",
    rate: reported(0.08, "a code that is often taken for a value; one installation in ten a year"),
    helps: ["a rule that acts only on values between 15 and 35 °C", TWO_PROBES],
  },
  {
    mode: "shows-85",
    group: "sensing",
    name: "Digital temperature sensor reports 85 °C, its value after a restart",
    onset: "sudden",
    of: "sensor",
    parts: isDigital,
    inject: pull("fixed", 85),
    end: REPLACE,
    sight: "display",
    rate: reported(0.02, "a code that is often taken for a value"),
    helps: ["a rule that acts only on values between 15 and 35 °C", TWO_PROBES],
  },
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
    mode: "drifts-high",
    group: "sensing",
    name: "pH probe drifts high",
    onset: "creeping",
    of: "sensor",
    parts: sensorsOf("ph"),
    // Glass drifts 0.05 to 0.1 a month; a clogged reference ten times as fast, which is taken here.
    inject: pull("offsetPerDay", 0.02),
    end: CALIBRATE,
    sight: "nothing",
    rate: reported(0.5, "probes last one to two years and need calibration every two or three months"),
    helps: [
      "calibration of {part} every two months",
      "a notice when the swing from day to night shrinks",
      "a new probe every 18 months",
    ],
  },
  {
    mode: "drifts-low",
    group: "sensing",
    name: "pH probe drifts low",
    onset: "creeping",
    of: "sensor",
    parts: sensorsOf("ph"),
    inject: pull("offsetPerDay", -0.02),
    end: CALIBRATE,
    sight: "nothing",
    rate: reported(0.5, "probes last one to two years and need calibration every two or three months"),
    helps: [
      "calibration of {part} every two months",
      "a daily limit on what follows from pH",
      "a new probe every 18 months",
    ],
  },
  {
    mode: "holds-a-bubble",
    group: "sensing",
    name: "Salinity probe holds a bubble and reads 3 too low",
    onset: "sudden",
    of: "sensor",
    parts: sensorsOf("salinity"),
    inject: pull("offset", -3),
    end: { act: "shake the bubble off {part}", needs: "reset", minutes: 5, apply: mend },
    sight: "display",
    rate: reported(0.5, "within weeks where the flow is weak"),
    helps: ["{part} hung slanted, in flow", "no automatic salt correction from one probe"],
  },
  {
    mode: "fouls",
    group: "sensing",
    name: "Salinity probe fouls and reads lower and lower",
    onset: "creeping",
    of: "sensor",
    parts: sensorsOf("salinity"),
    // One to three in a few weeks.
    inject: pull("offsetPerDay", -0.1),
    end: CALIBRATE,
    sight: "nothing",
    rate: guess(0.15, "probes that are off by more than 1 between checks"),
    helps: ["a monthly check of {part} with another instrument", "a soft brush on {part} every two weeks"],
  },
  {
    mode: "reads-high",
    group: "sensing",
    name: "Oxygen probe reads 2 mg/L too high",
    onset: "sudden",
    of: "sensor",
    parts: sensorsOf("oxygen"),
    inject: pull("offset", 2),
    end: CALIBRATE,
    sight: "nothing",
    rate: guess(0.1, "membranes and calibrations in air of the wrong warmth"),
    helps: ["calibration of {part} every month", "a notice on pumps besides"],
  },
  {
    mode: "fouls",
    group: "sensing",
    name: "Oxygen probe fouls and reads lower and lower",
    onset: "creeping",
    of: "sensor",
    parts: sensorsOf("oxygen"),
    // A film that breathes by itself: 0.3 mg/L a day at the worst.
    inject: pull("offsetPerDay", -0.3),
    end: CALIBRATE,
    sight: "nothing",
    rate: reported(0.5, "films grow in weeks"),
    helps: ["a wiped face of {part} every two weeks", "a notice that nobody learns to ignore"],
  },
  {
    mode: "reads-low",
    group: "sensing",
    name: "Alkalinity tester reads 1.5 dKH too low",
    onset: "sudden",
    of: "sensor",
    parts: sensorsOf("alkalinity"),
    inject: pull("offset", -1.5),
    end: CALIBRATE,
    sight: "nothing",
    rate: reported(0.2, "reagents that differ from batch to batch or are out of date"),
    helps: ["a weekly test by hand", "a limit on what is corrected in a day", "a sample of known alkalinity"],
  },
  {
    mode: "reads-high",
    group: "sensing",
    name: "Alkalinity tester reads 1.5 dKH too high",
    onset: "sudden",
    of: "sensor",
    parts: sensorsOf("alkalinity"),
    inject: pull("offset", 1.5),
    end: CALIBRATE,
    sight: "nothing",
    rate: reported(0.2, "reagents that differ from batch to batch or are out of date"),
    helps: ["a weekly test by hand", "a limit on what is corrected in a day", "a sample of known alkalinity"],
  },
  {
    mode: "fouls",
    group: "sensing",
    name: "Redox probe fouls and reads lower and lower",
    onset: "creeping",
    of: "sensor",
    parts: sensorsOf("orp"),
    // 50 to 100 mV in a few weeks.
    inject: pull("offsetPerDay", -5),
    end: CALIBRATE,
    sight: "nothing",
    rate: reported(1, "needs cleaning every month"),
    helps: ["a monthly cleaning of {part}", "nothing dosed by redox alone"],
  },
  {
    mode: "noisy",
    group: "sensing",
    name: "Probe jumps about with stray current",
    onset: "sudden",
    of: "sensor",
    parts: sensorsOf("ph", "salinity", "orp"),
    inject: pull("noiseFactor", 15),
    end: { act: "find the leaking device and part {part} from it", needs: "repair", minutes: 45, apply: mend },
    sight: "display",
    rate: reported(0.2, "common with old pumps and shared supplies"),
    helps: ["a rule that waits for some minutes before it acts", "inputs that are isolated from each other"],
  },
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
