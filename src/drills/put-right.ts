/** What a person does with water that a fault has thrown out: fills up what has leaked, changes part of the rest. */
import {
  alkalinityDKH,
  fillUp,
  phTotal,
  type SystemModel,
  salinity,
  systemWaterL,
  type Twin,
  volumeL,
} from "../twin/index.ts";
import { makeBench } from "./faults/bench.ts";
import type { Setting } from "./setting.ts";

/** Water that is off by more than this is put right by a water change. */
const OFF = { salinity: 1.5, alkalinityDKH: 3, ph: 0.5 } as const;
const USUAL_PH = 8.1;
/** Under this share of its described water a system is filled up with prepared water once the leak is shut. */
const LOW_SHARE = 0.93;
/** Share of the water that is changed at once. */
const CHANGE_SHARE = 0.25;

/** Looks after every simulated system; true where any water was changed. */
export function putRight(setting: Setting): boolean {
  const { twin, model } = setting;
  let changed = false;
  for (const index of setting.systems) {
    const system = model.systems[index];
    if (isLow(twin, system)) fillUp(twin, system);
    if (!isOff(twin, system)) continue;
    makeBench(twin).changeWater(system.id, CHANGE_SHARE);
    changed = true;
  }
  return changed;
}

function isLow(twin: Twin, system: SystemModel): boolean {
  const litres = system.waters.reduce((sum, body) => sum + volumeL(twin, body), 0);
  return litres < LOW_SHARE * systemWaterL(twin.model.site, system.id);
}

/** The first water of a system is the one that is measured. */
function isOff(twin: Twin, system: SystemModel): boolean {
  const body = system.waters[0];
  const holds = twin.model.site.bodies[body]?.holds;
  if (holds?.kind !== "salt") return false;
  return (
    Math.abs(salinity(twin, body) - holds.salinity) > OFF.salinity ||
    Math.abs(alkalinityDKH(twin, body) - holds.alkalinityDKH) > OFF.alkalinityDKH ||
    phTotal(twin, body) > USUAL_PH + OFF.ph
  );
}
