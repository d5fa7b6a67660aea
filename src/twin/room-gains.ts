/**
 * What the systems gave to the rooms in normal life, moment by moment: whoever simulates some systems only takes the others from here.
 */
import { type Twin, timeS } from "./state.ts";

const DAY_S = 86_400;

export class RoomGains {
  readonly #times: number[] = [];
  readonly #heatW: Float64Array[] = [];
  readonly #vapourKgH: Float64Array[] = [];

  /** Notes what all systems give now. */
  note(twin: Twin): void {
    this.#times.push(timeS(twin));
    this.#heatW.push(twin.scratch.roomHeatW.slice());
    this.#vapourKgH.push(twin.scratch.roomVapourKgH.slice());
  }

  /** Writes what a system gave at this time; after the end, what it gave at that time of the last day. */
  recall(twin: Twin, system: number): void {
    const { roomHeatW, roomVapourKgH } = twin.scratch;
    const place = this.#placeAt(timeS(twin));
    const rooms = twin.model.site.rooms.length;
    for (let at = system * rooms; at < (system + 1) * rooms; at++) {
      roomHeatW[at] = this.#heatW[place][at];
      roomVapourKgH[at] = this.#vapourKgH[place][at];
    }
  }

  /** Place of the first moment at or after a time. */
  #placeAt(tS: number): number {
    const lastS = this.#times[this.#times.length - 1];
    const soughtS = tS <= lastS ? tS : tS - DAY_S * Math.ceil((tS - lastS) / DAY_S);
    let low = 0;
    let high = this.#times.length - 1;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (this.#times[middle] < soughtS) low = middle + 1;
      else high = middle;
    }
    return low;
  }
}
