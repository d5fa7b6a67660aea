/**
 * What lives in a body, turned into rates at 26 degrees C. Sources and certainty: docs/science.md#life.
 */
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
/** A mature filter can take this many times its routine load (science.md 8.2: at least 5 to 20). */
const FILTER_RESERVE = 8;
/** 1 dKH in mol of charge per litre. */
export const DKH_TO_EQ_PER_L = 0.35663e-3;

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
    calcifyMolH: (livestock.alkalinityDemandDKHPerDay * DKH_TO_EQ_PER_L * waterL) / 2 / 24,
    nitrifyMolH: FILTER_RESERVE * Math.max(loadMolH, waterL * 2e-7) * rockShare,
    nitrateLossPerH: (0.02 + livestock.plantsG / waterL / 20) / 24,
    foodGPerDay,
    reactiveM2: waterL * 0.02 * rockShare,
  };
}

/** Circulating water of a system, L. */
export function systemWaterL(site: Site, system: string): number {
  return site.bodies.filter((body) => body.system === system && !isStore(body)).reduce((sum, body) => sum + body.volumeL, 0);
}

function systemFoodG(site: Site, system: string): number {
  return site.bodies.filter((body) => body.system === system).reduce((sum, body) => sum + body.livestock.fishG * FOOD_SHARE_PER_DAY, 0);
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
  return device.kind === "top-off" || device.kind === "doser" || device.kind === "refill-valve" || device.kind === "water-change";
}
