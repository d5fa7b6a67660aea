/** How fast a water warms now, by what heats and cools it: what a hub may expect of its probe until something switches. */
import { latentHeatKJPerKg } from "../science/index.ts";
import { BODY_COLUMNS, HEAT_CAPACITY, MASS } from "./columns.ts";
import { SLOW, SLOW_COLUMNS, type Twin } from "./state.ts";

/** Waters that are renewed from one another more often than this warm as one, 1/h. */
const AS_ONE_PER_H = 5;

/** K/s. Waters that circulate well warm together once they have settled; one that stands warms by itself. */
export function warmingKPerS(twin: Twin, body: number): number {
  const system = twin.model.systems[twin.model.systemOfBody[body]];
  const local = twin.model.localOfBody[body];
  if (local < 0) return 0;
  const count = system.waters.length;
  const { exchange } = twin.scratch.flows[system.index];
  let renewedKgH = 0;
  for (let from = 0; from < count; from++) renewedKgH += exchange[local * count + from];
  if (renewedKgH < AS_ONE_PER_H * massKg(twin, body)) return gainW(twin, body) / (massKg(twin, body) * HEAT_CAPACITY);
  let watts = 0;
  let kg = 0;
  for (const water of system.waters) {
    watts += gainW(twin, water);
    kg += massKg(twin, water);
  }
  return watts / (kg * HEAT_CAPACITY);
}

function massKg(twin: Twin, body: number): number {
  return Math.max(twin.bodies[body * BODY_COLUMNS + MASS], 1e-6);
}

/** What a water gains by its devices and loses to the air, W. */
function gainW(twin: Twin, body: number): number {
  const { slow } = twin.scratch;
  const s = body * SLOW_COLUMNS;
  const temperatureC = slow[s + SLOW.temperatureC];
  const lostW = slow[s + SLOW.lossWPerK] * (temperatureC - slow[s + SLOW.airC]);
  const vapourW = (slow[s + SLOW.evaporationKgH] * latentHeatKJPerKg(temperatureC)) / 3.6;
  return slow[s + SLOW.heatW] - lostW - vapourW;
}
