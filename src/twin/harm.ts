/**
 * Harm is dose: for each livestock group of each body, the time spent beyond what it bears, weighed by how far beyond.
 * docs/science.md#harm.
 */
import {
  ammoniaFraction,
  CARBONATE,
  co2FromHydrogen,
  GROUPS,
  HARM_DOSE,
  HARM_FACTOR,
  harmRatePerH,
  REPAIR_HOURS,
  STRESSORS,
  stressorIndex,
} from "../science/index.ts";
import { BODY_COLUMNS, DIC, HYDROGEN, TAN } from "./columns.ts";
import { kgPerL, volumeL } from "./hydraulics.ts";
import type { SystemModel } from "./model.ts";
import { SLOW, SLOW_COLUMNS, type Twin } from "./state.ts";
import { oxygenMgL, perKg, phTotal, salinity, temperatureC } from "./water-values.ts";

const COUNT = STRESSORS.length;
const MG_N_PER_MOL = 14_007;
/** Under this share of full light a body counts as dark. */
const DARK_SHARE = 0.05;
/** Un-ionised ammonia is worked out only above this total, mol/kg. */
const AMMONIA_FLOOR = 2e-6;

/** Above this CO2 the acid that fish feel is the CO2 itself, which has its own row. */
const CARBONIC_UATM = 5000;
const LAST_FISH = GROUPS.indexOf("seahorses");

/** Size of each stressor in a body now, in the order of STRESSORS. */
const sizes = new Float64Array(COUNT);
const HEAT_AT = stressorIndex("heat");
const COLD_AT = stressorIndex("cold");
const HYPOXIA_AT = stressorIndex("hypoxia");
const LOW_S_AT = stressorIndex("low-salinity");
const HIGH_S_AT = stressorIndex("high-salinity");
const HIGH_PH_AT = stressorIndex("high-ph");
const LOW_PH_AT = stressorIndex("low-ph");
const AMMONIA_AT = stressorIndex("ammonia");
const CO2_AT = stressorIndex("co2");
const EMERSION_AT = stressorIndex("emersion");
const DARK_AT = stressorIndex("darkness");

const OF_WARMTH = [HEAT_AT, COLD_AT];
const OF_MATTER = [...STRESSORS.keys()].filter((stressor) => !OF_WARMTH.includes(stressor));

function measureWarmth(twin: Twin, body: number): void {
  const waterC = temperatureC(twin, body);
  sizes[HEAT_AT] = waterC;
  sizes[COLD_AT] = waterC;
}

function measureMatter(twin: Twin, body: number): void {
  const waterC = temperatureC(twin, body);
  const salt = salinity(twin, body);
  const ph = phTotal(twin, body);
  sizes[HYPOXIA_AT] = oxygenMgL(twin, body);
  sizes[LOW_S_AT] = salt;
  sizes[HIGH_S_AT] = salt;
  sizes[HIGH_PH_AT] = ph;
  sizes[LOW_PH_AT] = ph;
  const tan = perKg(twin, body, TAN);
  sizes[AMMONIA_AT] =
    tan < AMMONIA_FLOOR ? 0 : tan * kgPerL(twin, body) * MG_N_PER_MOL * ammoniaFraction(waterC, salt, ph);
  const constants = twin.scratch.constants[body];
  sizes[CO2_AT] =
    (co2FromHydrogen(constants, perKg(twin, body, DIC), twin.bodies[body * BODY_COLUMNS + HYDROGEN]) /
      constants[CARBONATE.K0]) *
    1e6;
  sizes[EMERSION_AT] = Math.max(0, 1 - volumeL(twin, body) / twin.model.site.bodies[body].volumeL);
  sizes[DARK_AT] = twin.dark[body];
}

/** Adds what the last `hours` did to the livestock of a system by their warmth. */
export function updateHarmOfWarmth(twin: Twin, system: SystemModel, hours: number): void {
  for (const place of system.groups) {
    measureWarmth(twin, twin.model.groups[place].body);
    for (const stressor of OF_WARMTH) addDose(twin, place, stressor, rateOf(twin, place, stressor), hours);
  }
}

/** Notes how fast the water harms the livestock of a system at the beginning of a stretch. */
export function beginHarm(twin: Twin, system: SystemModel): void {
  const { harmRate, harms } = twin.scratch;
  harms[system.index] = 0;
  eachMeasured(twin, system, (place) => {
    measureWarmth(twin, twin.model.groups[place].body);
    for (const stressor of STRESSORS.keys()) {
      const rate = rateOf(twin, place, stressor);
      harmRate[place * COUNT + stressor] = rate;
      if (rate > 0) harms[system.index] = 1;
    }
  });
}

