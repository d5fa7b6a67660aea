/**
 * The description of one place, checked and in stated units: what every other room works from.
 *
 * A `Site` is a frozen value. `loadSite` makes it from a file; nothing edits it in place. Every part has an id, unique over
 * the whole site, which is the key under which the owner wrote it. Units stand in the field names: litres, degrees Celsius,
 * watts, hours, seconds, minutes, metres. Salinity is practical salinity (about g/kg).
 */

export type PartKind =
  | "room"
  | "circuit"
  | "battery"
  | "link"
  | "hub"
  | "body"
  | "flow"
  | "device"
  | "sensor"
  | "rule"
  | "person"
  | "mains"
  | "system";

export interface Site {
  readonly name: string;
  /** IANA zone; all clock times in the file are in it. */
  readonly zone: string;
  readonly rooms: readonly Room[];
  readonly mains: Mains;
  readonly circuits: readonly Circuit[];
  readonly batteries: readonly Battery[];
  readonly links: readonly Link[];
  readonly hubs: readonly Hub[];
  readonly systems: readonly System[];
  /** All bodies of all systems, in file order; `Body.system` says where each belongs. */
  readonly bodies: readonly Body[];
  readonly flows: readonly Flow[];
  readonly devices: readonly Device[];
  readonly sensors: readonly Sensor[];
  readonly rules: readonly RuleSpec[];
  readonly people: readonly Person[];
  /** Who is told first, and after how many unanswered minutes the next. */
  readonly ladder: readonly LadderStep[];
  /** The watch outside the house that turns silence of the hub into a notice; null where there is none. */
  readonly silenceWatch: SilenceWatch | null;
  readonly circumstances: readonly Circumstance[];
}

/** Local wall-clock window, minutes of the day 0..1440 (may wrap past midnight), on days 0 = Monday .. 6 = Sunday. */
export interface TimeWindow {
  readonly days: readonly number[];
  readonly fromMin: number;
  readonly toMin: number;
}

export type ClimateName =
  | "temperate-coast"
  | "temperate-inland"
  | "continental"
  | "subtropical"
  | "tropical"
  | "desert";

export interface Room {
  readonly id: string;
  readonly airM3: number;
  /** Air temperature that the building's heating holds. */
  readonly holdsC: number;
  /** Lower setting in these windows (night, weekends, holidays), null where it is never set back. */
  readonly setBack: { readonly holdsC: number; readonly during: readonly TimeWindow[] } | null;
  /** Air conditioning keeps the room at or under this; null where there is none. */
  readonly coolsToC: number | null;
  /** Hours in which the unheated room closes 63 % of its gap to outside. */
  readonly timeConstantH: number;
  readonly climate: ClimateName;
  readonly airChangesPerH: number;
  /** People breathing in the room, and when. */
  readonly occupants: number;
  readonly occupied: readonly TimeWindow[];
  /** Floor drain: litres that may lie on the floor before they do harm below. */
  readonly floorDrain: boolean;
}

export interface Mains {
  readonly volts: number;
}

export interface Circuit {
  readonly id: string;
  /** The circuit it hangs from (a strip on a ring, a ring on a main switch); null = straight from the mains. */
  readonly on: string | null;
  readonly limitA: number;
  /** Residual-current protection, mA; null where there is none. */
  readonly tripsOnLeakMA: number | null;
  /** True where the protection stays open after a power cut until someone closes it. */
  readonly staysOpenAfterCut: boolean;
}

export interface Battery {
  readonly id: string;
  readonly kind: "battery" | "generator";
  /** Usable energy, watt-hours (a generator: its fuel). */
  readonly energyWh: number;
  readonly powerW: number;
  /** Devices, links and hubs that it carries when their own circuit is dead. */
  readonly feeds: readonly string[];
  /** Circuit that charges it; null for loose cells. */
  readonly on: string | null;
  /** False: a person must start it. */
  readonly startsItself: boolean;
  /** Months since someone pulled the plug to try it; null = never. */
  readonly lastTriedMonths: number | null;
}

