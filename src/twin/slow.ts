/**
 * Quantities of a body that hardly move within a step: its own density and constants, what the devices around it do, and
 * what the air takes and gives. Worked out once a step. Sources: docs/science.md#gas, #heat, #light.
 */
import {
  CARBONATE,
  carbonateConstants,
  evaporationKgPerM2S,
  oxygenSaturation,
  photosynthesisShare,
  schmidtRatioCo2,
  seawaterDensity,
  surfaceTransferMPerH,
  weirTransferShare,
} from "../science/index.ts";
import { BODY_COLUMNS, HEAT, HEAT_CAPACITY, MASS, ROOM_AIR_C, ROOM_CO2, ROOM_COLUMNS, SALT } from "./columns.ts";
import { deviceLever, flowNow, isRunning, outputOf, volumeL } from "./hydraulics.ts";
import { AT } from "./levers.ts";
import type { SystemModel } from "./model.ts";
import { relativeHumidity } from "./rooms.ts";
import { lightShape } from "./schedule.ts";
import { SLOW, SLOW_COLUMNS, type Twin } from "./state.ts";

/** Constants are worked out for the water rounded to this, so that they follow from the state alone and not from the way there. */
const REFRESH_K = 0.05;
const REFRESH_S = 0.05;
/** Heat to the air over open water, W/(m2 K): radiation 5.65 and still air 3 (science.md 7.2). */
const SURFACE_W_M2_K = 8.65;
const LID = {
  open: { vapour: 1, heat: 1, gas: 1 },
  mesh: { vapour: 0.85, heat: 0.9, gas: 1 },
  lid: { vapour: 0.1, heat: 0.5, gas: 0.5 },
} as const;
/** Below this share of its water a body shrinks to puddles: its surface, and what stands in it, count by what is left. */
const WET_SHARE = 0.2;
const STILL_AIR_M_S = 0.05;
const FAN_AIR_M_S = 1;
/** A skimmer brings this share of its water to saturation; an air stone acts as this many kg of water per litre of air (science.md 6.5). */
const SKIMMER_SHARE = 0.75;
const AIR_KG_PER_L = 0.8;
/** Bubbles strip carbon dioxide less well than oxygen. */
const BUBBLE_CO2 = 0.65;
/** Pressure of dry air over the water, atm. */
const DRY_AIR_ATM = 0.97;

/** Temperature and salinity only: what a step has just changed. */
export function updateWaters(twin: Twin, system: SystemModel): void {
  for (const body of system.waters) updateWater(twin, body);
}

export function updateSlow(twin: Twin, system: SystemModel): void {
  for (const body of system.stores) updateWater(twin, body);
  for (const body of system.waters) updateWater(twin, body);
  for (let local = 0; local < system.waters.length; local++) updateSurroundings(twin, system, local);
}

function updateWater(twin: Twin, body: number): void {
  const { bodies, scratch } = twin;
  const at = body * BODY_COLUMNS;
  const s = body * SLOW_COLUMNS;
  const massKg = Math.max(bodies[at + MASS], 1e-6);
  const temperatureC = bodies[at + HEAT] / (massKg * HEAT_CAPACITY);
  const salinity = (1000 * bodies[at + SALT]) / massKg;
  scratch.slow[s + SLOW.temperatureC] = temperatureC;
  scratch.slow[s + SLOW.salinity] = salinity;
  const roundC = clamp(Math.round(temperatureC / REFRESH_K) * REFRESH_K, 0, 45);
  const roundSalinity = Math.min(Math.round(salinity / REFRESH_S) * REFRESH_S, 45);
  if (roundC === scratch.slow[s + SLOW.constantsT] && roundSalinity === scratch.slow[s + SLOW.constantsS]) return;
  scratch.slow[s + SLOW.kgPerL] = seawaterDensity(roundC, roundSalinity) / 1000;
  scratch.slow[s + SLOW.constantsT] = roundC;
  scratch.slow[s + SLOW.constantsS] = roundSalinity;
  updateChemistry(twin, body);
}

function updateChemistry(twin: Twin, body: number): void {
  const { slow, constants } = twin.scratch;
  const s = body * SLOW_COLUMNS;
  const temperatureC = slow[s + SLOW.constantsT];
  const salinity = slow[s + SLOW.constantsS];
  carbonateConstants(temperatureC, salinity, constants[body]);
  slow[s + SLOW.oxygenSaturation] = oxygenSaturation(temperatureC, salinity) * 1e-6;
  slow[s + SLOW.q10] = 2 ** ((temperatureC - 26) / 10);
  slow[s + SLOW.fishOxygen] = 2.4 ** ((temperatureC - 26) / 10);
}

