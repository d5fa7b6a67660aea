/**
 * What a person answers in the conversation that leads to a first site file.
 *
 * Quantities and times of day stay as they were written, in whatever unit: the loader of site files reads them, and says what
 * is wrong with them. `null` is "as usual".
 */

/** What lives in a tank: decides its warmth, its light, its flow and what harms it. */
export type Life = "fish" | "soft" | "large-polyp" | "small-polyp" | "mixed" | "seahorses";
export type HeaterSwitch = "own-thermostat" | "hub" | "hub-and-own-thermostat";
export type TopOff = "by-hand" | "fresh" | "limewater";
export type TopOffSwitch = "own-float" | "hub";
export type Dosing = "nothing" | "two-part" | "reactor";
export type Plugging = "one-strip" | "two-circuits";
export type Reach = "push" | "text" | "call";
export type Whereabouts = "lives-here" | "works-here" | "elsewhere";
export type Ability = "everything" | "simple" | "call";
export type Messages = "router" | "router-and-mobile" | "beep";

export interface TankAnswers {
  readonly name: string | null;
  readonly volume: string | null;
  readonly life: Life;
  readonly temperature: string | null;
  readonly hasSump: boolean;
  readonly sumpVolume: string | null;
  readonly heaters: number;
  /** Of each. */
  readonly heaterPower: string | null;
  readonly heaterSwitch: HeaterSwitch;
  readonly returnFlow: string | null;
  readonly wavePumps: number;
  /** Of each. */
  readonly waveFlow: string | null;
  readonly hasSkimmer: boolean;
  readonly hasLight: boolean;
  readonly lightHours: string | null;
  readonly topOff: TopOff;
  readonly topOffVolume: string | null;
  readonly topOffSwitch: TopOffSwitch;
  readonly dosing: Dosing;
}

export interface PersonAnswers {
  readonly name: string | null;
  readonly reachedBy: readonly Reach[];
  readonly asleep: string | null;
  readonly whereabouts: Whereabouts;
  readonly travel: string | null;
  readonly can: Ability;
}

export interface FirstSiteAnswers {
  readonly place: string | null;
  /** An IANA zone. */
  readonly zone: string | null;
  readonly tanks: readonly TankAnswers[];
  readonly plugging: Plugging;
  readonly mains: string | null;
  /** An air pump at each tank starts from a battery when the mains fail. */
  readonly airBattery: boolean;
  /** A battery carries the router and the hub. */
  readonly routerBattery: boolean;
  /** A hub with a temperature probe in each tank. */
  readonly hub: boolean;
  readonly leakSensor: boolean;
  readonly messages: Messages;
  readonly silenceWatch: boolean;
  /** The first is the keeper. */
  readonly people: readonly PersonAnswers[];
  /** How long the keeper is usually away. */
  readonly away: string | null;
}

/** A tank as most are: whoever presses Next throughout gets this one. */
export const USUAL_TANK: TankAnswers = {
  name: null,
  volume: null,
  life: "mixed",
  temperature: null,
  hasSump: true,
  sumpVolume: null,
  heaters: 2,
  heaterPower: null,
  heaterSwitch: "own-thermostat",
  returnFlow: null,
  wavePumps: 2,
  waveFlow: null,
  hasSkimmer: true,
  hasLight: true,
  lightHours: null,
  topOff: "fresh",
  topOffVolume: null,
  topOffSwitch: "own-float",
  dosing: "nothing",
};

const KEEPER: PersonAnswers = {
  name: null,
  reachedBy: ["push"],
  asleep: null,
  whereabouts: "lives-here",
  travel: null,
  can: "everything",
};

export const ANOTHER_PERSON: PersonAnswers = {
  ...KEEPER,
  reachedBy: ["call"],
  whereabouts: "elsewhere",
  can: "simple",
};

export const USUAL_ANSWERS: FirstSiteAnswers = {
  place: null,
  zone: null,
  tanks: [USUAL_TANK],
  plugging: "one-strip",
  mains: null,
  airBattery: false,
  routerBattery: false,
  hub: true,
  leakSensor: false,
  messages: "router",
  silenceWatch: false,
  people: [KEEPER],
  away: null,
};
