/**
 * One running twin: the flat state, views on its regions, and the scratch space that a step needs.
 *
 * Everything that a run changes lies in `state`; a snapshot is a copy of that array and nothing else.
 */
import type { LocalClock } from "../foundation/index.ts";
import { firstAfter, NotFoundError } from "../foundation/index.ts";
import type { Books } from "./books.ts";
import { CLOCK_NOW } from "./columns.ts";
import { leverKey } from "./levers.ts";
import type { Model } from "./model.ts";
import type { RoomGains } from "./room-gains.ts";
import { makeScratch, PLAN, type Scratch } from "./scratch.ts";
import { edgesOf } from "./timer-edges.ts";

export { PLAN, SLOW, SLOW_COLUMNS } from "./scratch.ts";

/** A timer edge that lies this close behind may not have been looked at yet, s. */
const EDGE_GRACE_S = 1;

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
  /** From here on an hour is short enough a step, s. */
  readonly lateFromS: number;
  readonly state: Float64Array;
  readonly clocks: Float64Array;
  readonly bodies: Float64Array;
  readonly rooms: Float64Array;
  readonly devices: Float64Array;
  readonly sensors: Float64Array;
  readonly batteries: Float64Array;
  readonly circuits: Float64Array;
  readonly flows: Float64Array;
  /** When each looker looks, by looker. */
  readonly looks: Float64Array;
  /** By island: 1 where any device may have to switch. */
  readonly switchAll: Float64Array;
  readonly harm: Float64Array;
  /** Hours of darkness of each body so far. */
  readonly dark: Float64Array;
  readonly levers: Float64Array;
  readonly ruleStates: readonly Float64Array[];
  /** Systems that are simulated; the others keep still. */
  readonly active: Uint8Array;
  readonly scratch: Scratch;
  /** Marks of the levers that rest and were asked for, by place (asked.ts). */
  readonly asked: Uint8Array;
  /** Called for everything worth telling; null while nobody listens. */
  onEvent: ((event: TwinEvent) => void) | null;
  /** Where to note what the systems give to the rooms; null while nobody wants to know. */
  gains: RoomGains | null;
  /** What the systems that are not simulated give to the rooms; null: what they gave at the last restore. */
  elsewhere: RoomGains | null;
  /** Books of what crosses the border of the systems; null while nobody keeps them. */
  books: Books | null;
}

export interface TwinOptions {
  readonly seed: number;
  readonly closed: boolean;
  readonly hands: boolean;
  /** Span that the twin will ever run over, s on its clock. */
  readonly fromS: number;
  readonly toS: number;
  /** From when on an hour is short enough a step where nothing switches, s; never, where it is not given. */
  readonly lateFromS?: number;
}

export function createTwin(model: Model, clock: LocalClock, options: TwinOptions): Twin {
  const { layout } = model;
  const state = new Float64Array(layout.size);
  return {
    model,
    clock,
    seed: options.seed,
    closed: options.closed,
    hands: options.hands,
    lateFromS: options.lateFromS ?? Number.POSITIVE_INFINITY,
    state,
    clocks: state.subarray(layout.clock, layout.bodies),
    bodies: state.subarray(layout.bodies, layout.rooms),
    rooms: state.subarray(layout.rooms, layout.devices),
    devices: state.subarray(layout.devices, layout.sensors),
    sensors: state.subarray(layout.sensors, layout.batteries),
    batteries: state.subarray(layout.batteries, layout.circuits),
    circuits: state.subarray(layout.circuits, layout.flows),
    flows: state.subarray(layout.flows, layout.looks),
    looks: state.subarray(layout.looks, layout.switchAll),
    switchAll: state.subarray(layout.switchAll, layout.harm),
    harm: state.subarray(layout.harm, layout.dark),
    dark: state.subarray(layout.dark, layout.levers),
    levers: state.subarray(layout.levers, layout.levers + model.levers.neutral.length),
    ruleStates: layout.rules.map((start, looker) => state.subarray(start, layout.rules[looker + 1] ?? layout.size)),
    active: new Uint8Array(model.systems.length).fill(1),
    scratch: makeScratch(model, edgesOf(model, clock, options.fromS, options.toS)),
    asked: new Uint8Array(model.levers.neutral.length),
    onEvent: null,
    gains: null,
    elsewhere: null,
    books: null,
  };
}

export function timeS(twin: Twin): number {
  return twin.clocks[CLOCK_NOW];
}

/** Place of a lever of a part among all levers. */
export function leverAt(model: Model, part: string, name: string): number {
  const place = model.levers.index.get(leverKey(part, name));
  if (place !== undefined) return place;
  throw new NotFoundError("twin/unknown-lever", `Part '${part}' has no lever '${name}'`, "see src/twin/levers.ts");
}

/** Everything needed to go on from here. */
export function snapshot(twin: Twin): Float64Array {
  return twin.state.slice();
}

/** Goes back to a snapshot of a twin of the same model, and from there on as the twin did from which it was taken. */
export function restore(twin: Twin, saved: Float64Array): void {
  twin.state.set(saved);
  forget(twin);
}

/** The scratch space knows nothing of the water and the power any more: after a start or a restore. */
export function forget(twin: Twin): void {
  const { slow, next, timerEdges, edge, plan, lagH } = twin.scratch;
  slow.fill(Number.NaN);
  plan.fill(PLAN.none);
  lagH.fill(0);
  next.powerMoved = true;
  for (const [island, edges] of timerEdges.entries()) edge[island] = firstAfter(edges, timeS(twin) - EDGE_GRACE_S);
}

/** Steps of single systems, of heat and of what is dissolved each, that the twin has taken since it was made. */
export function stepCount(twin: Twin): number {
  return twin.scratch.next.steps;
}
