/** What carbonate columns fed with CO2 give off. */
import { CA, DIC, TA, TRANSPORTED } from "./columns.ts";
import { deviceLever, isRunning, outputOf } from "./hydraulics.ts";
import { AT } from "./levers.ts";
import type { SystemModel } from "./model.ts";
import type { Twin } from "./state.ts";

/** Effluent: alkalinity 40 dKH, half of it calcium, and carbon dioxide left over, mol/L (practice; docs/science.md#dosing). */
const EFFLUENT_EQ_L = 14.3e-3;
const EFFLUENT_CO2_MOL_L = 2e-3;
/** Saturated with gas at one atmosphere, mol/L. */
const OPEN_VALVE_CO2_MOL_L = 26e-3;

/** Adds what the running reactors of a system bring to its planned flows. */
export function planReactors(twin: Twin, system: SystemModel): void {
  for (const device of system.reactors) if (isRunning(twin, device)) planReactor(twin, system, device);
}

function planReactor(twin: Twin, system: SystemModel, device: number): void {
  const { bodyOfDevice, localOfBody, site } = twin.model;
  const { carried } = twin.scratch.flows[system.index];
  const litres = site.devices[device].flowLPerH * outputOf(twin, device);
  const open = deviceLever(twin, device, AT.device.gasOpen) > 0;
  const works = deviceLever(twin, device, AT.device.strength);
  const at = localOfBody[bodyOfDevice[device]] * TRANSPORTED;
  carried[at + TA] += litres * EFFLUENT_EQ_L * works;
  carried[at + CA] += (litres * EFFLUENT_EQ_L * works) / 2;
  carried[at + DIC] += litres * (EFFLUENT_EQ_L * works + (open ? OPEN_VALVE_CO2_MOL_L : EFFLUENT_CO2_MOL_L * works));
}
