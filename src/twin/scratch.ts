/**
 * The scratch space of a twin: what a step works out on its way. Nothing here has to outlive a restore; all of it follows
 * from the state.
 */
import { hashText } from "../foundation/index.ts";
import { makeRuleOutput, type RuleOutput } from "../rules/index.ts";
import { CARBONATE_SIZE, STRESSORS } from "../science/index.ts";
import { BODY_COLUMNS, MASS, ROOM_COLUMNS, TRANSPORTED } from "./columns.ts";
import { type Model, mostWaters, type SystemModel } from "./model.ts";
import type { Edges } from "./timer-edges.ts";

/** Columns of the per-body slow quantities, worked out once a step. */
export const SLOW = {
  temperatureC: 0,
  salinity: 1,
  kgPerL: 2,
  q10: 3,
  oxygenSaturation: 4,
  oxygenKgH: 5,
  carbonKgH: 6,
  co2Equilibrium: 7,
  lossWPerK: 8,
  airC: 9,
  evaporationKgH: 10,
  heatW: 11,
  light: 12,
  skim: 13,
  fishOxygen: 14,
  /** Number of the rounded water whose constants stand. */
  roundedWater: 15,
} as const;
export const SLOW_COLUMNS = 16;

/** What is known of the next step of a system: nothing, all, or all but what heats it. */
export const PLAN = { none: 0, stands: 1, butHeat: 2 } as const;

/** Flows of one system as planned for the next step; by local place. */
export interface SystemFlows {
  /** kg/h, row = to, column = from. */
  readonly exchange: Float64Array;
  /** Amounts carried in from elsewhere, mol/h, kg/h, J/h. */
  readonly carried: Float64Array;
  /** Water that leaves the circulation, and the part of it that goes to the floor, kg/h. */
  readonly lostKgH: Float64Array;
  readonly floorKgH: Float64Array;
}

/** Space for one step of one system: as large as the largest needs. */
export interface StepSpace {
  readonly lower: Float64Array;
  readonly oxygenLower: Float64Array;
  readonly carbonLower: Float64Array;
  readonly oxygen: Float64Array;
  readonly carbon: Float64Array;
  /** What a step changes, as it was before. */
  readonly undo: Float64Array;
}

/** Marks that follow from the state. */
export interface Pending {
  /** Which circuits live has to be worked out anew. */
  powerMoved: boolean;
  /** Steps taken since the twin was made, for benchmarks. */
  steps: number;
}

/** What a looker sees, by sensor of the site; of those that are not its own it hears nothing. */
export interface View {
  readonly readings: Float64Array;
  readonly heard: Float64Array;
  readonly output: RuleOutput;
}

/** What follows from temperature and salinity alone. */
export interface KnownWater {
  readonly constants: Float64Array;
  readonly kgPerL: number;
  /** mol/kg */
  readonly oxygenSaturation: number;
  /** Rates of life and of the breathing of fish, against 26 degrees C. */
  readonly q10: number;
  readonly fishOxygen: number;
}

