/** Devices, from what was written of them. */
import { formatNumber, mustHave, parseQuantity, parseWindow } from "../../foundation/index.ts";
import { DEVICE_KEYS, KINDS_OF_KEY, OWN_FLOAT_KEYS } from "../keys/devices.ts";
import type { Battery, Body, Device, Hub } from "../model.ts";
import type { Written, WrittenPart } from "../shape/fields.ts";
import type { Found } from "../shape/reader.ts";
import type { Building, Taker } from "./building.ts";
import { asFound, rounded, takerFor, valuesOf, withArticle } from "./building.ts";
import type { RuleSketch } from "./rule-sketch.ts";
import type { Served } from "./usual-devices.ts";
import { HEAT_SHARE, USUAL_DOSES, usualFlowLPerH, usualPar, usualPowerW } from "./usual-devices.ts";

type Keys = typeof DEVICE_KEYS;
type DeviceTaker = Taker<Keys>;

export interface Surroundings {
  readonly bodies: readonly Body[];
  readonly hubs: readonly Hub[];
  readonly batteries: readonly Battery[];
  readonly firstCircuit: string;
  /** How many circuits there are to choose from. */
  readonly circuits: number;
  readonly rules: RuleSketch;
}

const DAYLIGHT = mustHave(parseWindow("10:00-20:00"));
const USUAL_TEMPERATURE_C = 25.5;
/** What scale and snails can hold. */
const PUMPS: readonly Device["kind"][] = ["return-pump", "wave-pump", "skimmer"];
/** A float lets the level fall by about 3 mm before it fills again. */
const FLOAT_PLAY_M = 0.003;

function salt(body: Body): boolean {
  return body.holds.kind === "salt" && body.role !== "reservoir" && body.role !== "container";
}

function servedBy(body: Body, bodies: readonly Body[]): Served {
  const running = bodies.filter((other) => other.system === body.system && salt(other));
  const displays = running.filter((other) => other.role === "display" || other.role === "frag");
  return {
    systemL: running.reduce((total, other) => total + other.volumeL, 0) || body.volumeL,
    bodyL: body.volumeL,
    bodySurfaceM2: body.surfaceM2,
    displayL: Math.max(...displays.map((other) => other.volumeL), 0) || body.volumeL,
  };
}

function checkKeysFitKind(building: Building, part: WrittenPart<Keys>, kind: Device["kind"]): void {
  for (const [key, kinds] of Object.entries(KINDS_OF_KEY)) {
    const found = part.written[key as keyof Keys];
    if (found === undefined || kinds.includes(kind)) continue;
    const owners = kinds.map(withArticle).join(" or ");
    building.error(
      found,
      `${part.id}.${key}`,
      "device/key-of-other-kind",
      `'${key}' belongs to ${owners}; ${part.id} is ${withArticle(kind)}`,
      "take the key out, or check the kind",
    );
  }
}

/** Heat into the water, W, from a share of the electrical power or from a power. */
function heatW(
  building: Building,
  id: string,
  kind: Device["kind"],
  powerW: number,
  written: Found<string> | undefined,
): number {
  if (written === undefined) return rounded(powerW * HEAT_SHARE[kind], 3);
  const percent = /^([+-]?[\d.]+)\s*%$/.exec(written.value);
  if (percent !== null && Number.isFinite(Number(percent[1])) && Math.abs(Number(percent[1])) <= 600) {
    return rounded((powerW * Number(percent[1])) / 100, 3);
  }
  const result = parseQuantity(written.value, "power");
  if (result.ok) return result.value.value;
  building.error(
    written,
    `${id}.heat`,
    result.problem.code,
    result.problem.message,
    "write the heat like 30 W, or as a share of the electrical power like 80 %",
  );
  return 0;
}

/** What is given a day: mL of a doser, g of a feeder, L of a water change. */
function amountPerDay(
  building: Building,
  id: string,
  kind: Device["kind"],
  written: Found<string> | undefined,
): number {
  if (written === undefined) return 0;
  const dimension = kind === "feeder" ? "mass per day" : "flow";
  const result = parseQuantity(written.value, dimension, { max: 1e5 });
  if (!result.ok) {
    const example = kind === "feeder" ? "2 g/d" : kind === "water-change" ? "4 L/d" : "40 mL/d";
    building.error(
      written,
      `${id}.amount`,
      result.problem.code,
      result.problem.message,
      `write what it gives a day, like ${example}`,
    );
    return 0;
  }
  const perDay = kind === "feeder" ? result.value.value : result.value.value * 24;
  return rounded(kind === "doser" ? perDay * 1000 : perDay, 6);
}

