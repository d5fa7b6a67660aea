import type { Body, SettledLife, Site } from "../../server/contract/index.ts";
import { clamp, lines, textWidth } from "./geometry.ts";
import { type Drawn, levelOf, waterWords } from "./lay-out-vessels.ts";
import type { Label } from "./shapes.ts";
import { carriersFrom } from "./sort-parts.ts";

export interface DrawnStore extends Drawn {
  /** Height at which the pipe from it turns towards the water that it serves. */
  readonly turn: number;
}

const STORE_GAP = 12;
const TURN_STEP = 8;
/** Distance of the lines on which names of neighbouring stores stand, px. */
export const STORE_LINE = 15;

/**
 * Reservoirs and containers on the floor, each with what draws from it.
 *
 * @param surface Surface of the water beside them: their pipes turn above it.
 */
export function drawStores(
  site: Site,
  stores: readonly Body[],
  left: number,
  floor: number,
  surface: number,
  settled: SettledLife | null,
): { readonly drawn: readonly DrawnStore[]; readonly right: number } {
  if (stores.length === 0) return { drawn: [], right: left };
  const sizes = stores.map(storeSize);
  const starts = sizes.map((_, i) => sizes.slice(0, i).reduce((sum, { width }) => sum + width + STORE_GAP, 0));
  const carriers = stores.map((store) => carriersFrom(site, store)[0]);
  const names = stores.map((store, i) => carriers[i]?.id ?? store.id);
  const middles = starts.map((start, i) => start + sizes[i].width / 2);
  const centred = lines(
    middles.map((middle, i) => ({ from: middle - textWidth(names[i]) / 2, to: middle + textWidth(names[i]) / 2 })),
  ).every((line) => line === 0);
  const rightmost = starts[stores.length - 1] + sizes[stores.length - 1].width;
  const reach = Math.max(
    0,
    ...middles.map((middle, i) => textWidth(names[i]) * (centred ? 0.5 : 1) - middle - (centred ? 0 : 4)),
  );
  const top = Math.min(floor - Math.max(...sizes.map(({ height }) => height)), surface - 4);
  const drawn = stores.map((store, i): DrawnStore => {
    const { width, height } = sizes[i];
    const x = left + reach + starts[i];
    const middle = left + reach + middles[i];
    const y = floor - height;
    const turn = top - 6 - TURN_STEP * i;
    const baseline = top - 10 - TURN_STEP * stores.length - (centred ? 0 : i * STORE_LINE);
    const device = carriers[i];
    const label: Label = {
      text: names[i],
      x: centred ? middle : middle + 6,
      y: baseline,
      anchor: centred ? "middle" : "end",
      on: "paper",
      ...(centred ? {} : { leader: { x: middle, from: baseline + 3, to: turn } }),
    };
    return {
      vessel: {
        x,
        y,
        width,
        height,
        body: store,
        waterY: floor - (height - 8) * Math.min(1, levelOf(store, settled)),
        tier: "store",
        hasRock: false,
        caption: null,
        note:
          width >= 34
            ? { text: waterWords(store, settled), x: middle, y: floor - 10, anchor: "middle", on: "water" }
            : null,
      },
      spots:
        device === undefined
          ? []
          : [{ part: device, x: middle, y: y + 12, width: 14, height: 14, label, tier: "lower" }],
      turn,
    };
  });
  const labelRight = centred ? Math.max(...middles.map((middle, i) => middle + textWidth(names[i]) / 2)) : rightmost;
  return { drawn, right: left + reach + Math.max(rightmost, labelRight) };
}

/** Stores are drawn smaller than waters: what counts is how full they are. */
function storeSize(store: Body): { readonly width: number; readonly height: number } {
  if (store.role === "container") return { width: clamp(Math.sqrt(store.volumeL) * 7, 16, 30), height: 46 };
  return {
    width: clamp(Math.sqrt(store.volumeL) * 4.6, 34, 84),
    height: clamp(store.volumeL ** (1 / 3) * 20, 46, 112),
  };
}
