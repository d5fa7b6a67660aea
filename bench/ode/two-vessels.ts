/**
 * A test problem with what makes a tank hard to integrate: two vessels, twelve states, fourteen days. A loop of seconds inside a
 * chemistry of days, thermostats with a gap, timed switching, an equilibrium in every slope, one power cut of two hours. It is
 * no model of any tank; the same equations were solved to ten digits by two general solvers (reference.json). Time in hours.
 *
 * The twin's own integrator runs it, as it runs a site: amounts and not concentrations, the display at the level at which its
 * weir settles, the exchange in the implicit matrix, switchings landed on.
 */
import {
  CARBONATE,
  CARBONATE_SIZE,
  carbonateConstants,
  oxygenSaturation,
  solveHydrogen,
} from "../../src/science/index.ts";
import type { StiffProblem } from "../../src/twin/rosenbrock.ts";

export const HEAT_D = 0; // K L
export const HEAT_S = 1; // K L
export const SALT = 2; // kg
export const VOL_D = 3; // L
export const VOL_S = 4; // L
/** Amounts of the whole water, umol/kg times L. */
export const CHEM = 5;
const O2 = 5;
const DIC = 6;
const TA = 7;
const CA = 8;
const NH = 9;
const NO2 = 10;
const NO3 = 11;
export const SIZE = 12;

const RHO = 1.025;
const RC = RHO * 3993;
const WEIR_L = 400;
const WEIR_FACTOR = 204.1241452;
const RETURN_L_H = 3000;
const CHANGE_L_H = 0.25;
const LATENT = 2.45e6;
const W_TO_RC = 3600 / RC;

/** 1 on, 0 off. */
export interface Switches {
  heater: number;
  topUp: number;
  fan: number;
  lamp: number;
  pump: number;
  /** umol/kg/h of alkalinity. */
  dose: number;
}

function vapourKPa(celsius: number): number {
  return 0.61094 * Math.exp((17.625 * celsius) / (celsius + 243.04));
}

export function roomC(tH: number): number {
  const hump = (tH - 264) / 30;
  return 22 + 1.5 * Math.sin((2 * Math.PI * (tH - 9)) / 24) + 5 * Math.exp(-hump * hump);
}

/** Water rounded to these has one set of constants, as in the twin. */
const ROUND_K = 0.02;
const ROUND_S = 0.02;

interface Water {
  readonly constants: Float64Array;
  readonly oxygen: number;
  readonly solubility: number;
}

/** The problem counts borate and water only, with a little more borate than the house. */
const BORATE_AT_S35 = 0.000416;

function knowWater(celsius: number, salinity: number): Water {
  const constants = new Float64Array(CARBONATE_SIZE);
  carbonateConstants(celsius, salinity, constants, BORATE_AT_S35);
  constants[CARBONATE.ST] = 0;
  constants[CARBONATE.FT] = 0;
  constants[CARBONATE.TOTAL_PER_FREE] = 1;
  return { constants, oxygen: oxygenSaturation(celsius, salinity), solubility: constants[CARBONATE.K0] };
}

export class TwoVessels implements StiffProblem {
  readonly switches: Switches = { heater: 0, topUp: 0, fan: 0, lamp: 0, pump: 1, dose: 0 };
  readonly y = new Float64Array(SIZE);
  /** Start and length of the step that is being taken, h. */
  fromH = 0;
  hours = 0;
  slopes = 0;
  hydrogen = 1e-8;
  readonly #waters = new Map<number, Water>();
  // (I - g A): the heat of both vessels, and what is stiff in the chemistry.
  readonly #heat = new Float64Array(4);
  /** What a litre more in the display and in the sump takes from the exchange of heat, times g. */
  #perDisplayL = 0;
  #perSumpL = 0;
  readonly #oxygen: Float64Array = new Float64Array(3);
  readonly #around = [new Float64Array(4), new Float64Array(4)];

  constructor() {
    const water = 406 + 39;
    this.y.set([25.5 * 406, 25.5 * 39, 15.964375, 406, 39]);
    this.y.set(
      [205, 2000, 2300, 10280, 1, 0.3, 50].map((one) => one * water),
      CHEM,
    );
  }

