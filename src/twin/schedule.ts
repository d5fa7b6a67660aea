/** Clocks and timers of devices and rooms: what is due now, to how far. */
import { anyWindowHolds, minuteOfDayAt } from "../foundation/index.ts";
import { deviceLever } from "./hydraulics.ts";
import { AT } from "./levers.ts";
import { type Twin, timeS } from "./state.ts";

/** Whether a device's own timer lets it run. */
export function timerAllows(twin: Twin, device: number): boolean {
  const spec = twin.model.site.devices[device];
  const forced = deviceLever(twin, device, AT.device.schedule);
  if (forced !== 0) return forced > 0;
  if (spec.schedule.length === 0) return true;
  return anyWindowHolds(spec.schedule, twin.clock, timeS(twin) + 3600 * deviceLever(twin, device, AT.device.clockH));
}

/** Share of a light's noon strength some seconds ahead: half a sine over its window, full where its timer is stuck on. */
export function lightShape(twin: Twin, device: number, aheadS = 0): number {
  const { schedule } = twin.model.site.devices[device];
  if (schedule.length === 0 || deviceLever(twin, device, AT.device.schedule) > 0) return 1;
  const minute = minuteOfDayAt(twin.clock, timeS(twin) + aheadS + 3600 * deviceLever(twin, device, AT.device.clockH));
  for (const { fromMin, toMin } of schedule) {
    const length = toMin > fromMin ? toMin - fromMin : toMin + 1440 - fromMin;
    const into = (minute - fromMin + 1440) % 1440;
    if (into < length) return Math.sin((Math.PI * into) / length);
  }
  return 0;
}
