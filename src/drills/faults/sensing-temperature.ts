/** Sensors of water temperature: the ones that a heater is told by. */
import type { FaultMode } from "./fault.ts";
import { sensorsOf, sensorsWhere } from "./parts.ts";
import { guess, reported } from "./rates.ts";
import { pull, REPLACE, sensorById } from "./sensing-acts.ts";

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

export const temperatureSensorModes: readonly FaultMode[] = [
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
];
