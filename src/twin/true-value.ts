/** The true value at a sensor's place, before the sensor has its say. */
import { phNbs } from "../science/index.ts";
import type { Sensor } from "../site/index.ts";
import { ROOM_AIR_C, ROOM_CO2, ROOM_COLUMNS } from "./columns.ts";
import { deviceLever, isFloorWet, isRunning, outputOf, pumpFlow, volumeL } from "./hydraulics.ts";
import { AT } from "./levers.ts";
import { circuitLoadW } from "./loads.ts";
import { circuitLive } from "./power.ts";
import { lightShape } from "./schedule.ts";
import type { Twin } from "./state.ts";
import { alkalinityDKH, orpMv, oxygenMgL, phTotal, salinity, temperatureC } from "./water-values.ts";

/** In the unit of the sensor's quantity; yes-or-no quantities are 1 or 0. */
export function trueValue(twin: Twin, sensor: number): number {
  const spec = twin.model.site.sensors[sensor];
  const place = twin.model.sensing.placeOf[sensor];
  switch (spec.atKind) {
    case "body":
      return bodyValue(twin, place, spec);
    case "room":
      return roomValue(twin, place, spec);
    case "device":
      return deviceValue(twin, place, spec);
    case "circuit":
      return circuitValue(twin, place, spec);
  }
}

function bodyValue(twin: Twin, body: number, spec: Sensor): number {
  switch (spec.measures) {
    case "temperature":
      return temperatureC(twin, body);
    case "ph":
      return phNbs(phTotal(twin, body), temperatureC(twin, body), salinity(twin, body));
    case "salinity":
      return salinity(twin, body);
    case "oxygen":
      return oxygenMgL(twin, body);
    case "alkalinity":
      return alkalinityDKH(twin, body);
    case "orp":
      return orpMv(twin, body);
    case "level":
      return volumeL(twin, body);
    case "float":
      return volumeL(twin, body) >= (spec.floatAtL ?? 0) ? 1 : 0;
    case "light":
      return parAt(twin, body);
    default:
      return roomValue(twin, twin.model.roomOfBody[body], spec);
  }
}

/** Light on a body, umol photons m-2 s-1. */
function parAt(twin: Twin, body: number): number {
  let par = 0;
  for (const lamp of twin.model.lampsOver[body])
    if (isRunning(twin, lamp)) par += twin.model.site.devices[lamp].par * outputOf(twin, lamp) * lightShape(twin, lamp);
  return par;
}

function roomValue(twin: Twin, room: number, spec: Sensor): number {
  const at = room * ROOM_COLUMNS;
  if (spec.measures === "leak") return isFloorWet(twin, room) ? 1 : 0;
  if (spec.measures === "air-co2") return twin.rooms[at + ROOM_CO2];
  return twin.rooms[at + ROOM_AIR_C];
}

function deviceValue(twin: Twin, device: number, spec: Sensor): number {
  const part = twin.model.site.devices[device];
  if (spec.measures === "power") return isRunning(twin, device) ? part.powerW : 0;
  if (spec.measures !== "flow") return roomValue(twin, 0, spec);
  const pump = twin.model.pumpOfDevice[device];
  if (pump) return pumpFlow(twin, pump);
  if (twin.scratch.deviceFlow[device] > 0) return twin.scratch.deviceFlow[device];
  const moves = isRunning(twin, device) && deviceLever(twin, device, AT.device.idle) === 0;
  return moves && part.from === null ? part.flowLPerH * outputOf(twin, device) : 0;
}

function circuitValue(twin: Twin, circuit: number, spec: Sensor): number {
  if (spec.measures === "power") return circuitLive(twin, circuit) ? circuitLoadW(twin, circuit) : 0;
  return circuitLive(twin, circuit) ? 1 : 0;
}
