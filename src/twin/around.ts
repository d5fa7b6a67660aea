/**
 * What acts on a water from around it: heat, light, stirring, bubbles, falls, the air of the room. Worked out once a step, from
 * what runs now. Sources: docs/science.md#gas-transfer, #heat, #evaporation, #light.
 */
import {
  CARBONATE,
  evaporationKgPerM2S,
  photosynthesisShare,
  schmidtRatioCo2,
  surfaceTransferMPerH,
  weirTransferShare,
} from "../science/index.ts";
import type { Body, DeviceKind } from "../site/index.ts";
import { ROOM_AIR_C, ROOM_CO2, ROOM_COLUMNS } from "./columns.ts";
import { deviceLever, flowNow, isRunning, outputOf, volumeL } from "./hydraulics.ts";
import { AT } from "./levers.ts";
import type { Around } from "./model.ts";
import { relativeHumidity } from "./rooms.ts";
import { lightShape } from "./schedule.ts";
import { SLOW, SLOW_COLUMNS, type Twin } from "./state.ts";

/** Heat to the air over open water, W/(m2 K): radiation 5.65 and still air 3 (docs/science.md#heat). */
const SURFACE_W_M2_K = 8.65;
/** What a cover lets through. */
const LID = {
  open: { vapour: 1, heat: 1, gas: 1 },
  mesh: { vapour: 0.85, heat: 0.9, gas: 1 },
  lid: { vapour: 0.1, heat: 0.5, gas: 0.5 },
} as const;
/** Below this share of its water a body shrinks to puddles: its surface, and what stands in it, count by what is left. */
const WET_SHARE = 0.2;
const LEAST_L = 0.1;
const STILL_AIR_M_S = 0.05;
const FAN_AIR_M_S = 1;
/** A skimmer brings this share of its water to saturation; an air stone acts as this many kg of water per litre of air. */
const SKIMMER_SHARE = 0.75;
const AIR_KG_PER_L = 0.8;
/** Bubbles strip carbon dioxide less well than oxygen. */
const BUBBLE_CO2 = 0.65;
/** Pressure of dry air over the water, atm. */
const DRY_AIR_ATM = 0.97;

/** Works out heat, light, gas and vapour of one water. */
export function updateAround(twin: Twin, around: Around): void {
  const { slow, constants } = twin.scratch;
  const { place } = around;
  const body = twin.model.site.bodies[place];
  const s = place * SLOW_COLUMNS;
  const roomAt = twin.model.roomOfBody[place] * ROOM_COLUMNS;
  const heldL = volumeL(twin, place);
  const waterL = Math.max(heldL, LEAST_L);
  const wet = Math.min(1, heldL / (WET_SHARE * body.volumeL));
  const bubbledKgH = bubbled(twin, around, body, heldL);
  const agitation = agitationOf(twin, around, waterL, bubbledKgH);
  slow[s + SLOW.airC] = twin.rooms[roomAt + ROOM_AIR_C];
  slow[s + SLOW.heatW] = warmth(twin, around, body, heldL) * wet;
  updateLight(twin, around, 0);
  slow[s + SLOW.skim] = skimming(twin, around, body, heldL);
  updateGas(twin, around, body, agitation, bubbledKgH);
  slow[s + SLOW.co2Equilibrium] = constants[place][CARBONATE.K0] * (twin.rooms[roomAt + ROOM_CO2] * 1e-6 * DRY_AIR_ATM);
  slow[s + SLOW.lossWPerK] =
    body.wallsWPerK * Math.min(1, heldL / body.volumeL) + SURFACE_W_M2_K * body.surfaceM2 * LID[body.lid].heat * wet;
  slow[s + SLOW.evaporationKgH] = evaporationKgH(twin, around, body, agitation, wet);
}

/** Works out anew what heats a water, after a heater has switched. */
export function updateHeat(twin: Twin, around: Around): void {
  const body = twin.model.site.bodies[around.place];
  const heldL = volumeL(twin, around.place);
  const wet = Math.min(1, heldL / (WET_SHARE * body.volumeL));
  twin.scratch.slow[around.place * SLOW_COLUMNS + SLOW.heatW] = warmth(twin, around, body, heldL) * wet;
}

/** Heat of the devices and of the sun, W. */
function warmth(twin: Twin, { place, warming }: Around, body: Body, waterL: number): number {
  const { devices } = twin.model.site;
  let heatW = twin.levers[twin.model.levers.base.body[place] + AT.body.sunW];
  for (const device of warming) {
    const { kind, heatW: ratedW } = devices[device];
    if (!isRunning(twin, device) || isDry(kind, body, waterL)) continue;
    const isItsWork = kind === "heater" || kind === "chiller" || kind === "light";
    heatW += ratedW * (isItsWork ? outputOf(twin, device) : 1);
  }
  return heatW;
}

