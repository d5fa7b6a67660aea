/**
 * Books of a running twin, kept by someone who does not trust it.
 *
 * Nine things neither appear nor vanish in a system: its stock of each is what its bodies hold (HELD), and its stock changes by
 * what crosses its border and by nothing else. What crosses it is worked out here once more, from the laws of docs/science.md and
 * the state at each stage of a step, and never from what the twin made of it. What only changes its form inside (ammonia that
 * becomes nitrate, waste that rots, crystals that fall out, a dose that comes out of its bottle) is in no book: it must balance by
 * itself.
 */
import {
  calcificationFactor,
  co2FromHydrogen,
  latentHeatKJPerKg,
  omegaAragonite,
  solveHydrogen,
} from "../src/science/index.ts";
import type { Ahead, Books } from "../src/twin/books.ts";
import {
  BODY_COLUMNS,
  CA,
  CARBON,
  DIC,
  HEAT,
  HEAT_CAPACITY,
  HYDROGEN,
  MASS,
  META,
  MG,
  NO2,
  NO3,
  O2,
  ORGANIC,
  PO4,
  ROOM_AIR_C,
  ROOM_COLUMNS,
  SALT,
  SOLID,
  TA,
  TAN,
  TRANSPORTED,
  UNROTTED,
} from "../src/twin/columns.ts";
import { deviceLever, isRunning, outputOf } from "../src/twin/hydraulics.ts";
import type { SystemModel, Twin } from "../src/twin/index.ts";
import { AT } from "../src/twin/levers.ts";
import type { CarryEdge } from "../src/twin/model.ts";
import { SLOW, SLOW_COLUMNS } from "../src/twin/state.ts";

export const QUANTITIES = [
  "water",
  "salt",
  "heat",
  "carbon",
  "calcium",
  "magnesium",
  "alkalinity",
  "nitrogen",
  "phosphorus",
  "oxygen",
] as const;
export type BalancedQuantity = (typeof QUANTITIES)[number];

/** Carbon and oxygen that waste holds and asks for, and its phosphorus, per mole of nitrogen (Redfield 106 : 16 : 1). */
const WASTE_C_PER_N = 6.6;
const WASTE_P_PER_N = 1 / 16;

/**
 * What a unit of each column holds of each quantity (docs/science.md#amounts).
 *
 * Alkalinity is the explicitly conservative part of it (Wolf-Gladrow et al. 2007), with the two charges of each crystal: it does
 * not change as nitrogen changes its form. Oxygen is what is free, with what is bound in nitrite and nitrate, less what all that can
 * rot or burn in the water will still ask for.
 */
const HELD: Readonly<Record<BalancedQuantity, Readonly<Record<number, number>>>> = {
  water: { [MASS]: 1 },
  salt: { [SALT]: 1 },
  heat: { [HEAT]: 1 },
  carbon: { [DIC]: 1, [SOLID]: 1, [CARBON]: 1, [ORGANIC]: WASTE_C_PER_N, [UNROTTED]: WASTE_C_PER_N },
  calcium: { [CA]: 1, [SOLID]: 1 },
  magnesium: { [MG]: 1 },
  alkalinity: { [TA]: 1, [SOLID]: 2, [TAN]: -1, [NO2]: 1, [NO3]: 1 },
  nitrogen: { [TAN]: 1, [NO2]: 1, [NO3]: 1, [META]: 1, [ORGANIC]: 1, [UNROTTED]: 1 },
  phosphorus: { [PO4]: 1, [META]: WASTE_P_PER_N, [ORGANIC]: WASTE_P_PER_N, [UNROTTED]: WASTE_P_PER_N },
  oxygen: { [O2]: 1, [NO2]: 1.5, [NO3]: 2, [CARBON]: -1, [ORGANIC]: -WASTE_C_PER_N, [UNROTTED]: -WASTE_C_PER_N },
};

/** A column whose every unit is one of a quantity. */
export function columnOf(quantity: BalancedQuantity): number {
  const whole = Object.entries(HELD[quantity]).find(([, weight]) => weight === 1);
  return Number(whole?.[0]);
}

