import type { DrillReport, Sensor, Site } from "../../server/contract/index.ts";
import { words } from "../words.ts";

/** What is known about a kind of curve: its unit, its digits, and how large a change of it is worth looking at. */
interface QuantityFacts {
  readonly unit: string;
  readonly digits: number;
  /** In the unit of the quantity; volumes are judged by their share instead. */
  readonly notable: number;
}

const FACTS: Readonly<Record<string, QuantityFacts>> = {
  temperature: { unit: "°C", digits: 1, notable: 1 },
  oxygen: { unit: "mg/L", digits: 1, notable: 1 },
  ph: { unit: "", digits: 2, notable: 0.2 },
  salinity: { unit: "", digits: 1, notable: 1 },
  alkalinity: { unit: "dKH", digits: 1, notable: 1 },
  calcium: { unit: "mg/L", digits: 0, notable: 40 },
  magnesium: { unit: "mg/L", digits: 0, notable: 80 },
  ammonia: { unit: "mg/L", digits: 2, notable: 0.1 },
  nitrite: { unit: "mg/L", digits: 2, notable: 1 },
  nitrate: { unit: "mg/L", digits: 1, notable: 10 },
  phosphate: { unit: "mg/L", digits: 2, notable: 0.2 },
  volume: { unit: "L", digits: 0, notable: 20 },
  co2: { unit: "ppm", digits: 0, notable: 1000 },
  orp: { unit: "mV", digits: 0, notable: 100 },
  humidity: { unit: "%", digits: 0, notable: 40 },
  energy: { unit: "Wh", digits: 0, notable: 1e9 },
  flow: { unit: "L/h", digits: 0, notable: 1e9 },
  light: { unit: "µmol/m²s", digits: 0, notable: 1e9 },
  omega: { unit: "", digits: 1, notable: 1.5 },
  air: { unit: "°C", digits: 1, notable: 4 },
  water: { unit: "L", digits: 0, notable: 2 },
  power: { unit: "W", digits: 0, notable: 1e9 },
  on: { unit: "", digits: 0, notable: 1e9 },
};

const UNKNOWN: QuantityFacts = { unit: "", digits: 2, notable: 1e9 };
/** Share of a volume whose change is worth looking at. */
const NOTABLE_SHARE = 0.12;
/** Longest first, so that the longer of two names that begin alike is found. */
const NAMES = Object.keys(FACTS).sort((a, b) => b.length - a.length);

/** One curve of a trace: a quantity of a part. */
export interface Curve extends QuantityFacts {
  /** Its key in the trace. */
  readonly key: string;
  readonly part: string;
  readonly quantity: string;
  readonly name: string;
  /** Sensors that measure just this. */
  readonly sensors: readonly string[];
  /** What its values are multiplied with to be in its unit: a device that is on takes its power. */
  readonly factor: number;
  /** Only what sensors say of it is shown. */
  readonly sensedOnly?: boolean;
}

/** Key by which a sensor is chosen, beside those of the true curves. */
export function sensedKey(sensor: string): string {
  return `${SENSED}${sensor}`;
}

const SENSED = "sensed:";
/** More than this of a true quantity is not needed to tell curves apart. */
const CONTACTS: ReadonlySet<string> = new Set(["leak", "float", "mains"]);

/** One thing that can be chosen to be shown: a true quantity, or what a sensor says. */
export interface Choosable {
  readonly key: string;
  readonly part: string;
  readonly quantity: string;
  readonly name: string;
  readonly sensor: string | null;
}

/** All that can be shown of waters and air, by part: what is true first, then what sensors say of it. */
export function choosable(waters: readonly Curve[], report: DrillReport, site: Site): readonly Choosable[] {
  const truths = waters.map(({ key, part, quantity, name }) => ({ key, part, quantity, name, sensor: null }));
  const sensors = site.sensors.filter(({ id }) => id in report.trace.sensed);
  const sensed = sensors.map((sensor) => {
    const quantity = measured(sensor);
    return {
      key: sensedKey(sensor.id),
      part: sensor.at,
      quantity,
      name: words.quantity[quantity] ?? words.measures[sensor.measures],
      sensor: sensor.id,
    };
  });
  return [...truths, ...sensed];
}

/** The sensors of a true curve, as keys: chosen with it, since they are what rules see of it. */
export function withSensors(keys: readonly string[], waters: readonly Curve[]): readonly string[] {
  const sensors = keys.flatMap((key) => waters.find((curve) => curve.key === key)?.sensors ?? []);
  return [...new Set([...keys, ...sensors.map(sensedKey)])];
}

/** One lane for each quantity of a part of which anything is chosen, in the order of choice. */
export function lanesOf(
  shown: readonly string[],
  waters: readonly Curve[],
  all: readonly Choosable[],
): readonly Curve[] {
  const byKey = new Map(all.map((each) => [each.key, each]));
  const lanes = new Map<string, Curve>();
  for (const key of shown) {
    const choice = byKey.get(key);
    if (choice === undefined) continue;
    const lane = `${choice.part} ${choice.quantity}`;
    const known = lanes.get(lane);
    const truth = choice.sensor === null ? waters.find((curve) => curve.key === key) : undefined;
    if (truth !== undefined) lanes.set(lane, { ...truth, sensors: known?.sensors ?? [] });
    else if (known !== undefined) lanes.set(lane, { ...known, sensors: [...known.sensors, choice.sensor ?? ""] });
    else lanes.set(lane, sensedLane(choice));
  }
  return [...lanes.values()];
}