export interface Link {
  readonly id: string;
  /** local: house network; internet: the line out; mobile: radio to the phone network. */
  readonly kind: "local" | "internet" | "mobile";
  /** Circuit or battery that powers it; null = needs none here. */
  readonly on: string | null;
  /** The link that it needs. */
  readonly via: string | null;
}

export interface Hub {
  readonly id: string;
  readonly on: string | null;
  readonly readsEveryS: number;
  /** Ways out for notices; any one that works is enough. Empty: it cannot tell anybody. */
  readonly sendsOver: readonly string[];
  /** Restarts itself when it hangs. */
  readonly watchdog: boolean;
  /** Local beep loud enough for someone in the building. */
  readonly siren: boolean;
  /** Months since its rules and notices were last proved by a trial of each; null or absent = never. */
  readonly testedMonths?: number | null;
}

export interface System {
  readonly id: string;
  readonly bodies: readonly string[];
  readonly room: string;
}

export type BodyRole = "display" | "sump" | "refugium" | "frag" | "reservoir" | "container";

export interface Body {
  readonly id: string;
  readonly system: string;
  readonly room: string;
  readonly role: BodyRole;
  /** Water in normal running, L. */
  readonly volumeL: number;
  /** What it holds to the rim before it runs over, L. */
  readonly brimL: number;
  /** Least water at which a pump in it still draws, L. */
  readonly intakeL: number;
  /** Water below which a heater in it is dry, L. */
  readonly heaterDryL: number;
  readonly surfaceM2: number;
  readonly depthM: number;
  readonly lid: "open" | "mesh" | "lid";
  /** UA of the walls, W/K. */
  readonly wallsWPerK: number;
  readonly holds: WaterKind;
  readonly livestock: Livestock;
  /** Live rock, kg; carries the filter bacteria and calcareous surface. */
  readonly rockKg: number;
  readonly sandKg: number;
  /** Level that the owner keeps it at, at the start of the drill, as share of volumeL (reservoirs 0..1). */
  readonly fill: number;
}

export type WaterKind =
  | {
      readonly kind: "salt";
      readonly salinity: number;
      readonly temperatureC: number;
      readonly alkalinityDKH: number;
      readonly calciumMgL: number;
      readonly magnesiumMgL: number;
      readonly nitrateMgL: number;
      readonly phosphateMgL: number;
    }
  | { readonly kind: "fresh" }
  | { readonly kind: "limewater" }
  | {
      readonly kind: "solution";
      readonly of: "alkalinity" | "calcium" | "magnesium" | "carbon" | "other";
      readonly salt:
        | "bicarbonate"
        | "carbonate"
        | "hydroxide"
        | "calcium-chloride"
        | "magnesium-chloride"
        | "ethanol"
        | "none" /** meq (alkalinity), mmol (calcium, magnesium), g (carbon) per mL. */;
      readonly strengthPerML: number;
    };

export type CoralKind = "soft" | "large-polyp" | "small-polyp" | "mixed";

export interface Livestock {
  readonly corals: CoralKind | null;
  /** Coral cover as tissue area, m2. */
  readonly coralM2: number;
  /** Alkalinity that the body's life takes up at normal water, as the fall of the system's circulating water, dKH per day. */
  readonly alkalinityDemandDKHPerDay: number;
  readonly fishG: number;
  readonly fishGroup: "reef-fish" | "active-fish" | "seahorses" | null;
  readonly invertebrates: boolean;
  /** Seagrass or macroalgae, g dry weight. */
  readonly plantsG: number;
}

/** A pumped way of water and the gravity way back. */
export interface Flow {
  readonly id: string;
  readonly system: string;
  readonly from: string;
  readonly to: string;
  /** The pump device that drives it; null for an open connection (chambers that share a level). */
  readonly by: string | null;
  /** Water that runs back through the return pipe when the pump stops, L, beyond the weir's own head. */
  readonly backSiphonL: number;
  /** Without the siphon-break hole the display drains to the nozzle: L more. */
  readonly backSiphonUnbrokenL: number;
  readonly checkValve: boolean;
  /** Capacity of the drain back, L/h. */
  readonly drainLPerH: number;
  /** Capacity of the spare drain, L/h; 0 where there is none. */
  readonly spareDrainLPerH: number;
  /** Water held above the weir crest in normal running, L. */
  readonly weirHeadL: number;
  /** Drop height of the water going back, m. */
  readonly dropM: number;
  /** Months since the plug was last pulled to see siphon break, check valve and spare drain work; null or absent = never. */
  readonly testedMonths?: number | null;
}

