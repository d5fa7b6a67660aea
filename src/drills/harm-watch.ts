/** Harm along a course: when its dose passes the mark, at the early, likely and late end of the band. */
import { HARM_DOSE } from "../science/index.ts";
import { floorL, type HarmEnd, type HarmWhat, worstDose, worstHarm } from "../twin/index.ts";
import type { Setting } from "./setting.ts";

const HOUR_S = 3600;
/**
 * Water on the floor that counts as harm to the house, L, at the early, likely and late end; so many times as much over a
 * floor drain, which swallows most of a litre a second (EN 1253).
 */
const FLOOR_HARM_L = { early: 20, likely: 50, late: 150 } as const;
const FLOOR_DRAIN = 10;
/** Harm that plain life does at the same time, or that it has done before, is not this fault's doing, s of grace. */
const GRACE_S = HOUR_S;
const ENDS = ["early", "likely", "late"] as const;
/** Marks a little lower and higher: where the dose passes one long before the other, or not at all, its time hangs on trifles. */
const LOWER = 0.99;
const HIGHER = 1.01;
/** A moment that shifts by more than a step of the late grid is another moment, s. */
const SHIFT_S = HOUR_S;

/** s from the fault; Infinity where it does not come. */
export type HarmTimes = Record<HarmEnd, number>;

/** Dose of harm at one end: livestock, or water on the floor, whichever is nearer to harm (HARM_DOSE.harm). */
function harmDose(setting: Setting, end: HarmEnd): number {
  const livestock = worstDose(setting.twin, end);
  const spilled = spilledL(setting);
  if (spilled === 0) return livestock;
  const floorHarmL = FLOOR_HARM_L[end] * (setting.model.site.rooms.every((room) => room.floorDrain) ? FLOOR_DRAIN : 1);
  return Math.max(livestock, (spilled / floorHarmL) * HARM_DOSE.harm);
}

export function isHarmedNow(setting: Setting, end: HarmEnd): boolean {
  return harmDose(setting, end) >= HARM_DOSE.harm;
}

/** Water on the floor that was not there before the fault, L. */
export function spilledL(setting: Setting): number {
  const { signs, columns } = setting.normal;
  return floorL(setting.twin) - signs[columns.length - 1];
}

export class HarmWatch {
  readonly times: HarmTimes = nowhere();
  /** Who suffers first, and from what. */
  what: HarmWhat | null = null;
  /** Doses at the last look. */
  readonly doses: Record<HarmEnd, number> = { early: 0, likely: 0, late: 0 };
  readonly #setting: Setting;
  readonly #lower: HarmTimes = nowhere();
  readonly #higher: HarmTimes = nowhere();

  constructor(setting: Setting) {
    this.#setting = setting;
  }

  /** Notes which doses passed the mark in a stretch that has just been lived through, interpolated within it. */
  look(fromS: number, toS: number): void {
    for (const end of ENDS) {
      const before = this.doses[end];
      const dose = harmDose(this.#setting, end);
      this.doses[end] = dose;
      if (dose < LOWER * HARM_DOSE.harm) continue;
      const cross = (times: HarmTimes, share: number) => {
        if (Number.isFinite(times[end]) || dose < share * HARM_DOSE.harm) return;
        const part = (share * HARM_DOSE.harm - before) / Math.max(dose - before, 1e-12);
        const tS = fromS + Math.min(1, Math.max(0, part)) * (toS - fromS);
        if (tS < this.#setting.normal.harm[end] - GRACE_S) times[end] = tS;
      };
      cross(this.#lower, LOWER);
      cross(this.times, 1);
      cross(this.#higher, HIGHER);
    }
    if (this.what === null && this.times.early <= toS)
      this.what = worstHarm(this.#setting.twin) ?? { body: "floor", group: "house", stressor: "water on the floor" };
  }

  /** Whether a dose that is a hundredth larger or smaller would do its harm at another time, or none. */
  get hangsOnTrifles(): boolean {
    return ENDS.some((end) => {
      const lower = this.#lower[end];
      return Number.isFinite(lower) && this.#higher[end] - lower > SHIFT_S;
    });
  }
}

function nowhere(): HarmTimes {
  return { early: Number.POSITIVE_INFINITY, likely: Number.POSITIVE_INFINITY, late: Number.POSITIVE_INFINITY };
}