/** Adds what a stretch did to it by all else than warmth, by the mean of how it harmed at the beginning and at the end. */
export function updateHarm(twin: Twin, system: SystemModel, hours: number): void {
  for (const body of system.waters) {
    const lit = twin.scratch.slow[body * SLOW_COLUMNS + SLOW.light] > DARK_SHARE;
    twin.dark[body] = lit || !twin.model.hasLight[body] ? 0 : twin.dark[body] + hours;
  }
  eachMeasured(twin, system, (place) => {
    for (const stressor of OF_MATTER) {
      const rate = (twin.scratch.harmRate[place * COUNT + stressor] + rateOf(twin, place, stressor)) / 2;
      addDose(twin, place, stressor, rate, hours);
    }
  });
}

/** Every group of a system, once what is dissolved in its water has been measured. */
function eachMeasured(twin: Twin, system: SystemModel, see: (place: number) => void): void {
  let measured = -1;
  for (const place of system.groups) {
    const { body } = twin.model.groups[place];
    if (measured !== body) measureMatter(twin, body);
    measured = body;
    see(place);
  }
}

/** Harm an hour by what was measured. */
function rateOf(twin: Twin, place: number, stressor: number): number {
  const { group } = twin.model.groups[place];
  const isCarbonicAcid = stressor === LOW_PH_AT && sizes[CO2_AT] > CARBONIC_UATM && group <= LAST_FISH;
  return isCarbonicAcid ? 0 : harmRatePerH(group, stressor, sizes[stressor]);
}

function addDose(twin: Twin, place: number, stressor: number, rate: number, hours: number): void {
  const at = place * COUNT + stressor;
  if (rate > 0) twin.harm[at] += rate * hours;
  else if (twin.harm[at] > 0)
    twin.harm[at] *= Math.exp(-hours / REPAIR_HOURS[twin.model.groups[place].group * COUNT + stressor]);
}

export type HarmEnd = "early" | "likely" | "late";

/**
 * Dose of the worst-off group, of all or of one system, at one end of the band: the hours that animals bear may be shorter (early) or longer (late) by
 * each stressor's factor. Harm is done at `HARM_DOSE.harm`.
 */
export function worstDose(twin: Twin, end: HarmEnd, system = -1): number {
  const { groups } = twin.model;
  let worst = 0;
  for (let place = 0; place < groups.length; place++)
    if (system < 0 || groups[place].system === system) worst = Math.max(worst, doseOf(twin, place, end));
  return worst;
}

function doseOf(twin: Twin, place: number, end: HarmEnd): number {
  const { group } = twin.model.groups[place];
  let dose = 0;
  for (let stressor = 0; stressor < COUNT; stressor++) {
    const factor = HARM_FACTOR[group * COUNT + stressor];
    const own = twin.harm[place * COUNT + stressor];
    dose += end === "early" ? own * factor : end === "late" ? own / factor : own;
  }
  return dose;
}

export function isHarmed(twin: Twin, end: HarmEnd, system = -1): boolean {
  return worstDose(twin, end, system) >= HARM_DOSE.harm;
}

export interface HarmWhat {
  readonly body: string;
  readonly group: string;
  readonly stressor: string;
}

/** Who suffers most, everywhere or in one system, and from what. */
export function worstHarm(twin: Twin, system = -1): HarmWhat | null {
  let most = 0;
  let found: HarmWhat | null = null;
  for (const [place, { body, group, system: own }] of twin.model.groups.entries()) {
    if (system >= 0 && own !== system) continue;
    for (let stressor = 0; stressor < COUNT; stressor++) {
      const dose = twin.harm[place * COUNT + stressor] * HARM_FACTOR[group * COUNT + stressor];
      if (dose <= most) continue;
      most = dose;
      found = { body: twin.model.site.bodies[body].id, group: GROUPS[group], stressor: STRESSORS[stressor] };
    }
  }
  return found;
}

/** True where nothing beyond what animals bear goes on now. */
export function atEase(twin: Twin): boolean {
  let measured = -1;
  for (const group of twin.model.groups) {
    if (measured !== group.body) {
      measureWarmth(twin, group.body);
      measureMatter(twin, group.body);
    }
    measured = group.body;
    for (let stressor = 0; stressor < COUNT; stressor++)
      if (harmRatePerH(group.group, stressor, sizes[stressor]) > 0) return false;
  }
  return true;
}
