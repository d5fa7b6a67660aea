/** Where the reader was on the board when a drill was opened, so that the way back leads there. Forgotten when the page is left. */
interface SavedPlace {
  readonly id: string;
  /** What was chosen, as it stands in the address. */
  readonly search: string;
  /** Rows that were unfolded; 0: the board was folded. */
  readonly rows: number;
  /** How far the page was scrolled, px. */
  readonly scrolledPx: number;
  /** The rows that were shown, in their order: one drill leads to the next. */
  readonly walk: readonly string[];
}

let saved: SavedPlace | null = null;

export function savePlace(place: SavedPlace): void {
  saved = place;
}

export function savedPlace(): SavedPlace | null {
  return saved;
}

/** From the drill that is open to another of the same walk: that is where the way back leads now. */
export function moveSavedPlace(id: string): void {
  if (saved?.walk.includes(id) === true && saved.id !== id) saved = { ...saved, id };
}