/** A heater out of the water warms nothing; a chiller or skimmer whose pump draws air has no water to work on. */
function isDry(kind: DeviceKind, { heaterDryL, intakeL }: Body, waterL: number): boolean {
  if (kind === "heater") return waterL < heaterDryL;
  return (kind === "chiller" || kind === "skimmer") && waterL < intakeL;
}

/** Light on a water some seconds ahead: over a step the lamps shine as they do in its middle. */
export function updateLight(twin: Twin, { place, lamps }: Around, aheadS: number): void {
  let par = 0;
  for (const lamp of lamps)
    if (isRunning(twin, lamp))
      par += twin.model.site.devices[lamp].par * outputOf(twin, lamp) * lightShape(twin, lamp, aheadS);
  twin.scratch.slow[place * SLOW_COLUMNS + SLOW.light] = par > 0 ? photosynthesisShare(par) : 0;
}

/** Water that bubbles bring to saturation, kg/h. */
function bubbled(twin: Twin, { place, bubbling }: Around, body: Body, waterL: number): number {
  const { devices } = twin.model.site;
  let kgH = twin.levers[twin.model.levers.base.body[place] + AT.body.aerateKgH];
  for (const device of bubbling) {
    const { kind, flowLPerH } = devices[device];
    if (!works(twin, device) || isDry(kind, body, waterL)) continue;
    kgH += (kind === "skimmer" ? SKIMMER_SHARE : AIR_KG_PER_L) * flowLPerH * outputOf(twin, device);
  }
  return kgH;
}

/** It runs and moves something. */
function works(twin: Twin, device: number): boolean {
  return isRunning(twin, device) && deviceLever(twin, device, AT.device.idle) <= 0;
}

/** How well the best skimmer works, 0..1. */
function skimming(twin: Twin, { skimmers }: Around, body: Body, waterL: number): number {
  let share = 0;
  for (const device of skimmers)
    if (works(twin, device) && !isDry("skimmer", body, waterL)) share = Math.max(share, outputOf(twin, device));
  return share;
}

/** How much the surface is stirred, 0..1: by what passes, by wave pumps, by bubbles. */
function agitationOf(twin: Twin, { passing, stirring }: Around, waterL: number, bubbledKgH: number): number {
  let passedLPerH = 0;
  let stirredLPerH = 0;
  for (const flow of passing) passedLPerH += flowNow(twin, flow);
  for (const device of stirring)
    if (works(twin, device)) stirredLPerH += twin.model.site.devices[device].flowLPerH * outputOf(twin, device);
  return Math.min(
    1,
    0.04 * (passedLPerH / waterL) +
      0.5 * Math.min(1, stirredLPerH / (20 * waterL)) +
      Math.min(0.3, bubbledKgH / waterL / 4),
  );
}

/** What surface, falls and bubbles exchange, kg of water an hour. */
function updateGas(twin: Twin, around: Around, body: Body, agitation: number, bubbledKgH: number): void {
  const { slow } = twin.scratch;
  const s = around.place * SLOW_COLUMNS;
  const temperatureC = slow[s + SLOW.temperatureC];
  let fallenKgH = 0;
  for (const { flow, dropM } of around.falling)
    fallenKgH += flowNow(twin, flow) * weirTransferShare(dropM, temperatureC);
  const surface = surfaceTransferMPerH(agitation) * body.surfaceM2 * LID[body.lid].gas * 1000 * slow[s + SLOW.kgPerL];
  slow[s + SLOW.oxygenKgH] = surface + fallenKgH + bubbledKgH;
  slow[s + SLOW.carbonKgH] = schmidtRatioCo2(temperatureC) * (surface + fallenKgH + BUBBLE_CO2 * bubbledKgH);
}

function evaporationKgH(twin: Twin, { place, fans }: Around, body: Body, agitation: number, wet: number): number {
  const s = place * SLOW_COLUMNS;
  let airSpeed = STILL_AIR_M_S;
  for (const fan of fans) if (isRunning(twin, fan)) airSpeed = Math.max(airSpeed, FAN_AIR_M_S * outputOf(twin, fan));
  const perM2S = evaporationKgPerM2S(
    twin.scratch.slow[s + SLOW.temperatureC],
    twin.scratch.slow[s + SLOW.airC],
    relativeHumidity(twin, twin.model.roomOfBody[place]),
    airSpeed,
    0.5 + 0.2 * agitation,
  );
  return wet * 3600 * body.surfaceM2 * LID[body.lid].vapour * perM2S;
}
