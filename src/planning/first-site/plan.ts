/** From answers to what stands where: every part with its name, every blank with what is usual. */
import { formatQuantity, parseQuantity } from "../../foundation/index.ts";
import type { FirstSiteAnswers, PersonAnswers, TankAnswers } from "./answers.ts";
import { type Names, openNames } from "./names.ts";
import {
  nice,
  usualAlkalinityMLPerDay,
  usualBottleL,
  usualFishG,
  usualHeaterW,
  usualMainsV,
  usualReturnLPerH,
  usualSumpL,
  usualTemperatureC,
  usualTopOffL,
  usualWaveLPerH,
} from "./trade-rules.ts";

/** One answer as it goes into the file, with the name of its field. */
export interface Given {
  readonly field: string;
  readonly text: string;
  readonly isUsual: boolean;
  /** What it is where nobody says. */
  readonly usual: string;
}

export interface TankPlan {
  readonly answers: TankAnswers;
  readonly field: string;
  readonly system: string;
  readonly name: Given;
  /** How a sentence speaks of it. */
  readonly called: string;
  readonly display: string;
  readonly sump: string | null;
  readonly circulation: string;
  readonly topOffCan: string;
  readonly volume: Given;
  readonly volumeL: number;
  /** With the sump. */
  readonly waterL: number;
  readonly temperature: Given;
  readonly temperatureC: number;
  readonly fishG: number;
  readonly sumpVolume: Given;
  readonly heaters: readonly string[];
  readonly heaterPower: Given;
  readonly returnPump: string;
  readonly returnFlow: Given;
  readonly wavePumps: readonly string[];
  readonly waveFlow: Given;
  readonly skimmer: string;
  readonly lamp: string;
  readonly lightHours: Given;
  readonly topOff: string;
  readonly topOffVolume: Given;
  readonly alkalinityMLPerDay: number;
  readonly calciumMLPerDay: number;
  readonly alkalinityCan: string;
  readonly alkalinityBottleL: number;
  readonly calciumCan: string;
  readonly calciumBottleL: number;
  readonly alkalinityDoser: string;
  readonly calciumDoser: string;
  readonly reactor: string;
  readonly air: string;
  readonly airCells: string;
  readonly probe: string;
  readonly float: string;
  readonly holdWarmth: string;
  readonly tooWarm: string;
  readonly tooCold: string;
  readonly fillUp: string;
}

export interface PersonPlan {
  readonly answers: PersonAnswers;
  readonly field: string;
  readonly id: string;
  readonly name: Given;
  readonly asleep: Given;
  readonly travel: Given;
}

export interface Plan {
  readonly answers: FirstSiteAnswers;
  readonly place: Given;
  readonly zone: Given;
  readonly mains: Given;
  readonly mainsV: number;
  readonly away: Given;
  readonly tanks: readonly TankPlan[];
  readonly people: readonly PersonPlan[];
  /** A hub is there: because it was said, or because something that was said needs one. */
  readonly hasHub: boolean;
  readonly hubIsImplied: boolean;
  readonly strip: string;
  readonly ringA: string;
  readonly ringB: string;
  readonly routerBattery: string;
  readonly leak: string;
  readonly floorWet: string;
}

const USUAL_TANK_L = 200;
const USUAL_MAINS_V = 230;

export function given(field: string, answer: string | null, usual: string): Given {
  const text = answer?.trim() ?? "";
  return text === "" ? { field, text: usual, isUsual: true, usual } : { field, text, isUsual: false, usual };
}

/** The number of a quantity, in its canonical unit; where it can't be read the loader says so, and `otherwise` stands in. */
function numberOf(text: string, dimension: "volume" | "temperature" | "voltage", otherwise: number): number {
  const read = parseQuantity(text, dimension);
  return read.ok && read.value.value > 0 ? read.value.value : otherwise;
}

/** A guessed quantity in the unit that goes with the one in which the tank was written. */
function inUnitOf(text: string, value: number, dimension: "volume" | "flow"): string {
  const read = parseQuantity(text, "volume");
  const unit = read.ok && (read.value.unit === "gal" || read.value.unit === "imp gal") ? read.value.unit : "L";
  const symbol = dimension === "flow" ? `${unit}/h` : unit;
  const perUnit = unit === "L" ? 1 : unit === "gal" ? 3.785411784 : 4.54609;
  return formatQuantity(nice(value / perUnit) * perUnit, dimension, symbol);
}

/** Words of a person as they can stand in a comment. */
export const printable = (text: string): string => text.replace(/[\p{C}\p{Z}]+/gu, " ");

export function planSite(answers: FirstSiteAnswers): Plan {
  const names = openNames();
  const alone = answers.tanks.length === 1;
  const zone = given("zone", answers.zone, "UTC");
  const mains = given("mains", answers.mains, `${usualMainsV(zone.text)} V`);
  const tankNames = answers.tanks.map((tank, index) =>
    given(`tanks.${index}.name`, tank.name, alone ? "Tank" : `Tank ${index + 1}`),
  );
  const systems = tankNames.map((name, index) => names.take(name.text, `tank-${index + 1}`));
  const needsHub = answers.tanks.some(
    (tank) =>
      (tank.heaters > 0 && tank.heaterSwitch !== "own-thermostat") ||
      (tank.topOff !== "by-hand" && tank.topOffSwitch === "hub"),
  );
  const hubIsImplied = !answers.hub && needsHub;
  return {
    answers,
    place: given("place", answers.place, "My place"),
    zone,
    mains,
    mainsV: numberOf(mains.text, "voltage", USUAL_MAINS_V),
    away: given("away", answers.away, "7 days"),
    tanks: answers.tanks.map((tank, index) =>
      planTank(tank, index, tankNames[index], systems[index], alone ? "" : `${systems[index]}-`, names),
    ),
    people: answers.people.map((person, index) => planPerson(person, index, names)),
    hasHub: answers.hub || needsHub || answers.leakSensor,
    hubIsImplied,
    strip: names.take("strip", "strip"),
    ringA: names.take("circuit-a", "circuit-a"),
    ringB: names.take("circuit-b", "circuit-b"),
    routerBattery: names.take("router-battery", "router-battery"),
    leak: names.take("floor-leak", "floor-leak"),
    floorWet: names.take("floor-wet", "floor-wet"),
  };
}