/** The only body of the same system that such a device can draw from. */
function usualSource(kind: Device["kind"], body: Body, bodies: readonly Body[]): string | null {
  const fits = (other: Body): boolean => {
    if (other.system !== body.system || other.id === body.id) return false;
    if (kind === "top-off") return other.holds.kind === "fresh" || other.holds.kind === "limewater";
    return kind === "water-change" && other.holds.kind === "salt" && other.role === "reservoir";
  };
  const sources = bodies.filter(fits);
  return sources.length === 1 ? sources[0].id : null;
}

function sourceOf(
  building: Building,
  part: WrittenPart<Keys>,
  kind: Device["kind"],
  body: Body,
  bodies: readonly Body[],
  take: DeviceTaker,
): string | null {
  const { from } = part.written;
  if (from !== undefined) {
    if (from.value !== null && !building.refers(from.value, from.place, ["body"], `${part.id}.from`)) return null;
    return from.value;
  }
  const needed = kind === "top-off" || kind === "doser" || kind === "water-change";
  if (!needed) return null;
  const source = usualSource(kind, body, bodies);
  if (source === null) {
    const hint =
      kind === "doser" ? "write from: the container of its solution" : "write from: the reservoir it draws from";
    building.error(part, `${part.id}.from`, "device/no-source", `it is not said where ${part.id} draws from`, hint);
    return null;
  }
  return take("from", source);
}

/** Circuit of the plug. A battery may stand between: then it carries the device and its own circuit feeds it. */
function plugOf(
  building: Building,
  part: WrittenPart<Keys>,
  around: Surroundings,
  take: DeviceTaker,
): { on: string | null; battery: string | null } {
  const { on } = part.written;
  if (on === undefined)
    return { on: take("on", around.firstCircuit, around.circuits === 1 ? 3 : undefined), battery: null };
  if (on.value === null) return { on: null, battery: null };
  if (!building.refers(on.value, on.place, ["circuit", "battery"], `${part.id}.on`)) return { on: null, battery: null };
  const battery = around.batteries.find((entry) => entry.id === on.value);
  return battery === undefined ? { on: on.value, battery: null } : { on: battery.on, battery: battery.id };
}

function hubOf(building: Building, part: WrittenPart<Keys>, around: Surroundings, take: DeviceTaker): string | null {
  const { by } = part.written;
  if (by === undefined) return take("by", around.rules.hubThatSwitches(part.id));
  if (by.value !== null && !building.refers(by.value, by.place, ["hub"], `${part.id}.by`)) return null;
  return by.value;
}

function usualThermostat(kind: Device["kind"], body: Body, switched: boolean): number | null {
  const temperatureC = body.holds.kind === "salt" ? body.holds.temperatureC : USUAL_TEMPERATURE_C;
  if (switched) return null;
  if (kind === "heater") return temperatureC;
  return kind === "chiller" || kind === "fan" ? temperatureC + 1.5 : null;
}

function ownFloat(
  building: Building,
  part: WrittenPart<Keys>,
  kind: Device["kind"],
  body: Body,
  switched: boolean,
): Device["ownFloat"] {
  const found = part.written["own-float"];
  const line = found?.place.line ?? part.idPlace.line;
  if (kind !== "top-off" && kind !== "refill-valve") return null;
  if (found === undefined && switched) return null;
  if (found?.value === null) return null;
  const written: Written<typeof OWN_FLOAT_KEYS> = found?.value ?? {};
  const take = takerFor(building, part.id, line, OWN_FLOAT_KEYS, written);
  const offL = written["stops-at"]?.value ?? body.volumeL;
  const onL = written["fills-below"]?.value ?? rounded(Math.max(0, offL - FLOAT_PLAY_M * body.surfaceM2 * 1000), 2);
  if (found === undefined) {
    const value = `fills below ${formatNumber(onL)} L, stops at ${formatNumber(offL)} L`;
    building.noteDefault(part.id, "own-float", value, 2, "it keeps the body at its volume", line);
  }
  return { onL, offL, spareL: take("spare-stops-at", null), longestRunS: take("longest-run", null) };
}

