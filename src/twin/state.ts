/**
 * One running twin: the flat state, views on its regions, and the scratch space that a step needs.
 *
 * Everything that a run changes lies in `state`; a snapshot is a copy of that array and nothing else.
 */
import type { LocalClock } from "../foundation/index.ts";
import { hashText } from "../foundation/index.ts";
import { makeRuleOutput, type RuleOutput } from "../rules/index.ts";
import { CARBONATE_SIZE } from "../science/index.ts";
import { BODY_COLUMNS, LEDGER_COLUMNS, ROOM_COLUMNS, TRANSPORTED } from "./columns.ts";
import type { Model } from "./model.ts";
import { timerEdges } from "./timer-edges.ts";

export interface TwinEvent {
  readonly tS: number;
  readonly kind: "device" | "power" | "rule" | "notice" | "water" | "stand-in" | "hub";
  readonly part: string;
  readonly text: string;
}

export interface Twin {
  readonly model: Model;
  readonly clock: LocalClock;
  readonly seed: number;
  /** Building closed: nobody in, heating set back all day. */
  readonly closed: boolean;
  /** Hands that do what no device does (top-off, food, doses by hand) are there. */
  readonly hands: boolean;
  readonly state: Float64Array;
  readonly bodies: Float64Array;
  readonly rooms: Float64Array;
  readonly devices: Float64Array;
  readonly sensors: Float64Array;
  readonly batteries: Float64Array;
  readonly circuits: Float64Array;
  readonly flows: Float64Array;
  readonly hubs: Float64Array;
  readonly ledger: Float64Array;
  readonly harm: Float64Array;
  readonly dark: Float64Array;
  readonly levers: Float64Array;
  readonly ruleStates: readonly Float64Array[];
  /** Systems that are simulated; the others keep still. */
  readonly active: Uint8Array;
  readonly scratch: Scratch;
  /** Called for everything worth telling; null while nobody listens. */
  onEvent: ((event: TwinEvent) => void) | null;
}

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
  constantsT: 13,
  constantsS: 14,
  skim: 15,
  fishOxygen: 16,
} as const;
export const SLOW_COLUMNS = 17;

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

export interface Scratch {
  readonly slow: Float64Array;
  readonly constants: readonly Float64Array[];
  readonly ruleOutputs: readonly RuleOutput[];
  /** Planned flows of each system. */
  readonly flows: readonly SystemFlows[];
  /** Dense matrices for the circulation of one system (largest system). */
  readonly lower: Float64Array;
  readonly oxygenLower: Float64Array;
  readonly oxygenBefore: Float64Array;
  readonly amounts: Float64Array;
  readonly stage: Float64Array;
  readonly k1: Float64Array;
  readonly k2: Float64Array;
  readonly source: Float64Array;
  /** Temperatures before a step, by local place; amounts before it. */
  readonly before: Float64Array;
  readonly undo: Float64Array;
  readonly mass: Float64Array;
  readonly massEnd: Float64Array;
  /** Share of each body that carries took in this step, and what they poured into stores, mol, kg, J. */
  readonly given: Float64Array;
  readonly poured: Float64Array;
  /** Change of each body's water by flows and evaporation, kg/h; by body of the site. */
  readonly netKgH: Float64Array;
  readonly deviceFlow: Float64Array;
  readonly circuitLive: Uint8Array;
  readonly readings: Float64Array;
  readonly heard: Float64Array;
  readonly sensorStream: Int32Array;
  readonly sensorSlope: Float64Array;
  readonly roomHeatW: Float64Array;
  readonly roomVapourKgH: Float64Array;
  /** Times at which a timer turns something. */
  readonly timerEdges: Float64Array;
  /** Place of the next of them; next look of each hub that may matter, s. */
  readonly next: {
    edge: number;
    readonly lookS: Float64Array;
    /** Time of the last switching, s. */
    movedS: number;
    powerMoved: boolean;
    loadMoved: boolean;
    /** Any device may have to switch; when all were last looked at, s. */
    switchAll: boolean;
    switchedS: number;
    /** Steps taken since the twin was made, for benchmarks. */
    steps: number;
  };
}

export interface TwinOptions {
  readonly seed: number;
  readonly closed: boolean;
  readonly hands: boolean;
  /** Span that the twin will ever run over, s on its clock. */
  readonly fromS: number;
  readonly toS: number;
}

