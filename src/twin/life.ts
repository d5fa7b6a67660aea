/**
 * What lives in a body, turned into rates at 26 degrees C. Sources and certainty: docs/science.md#life.
 */
import {
  CARBONATE_SIZE,
  calcificationFactor,
  carbonateConstants,
  dicFromPco2,
  MEQ_PER_L_PER_DKH,
  omegaAragonite,
  photosynthesisShare,
  seawaterDensity,
  solveHydrogen,
} from "../science/index.ts";
import type { Body, Device, Site } from "../site/index.ts";
import type { BodyLife } from "./model.ts";

/** Routine oxygen uptake of small reef fish, mg per g and hour at 26 degrees C: Clarke & Johnston 1999 at 20 g, times 1.5 for routine life, times 0.7 as measured on reef damselfishes. */
const FISH_O2_MG_PER_G_H = 0.27;
/** Dark respiration per m2 of coral tissue, mmol O2/h (middle of 3 to 12). */
const CORAL_O2_MMOL_M2_H = 6;
/** Gross photosynthesis per m2 of coral tissue in full light, mmol O2/h (middle of 10 to 40). */
const CORAL_PHOTO_MMOL_M2_H = 20;
/** Rock and its film: 2 mmol O2 per m2 and hour over about 0.05 m2 of open face per kg. */
const ROCK_O2_MMOL_KG_H = 0.1;
const SAND_O2_MMOL_KG_H = 0.03;
const PLANT_O2_MMOL_G_H = 0.02;
const PLANT_PHOTO_MMOL_G_H = 0.08;
/** Bacteria in the water, mmol O2 per litre and hour. */
const WATER_O2_MMOL_L_H = 0.0005;
const O2_MG_PER_MMOL = 31.9988;
/** Dry food a day per gram of fish. */
const FOOD_SHARE_PER_DAY = 0.012;
/** Nitrogen in dry food: 16 % of 47 % protein; mol N per g. */
export const FOOD_MOL_N_PER_G = (0.16 * 0.47) / 14.007;
/** Share of eaten nitrogen that stays in the fish as growth. */
export const RETAINED_SHARE = 0.25;
/** A mature filter can take this many times its routine load (docs/science.md#nitrification: 5 to 20). */
const FILTER_RESERVE = 8;
/** 1 dKH in mol of charge per litre. */
export const DKH_TO_EQ_PER_L = MEQ_PER_L_PER_DKH / 1000;
/** CO2 of the water of a breathing tank in a lived-in room, uatm: that at which an owner has come to know its daily use. */
const USUAL_PCO2_UATM = 850;
const HOURS = 24;

export function bodyLife(site: Site, body: Body): BodyLife {
  const { livestock } = body;
  const waterL = systemWaterL(site, body.system);
  const foodGPerDay = livestock.fishG * FOOD_SHARE_PER_DAY;
  const loadMolH = (systemFoodG(site, body.system) * FOOD_MOL_N_PER_G) / 24;
  const rockShare = shareOfSystem(site, body, (other) => other.rockKg + other.sandKg * 0.3 + other.volumeL * 0.02);
  const hasLight = site.devices.some((device) => device.kind === "light" && device.in === body.id);
  const benthosMmol =
    livestock.coralM2 * CORAL_O2_MMOL_M2_H +
    body.rockKg * ROCK_O2_MMOL_KG_H +
    body.sandKg * SAND_O2_MMOL_KG_H +
    livestock.plantsG * PLANT_O2_MMOL_G_H +
    body.volumeL * WATER_O2_MMOL_L_H;
  const photoMmol = hasLight ? livestock.coralM2 * CORAL_PHOTO_MMOL_M2_H + livestock.plantsG * PLANT_PHOTO_MMOL_G_H : 0;
  return {
    fishG: livestock.fishG,
    fishO2MolH: (livestock.fishG * FISH_O2_MG_PER_G_H) / O2_MG_PER_MMOL / 1000,
    benthosO2MolH: benthosMmol / 1000,
    photoO2MolH: photoMmol / 1000,
    calcifyMolH:
      (livestock.alkalinityDemandDKHPerDay * DKH_TO_EQ_PER_L * waterL) / 2 / 24 / usualCalcification(site, body),
    nitrifyMolH: FILTER_RESERVE * Math.max(loadMolH, waterL * 2e-7) * rockShare,
    nitrateLossPerH: usualNitrateLossPerH(site, body, waterL),
    foodGPerDay,
  };
}