function restOf(kind: Device["kind"], spare: boolean, around: Surroundings, id: string): "on" | "off" {
  return spare || kind === "siren" || around.rules.switchesOn(id) ? "off" : "on";
}

/** True where a cut-out, a second float or a run limit of its own stands behind the first. */
function hasSafeguard(written: Written<Keys>): boolean {
  const float = written["own-float"]?.value ?? null;
  const cutOut = written["cut-out"]?.value ?? null;
  return cutOut !== null || float?.["spare-stops-at"] !== undefined || float?.["longest-run"] !== undefined;
}

function buildDevice(
  building: Building,
  part: WrittenPart<Keys>,
  around: Surroundings,
): { device: Device; battery: string | null } | null {
  const { id, written } = part;
  if (written.kind === undefined || written.in === undefined) return null;
  const kind = written.kind.value;
  if (!building.refers(written.in.value, written.in.place, ["body"], `${id}.in`)) return null;
  const body = around.bodies.find((entry) => entry.id === written.in?.value);
  if (body === undefined) return null;
  checkKeysFitKind(building, part, kind);
  const take = takerFor(building, id, part.idPlace.line, DEVICE_KEYS, written);
  const served = servedBy(body, around.bodies);
  const flowLPerH =
    usualFlowLPerH(kind, served) > 0 ? take("flow", usualFlowLPerH(kind, served)) : (written.flow?.value ?? 0);
  const powerW = take("power", usualPowerW(kind, flowLPerH, served));
  const plug = plugOf(building, part, around, take);
  const by = hubOf(building, part, around, take);
  const switched = by !== null && around.rules.switches(id);
  const thermal = kind === "heater" || kind === "chiller" || kind === "fan";
  const amount = amountPerDay(building, id, kind, written.amount);
  const spare = written.spare?.value ?? null;
  const ageMonths = take("age", 12);
  const device: Device = {
    id,
    kind,
    system: body.system,
    in: body.id,
    from: sourceOf(building, part, kind, body, around.bodies, take),
    powerW,
    heatW: heatW(building, id, kind, powerW, written.heat),
    flowLPerH,
    on: plug.on,
    by,
    withoutHub: by === null ? (written["without-hub"]?.value ?? "as it was") : take("without-hub", "as it was"),
    normally: take("normally", restOf(kind, spare !== null, around, id)),
    ownThermostatC: thermal ? take("own-thermostat", usualThermostat(kind, body, switched)) : null,
    ownHysteresisC: thermal ? take("own-hysteresis", 0.5) : 0.5,
    cutOutC: kind === "heater" ? take("cut-out", null) : (written["cut-out"]?.value ?? null),
    ownFloat: ownFloat(building, part, kind, body, switched),
    schedule: valuesOf(kind === "light" ? take("schedule", asFound([DAYLIGHT])) : (written.schedule?.value ?? [])),
    amountPerDay: amount,
    dosesPerDay:
      kind in USUAL_DOSES && amount > 0
        ? take("doses", USUAL_DOSES[kind] ?? 1)
        : (written.doses?.value ?? USUAL_DOSES[kind] ?? 1),
    holdsG: kind === "feeder" ? take("holds", 7 * amount) : 0,
    par: kind === "light" ? take("par", usualPar(body.livestock.corals)) : 0,
    canSiphon:
      kind === "top-off" || kind === "water-change"
        ? take("can-siphon", true)
        : (written["can-siphon"]?.value ?? false),
    spare: spare === null ? null : { lastTriedMonths: spare["last-tried"]?.value ?? null },
    ageMonths,
    cleanedMonths: take("cleaned", Math.min(6, ageMonths), PUMPS.includes(kind) ? undefined : 3),
    batch: written.batch?.value ?? null,
    testedMonths: hasSafeguard(written) ? take("tested", null) : (written.tested?.value ?? null),
  };
  return { device, battery: plug.battery };
}

export interface BuiltDevices {
  readonly devices: readonly Device[];
  /** Devices that are plugged into a battery. */
  readonly onBattery: readonly { readonly id: string; readonly on: string }[];
}

export function buildDevices(
  building: Building,
  parts: readonly WrittenPart<Keys>[],
  around: Surroundings,
): BuiltDevices {
  const built = parts.map((part) => buildDevice(building, part, around)).filter((entry) => entry !== null);
  const onBattery = built.flatMap(({ device, battery }) => (battery === null ? [] : [{ id: device.id, on: battery }]));
  return { devices: built.map((entry) => entry.device), onBattery };
}