function sensedLane({ key, part, quantity, name, sensor }: Choosable): Curve {
  const facts = FACTS[quantity] ?? (CONTACTS.has(quantity) ? { ...UNKNOWN, digits: 0, notable: 0.5 } : UNKNOWN);
  return { key, part, quantity, name, sensors: [sensor ?? ""], factor: 1, sensedOnly: true, ...facts };
}

/** All curves of water, and those of devices, of a report. */
export function curvesOf(
  report: DrillReport,
  site: Site,
): { readonly waters: readonly Curve[]; readonly devices: readonly Curve[] } {
  const powers = new Map(site.devices.map(({ id, powerW }) => [id, powerW]));
  const curves = Object.keys(report.trace.truth).map((key) => curveOf(key, report, site));
  return {
    waters: curves.filter(({ part }) => !powers.has(part)),
    devices: curves
      .filter(({ part, quantity }) => powers.has(part) && (quantity === "power" || quantity === "on"))
      .map((curve) => (curve.quantity === "on" ? asPower(curve, powers.get(curve.part) ?? 0) : curve)),
  };
}

/** A device without a stated power keeps its "on". */
function asPower(curve: Curve, powerW: number): Curve {
  return powerW === 0
    ? curve
    : { ...curve, ...FACTS.power, quantity: "power", name: words.quantity.power, factor: powerW };
}

/** The key of a curve is "part.quantity"; a unit written behind the quantity does no harm. */
function curveOf(key: string, report: DrillReport, site: Site): Curve {
  const dot = key.lastIndexOf(".");
  const part = dot < 0 ? "" : key.slice(0, dot);
  const written = key.slice(dot + 1);
  const quantity =
    NAMES.find((name) =>
      written
        .toLowerCase()
        .replace(/[^a-z0-9]/g, "")
        .startsWith(name),
    ) ?? written;
  const facts = FACTS[quantity] ?? UNKNOWN;
  const start = report.trace.truth[key]?.[0] ?? 0;
  return {
    key,
    part,
    quantity,
    name: words.quantity[quantity] ?? written,
    sensors: site.sensors
      .filter((sensor) => sensor.at === part && measured(sensor) === quantity && sensor.id in report.trace.sensed)
      .map(({ id }) => id),
    factor: 1,
    ...facts,
    ...(quantity === "volume"
      ? { notable: Math.max(1, Math.abs(start) * NOTABLE_SHARE), digits: Math.abs(start) < 20 ? 1 : 0 }
      : {}),
  };
}

/** A sensor's quantity in the words of the trace. */
function measured(sensor: Sensor): string {
  if (sensor.measures === "level") return "volume";
  return sensor.measures === "air-temperature" ? "air" : sensor.measures;
}

/** How far a curve goes from where it began, in notable changes, inside the shown span. */
function departure(curve: Curve, report: DrillReport, endMin: number): number {
  const { t_min: times, truth } = report.trace;
  const values = truth[curve.key] ?? [];
  const unattended = report.unattended.trace.truth[curve.key] ?? [];
  let largest = 0;
  for (let i = 0; i < times.length && times[i] <= endMin; i++) {
    largest = Math.max(
      largest,
      Math.abs(values[i] - values[0]),
      0.5 * Math.abs((unattended[i] ?? values[i]) - values[0]),
    );
  }
  return Number.isFinite(largest) ? largest / curve.notable : 0;
}

/** Most curves that a page opens with. */
const SHOWN_AT_FIRST = 2;

/**
 * The curves that tell the drill: those that move most, one of each quantity, and of a display rather than of its sump where
 * both say about the same.
 */
export function tellingCurves(
  waters: readonly Curve[],
  report: DrillReport,
  site: Site,
  endMin: number,
): readonly string[] {
  const displays = new Set(site.bodies.filter(({ role }) => role === "display" || role === "frag").map(({ id }) => id));
  const near = new Set(
    site.bodies.filter(({ system }) => report.system === null || system === report.system).map(({ id }) => id),
  );
  const stores = new Set(
    site.bodies.filter(({ role }) => role === "reservoir" || role === "container").map(({ id }) => id),
  );
  const preference = ({ part }: Curve): number =>
    (displays.has(part) ? 1.5 : 1) * (near.has(part) ? 1 : 0.2) * (stores.has(part) ? 0.3 : 1);
  const scored = waters.map((curve) => ({ curve, score: departure(curve, report, endMin) * preference(curve) }));
  scored.sort((a, b) => b.score - a.score);
  const picked = scored.filter(({ curve }) => curve.key === report.telling);
  for (const candidate of scored) {
    if (picked.length > 0 && candidate.score < 1) break;
    if (!picked.some(({ curve }) => curve.quantity === candidate.curve.quantity)) picked.push(candidate);
    if (picked.length === SHOWN_AT_FIRST) break;
  }
  return picked.map(({ curve }) => curve.key);
}

/** Devices that change their state inside the span, those of the fault first. */
export function tellingDevices(devices: readonly Curve[], report: DrillReport, endMin: number): readonly Curve[] {
  const faulty = new Set(report.faults.map(({ part }) => part));
  const { t_min: times, truth } = report.trace;
  const changes = (curve: Curve): boolean => {
    const values = truth[curve.key] ?? [];
    return values.some((value, i) => times[i] <= endMin && Math.abs(value - values[0]) > 0.5);
  };
  const first = devices.filter(({ part }) => faulty.has(part));
  const others = devices.filter((curve) => !faulty.has(curve.part) && changes(curve));
  return [...first, ...others];
}