function planTank(
  answers: TankAnswers,
  index: number,
  name: Given,
  system: string,
  prefix: string,
  names: Names,
): TankPlan {
  const field = `tanks.${index}`;
  const take = (word: string): string => names.take(prefix + word, `tank-${index + 1}-${word}`);
  const many = (word: string, count: number): string[] =>
    Array.from({ length: count }, (_, number) => take(count === 1 ? word : `${word}-${number + 1}`));
  const volume = given(`${field}.volume`, answers.volume, `${USUAL_TANK_L} L`);
  const volumeL = numberOf(volume.text, "volume", USUAL_TANK_L);
  const like = (value: number, dimension: "volume" | "flow"): string => inUnitOf(volume.text, value, dimension);
  const sumpVolume = given(`${field}.sumpVolume`, answers.sumpVolume, like(usualSumpL(volumeL), "volume"));
  const sumpL = answers.hasSump ? numberOf(sumpVolume.text, "volume", usualSumpL(volumeL)) : 0;
  const waterL = volumeL + sumpL;
  const usualC = usualTemperatureC(answers.life);
  const temperature = given(`${field}.temperature`, answers.temperature, `${usualC} degC`);
  const display = take("display");
  const sump = answers.hasSump ? take("sump") : null;
  const alkalinityMLPerDay = usualAlkalinityMLPerDay(answers.life, waterL);
  // One calcium goes with two of alkalinity, and both bottles hold 1 a mL.
  const calciumMLPerDay = nice(alkalinityMLPerDay / 2);
  return {
    answers,
    field,
    system,
    name,
    called: prefix === "" && name.isUsual ? "the tank" : printable(name.text),
    display,
    sump,
    circulation: names.take(`${sump}-to-${display}`, `tank-${index + 1}-circulation`),
    topOffCan: take(answers.topOff === "limewater" ? "lime-can" : "top-off-can"),
    volume,
    volumeL,
    waterL,
    temperature,
    temperatureC: numberOf(temperature.text, "temperature", usualC),
    fishG: usualFishG(answers.life, volumeL),
    sumpVolume,
    heaters: many("heater", answers.heaters),
    heaterPower: given(`${field}.heaterPower`, answers.heaterPower, `${usualHeaterW(waterL, answers.heaters)} W`),
    returnPump: take("return"),
    returnFlow: given(`${field}.returnFlow`, answers.returnFlow, like(usualReturnLPerH(volumeL), "flow")),
    wavePumps: many("wave", answers.wavePumps),
    waveFlow: given(
      `${field}.waveFlow`,
      answers.waveFlow,
      like(usualWaveLPerH(answers.life, volumeL, answers.wavePumps), "flow"),
    ),
    skimmer: take("skimmer"),
    lamp: take("lamp"),
    lightHours: given(`${field}.lightHours`, answers.lightHours, "10:00-20:00"),
    topOff: take("top-off"),
    topOffVolume: given(`${field}.topOffVolume`, answers.topOffVolume, like(usualTopOffL(volumeL), "volume")),
    alkalinityMLPerDay,
    calciumMLPerDay,
    alkalinityCan: take("alkalinity-bottle"),
    alkalinityBottleL: usualBottleL(alkalinityMLPerDay),
    calciumCan: take("calcium-bottle"),
    calciumBottleL: usualBottleL(calciumMLPerDay),
    alkalinityDoser: take("alkalinity-doser"),
    calciumDoser: take("calcium-doser"),
    reactor: take("calcium-reactor"),
    air: take("air"),
    airCells: take("air-battery"),
    probe: take("temp"),
    float: take("level"),
    holdWarmth: take("hold-warmth"),
    tooWarm: take("too-warm"),
    tooCold: take("too-cold"),
    fillUp: take("fill-up"),
  };
}

function planPerson(answers: PersonAnswers, index: number, names: Names): PersonPlan {
  const field = `people.${index}`;
  const name = given(
    `${field}.name`,
    answers.name,
    index === 0 ? "Keeper" : index === 1 ? "Helper" : `Helper ${index}`,
  );
  return {
    answers,
    field,
    id: names.take(name.text, `person-${index + 1}`),
    name,
    asleep: given(`${field}.asleep`, answers.asleep, "23:00-06:30"),
    travel: given(`${field}.travel`, answers.travel, answers.whereabouts === "elsewhere" ? "30 min" : "20 min"),
  };
}

/** What each field holds where nobody says, for the form. */
export function usualOf(plan: Plan): Readonly<Record<string, string>> {
  const all: readonly Given[] = [
    plan.place,
    plan.zone,
    plan.mains,
    plan.away,
    ...plan.tanks.flatMap((tank) => [
      tank.name,
      tank.volume,
      tank.temperature,
      tank.sumpVolume,
      tank.heaterPower,
      tank.returnFlow,
      tank.waveFlow,
      tank.lightHours,
      tank.topOffVolume,
    ]),
    ...plan.people.flatMap((person) => [person.name, person.asleep, person.travel]),
  ];
  return Object.fromEntries(all.map(({ field, usual }) => [field, usual]));
}
