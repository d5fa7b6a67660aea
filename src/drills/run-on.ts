/** Runs the twin of an attempt on, for those who watch and those who do not. */
import { advance, type Twin, type TwinEvent, timeS } from "../twin/index.ts";
import { endItself, endingsOf } from "./endings.ts";
import type { Fault } from "./faults/fault.ts";
import type { Setting } from "./setting.ts";

/** Times closer than this are the same, s. */
const SAME_S = 1e-6;

/** Someone who wants to see the whole of it: called at every multiple of `everyS`, until `untilS`. */
export interface Watcher {
  readonly everyS: number;
  readonly untilS: number;
  readonly see: (tS: number) => void;
  readonly hear: (event: TwinEvent) => void;
}

/** Advances, ending on the way what ends by itself; `minded`: someone is there who closes what opens then. */
export function runOn(
  setting: Setting,
  faults: readonly Fault[],
  untilS: number,
  minded: boolean,
  watcher: Watcher | null,
): void {
  const { twin } = setting;
  for (const { fault, tS } of endingsOf(faults)) {
    if (tS <= timeS(twin) || tS > untilS) continue;
    watch(twin, tS, watcher);
    endItself(setting, fault, minded);
  }
  watch(twin, untilS, watcher);
}

function watch(twin: Twin, untilS: number, watcher: Watcher | null): void {
  while (watcher) {
    const nextS = (Math.floor(timeS(twin) / watcher.everyS + 1e-9) + 1) * watcher.everyS;
    if (nextS > untilS + SAME_S) break;
    advance(twin, nextS);
    watcher.see(nextS);
  }
  advance(twin, untilS);
}