export function createTwin(model: Model, clock: LocalClock, options: TwinOptions): Twin {
  const { layout, site } = model;
  const state = new Float64Array(layout.size);
  const view = (start: number, length: number) => state.subarray(start, start + length);
  const sizeAfter = (start: number) => {
    const starts = [...Object.values(layout).flat(), layout.size].filter((one) => one > start);
    return Math.min(...starts) - start;
  };
  const region = (start: number, count: number) => (count === 0 ? new Float64Array(0) : view(start, sizeAfter(start)));
  const most = Math.max(1, ...model.systems.map((system) => system.waters.length));
  return {
    model,
    clock,
    seed: options.seed,
    closed: options.closed,
    hands: options.hands,
    state,
    bodies: view(layout.bodies, site.bodies.length * BODY_COLUMNS),
    rooms: region(layout.rooms, site.rooms.length),
    devices: region(layout.devices, site.devices.length),
    sensors: region(layout.sensors, site.sensors.length),
    batteries: region(layout.batteries, site.batteries.length),
    circuits: region(layout.circuits, site.circuits.length),
    flows: region(layout.flows, site.flows.length),
    hubs: region(layout.hubs, site.hubs.length),
    ledger: region(layout.ledger, site.systems.length),
    harm: region(layout.harm, model.groups.length),
    dark: region(layout.dark, site.bodies.length),
    levers: region(layout.levers, model.levers.neutral.length),
    ruleStates: layout.rules.map((start, hub) => {
      const end = layout.rules[hub + 1] ?? layout.size;
      return view(start, end - start);
    }),
    active: new Uint8Array(model.systems.length).fill(1),
    scratch: makeScratch(model, most, timerEdges(site, clock, options.fromS, options.toS)),
    onEvent: null,
  };
}

function makeScratch(model: Model, most: number, edges: Float64Array): Scratch {
  const { site } = model;
  const block = () => new Float64Array(most * TRANSPORTED);
  return {
    slow: new Float64Array(site.bodies.length * SLOW_COLUMNS).fill(Number.NaN),
    constants: site.bodies.map(() => new Float64Array(CARBONATE_SIZE)),
    ruleOutputs: model.rules.map(makeRuleOutput),
    flows: model.systems.map(({ waters: { length } }) => ({
      exchange: new Float64Array(length * length),
      carried: new Float64Array(length * TRANSPORTED),
      lostKgH: new Float64Array(length),
      floorKgH: new Float64Array(length),
    })),
    lower: new Float64Array(most * most),
    oxygenLower: new Float64Array(most * most),
    oxygenBefore: new Float64Array(most),
    amounts: block(),
    stage: block(),
    k1: block(),
    k2: block(),
    source: block(),
    before: new Float64Array(most),
    undo: new Float64Array(site.bodies.length * BODY_COLUMNS + LEDGER_COLUMNS + site.rooms.length * ROOM_COLUMNS),
    mass: new Float64Array(most),
    massEnd: new Float64Array(most),
    given: new Float64Array(site.bodies.length),
    poured: new Float64Array(site.bodies.length * TRANSPORTED),
    netKgH: new Float64Array(site.bodies.length),
    deviceFlow: new Float64Array(site.devices.length),
    circuitLive: new Uint8Array(site.circuits.length),
    readings: new Float64Array(site.sensors.length),
    heard: new Float64Array(site.sensors.length),
    sensorStream: Int32Array.from(site.sensors, (sensor) => hashText(sensor.id) | 0),
    sensorSlope: new Float64Array(site.sensors.length),
    roomHeatW: new Float64Array(site.rooms.length),
    roomVapourKgH: new Float64Array(site.rooms.length),
    timerEdges: edges,
    next: {
      edge: 0,
      lookS: new Float64Array(site.hubs.length),
      movedS: 0,
      powerMoved: true,
      loadMoved: true,
      switchAll: true,
      switchedS: 0,
      steps: 0,
    },
  };
}

export function timeS(twin: Twin): number {
  return twin.state[twin.model.layout.clock];
}

export function leverAt(model: Model, part: string, name: string): number {
  const place = model.levers.index.get(`${part}:${name}`);
  if (place === undefined) throw new RangeError(`Part ${part} has no lever ${name}; see src/twin/levers.ts`);
  return place;
}

/** Everything needed to go on from here. */
export function snapshot(twin: Twin): Float64Array {
  return twin.state.slice();
}

/** Goes back to a snapshot of a twin of the same model. */
export function restore(twin: Twin, saved: Float64Array): void {
  twin.state.set(saved);
  twin.scratch.slow.fill(Number.NaN);
  twin.scratch.sensorSlope.fill(0);
  twin.scratch.next.edge = 0;
  twin.scratch.next.lookS.fill(0);
  twin.scratch.next.movedS = timeS(twin);
  twin.scratch.next.powerMoved = true;
  twin.scratch.next.loadMoved = true;
  twin.scratch.next.switchAll = true;
  twin.scratch.next.switchedS = timeS(twin);
}

/** Steps of single systems that the twin has taken since it was made. */
export function stepCount(twin: Twin): number {
  return twin.scratch.next.steps;
}