/** Nitrate must go as fast as it comes where the owner's value stands still: plants, sand, skimmer and changes together. */
function usualNitrateLossPerH(site: Site, body: Body, waterL: number): number {
  const { holds } = body;
  if (holds.kind !== "salt") return 0;
  const comesMolPerDay = systemFoodG(site, body.system) * FOOD_MOL_N_PER_G * (1 - RETAINED_SHARE);
  const standsMol = (Math.max(holds.nitrateMgL, 1) / 62_005) * waterL;
  return Math.min(0.5, Math.max(0.005, comesMolPerDay / standsMol)) / HOURS;
}

/** Mean of the calcification factor over a normal day in the owner's own water. */
function usualCalcification(site: Site, body: Body): number {
  const { holds } = body;
  if (holds.kind !== "salt" || body.livestock.alkalinityDemandDKHPerDay === 0) return 1;
  const constants = new Float64Array(CARBONATE_SIZE);
  carbonateConstants(holds.temperatureC, holds.salinity, constants);
  const kgPerL = seawaterDensity(holds.temperatureC, holds.salinity) / 1000;
  const alkalinity = (holds.alkalinityDKH * DKH_TO_EQ_PER_L) / kgPerL;
  const dic = dicFromPco2(constants, alkalinity, USUAL_PCO2_UATM);
  const hydrogen = solveHydrogen(constants, alkalinity, dic, 0);
  const omega = omegaAragonite(constants, holds.calciumMgL / 40_078 / kgPerL, dic, hydrogen);
  let sum = 0;
  for (let hour = 0; hour < HOURS; hour++) {
    sum += calcificationFactor(omega, photosynthesisShare(parAtHour(site, body, hour + 0.5)), holds.temperatureC);
  }
  return Math.max(sum / HOURS, 0.05);
}

function parAtHour(site: Site, body: Body, hour: number): number {
  let par = 0;
  for (const device of site.devices) {
    if (device.kind !== "light" || device.in !== body.id) continue;
    for (const { fromMin, toMin } of device.schedule) {
      const length = toMin > fromMin ? toMin - fromMin : toMin + 1440 - fromMin;
      const into = (hour * 60 - fromMin + 1440) % 1440;
      if (into < length) par += device.par * Math.sin((Math.PI * into) / length);
    }
  }
  return par;
}

/** Circulating water of a system, L. */
export function systemWaterL(site: Site, system: string): number {
  return site.bodies
    .filter((body) => body.system === system && !isStore(body))
    .reduce((sum, body) => sum + body.volumeL, 0);
}

function systemFoodG(site: Site, system: string): number {
  const fed = site.devices
    .filter((device) => device.kind === "feeder" && device.system === system)
    .reduce((sum, device) => sum + device.amountPerDay, 0);
  if (fed > 0) return fed;
  return site.bodies
    .filter((body) => body.system === system)
    .reduce((sum, body) => sum + body.livestock.fishG * FOOD_SHARE_PER_DAY, 0);
}

function shareOfSystem(site: Site, body: Body, weight: (body: Body) => number): number {
  const all = site.bodies.filter((other) => other.system === body.system && !isStore(other));
  const total = all.reduce((sum, other) => sum + weight(other), 0);
  return isStore(body) || total === 0 ? 0 : weight(body) / total;
}

/** Reservoirs and containers stand apart from the circulation. */
export function isStore(body: Body): boolean {
  return body.role === "reservoir" || body.role === "container";
}

/** Devices that carry water between bodies or from the supply line. */
export function carriesWater(device: Device): boolean {
  return (
    device.kind === "top-off" ||
    device.kind === "doser" ||
    device.kind === "refill-valve" ||
    device.kind === "water-change"
  );
}