/** What one unit of each crossing brings of each quantity: mol, kg of water, J. */
export const CROSSINGS = {
  /** Animals, rock and sand breathe a mole of oxygen; their bodies lie beyond the border. */
  breath: { oxygen: -1, carbon: 0.95 },
  /** Light gives a mole of oxygen; sugar stays in the plant. */
  light: { oxygen: 1, carbon: -1 / 1.1 },
  /** A mole of shells, 3 % of it magnesium. */
  shells: { calcium: -0.97, magnesium: -0.03, carbon: -1, alkalinity: -2 },
  crystalsSettled: { calcium: -1, carbon: -1, alkalinity: -2 },
  carbonDioxideOfTheAir: { carbon: 1 },
  carbonDioxideBubbledIn: { carbon: 1 },
  oxygenOfTheAir: { oxygen: 1 },
  wasteSkimmed: { nitrogen: -1, carbon: -WASTE_C_PER_N, oxygen: WASTE_C_PER_N, phosphorus: -WASTE_P_PER_N },
  /** Bacteria that grew on organic carbon, per mole of carbon: they are skimmed or eaten. */
  bacteriaGrown: { carbon: -1, oxygen: 1 },
  /** A mole of nitrate becomes gas, or part of a plant. */
  nitrateTaken: { nitrogen: -1, oxygen: -2 },
  warmthOfDevices: { heat: 1 },
  warmthToTheRoom: { heat: -1 },
  vapour: { water: -1 },
  warmthOfVapour: { heat: -1 },
  /** A reactor dissolves a mole of calcium carbonate. */
  stoneDissolved: { calcium: 1, carbon: 1, alkalinity: 2 },
  gasOfReactors: { carbon: 1 },
} as const satisfies Readonly<Record<string, Readonly<Partial<Record<BalancedQuantity, number>>>>>;
export type Crossing = keyof typeof CROSSINGS;

/** The same two tables as rows of numbers, in the order of the quantities. */
const HELD_BY_COLUMN = Array.from({ length: MASS + 1 }, (_, column) =>
  Float64Array.from(QUANTITIES, (quantity) => HELD[quantity][column] ?? 0),
);
const BROUGHT = Object.fromEntries(
  Object.entries(CROSSINGS).map(([crossing, brings]: [string, Readonly<Partial<Record<BalancedQuantity, number>>>]) => [
    crossing,
    Float64Array.from(QUANTITIES, (quantity) => brings[quantity] ?? 0),
  ]),
) as Readonly<Record<Crossing, Float64Array>>;

function addTimes(sums: Float64Array, row: Float64Array, times: number): void {
  for (let place = 0; place < sums.length; place++) sums[place] += row[place] * times;
}

/** As the twin calls what a step counts ahead. */
const AHEAD_OF = {
  "oxygen of the air": "oxygenOfTheAir",
  "carbon dioxide of the air": "carbonDioxideOfTheAir",
  breath: "breath",
} as const satisfies Readonly<Partial<Record<Ahead, Crossing>>>;

/** Rates at 26 degrees C, 1/h, and the other numbers of docs/science.md that the crossings need. */
const CARBON_USED_PER_H = 0.15;
const GROWN_SHARE = 0.4;
const SKIMMED_PER_H = 0.2 / 24;
const OXYGEN_HALF_MG_L = 0.5;
const FISH_CRITICAL_MG_L = 1.6;
const CORAL_CRITICAL_MG_L = 3.7;
const FASTEST_GAS_PER_H = 4;
const O2_MG_PER_MOL = 31_998.8;
const EFFLUENT_EQ_L = 14.3e-3;
const EFFLUENT_CO2_MOL_L = 2e-3;
const OPEN_VALVE_CO2_MOL_L = 26e-3;

/** How far the books of one system are from its stock, and how much is at stake. */
export interface Balance {
  readonly quantity: BalancedQuantity;
  readonly start: number;
  readonly end: number;
  /** Sum of what came less what went. */
  readonly crossed: number;
  /** (end - start - crossed) over the larger stock. */
  readonly relativeError: number;
}

type Columns = Float64Array;

/** Keeps the books of a twin from now on. A crossing named in `misread` is counted so many times, to see that it shows. */
export class BorderBooks implements Books {
  readonly #twin: Twin;
  readonly #misread: Readonly<Partial<Record<Crossing, number>>>;
  readonly #start: readonly Float64Array[];
  /** By system, what crossed its border by quantity. */
  readonly #crossed: readonly Float64Array[];
  readonly #kept: readonly Float64Array[];

  constructor(twin: Twin, misread: Readonly<Partial<Record<Crossing, number>>> = {}) {
    this.#twin = twin;
    this.#misread = misread;
    this.#start = twin.model.systems.map((system) => stockOf(twin, system));
    this.#crossed = this.#start.map(({ length }) => new Float64Array(length));
    this.#kept = this.#crossed.map((sums) => sums.slice());
    twin.books = this;
  }

