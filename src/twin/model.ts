/**
 * The compiled site: flat tables with indices in place of names, frozen, shared by all twins of that site.
 */

import type { RuleTable } from "../rules/index.ts";
import type { Site } from "../site/index.ts";
import type { Layout } from "./layout.ts";
import type { LeverTable } from "./levers.ts";

/** Water that a pump (device) moves from one body to another. */
export interface PumpEdge {
  readonly flow: number;
  readonly device: number;
  readonly from: number;
  readonly to: number;
  readonly ratedLPerH: number;
  readonly backSiphonL: number;
  readonly backSiphonUnbrokenL: number;
  readonly checkValve: boolean;
}

/** Water that falls back over a weir or through an opening. In an order in which every inflow is known before its outflow. */
export interface WeirEdge {
  readonly flow: number;
  readonly from: number;
  readonly to: number;
  readonly crestL: number;
  readonly headL: number;
  readonly ratedLPerH: number;
  readonly drainLPerH: number;
  readonly spareDrainLPerH: number;
  readonly dropM: number;
}

/** A device that carries water between bodies: top-off, doser, refill, water change. */
export interface CarryEdge {
  readonly device: number;
  /** Body or -1: the water supply line. */
  readonly from: number;
  readonly to: number;
  /** It draws from a store of another system, which that system does not plan with. */
  readonly borrows: boolean;
}

/** What acts on one water: devices, and flows, by their effect. */
export interface Around {
  readonly place: number;
  readonly warming: readonly number[];
  readonly lamps: readonly number[];
  readonly stirring: readonly number[];
  readonly bubbling: readonly number[];
  readonly skimmers: readonly number[];
  readonly fans: readonly number[];
  /** Pumped flows into or out of it. */
  readonly passing: readonly number[];
  /** Pumped flows that fall into it over a weir. */
  readonly falling: readonly { readonly flow: number; readonly dropM: number }[];
}

export interface SystemModel {
  readonly index: number;
  readonly id: string;
  /** Bodies among which water circulates; local index = place in this list. */
  readonly waters: readonly number[];
  /** Reservoirs and containers. */
  readonly stores: readonly number[];
  /** Both. */
  readonly bodies: readonly number[];
  readonly pumps: readonly PumpEdge[];
  readonly weirs: readonly WeirEdge[];
  readonly carries: readonly CarryEdge[];
  /** Devices whose system this is. */
  readonly devices: readonly number[];
  /** What acts on each of the waters, in their order. */
  readonly around: readonly Around[];
  /** Those with a thermostat or cut-out of their own. */
  readonly thermostats: readonly number[];
  /** Those that switch by a thermostat or float of their own. */
  readonly ownSwitches: readonly number[];
  readonly reactors: readonly number[];
  /** Those that give something by the clock: dosers and feeders. */
  readonly dosed: readonly number[];
  /** Volumes of its bodies at which something may switch; a step lands on them. */
  readonly watchedLevels: readonly WatchedLevel[];
  /** Places of its livestock among the groups of the site. */
  readonly groups: readonly number[];
  /** Kinds of device that the system has. */
  readonly kinds: ReadonlySet<string>;
}

/** A volume of a body at which something may switch, L. */
export interface WatchedLevel {
  readonly body: number;
  readonly volumeL: number;
}

/** One livestock group in one body, for the harm doses. */
export interface GroupModel {
  readonly body: number;
  readonly system: number;
  /** Index in the science table of groups. */
  readonly group: number;
}

/** Life and surfaces of a body, as rates at 26 degrees C. */
export interface BodyLife {
  readonly fishG: number;
  /** Oxygen uptake of the fish, mol/h at 26 degrees C, and below which mg/L it falls. */
  readonly fishO2MolH: number;
  /** Dark respiration of corals, rock, sand, plants and bacteria, mol O2/h. */
  readonly benthosO2MolH: number;
  /** Gross photosynthesis at full light, mol O2/h. */
  readonly photoO2MolH: number;
  /** Calcification at the owner's own water and full light, mol CaCO3/h, so that a normal day uses what the owner measured. */
  readonly calcifyMolH: number;
  /** Capacity of nitrification, mol N/h at 26 degrees C. */
  readonly nitrifyMolH: number;
  /** First-order loss of nitrate by denitrification and plants, 1/h. */
  readonly nitrateLossPerH: number;
  /** Food that people or feeders give on a normal day, g. */
  readonly foodGPerDay: number;
}

