import { span } from "../parts/format.ts";
import { timelineWords } from "../words/timeline.ts";
import { CLOSER, moved, type Window, zoomed } from "./window.ts";

/** Closer and wider, earlier and later, to the harm and the whole: for those who neither drag nor turn a wheel. */
export function WindowControls({
  window,
  fit,
  wholeMin,
  onWindow,
}: {
  readonly window: Window;
  readonly fit: Window;
  readonly wholeMin: number;
  readonly onWindow: (next: Window) => void;
}) {
  const say = timelineWords.window;
  const middle = (window.fromMin + window.endMin) / 2;
  const isWhole = window.fromMin === 0 && window.endMin === wholeMin;
  const isFit = window.fromMin === fit.fromMin && window.endMin === fit.endMin;
  return (
    <fieldset className="seg window-controls noprint" aria-label={say.name}>
      <button type="button" onClick={() => onWindow(zoomed(window, CLOSER, middle, wholeMin))}>
        {say.closer}
      </button>
      <button type="button" onClick={() => onWindow(zoomed(window, 1 / CLOSER, middle, wholeMin))}>
        {say.wider}
      </button>
      <button type="button" onClick={() => onWindow(moved(window, -0.5, wholeMin))}>
        {say.earlier}
      </button>
      <button type="button" onClick={() => onWindow(moved(window, 0.5, wholeMin))}>
        {say.later}
      </button>
      {fit.endMin < wholeMin && (
        <button type="button" aria-pressed={isFit} onClick={() => onWindow(fit)}>
          {say.fit}
        </button>
      )}
      <button type="button" aria-pressed={isWhole} onClick={() => onWindow({ fromMin: 0, endMin: wholeMin })}>
        {say.whole(span(wholeMin))}
      </button>
      <span className="vh" role="status">
        {say.shown(span(window.fromMin), span(window.endMin))}
      </span>
    </fieldset>
  );
}
