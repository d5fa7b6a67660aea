/** What is looked at to see whether a fault shows: waters, stores, pumps and lamps, the floor. */

import { harmRatePerH, type Stressor, stressorIndex } from "../science/index.ts";
import {
  alkalinityDKH,
  ammoniaMgNL,
  floorL,
  isRunning,
  type Model,
  oxygenMgL,
  phTotal,
  type SystemModel,
  salinity,
  type Twin,
  temperatureC,
  volumeL,
} from "../twin/index.ts";
import { limitsOf } from "./limits.ts";

/** A quantity whose difference to normal life is a sign. */
export interface SignColumn {
  readonly name: string;
  /** A difference to normal life at and above which it can be measured. */
  readonly measurable: number;
  /** From which difference on someone at the glass would notice it; Infinity: never. */
  readonly visible: number;
  readonly read: (twin: Twin) => number;
  /** Values between which nothing here harms anyone nor makes anything run dry, so that a slow drift inside may go on. */
  readonly harmless: Range;
  /** Values at which a rule or a switch of a device's own would do something. */
  readonly limits: readonly number[];
  /** Room whose air moves it; -1: none. */
  readonly room: number;
}

interface Range {
  readonly from: number;
  readonly to: number;
}

const NOWHERE: Range = { from: Number.POSITIVE_INFINITY, to: Number.NEGATIVE_INFINITY };
const NEVER = Number.POSITIVE_INFINITY;
/** Oxygen mg/L, ammonia mg N/L and alkalinity dKH between which nobody comes to harm. */
const OXYGEN: Range = { from: 4.5, to: 12 };
const AMMONIA: Range = { from: -1, to: 0.1 };
const ALKALINITY: Range = { from: 4, to: 16 };
/** Devices that someone at the tank hears or sees stand still. */
const SILENT_KINDS = new Set(["return-pump", "wave-pump", "skimmer", "light", "air-pump"]);

/** The columns of these systems; the floor comes last. */
export function signColumns(model: Model, systems: readonly number[]): SignColumn[] {
  const ofSystems = systems.flatMap((index) => {
    const system = model.systems[index];
    return [
      ...system.waters.flatMap((body) => waterColumns(model, system, body)),
      ...system.stores.map((store) => storeColumn(model, store)),
      ...system.devices.flatMap((device) => deviceColumns(model, device)),
    ];
  });
  return [
    ...ofSystems,
    { name: "floor", measurable: 0.2, visible: 0.5, harmless: NOWHERE, limits: [], room: -1, read: floorL },
  ];
}

function waterColumns(model: Model, system: SystemModel, body: number): SignColumn[] {
  const { id, volumeL: normalL } = model.site.bodies[body];
  const isFloating = system.pumps.some((pump) => pump.from === body) || system.pumps.length === 0;
  const warmth = easeOf(model, body, ["heat", "cold"], { from: 14, to: 36 }, 0.25);
  const salt = easeOf(model, body, ["low-salinity", "high-salinity"], { from: 20, to: 50 }, 0.5);
  const ph = easeOf(model, body, ["low-ph", "high-ph"], { from: 7, to: 9 }, 0.05);
  const column = (
    quantity: string,
    measurable: number,
    visible: number,
    harmless: Range,
    read: (twin: Twin, body: number) => number,
  ): SignColumn => ({
    name: `${id}.${quantity}`,
    measurable,
    visible,
    harmless,
    limits: limitsOf(model.site, id, quantity),
    room: quantity === "temperature" ? model.roomOfBody[body] : -1,
    read: (twin) => read(twin, body),
  });
  return [
    column("temperature", 0.3, 1.5, warmth, temperatureC),
    column("salinity", 0.3, NEVER, salt, salinity),
    column("oxygen", 0.4, 3, OXYGEN, oxygenMgL),
    column("ph", 0.08, NEVER, ph, phTotal),
    column("ammonia", 0.05, NEVER, AMMONIA, ammoniaMgNL),
    column("alkalinity", 0.3, NEVER, ALKALINITY, alkalinityDKH),
    column("volume", Math.max(1, 0.03 * normalL), (isFloating ? 0.15 : 0.1) * normalL, NOWHERE, volumeL),
  ];
}

/** Between which values nobody in a body comes to harm: tried on the tolerances themselves, outwards from the middle. */
function easeOf(model: Model, body: number, stressors: readonly Stressor[], within: Range, step: number): Range {
  const groups = model.groups.filter((group) => group.body === body).map(({ group }) => group);
  const hurts = (x: number) =>
    groups.some((group) => stressors.some((stressor) => harmRatePerH(group, stressorIndex(stressor), x) > 0));
  let from = (within.from + within.to) / 2;
  let to = from;
  while (from > within.from && !hurts(from)) from -= step;
  while (to < within.to && !hurts(to)) to += step;
  return { from, to };
}

function storeColumn(model: Model, store: number): SignColumn {
  const { id, volumeL: normalL, intakeL, brimL } = model.site.bodies[store];
  return {
    name: `${id}.volume`,
    measurable: Math.max(0.05, 0.1 * normalL),
    visible: 0.5 * normalL,
    harmless: { from: Math.max(0.1 * normalL, 1.5 * intakeL), to: 0.98 * brimL },
    limits: limitsOf(model.site, id, "volume"),
    room: -1,
    read: (twin) => volumeL(twin, store),
  };
}

function deviceColumns(model: Model, device: number): SignColumn[] {
  const { id, kind, ownThermostatC } = model.site.devices[device];
  if (!SILENT_KINDS.has(kind) || ownThermostatC !== null) return [];
  const read = (twin: Twin) => (isRunning(twin, device) ? 1 : 0);
  return [{ name: `${id}.on`, measurable: 1, visible: 1, harmless: NOWHERE, limits: [], room: -1, read }];
}