/** Heat, light, gas and vapour, from what runs and what the room is like. */
function updateSurroundings(twin: Twin, system: SystemModel, local: number): void {
  const place = system.waters[local];
  const { model, scratch, rooms } = twin;
  const { slow } = scratch;
  const body = model.site.bodies[place];
  const s = place * SLOW_COLUMNS;
  const room = model.roomOfBody[place];
  const temperatureC = slow[s + SLOW.temperatureC];
  const airC = rooms[room * ROOM_COLUMNS + ROOM_AIR_C];
  const waterL = Math.max(volumeL(twin, place), 0.1);
  let heatW = twin.levers[model.levers.base.body[place] + AT.body.sunW];
  let par = 0;
  let stirredLPerH = 0;
  let bubbledKgH = twin.levers[model.levers.base.body[place] + AT.body.aerateKgH];
  let airSpeed = STILL_AIR_M_S;
  let skims = 0;
  for (const device of system.devicesAt[local]) {
    if (!isRunning(twin, device)) continue;
    const spec = model.site.devices[device];
    const output = outputOf(twin, device);
    const idle = deviceLever(twin, device, AT.device.idle) > 0 ? 0 : 1;
    const dryHeater = spec.kind === "heater" && waterL < body.heaterDryL;
    if (!dryHeater)
      heatW += spec.heatW * (spec.kind === "heater" || spec.kind === "chiller" || spec.kind === "light" ? output : 1);
    if (spec.kind === "light") par += spec.par * output * lightShape(twin, device);
    else if (spec.kind === "wave-pump") stirredLPerH += spec.flowLPerH * output * idle;
    else if (spec.kind === "skimmer") {
      bubbledKgH += SKIMMER_SHARE * spec.flowLPerH * output * idle;
      skims = Math.max(skims, output * idle);
    } else if (spec.kind === "air-pump") bubbledKgH += AIR_KG_PER_L * spec.flowLPerH * output * idle;
    else if (spec.kind === "fan") airSpeed = Math.max(airSpeed, FAN_AIR_M_S * output);
  }
  let fallenKgH = 0;
  let passedLPerH = 0;
  for (const pump of system.pumps)
    if (pump.to === place || pump.from === place) passedLPerH += flowNow(twin, pump.flow);
  for (const weir of system.weirs) {
    if (weir.to !== place) continue;
    for (const pump of system.pumps)
      if (pump.to === weir.from) fallenKgH += flowNow(twin, pump.flow) * weirTransferShare(weir.dropM, temperatureC);
  }
  const agitation = Math.min(
    1,
    0.04 * (passedLPerH / waterL) +
      0.5 * Math.min(1, stirredLPerH / (20 * waterL)) +
      Math.min(0.3, bubbledKgH / waterL / 4),
  );
  const lid = LID[body.lid];
  const surface = surfaceTransferMPerH(agitation) * body.surfaceM2 * lid.gas * 1000 * slow[s + SLOW.kgPerL];
  slow[s + SLOW.oxygenKgH] = surface + fallenKgH + bubbledKgH;
  slow[s + SLOW.carbonKgH] = schmidtRatioCo2(temperatureC) * (surface + fallenKgH + BUBBLE_CO2 * bubbledKgH);
  const co2Atm = rooms[room * ROOM_COLUMNS + ROOM_CO2] * 1e-6 * DRY_AIR_ATM;
  slow[s + SLOW.co2Equilibrium] = scratch.constants[place][CARBONATE.K0] * co2Atm;
  const wet = Math.min(1, waterL / (WET_SHARE * body.volumeL));
  slow[s + SLOW.lossWPerK] =
    body.wallsWPerK * Math.min(1, waterL / body.volumeL) + SURFACE_W_M2_K * body.surfaceM2 * lid.heat * wet;
  slow[s + SLOW.airC] = airC;
  const activity = 0.5 + 0.2 * agitation;
  slow[s + SLOW.evaporationKgH] =
    wet *
    3600 *
    body.surfaceM2 *
    lid.vapour *
    evaporationKgPerM2S(temperatureC, airC, relativeHumidity(twin, room), airSpeed, activity);
  slow[s + SLOW.heatW] = heatW * wet;
  slow[s + SLOW.light] = par > 0 ? photosynthesisShare(par) : 0;
  slow[s + SLOW.skim] = skims;
}

function clamp(value: number, low: number, high: number): number {
  return Math.min(high, Math.max(low, value));
}