export interface Scratch {
  readonly slow: Float64Array;
  /** Carbonate constants of each body; those of the same rounded water are one array, which nobody may change. */
  readonly constants: Float64Array[];
  /** What is known of rounded waters that any twin of the site has met before, by their number (slow.ts). */
  readonly waters: Map<number, KnownWater>;
  /** Planned flows of each system. */
  readonly flows: readonly SystemFlows[];
  readonly step: StepSpace;
  /** By system: PLAN; and how long it holds, s. */
  readonly plan: Uint8Array;
  readonly replanS: Float64Array;
  /** When something falls due by the clock, by system, s. */
  readonly habitS: Float64Array;
  /** How far what is dissolved in a system lies behind its heat, h, and the mass of each water then, kg. */
  readonly lagH: Float64Array;
  readonly lagKg: Float64Array;
  /** How fast the water harmed each group then, by group and stressor, 1/h. */
  readonly harmRate: Float64Array;
  /** By system: 1 where it harmed any. */
  readonly harms: Uint8Array;
  /** What each device that draws on a store takes there in an hour, by device: J, kg, mol, then its water. */
  readonly gifts: Float64Array;
  /** Change of each body's water by flows and evaporation, kg/h; by body of the site. */
  readonly netKgH: Float64Array;
  /** What each device carries, L/h. */
  readonly deviceFlow: Float64Array;
  readonly circuitLive: Uint8Array;
  /** By looker. */
  readonly views: readonly View[];
  readonly sensorStream: Int32Array;
  /** What each system gives to each room: W and kg/h, by system and room. */
  readonly roomHeatW: Float64Array;
  readonly roomVapourKgH: Float64Array;
  /** Air of each room as last seen: degrees C, kg/kg, and the relative humidity that follows. */
  readonly roomAir: Float64Array;
  /** Times at which a timer turns something, by island, and the place of the next of them. */
  readonly timerEdges: readonly Float64Array[];
  readonly edge: Int32Array;
  /** Times at which something changes in a room. */
  readonly roomEdges: Float64Array;
  readonly next: Pending;
}

export function makeScratch(model: Model, edges: Edges): Scratch {
  const { site } = model;
  return {
    slow: new Float64Array(site.bodies.length * SLOW_COLUMNS).fill(Number.NaN),
    constants: site.bodies.map(() => new Float64Array(CARBONATE_SIZE)),
    waters: watersOf(model),
    flows: model.systems.map(makeFlows),
    step: makeStepSpace(model),
    plan: new Uint8Array(model.systems.length),
    replanS: new Float64Array(model.systems.length),
    habitS: new Float64Array(model.systems.length),
    lagH: new Float64Array(model.systems.length),
    lagKg: new Float64Array(site.bodies.length),
    harms: new Uint8Array(model.systems.length),
    harmRate: new Float64Array(model.groups.length * STRESSORS.length),
    gifts: new Float64Array(site.devices.length * (MASS + 1)),
    netKgH: new Float64Array(site.bodies.length),
    deviceFlow: new Float64Array(site.devices.length),
    circuitLive: new Uint8Array(site.circuits.length),
    views: model.lookers.map(({ table }) => ({
      readings: new Float64Array(site.sensors.length).fill(Number.NaN),
      heard: new Float64Array(site.sensors.length).fill(Number.POSITIVE_INFINITY),
      output: makeRuleOutput(table),
    })),
    sensorStream: Int32Array.from(site.sensors, (sensor) => hashText(sensor.id) | 0),
    roomHeatW: new Float64Array(model.systems.length * site.rooms.length),
    roomVapourKgH: new Float64Array(model.systems.length * site.rooms.length),
    roomAir: new Float64Array(site.rooms.length * 3).fill(Number.NaN),
    timerEdges: edges.timers,
    edge: new Int32Array(edges.timers.length),
    roomEdges: edges.rooms,
    next: {
      powerMoved: true,
      steps: 0,
    },
  };
}

const knownWaters = new WeakMap<Model, Map<number, KnownWater>>();

/** What follows from a water alone is worked out once for all twins of a site. */
function watersOf(model: Model): Map<number, KnownWater> {
  const known = knownWaters.get(model) ?? new Map<number, KnownWater>();
  knownWaters.set(model, known);
  return known;
}

function makeFlows({ waters: { length } }: SystemModel): SystemFlows {
  return {
    exchange: new Float64Array(length * length),
    carried: new Float64Array(length * TRANSPORTED),
    lostKgH: new Float64Array(length),
    floorKgH: new Float64Array(length),
  };
}

function makeStepSpace(model: Model): StepSpace {
  const { site } = model;
  const most = mostWaters(model);
  return {
    lower: new Float64Array(most * most),
    oxygenLower: new Float64Array(most * most),
    carbonLower: new Float64Array(most * most),
    oxygen: new Float64Array(most),
    carbon: new Float64Array(most),
    undo: new Float64Array(
      (site.bodies.length + site.devices.length) * BODY_COLUMNS + site.rooms.length * ROOM_COLUMNS,
    ),
  };
}
