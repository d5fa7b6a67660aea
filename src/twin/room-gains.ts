/**
 * What the systems gave to the rooms in normal life, moment by moment: whoever simulates some systems only takes the others from here.
 */
import { firstAfter } from "../foundation/index.ts";
import { SAME_S } from "./moments.ts";

const DAY_S = 86_400;

export class RoomGains {
  readonly #timesS: number[] = [];
  readonly #heatW: Float64Array[] = [];
  readonly #vapourKgH: Float64Array[] = [];

  /** Notes what all systems give to all rooms at a time later than all before, by system and room. */
  note(tS: number, heatW: Float64Array, vapourKgH: Float64Array): void {
    this.#timesS.push(tS);
    this.#heatW.push(heatW.slice());
    this.#vapourKgH.push(vapourKgH.slice());
  }

  /**
   * Writes what was given at this time, or at the next after it that was noted, to the places `from` up to `to`; after the end, what was
   * given at that time of the last day.
   */
  recall(tS: number, from: number, to: number, heatW: Float64Array, vapourKgH: Float64Array): void {
    const lastS = this.#timesS[this.#timesS.length - 1];
    const soughtS = tS <= lastS ? tS : tS - DAY_S * Math.ceil((tS - lastS) / DAY_S);
    const place = Math.min(firstAfter(this.#timesS, soughtS - SAME_S), this.#timesS.length - 1);
    for (let at = from; at < to; at++) {
      heatW[at] = this.#heatW[place][at];
      vapourKgH[at] = this.#vapourKgH[place][at];
    }
  }
}