  /** What comes from outside at both ends of the coming step; it does not hang on the water. */
  lookAround(fromH: number, hours: number): void {
    this.fromH = fromH;
    this.hours = hours;
    for (const share of [0, 1]) {
      const tH = fromH + share * hours;
      const around = this.#around[share];
      const light = this.switches.lamp * Math.max(0, 300 * Math.sin((Math.PI * ((tH % 24) - 10)) / 12));
      around[0] = roomC(tH);
      around[1] = 0.55 * vapourKPa(around[0]);
      around[2] = light;
      around[3] = 0.9 * (1 + 0.6 * Math.sin((2 * Math.PI * (tH - 6)) / 24));
    }
  }

  evaporationLPerH(displayC: number, roomKPa: number): number {
    return 0.06 * (vapourKPa(displayC) - roomKPa) * (this.switches.fan > 0 ? 2.5 : 1);
  }

  /** Brings the display to the level at which its weir settles for the flow, or to its crest when the pump rests. */
  settle(tH: number): void {
    const { y, switches } = this;
    const displayC = y[HEAT_D] / y[VOL_D];
    const evaporation = this.evaporationLPerH(displayC, 0.55 * vapourKPa(roomC(tH)));
    const level =
      switches.pump > 0
        ? WEIR_L + Math.cbrt(((RETURN_L_H - evaporation) / WEIR_FACTOR) ** 2)
        : Math.min(y[VOL_D], WEIR_L);
    const moved = y[VOL_D] - level;
    if (moved === 0) return;
    const heat = moved > 0 ? moved * displayC : (moved * y[HEAT_S]) / y[VOL_S];
    y[VOL_D] = level;
    y[VOL_S] += moved;
    y[HEAT_D] -= heat;
    y[HEAT_S] += heat;
  }

  factor(gH: number): void {
    const { y, switches } = this;
    const flow = switches.pump * RETURN_L_H;
    const [dd, ds, sd, ss] = [
      1 + (gH * (flow + 8 * W_TO_RC)) / y[VOL_D],
      (-gH * flow) / y[VOL_S],
      (-gH * flow) / y[VOL_D],
      1 + (gH * (flow + CHANGE_L_H + 2 * W_TO_RC)) / y[VOL_S],
    ];
    const determinant = dd * ss - ds * sd;
    this.#heat[0] = ss / determinant;
    this.#heat[1] = -ds / determinant;
    this.#heat[2] = -sd / determinant;
    this.#heat[3] = dd / determinant;
    this.#perDisplayL = (gH * flow * y[HEAT_D]) / (y[VOL_D] * y[VOL_D]);
    this.#perSumpL = (gH * flow * y[HEAT_S]) / (y[VOL_S] * y[VOL_S]);
    const perL = 1 / (y[VOL_D] + y[VOL_S]);
    const nh = 2 + y[NH] * perL;
    const no2 = 3 + y[NO2] * perL;
    this.#oxygen[0] = 1 / (1 + gH * (switches.pump > 0 ? 1.5 : 0.2));
    this.#oxygen[1] = 1 / (1 + (gH * 3.2) / (nh * nh));
    this.#oxygen[2] = 1 / (1 + (gH * 6) / (no2 * no2));
  }

  solve(x: Float64Array): void {
    const heat = this.#heat;
    const moved = this.#perDisplayL * x[VOL_D] - this.#perSumpL * x[VOL_S];
    const display = x[HEAT_D] + moved;
    const sump = x[HEAT_S] - moved;
    x[HEAT_D] = heat[0] * display + heat[1] * sump;
    x[HEAT_S] = heat[2] * display + heat[3] * sump;
    x[O2] *= this.#oxygen[0];
    x[NH] *= this.#oxygen[1];
    x[NO2] *= this.#oxygen[2];
  }

