/** Levels and flows of the settled normal life, for the picture of the site. */
import { advance, flowNow, restore, salinity, temperatureC, volumeL } from "../twin/index.ts";
import type { Stage } from "./stage.ts";

export interface SettledLife {
  readonly bodies: Readonly<
    Record<string, { readonly volumeL: number; readonly temperatureC: number; readonly salinity: number }>
  >;
  readonly flowsLPerH: Readonly<Record<string, number>>;
}

export function settledLife(stage: Stage): SettledLife {
  const { model } = stage;
  const circumstance = model.site.circumstances[0];
  const setting = stage.setting(
    circumstance,
    model.systems.map((system) => system.index),
  );
  const { twin } = setting;
  restore(twin, setting.start);
  advance(twin, 60);
  const bodies = model.site.bodies.map((body, place) => [
    body.id,
    { volumeL: volumeL(twin, place), temperatureC: temperatureC(twin, place), salinity: salinity(twin, place) },
  ]);
  const flows = model.site.flows.map((flow, place) => [flow.id, flowNow(twin, place)]);
  return { bodies: Object.fromEntries(bodies), flowsLPerH: Object.fromEntries(flows) };
}