  balances(system: SystemModel): Balance[] {
    const ends = stockOf(this.#twin, system);
    return QUANTITIES.map((quantity, place) => {
      const [start, end] = [this.#start[system.index][place], ends[place]];
      const crossed = this.#crossed[system.index][place];
      const stake = Math.max(Math.abs(start), Math.abs(end));
      return { quantity, start, end, crossed, relativeError: (end - start - crossed) / Math.max(stake, 1e-6) };
    });
  }

  keep(): void {
    for (const [system, sums] of this.#crossed.entries()) this.#kept[system].set(sums);
  }

  takeBack(): void {
    for (const [system, sums] of this.#crossed.entries()) sums.set(this.#kept[system]);
  }

  moved(system: number, column: number, amount: number): void {
    addTimes(this.#crossed[system], HELD_BY_COLUMN[column], amount);
  }

  settled(body: number, mol: number): void {
    const { site, systems } = this.#twin.model;
    const system = systems.find(({ id }) => id === site.bodies[body].system);
    if (system !== undefined) this.#cross(system, "crystalsSettled", mol);
  }

  ahead(system: SystemModel, what: Ahead, mol: number): void {
    if (what === "organic carbon used") this.#cross(system, "bacteriaGrown", GROWN_SHARE * mol);
    else this.#cross(system, AHEAD_OF[what], mol);
  }

  warmth(system: SystemModel, heatJ: Columns, massKg: Columns, hours: number): void {
    for (const [local, body] of system.waters.entries()) {
      this.#warmth(system, body, heatJ[local], massKg[local], hours);
      const lostKg = hours * this.#twin.scratch.flows[system.index].lostKgH[local];
      if (lostKg === 0) continue;
      this.moved(system.index, HEAT, (-lostKg / massKg[local]) * heatJ[local]);
      this.moved(system.index, MASS, -lostKg);
    }
    for (const { device, from, to } of system.carries) if (from < 0) this.#line(system, device, to, hours);
  }

  matter(system: SystemModel, amounts: Columns, massKg: Columns, hours: number): void {
    for (const [local, body] of system.waters.entries()) {
      const held = amounts.subarray(local * TRANSPORTED, (local + 1) * TRANSPORTED);
      this.#gas(system, body, held, massKg[local], hours);
      this.#life(system, body, held, massKg[local], hours);
      this.#loss(system, local, held, massKg[local], hours);
    }
    for (const carry of system.carries) this.#carry(system, carry, hours);
    for (const device of system.reactors) if (isRunning(this.#twin, device)) this.#react(system, device, hours);
  }

  #cross(system: SystemModel, crossing: Crossing, amount: number): void {
    addTimes(this.#crossed[system.index], BROUGHT[crossing], amount * (this.#misread[crossing] ?? 1));
  }

  #slow(body: number, column: number): number {
    return this.#twin.scratch.slow[body * SLOW_COLUMNS + column];
  }

  #lever(body: number, lever: number): number {
    return this.#twin.levers[this.#twin.model.levers.base.body[body] + lever];
  }

  #warmth(system: SystemModel, body: number, heatJ: number, massKg: number, hours: number): void {
    const temperatureC = heatJ / (massKg * HEAT_CAPACITY);
    const lostW = this.#slow(body, SLOW.lossWPerK) * (temperatureC - this.#slow(body, SLOW.airC));
    const vapourC = this.#slow(body, SLOW.temperatureC);
    const vapourKg = this.#slow(body, SLOW.evaporationKgH) * hours;
    this.#cross(system, "warmthOfDevices", 3600 * hours * this.#slow(body, SLOW.heatW));
    this.#cross(system, "warmthToTheRoom", 3600 * hours * lostW);
    this.#cross(system, "vapour", vapourKg);
    this.#cross(system, "warmthOfVapour", vapourKg * (1000 * latentHeatKJPerKg(vapourC) + HEAT_CAPACITY * vapourC));
  }

  #gas(system: SystemModel, body: number, held: Columns, massKg: number, hours: number): void {
    const constants = this.#twin.scratch.constants[body];
    const [dicKg, oxygenKg] = [held[DIC] / massKg, held[O2] / massKg];
    const near = this.#twin.bodies[body * BODY_COLUMNS + HYDROGEN];
    const hydrogen = solveHydrogen(constants, held[TA] / massKg, dicKg, near);
    const co2Kg = co2FromHydrogen(constants, dicKg, hydrogen);
    const fastestKgH = co2Kg > 0 ? (FASTEST_GAS_PER_H * massKg * dicKg) / co2Kg : Number.POSITIVE_INFINITY;
    const carbonKgH = Math.min(this.#slow(body, SLOW.carbonKgH), fastestKgH);
    const oxygenKgH = this.#slow(body, SLOW.oxygenKgH);
    this.#cross(system, "carbonDioxideOfTheAir", hours * carbonKgH * (this.#slow(body, SLOW.co2Equilibrium) - co2Kg));
    this.#cross(system, "oxygenOfTheAir", hours * oxygenKgH * (this.#slow(body, SLOW.oxygenSaturation) - oxygenKg));
    this.#cross(system, "carbonDioxideBubbledIn", hours * this.#lever(body, AT.body.carbonDioxideMolH));
    const omega = omegaAragonite(constants, held[CA] / massKg, dicKg, hydrogen);
    const factor = calcificationFactor(omega, this.#slow(body, SLOW.light), this.#slow(body, SLOW.temperatureC));
    const { calcifyMolH } = this.#twin.model.life[body];
    this.#cross(system, "shells", hours * calcifyMolH * factor * this.#lever(body, AT.body.calcify));
  }

  #life(system: SystemModel, body: number, held: Columns, massKg: number, hours: number): void {
    const life = this.#twin.model.life[body];
    const q10 = this.#slow(body, SLOW.q10);
    const oxygenMgL = Math.max(0, (held[O2] / massKg) * this.#slow(body, SLOW.kgPerL) * O2_MG_PER_MOL);
    const fish = life.fishO2MolH * this.#slow(body, SLOW.fishOxygen) * Math.min(1, oxygenMgL / FISH_CRITICAL_MG_L);
    const rest = life.benthosO2MolH * q10 * Math.min(1, oxygenMgL / CORAL_CRITICAL_MG_L);
    const used = CARBON_USED_PER_H * q10 * (oxygenMgL / (oxygenMgL + OXYGEN_HALF_MG_L)) * held[CARBON];
    this.#cross(system, "breath", hours * (fish + rest) * this.#lever(body, AT.body.demand));
    this.#cross(system, "light", hours * life.photoO2MolH * this.#slow(body, SLOW.light));
    this.#cross(system, "bacteriaGrown", hours * GROWN_SHARE * used);
    this.#cross(system, "wasteSkimmed", hours * this.#slow(body, SLOW.skim) * SKIMMED_PER_H * held[ORGANIC]);
    this.#cross(system, "nitrateTaken", hours * life.nitrateLossPerH * q10 * held[NO3]);
  }

  /** To the floor and down the drain. */
  #loss(system: SystemModel, local: number, held: Columns, massKg: number, hours: number): void {
    const lostKg = hours * this.#twin.scratch.flows[system.index].lostKgH[local];
    if (lostKg === 0) return;
    for (let column = SALT; column < TRANSPORTED; column++)
      this.moved(system.index, column, (-lostKg / massKg) * held[column]);
  }

  /** From the supply line. */
  #line(system: SystemModel, device: number, to: number, hours: number): void {
    const litres = this.#twin.scratch.deviceFlow[device] * hours;
    const airC = this.#twin.rooms[this.#twin.model.roomOfBody[to] * ROOM_COLUMNS + ROOM_AIR_C];
    this.moved(system.index, MASS, litres);
    this.moved(system.index, HEAT, litres * HEAT_CAPACITY * airC);
  }

  /** What a bottle holds less, or more, than its label says. */
  #carry(system: SystemModel, { device, from, to }: CarryEdge, hours: number): void {
    const { bodies, model, scratch } = this.#twin;
    const litres = scratch.deviceFlow[device] * hours;
    if (litres === 0) return;
    if (from >= 0 && model.localOfBody[to] >= 0) {
      const share = (litres * this.#slow(from, SLOW.kgPerL)) / bodies[from * BODY_COLUMNS + MASS];
      const more = deviceLever(this.#twin, device, AT.device.strength) - 1;
      for (let column = SALT; column < TRANSPORTED; column++)
        this.moved(system.index, column, more * share * bodies[from * BODY_COLUMNS + column]);
    }
  }

  #react(system: SystemModel, device: number, hours: number): void {
    const litres = this.#twin.model.site.devices[device].flowLPerH * outputOf(this.#twin, device) * hours;
    const works = deviceLever(this.#twin, device, AT.device.strength);
    const open = deviceLever(this.#twin, device, AT.device.gasOpen) > 0;
    const dissolved = (litres * EFFLUENT_EQ_L * works) / 2;
    const gas = litres * (open ? OPEN_VALVE_CO2_MOL_L : EFFLUENT_CO2_MOL_L * works);
    this.#cross(system, "stoneDissolved", dissolved);
    this.#cross(system, "gasOfReactors", dissolved + gas);
  }
}

/** What all bodies of a system hold, by quantity. */
function stockOf(twin: Twin, system: SystemModel): Float64Array {
  const sums = new Float64Array(QUANTITIES.length);
  for (const body of system.bodies)
    for (let column = 0; column <= MASS; column++)
      addTimes(sums, HELD_BY_COLUMN[column], twin.bodies[body * BODY_COLUMNS + column]);
  return sums;
}
