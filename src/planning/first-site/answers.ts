/**
 * What a person answers in the conversation that leads to a first site file.
 *
 * Quantities and times of day stay as they were written, in whatever unit: the loader of site files reads them, and says what
 * is wrong with them. `null` is "as usual".
 */

/** What lives in a tank: decides its warmth, its light, its flow and what harms it. */
export const LIVES = ["fish", "soft", "large-polyp", "small-polyp", "mixed", "seahorses"] as const;
export type Life = (typeof LIVES)[number];

export const HEATER_SWITCHES = ["own-thermostat", "hub", "hub-and-own-thermostat"] as const;
export const TOP_OFFS = ["by-hand", "fresh", "limewater"] as const;
export const TOP_OFF_SWITCHES = ["own-float", "hub"] as const;
export const DOSINGS = ["nothing", "two-part", "reactor"] as const;
export const PLUGGINGS = ["one-strip", "two-circuits"] as const;
export const REACHES = ["push", "text", "call"] as const;
export const WHEREABOUTS = ["lives-here", "works-here", "elsewhere"] as const;
export const ABILITIES = ["everything", "simple", "call"] as const;
export const MESSAGES = ["router", "router-and-mobile", "beep"] as const;

export const MOST_TANKS = 12;
export const MOST_PEOPLE = 8;
export const MOST_HEATERS = 6;
export const MOST_WAVE_PUMPS = 8;

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
  readonly heaterSwitch: (typeof HEATER_SWITCHES)[number];
  readonly returnFlow: string | null;
  readonly wavePumps: number;
  /** Of each. */
  readonly waveFlow: string | null;
  readonly hasSkimmer: boolean;
  readonly hasLight: boolean;
  readonly lightHours: string | null;
  readonly topOff: (typeof TOP_OFFS)[number];
  readonly topOffVolume: string | null;
  readonly topOffSwitch: (typeof TOP_OFF_SWITCHES)[number];
  readonly dosing: (typeof DOSINGS)[number];
}

export interface PersonAnswers {
  readonly name: string | null;
  readonly reachedBy: readonly (typeof REACHES)[number][];
  readonly asleep: string | null;
  readonly whereabouts: (typeof WHEREABOUTS)[number];
  readonly travel: string | null;
  readonly can: (typeof ABILITIES)[number];
}

export interface FirstSiteAnswers {
  readonly place: string | null;
  /** An IANA zone. */
  readonly zone: string | null;
  readonly tanks: readonly TankAnswers[];
  readonly plugging: (typeof PLUGGINGS)[number];
  readonly mains: string | null;
  /** An air pump at each tank starts from a battery when the mains fail. */
  readonly airBattery: boolean;
  /** A battery carries the router and the hub. */
  readonly routerBattery: boolean;
  /** A hub with a temperature probe in each tank. */
  readonly hub: boolean;
  readonly leakSensor: boolean;
  readonly messages: (typeof MESSAGES)[number];
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
