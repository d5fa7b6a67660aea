/** The span of a drill that is shown, in minutes from its fault. Pure: from one window to the next. */
export interface Window {
  readonly fromMin: number;
  readonly endMin: number;
}

/** Less than this is not shown at once, min: the trace has a point every few minutes. */
export const LEAST_WINDOW_MIN = 30;
/** One press of "closer" shows so much of what was shown. */
export const CLOSER = 0.5;

/** A window inside the run, of at least the least width. */
export function fitted({ fromMin, endMin }: Window, wholeMin: number): Window {
  const width = Math.min(wholeMin, Math.max(LEAST_WINDOW_MIN, endMin - fromMin));
  const from = Math.min(Math.max(0, fromMin), wholeMin - width);
  return { fromMin: from, endMin: from + width };
}

/** Shows `factor` times as much, with the moment `atMin` kept in its place on the page. */
export function zoomed({ fromMin, endMin }: Window, factor: number, atMin: number, wholeMin: number): Window {
  const width = Math.min(wholeMin, Math.max(LEAST_WINDOW_MIN, (endMin - fromMin) * factor));
  const share = (atMin - fromMin) / (endMin - fromMin);
  return fitted({ fromMin: atMin - share * width, endMin: atMin - share * width + width }, wholeMin);
}

/** Moves by a share of what is shown; at the ends of the run it stays. */
export function moved({ fromMin, endMin }: Window, share: number, wholeMin: number): Window {
  const by = (endMin - fromMin) * share;
  return fitted({ fromMin: fromMin + by, endMin: endMin + by }, wholeMin);
}

/** The same window, or one moved so far that it holds a moment. */
export function holding(window: Window, atMin: number, wholeMin: number): Window {
  if (atMin >= window.fromMin && atMin <= window.endMin) return window;
  const width = window.endMin - window.fromMin;
  const from = atMin < window.fromMin ? atMin : atMin - width;
  return fitted({ fromMin: from, endMin: from + width }, wholeMin);
}

export function isWithin({ fromMin, endMin }: Window, min: number): boolean {
  return min >= fromMin && min <= endMin;
}
