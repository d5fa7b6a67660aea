import type { DrillEvent } from "../../server/contract/index.ts";

/** How much an event of a kind tells, and how many of the kind do: the first ones, except of people, whose last act ends it. */
const WEIGHTS: Readonly<
  Record<DrillEvent["kind"], { readonly weight: number; readonly most: number; readonly from: "first" | "last" }>
> = {
  fault: { weight: 10, most: 2, from: "first" },
  harm: { weight: 9, most: 1, from: "first" },
  person: { weight: 8, most: 2, from: "last" },
  notice: { weight: 7, most: 1, from: "first" },
  rule: { weight: 6, most: 1, from: "first" },
  message: { weight: 5, most: 2, from: "last" },
  power: { weight: 4, most: 1, from: "first" },
  water: { weight: 3, most: 1, from: "first" },
  end: { weight: 2, most: 1, from: "last" },
  device: { weight: 1.5, most: 1, from: "first" },
  sensor: { weight: 1, most: 1, from: "first" },
  look: { weight: 0.5, most: 1, from: "last" },
};

/**
 * The events that tell the story, no more than asked for, in the order in which they happened.
 *
 * @param storyEndMin What comes after tells nothing of how it came about.
 */
export function tellingEvents(all: readonly DrillEvent[], storyEndMin: number, most: number): readonly DrillEvent[] {
  const events = all.filter(({ t_min }) => t_min <= storyEndMin);
  if (events.length <= most) return events;
  const ranked = events.map((event, i) => ({ event, i, weight: weightOf(event, events) }));
  ranked.sort((a, b) => b.weight - a.weight || a.i - b.i);
  return ranked
    .slice(0, most)
    .filter(({ weight }) => weight > 0)
    .sort((a, b) => a.i - b.i)
    .map(({ event }) => event);
}

/** The weight of its kind, less for each one of the kind that tells more; nothing once enough of the kind are told. */
function weightOf(event: DrillEvent, events: readonly DrillEvent[]): number {
  const { weight, most, from } = WEIGHTS[event.kind];
  const same = events.filter(({ kind }) => kind === event.kind);
  const at = same.indexOf(event);
  const rank = from === "first" ? at : same.length - 1 - at;
  return rank < most ? weight - 2.5 * rank : 0;
}
