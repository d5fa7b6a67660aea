/**
 * The compiled site: flat tables with indices in place of names, frozen, shared by all twins of that site.
 */

import type { RuleTable } from "../rules/index.ts";
import type { Site } from "../site/index.ts";
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
}

export interface SystemModel {
  readonly index: number;
  readonly id: string;
  readonly room: number;
  /** Bodies among which water circulates; local index = place in this list. */
  readonly waters: readonly number[];
  /** Reservoirs and containers. */
  readonly stores: readonly number[];
  readonly pumps: readonly PumpEdge[];
  readonly weirs: readonly WeirEdge[];
  readonly carries: readonly CarryEdge[];
  /** Devices whose system this is. */
  readonly devices: readonly number[];
  /** The same by the water on which they act, in the order of `waters`. */
  readonly devicesAt: readonly (readonly number[])[];
  /** Those with a thermostat or cut-out of their own. */
  readonly thermostats: readonly number[];
  /** Those that switch by a thermostat or float of their own. */
  readonly ownSwitches: readonly number[];
  readonly reactors: readonly number[];
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
  readonly name: string;
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
  /** Reactive carbonate surface, m2, with its inhibition already counted. */
  readonly reactiveM2: number;
}

export interface Model {
  readonly site: Site;
  readonly bodyIndex: ReadonlyMap<string, number>;
  readonly deviceIndex: ReadonlyMap<string, number>;
  readonly sensorIndex: ReadonlyMap<string, number>;
  readonly roomIndex: ReadonlyMap<string, number>;
  readonly circuitIndex: ReadonlyMap<string, number>;
  readonly batteryIndex: ReadonlyMap<string, number>;
  readonly linkIndex: ReadonlyMap<string, number>;
  readonly hubIndex: ReadonlyMap<string, number>;
  readonly systems: readonly SystemModel[];
  readonly groups: readonly GroupModel[];
  readonly life: readonly BodyLife[];
  readonly levers: LeverTable;
  /** Rules of each hub. */
  readonly rules: readonly RuleTable[];
  /** Global rule index of each hub's rules. */
  readonly rulesOfHub: readonly (readonly number[])[];
  /** Battery that carries each device, hub, link when its circuit is dead; -1 none. */
  readonly batteryOfDevice: Int32Array;
  readonly batteryOfHub: Int32Array;
  readonly batteryOfLink: Int32Array;
  /** Devices, links and hubs by the circuit that feeds them; -1 none. */
  readonly circuitOfDevice: Int32Array;
  readonly circuitOfHub: Int32Array;
  readonly circuitOfLink: Int32Array;
  readonly parentOfCircuit: Int32Array;
  /** Place of a body among the waters of its system; -1 for stores. */
  readonly localOfBody: Int32Array;
  /** By system. */
  readonly watchedLevels: readonly (readonly WatchedLevel[])[];
  /** Body on which each device acts. */
  readonly bodyOfDevice: Int32Array;
  readonly roomOfBody: Int32Array;
  /** 1 where a lamp of the site shines on the body. */
  readonly hasLight: Uint8Array;
  /** Place of what each sensor looks at, among the parts of its kind. */
  readonly placeOfSensor: Int32Array;
  /** System whose water or device a sensor looks at; -1 for rooms and circuits. */
  readonly systemOfSensor: Int32Array;
  /** Lamps over each body. */
  readonly lampsOver: readonly (readonly number[])[];
  /** Pumped way that a device drives, or null. */
  readonly pumpOfDevice: readonly (PumpEdge | null)[];
  readonly hubOfDevice: Int32Array;
  readonly hubOfSensor: Int32Array;
  /** Offsets into the flat state. */
  readonly layout: Layout;
}

/** Where each region starts in the one Float64Array of a twin. */
export interface Layout {
  readonly clock: number;
  readonly bodies: number;
  readonly rooms: number;
  readonly devices: number;
  readonly sensors: number;
  readonly batteries: number;
  readonly circuits: number;
  readonly flows: number;
  readonly hubs: number;
  readonly ledger: number;
  readonly harm: number;
  readonly dark: number;
  readonly levers: number;
  readonly rules: readonly number[];
  readonly size: number;
}