export type DeviceKind =
  | "heater"
  | "chiller"
  | "fan"
  | "return-pump"
  | "wave-pump"
  | "air-pump"
  | "skimmer"
  | "light"
  | "doser"
  | "top-off"
  | "refill-valve"
  | "feeder"
  | "calcium-reactor"
  | "water-change"
  | "steriliser"
  | "siren"
  | "other";

export interface Device {
  readonly id: string;
  readonly kind: DeviceKind;
  readonly system: string;
  /** Body that it acts on (top-off, doser, water-change: where the water goes). */
  readonly in: string;
  /** Body or container that it draws from; null where none. */
  readonly from: string | null;
  /** Electrical power when running, W. */
  readonly powerW: number;
  /** Power in the water as heat, W (heater: its power; pump: its share; chiller: negative when on). */
  readonly heatW: number;
  /** Flow when running, L/h (pumps, top-off, doser; air-pump: air L/h; skimmer: water through it). */
  readonly flowLPerH: number;
  /** Where it is plugged: circuit id; null = needs no mains (own cells: see batteries). */
  readonly on: string | null;
  /** Hub that switches its socket; null = plugged straight in. */
  readonly by: string | null;
  /** What the socket falls to when its hub is dead or hung. */
  readonly withoutHub: "on" | "off" | "as it was";
  /** State at rest: what it does when no rule says otherwise. */
  readonly normally: "on" | "off";
  /** Built-in thermostat: heater cuts out above, chiller and fan start above; null where there is none. */
  readonly ownThermostatC: number | null;
  readonly ownHysteresisC: number;
  /** Independent cut-out in series (heater, top of range), degrees C; null where there is none. */
  readonly cutOutC: number | null;
  /** Built-in level control of a top-off or refill valve: fills below `onL`, stops at `offL`; null = a hub or timer decides. */
  readonly ownFloat: {
    readonly onL: number;
    readonly offL: number /** second float that stops it at this volume */;
    readonly spareL: number | null;
    readonly longestRunS: number | null;
  } | null;
  /** Working times in local time; empty = always. For lights the photoperiod, for dosers the times of doses. */
  readonly schedule: readonly TimeWindow[];
  /** Doser: mL per day, in how many doses. Feeder: g per day. Water change: L per day. */
  readonly amountPerDay: number;
  readonly dosesPerDay: number;
  /** What a feeder's drum holds, g. */
  readonly holdsG: number;
  /** Light: PAR at the corals at noon, umol photons m-2 s-1. */
  readonly par: number;
  /** True where its outlet lies under water or below the level of its source, so that it can siphon. */
  readonly canSiphon: boolean;
  /** A spare that waits: months since it was last tried; null where it runs every day. */
  readonly spare: { readonly lastTriedMonths: number | null } | null;
  readonly ageMonths: number;
  /** Months since it was last cleaned. */
  readonly cleanedMonths: number;
  /** How many of these devices share one mould and batch is said by equal non-null names. */
  readonly batch: string | null;
  /** Months since its own safeguards (cut-out, second float, run limit) were last proved; null or absent = never. */
  readonly testedMonths?: number | null;
}

export type Quantity =
  | "temperature"
  | "ph"
  | "salinity"
  | "oxygen"
  | "alkalinity"
  | "orp"
  | "level"
  | "float"
  | "flow"
  | "power"
  | "leak"
  | "mains"
  | "air-temperature"
  | "air-co2"
  | "light";