/** Who hangs on which circuit and battery; by place in the site, -1 for none. */
export interface PowerTables {
  readonly circuitOfDevice: Int32Array;
  readonly circuitOfHub: Int32Array;
  readonly circuitOfLink: Int32Array;
  readonly parentOfCircuit: Int32Array;
  /** Battery that carries each of them when its circuit is dead. */
  readonly batteryOfDevice: Int32Array;
  readonly batteryOfHub: Int32Array;
  readonly batteryOfLink: Int32Array;
  /** Circuits that could open though nothing leaks. */
  readonly overloadable: Int32Array;
  /** Circuit that charges each battery. */
  readonly chargedBy: Int32Array;
  /** What hangs on each circuit or on one below it; a circuit lies under itself. */
  readonly devicesUnder: readonly Int32Array[];
  readonly hubsUnder: readonly Int32Array[];
  readonly linksUnder: readonly Int32Array[];
  readonly circuitsUnder: readonly Int32Array[];
  /** What each battery carries. */
  readonly carriedDevices: readonly Int32Array[];
  readonly carriedHubs: readonly Int32Array[];
  readonly carriedLinks: readonly Int32Array[];
}

/** What is to be known of each sensor, by its place in the site. */
export interface SensorTables {
  /** Place of what it looks at, among the parts of its kind. */
  readonly placeOf: Int32Array;
  /** System whose water or device it looks at; -1 for rooms and circuits. */
  readonly systemOf: Int32Array;
  /** 1 where it says yes or no. */
  readonly isYesOrNo: Uint8Array;
  /** Least speed at which its quantity is taken to be able to move, units per hour; 0 where it jumps. */
  readonly leastSpeedPerH: Float64Array;
}

/** Systems that go through time in step with one another, and in step with no others until the next mark. */
export interface Island {
  readonly index: number;
  readonly systems: readonly SystemModel[];
  /** Places among the lookers of the site. */
  readonly lookers: readonly number[];
  /** Fills that may run only so long. */
  readonly limitedFills: readonly { readonly device: number; readonly longestRunS: number }[];
  /** Its devices that hang on a battery, by battery. */
  readonly carried: readonly { readonly battery: number; readonly devices: readonly number[] }[];
  /** Devices that have a timer. */
  readonly timers: readonly number[];
}

/** What a hub does for one island: the sensors that it reads at every look, the rules that it runs, the devices that it switches, by their places. */
export interface Looker {
  readonly hub: number;
  readonly island: number;
  readonly sensors: readonly number[];
  readonly rules: readonly number[];
  readonly table: RuleTable;
  readonly devices: readonly number[];
  /** Those of its sensors whose reading hangs on what is dissolved, and no rule on them. */
  readonly idle: readonly number[];
  /** A rule hangs on what is dissolved in the water. */
  readonly mindsMatter: boolean;
  /** By system: 1 where a sensor may show what switches there. */
  readonly sees: Uint8Array;
  /** By room: 1 where a sensor feels water on the floor. */
  readonly seesFloor: Uint8Array;
}

export interface Model {
  readonly site: Site;
  readonly bodyIndex: ReadonlyMap<string, number>;
  readonly deviceIndex: ReadonlyMap<string, number>;
  readonly sensorIndex: ReadonlyMap<string, number>;
  readonly circuitIndex: ReadonlyMap<string, number>;
  readonly batteryIndex: ReadonlyMap<string, number>;
  readonly linkIndex: ReadonlyMap<string, number>;
  readonly hubIndex: ReadonlyMap<string, number>;
  readonly systems: readonly SystemModel[];
  readonly groups: readonly GroupModel[];
  readonly life: readonly BodyLife[];
  readonly levers: LeverTable;
  /** The last is the house, which has no systems. */
  readonly islands: readonly Island[];
  readonly islandOfSystem: Int32Array;
  readonly lookers: readonly Looker[];
  readonly power: PowerTables;
  readonly sensing: SensorTables;
  /** Place of a body among the waters of its system; -1 for stores. */
  readonly localOfBody: Int32Array;
  readonly roomOfBody: Int32Array;
  readonly systemOfBody: Int32Array;
  /** 1 where a lamp of the site shines on the body. */
  readonly hasLight: Uint8Array;
  /** Lamps over each body. */
  readonly lampsOver: readonly (readonly number[])[];
  /** Body on which each device acts. */
  readonly bodyOfDevice: Int32Array;
  readonly hubOfDevice: Int32Array;
  /** 1 where a device warms or cools its water and does nothing else that a sensor could see. */
  readonly warmsOnly: Uint8Array;
  /** Pumped way that a device drives, or null. */
  readonly pumpOfDevice: readonly (PumpEdge | null)[];
  /** Offsets into the flat state. */
  readonly layout: Layout;
}

/** Waters of the system that has most; at least 1. */
export function mostWaters({ systems }: Model): number {
  return Math.max(1, ...systems.map((system) => system.waters.length));
}