  slope(share: 0 | 1, y: Float64Array, out: Float64Array): void {
    this.slopes++;
    const { heater, topUp, pump, dose } = this.switches;
    const around = this.#around[share];
    const room = around[0];
    const light = around[2];
    const displayC = y[HEAT_D] / y[VOL_D];
    const sumpC = y[HEAT_S] / y[VOL_S];
    const evaporation = this.evaporationLPerH(displayC, around[1]);
    const flow = pump * RETURN_L_H;
    const fill = 60 * topUp;
    const over = pump > 0 ? flow - evaporation : 0;
    const toDisplay = flow * sumpC - over * displayC;
    out[HEAT_D] = toDisplay - evaporation * (displayC + LATENT / RC) + W_TO_RC * (0.2 * light - 8 * (displayC - room));
    out[HEAT_S] =
      (fill + CHANGE_L_H) * room -
      CHANGE_L_H * sumpC -
      toDisplay +
      W_TO_RC * (300 * heater + 30 * pump - 2 * (sumpC - room));
    out[VOL_D] = pump > 0 ? 0 : -evaporation;
    out[VOL_S] = fill - (pump > 0 ? evaporation : 0);
    const volume = y[VOL_D] + y[VOL_S];
    const salinity = (1000 * y[SALT]) / (RHO * volume);
    out[SALT] = (CHANGE_L_H * RHO * (35 - salinity)) / 1000;
    this.#chemistry(y, out, displayC, salinity, light, around[3], dose, pump, volume);
  }

  // Called from one place.
  #chemistry(
    y: Float64Array,
    out: Float64Array,
    displayC: number,
    salinity: number,
    light: number,
    excreted: number,
    dose: number,
    pump: number,
    volume: number,
  ): void {
    const per = 1 / volume;
    const oxygen = y[O2] * per;
    const dic = y[DIC] * per;
    const alkalinity = y[TA] * per;
    const calcium = y[CA] * per;
    const ammonia = y[NH] * per;
    const nitrite = y[NO2] * per;
    const nitrate = y[NO3] * per;
    const water = this.#water(displayC, salinity);
    const k = water.constants;
    const h = solveHydrogen(k, alkalinity * 1e-6, dic * 1e-6, this.hydrogen);
    this.hydrogen = h;
    const k1 = k[CARBONATE.K1];
    const both = k1 * k[CARBONATE.K2];
    const parts = h * h + k1 * h + both;
    const co2 = (dic * h * h) / parts;
    const omega = (calcium * ((dic * both) / parts) * 1e-12) / k[CARBONATE.KSP_ARAGONITE];
    const photo = light > 0 ? Math.tanh(light / 150) : 0;
    const q = 2 ** ((displayC - 25) / 10);
    const lim = oxygen / (oxygen + 20);
    const breath = 9 * q * lim;
    const growth = omega > 1 ? 0.35 * (omega - 1) * (0.3 + 0.7 * photo) : 0;
    const gas = pump > 0 ? 1.5 : 0.2;
    const first = ((1.6 * q * ammonia) / (2 + ammonia)) * lim;
    const second = ((2 * q * nitrite) / (3 + nitrite)) * lim;
    const taken = 0.01 * nitrate;
    const net = 22 * photo - breath;
    out[O2] = volume * (net - 1.5 * first - 0.5 * second + gas * (water.oxygen - oxygen)) + CHANGE_L_H * (210 - oxygen);
    out[DIC] =
      volume * (-net - growth + 0.9 * gas * (450 * water.solubility - co2) + 0.5 * dose) + CHANGE_L_H * (2000 - dic);
    out[TA] = volume * (-2 * growth + excreted - 2 * first + taken + dose) + CHANGE_L_H * (2300 - alkalinity);
    out[CA] = volume * (-growth + 0.5 * dose) + CHANGE_L_H * (10280 - calcium);
    out[NH] = volume * (excreted - first) - CHANGE_L_H * ammonia;
    out[NO2] = volume * (first - second) - CHANGE_L_H * nitrite;
    out[NO3] = volume * (second - taken) - CHANGE_L_H * nitrate;
  }

  #water(celsius: number, salinity: number): Water {
    const c = Math.round(celsius / ROUND_K);
    const s = Math.round(salinity / ROUND_S);
    const number = c * 10_000 + s;
    let water = this.#waters.get(number);
    if (water === undefined) {
      water = knowWater(c * ROUND_K, s * ROUND_S);
      this.#waters.set(number, water);
    }
    return water;
  }
}
