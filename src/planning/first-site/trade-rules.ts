/**
 * Sizes that the trade takes for a tank of which only the litres and the life are known. All of them are rules of thumb of
 * the trade, without a measured source, and start values to be replaced by what really stands there.
 */
import type { Life } from "./answers.ts";

/** Sizes in which things are sold. */
const HEATERS_W = [25, 50, 75, 100, 150, 200, 250, 300, 400, 500, 600, 800, 1000];
const CANS_L = [2, 5, 10, 15, 20, 25, 30, 40, 50, 60, 80, 100, 150, 200, 250, 300, 400, 500, 750, 1000];
const BREAKERS_A = [16, 20, 25, 32, 40, 50, 63, 80, 100];
const AMERICAN_BREAKERS_A = [15, 20, 25, 30, 40, 50, 60, 80, 100];

/** The most that a site file takes of power and flow: whoever has more says how much. */
const MOST_W = 1e6;
const MOST_L_PER_H = 1e6;

/** The smallest size that is enough; past the largest, whole steps of it. */
function sizeFor(wanted: number, sizes: readonly number[]): number {
  const largest = sizes[sizes.length - 1];
  return sizes.find((size) => size >= wanted) ?? Math.ceil(wanted / largest) * largest;
}

/** Two significant digits: what is guessed is not printed to the litre. */
export function nice(value: number): number {
  return Number(value.toPrecision(2));
}

/** Rule of thumb of the trade: 0.8 to 1.3 W a litre in small tanks, 0.3 to 0.5 W for each litre above 500. */
function heatingW(waterL: number): number {
  if (waterL <= 100) return 1.2 * waterL;
  if (waterL <= 500) return 120 + 0.8 * (waterL - 100);
  return 440 + 0.45 * (waterL - 500);
}

export function usualHeaterW(waterL: number, heaters: number): number {
  return Math.min(MOST_W, sizeFor(heatingW(waterL) / Math.max(1, heaters), HEATERS_W));
}

/** Rule of thumb of the trade: a sump holds about a fifth of its tank. */
export const usualSumpL = (displayL: number): number => 0.2 * displayL;

/** Rule of thumb of the trade: 3 to 10 times the tank an hour after head and fittings; five here. */
export const usualReturnLPerH = (displayL: number): number => Math.min(MOST_L_PER_H, 5 * displayL);

/** Water moved in the tank, times its volume an hour. Rule of thumb of the trade: 10-20 for soft, 15-30, 20-50 for stony. */
const TURNOVERS: Readonly<Record<Life, number>> = {
  fish: 10,
  soft: 12,
  "large-polyp": 18,
  "small-polyp": 30,
  mixed: 20,
  seahorses: 5,
};

export function usualWaveLPerH(life: Life, displayL: number, pumps: number): number {
  return Math.min(MOST_L_PER_H, (TURNOVERS[life] * displayL) / Math.max(1, pumps));
}

/** The middle of the range that the trade gives; seahorses are kept at or below 23.3 degC for fear of vibrio. */
export const usualTemperatureC = (life: Life): number => (life === "seahorses" ? 23 : 25.5);

/** Live weight of fish, g in each litre. A guess from what tanks of each kind are stocked with. */
const FISH_G_PER_L: Readonly<Record<Life, number>> = {
  fish: 0.8,
  soft: 0.5,
  "large-polyp": 0.5,
  "small-polyp": 0.4,
  mixed: 0.5,
  seahorses: 0.3,
};

export const usualFishG = (life: Life, displayL: number): number => nice(FISH_G_PER_L[life] * displayL);

/** What corals take up, dKH a day. Rule of thumb of the trade: soft 0-0.2, large-polyp 0.2-0.8, mixed 0.4-1.2, small 1-3. */
const ALKALINITY_USE: Readonly<Record<Life, number>> = {
  fish: 0.1,
  soft: 0.1,
  "large-polyp": 0.4,
  "small-polyp": 1.5,
  mixed: 0.8,
  seahorses: 0.1,
};
const DKH_PER_MEQ_PER_L = 2.804;

/** Of a solution of 1 meq in each mL, so that what is used up is given back. */
export function usualAlkalinityMLPerDay(life: Life, waterL: number): number {
  return nice((ALKALINITY_USE[life] * waterL) / DKH_PER_MEQ_PER_L);
}

/** A bottle for a month with half as much again. Rule of thumb of the trade. */
export const usualBottleL = (mLPerDay: number): number => sizeFor((30 * 1.5 * mLPerDay) / 1000, CANS_L);

/** Evaporation from open water in a heated room: 4 to 7 L a day from each square metre, worked out by the trade notes. */
const EVAPORATION_L_PER_M2_DAY = 5;
const DAYS_OF_TOP_OFF = 7;

export function usualTopOffL(displayL: number): number {
  const depthM = 0.5 * Math.cbrt(displayL / 400);
  return sizeFor((EVAPORATION_L_PER_M2_DAY * DAYS_OF_TOP_OFF * displayL) / 1000 / depthM, CANS_L);
}

/** Rule of thumb of the trade: what runs for hours takes at most 80 % of a breaker. */
const LOAD_SHARE = 0.8;
/** The most that a site file takes. */
const MOST_A = 1000;

export function breakerA(loadA: number, least: number, volts: number): number {
  const sizes = volts < 150 ? AMERICAN_BREAKERS_A : BREAKERS_A;
  const wanted = loadA / LOAD_SHARE;
  return wanted <= least ? least : Math.min(MOST_A, sizeFor(wanted, sizes));
}

/** Zones whose sockets give about 120 V. */
const AMERICAN_ZONE =
  /^(US\/|Canada\/|Mexico\/|Pacific\/Honolulu|America\/(New_York|Chicago|Denver|Los_Angeles|Phoenix|Anchorage|Boise|Detroit|Indiana|Kentucky|Juneau|Toronto|Vancouver|Edmonton|Winnipeg|Halifax|Regina|St_Johns|Moncton|Mexico_City|Monterrey|Tijuana|Cancun|Puerto_Rico|Bogota|Caracas|Panama|Costa_Rica|Guatemala|Havana)\b)/;

export function usualMainsV(zone: string): number {
  if (zone === "Asia/Tokyo") return 100;
  return AMERICAN_ZONE.test(zone) ? 120 : 230;
}
