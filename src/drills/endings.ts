/** Faults that end by themselves, such as a cut of the mains. */
import { openAfterCut } from "../twin/index.ts";
import { leversPulled, makeBench } from "./faults/bench.ts";
import type { Fault } from "./faults/fault.ts";
import type { Setting } from "./setting.ts";

export interface Ending {
  readonly fault: Fault;
  readonly tS: number;
}

/** When each fault ends that does so by itself. */
export function endingsOf(faults: readonly Fault[]): Ending[] {
  return faults.flatMap((fault) => {
    const { lastsMin } = fault.mode;
    return lastsMin === undefined ? [] : [{ fault, tS: lastsMin * 60 }];
  });
}

/**
 * What the fault held down comes back. Breakers that need a hand stay open after the mains were away, unless someone who
 * knows of it is about (`minded`).
 */
export function endItself(setting: Setting, fault: Fault, minded: boolean): void {
  const bench = makeBench(setting.twin);
  for (const [part, lever] of leversPulled(setting.model, fault)) bench.release(part, lever);
  if (fault.part === "mains" && !minded) openAfterCut(setting.twin);
}
