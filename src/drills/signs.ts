/** What of a fault can be measured, and what someone at the glass would notice. */
import { HARM_DOSE } from "../science/index.ts";
import type { Fault } from "./faults/fault.ts";
import type { Setting } from "./setting.ts";

/** Names of the first columns that show it; null: none. */
export interface Signs {
  readonly measurable: string | null;
  readonly visible: string | null;
}

/** Compares the twin with normal life at a place of the grid, and notes the differences. */
export function readSigns(setting: Setting, place: number): Signs {
  const { gaps } = setting;
  const { columns, signs: normal } = setting.normal;
  let measurable: string | null = null;
  let visible: string | null = null;
  for (let index = 0; index < columns.length; index++) {
    const column = columns[index];
    const at = place * columns.length + index;
    gaps[at] = column.read(setting.twin) - normal[at];
    const gap = Math.abs(gaps[at]);
    if (gap >= column.measurable && measurable === null) measurable = column.name;
    if (gap >= column.visible && visible === null) visible = column.name;
  }
  return { measurable, visible };
}

/** What someone who looks at `tS` sees: the water, the animals, or the fault itself; null: nothing. */
export function whatIsSeen(
  faults: readonly Fault[],
  visible: string | null,
  tS: number,
  likelyDose: number,
): string | null {
  if (visible !== null) return visible;
  if (likelyDose >= HARM_DOSE.stress) return "animals in distress";
  return faults.find((fault) => showsItself(fault, tS))?.mode.sight ?? null;
}

function showsItself({ mode }: Fault, tS: number): boolean {
  if (mode.sight === "nothing" || mode.sight === "animals" || mode.onset !== "sudden") return false;
  return mode.lastsMin === undefined || tS < mode.lastsMin * 60;
}