export interface Sensor {
  readonly id: string;
  readonly measures: Quantity;
  /** Body, room, device or circuit where it sits. */
  readonly at: string;
  readonly atKind: "body" | "room" | "device" | "circuit";
  readonly hub: string | null;
  readonly type: string;
  /** Standard deviation of the noise, in the unit of the quantity. */
  readonly noise: number;
  readonly resolution: number;
  readonly lagS: number;
  /** Constant error now. */
  readonly offset: number;
  readonly driftPerMonth: number;
  /** Float: volume of the body at which it floats, L. */
  readonly floatAtL: number | null;
  /** Machine tester: hours between results (0 = continuous). */
  readonly everyH: number;
  readonly testedMonths: number | null;
}

export type Comparison =
  | { readonly op: "below" | "above"; readonly value: number }
  | { readonly op: "between" | "outside"; readonly low: number; readonly high: number }
  | { readonly op: "rising" | "falling" /** per hour */; readonly ratePerH: number }
  | { readonly op: "differs"; readonly from: string; readonly by: number }
  | { readonly op: "unchanged" | "silent"; readonly forS: number }
  | { readonly op: "wet" | "dry" | "present" | "absent" };

export interface ConditionSpec {
  /** All of these must hold. */
  readonly all: readonly { readonly sensor: string; readonly is: Comparison }[];
  /** It must have held this long, s. */
  readonly forS: number;
}

export interface RuleSpec {
  readonly id: string;
  readonly hub: string;
  readonly when: ConditionSpec;
  /** Ends the rule's action; null = when `when` no longer holds. */
  readonly until: ConditionSpec | null;
  readonly act: readonly { readonly device: string; readonly state: "on" | "off" }[];
  readonly notice: "urgent" | "soon" | "note" | null;
  /** Words sent with the notice. */
  readonly says: string;
  /** The action ends after this long at most, s; null = no limit. */
  readonly atMostS: number | null;
  /** Not again within this long, s. */
  readonly notOftenerS: number;
  /** Only in these windows; empty = always. */
  readonly only: readonly TimeWindow[];
  /** Months since it was last seen to work; null or absent = never. */
  readonly testedMonths?: number | null;
}

export type Skill =
  | "everything"
  | "unplug"
  | "reset"
  | "top-off"
  | "refill"
  | "repair"
  | "feed"
  | "mop"
  | "water-change"
  | "start-generator"
  | "call keeper";
export type Channel = "push" | "text" | "call" | "siren" | "mail";

export interface Person {
  readonly id: string;
  readonly reachedBy: readonly Channel[];
  readonly asleep: TimeWindow | null;
  /** In the building (can act without travel), local windows. */
  readonly onSite: readonly TimeWindow[];
  /** Times when the phone cannot be answered (class, theatre, shift). */
  readonly busy: readonly TimeWindow[];
  readonly travelMin: number;
  readonly can: readonly Skill[];
  /** Minutes of the day when this person looks at the tanks, on which days; empty = never. */
  readonly looks: readonly { readonly days: readonly number[]; readonly atMin: number }[];
  /** Months since a trial message was last answered; null or absent = never. */
  readonly testedMonths?: number | null;
}

export interface LadderStep {
  readonly person: string;
  readonly afterMin: number;
}
export interface SilenceWatch {
  readonly afterMin: number;
  readonly tells: readonly string[] /** months since last proof, null = never */;
  readonly testedMonths: number | null;
}

/** When and with whom a drill begins. */
export interface Circumstance {
  readonly id: string;
  /** Local date and time, ISO without zone, e.g. 2026-08-15T02:00. */
  readonly startsLocal: string;
  /** People who are away: not on site, do not look, arrive only after `backAfterH`, but may read messages after `repliesAfterMin`. */
  readonly away: readonly { readonly person: string; readonly backAfterH: number; readonly repliesAfterMin: number }[];
  /** Building closed: nobody is on site except by travel, set-back holds all day. */
  readonly closed: boolean;
  /** Share of the reservoirs' volume that is left at the start, 0..1; null = each body's own fill. */
  readonly reservoirs: number | null;
  readonly horizonDays: number;
}
