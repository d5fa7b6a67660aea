import { Name } from "../parts/names.tsx";
import { timelineWords } from "../words/timeline.ts";
import { words } from "../words.ts";
import type { Choosable } from "./quantities.ts";

/** Which curves to show: every true quantity and every sensor of every part, as boxes to tick, each with its stroke. */
export function QuantityPicker({
  choices,
  shown,
  onToggle,
}: {
  readonly choices: readonly Choosable[];
  readonly shown: readonly string[];
  readonly onToggle: (key: string) => void;
}) {
  const parts = [...new Set(choices.map(({ part }) => part))];
  const box = ({ key, name, sensor }: Choosable) => (
    <label className="layer" key={key}>
      <input type="checkbox" checked={shown.includes(key)} onChange={() => onToggle(key)} />
      <Stroke sensed={sensor !== null} />
      {sensor === null ? name : timelineWords.choose.sensor(sensor, name)}
    </label>
  );
  return (
    <details className="picker noprint">
      <summary>{words.drill.quantities}</summary>
      <p className="choices-key sm">
        <span>
          <Stroke sensed={false} />
          {timelineWords.choose.true}
        </span>
        <span>
          <Stroke sensed />
          {timelineWords.choose.sensed}
        </span>
      </p>
      <div className="choices">
        {parts.map((part) => (
          <fieldset key={part}>
            <legend>{part === "floor" ? words.drill.allRooms : <Name id={part} />}</legend>
            {choices.filter((choice) => choice.part === part).map(box)}
          </fieldset>
        ))}
      </div>
    </details>
  );
}

/** True and sensed are told apart by their stroke, as in the lanes. */
function Stroke({ sensed }: { readonly sensed: boolean }) {
  return (
    <svg width="18" height="10" aria-hidden="true">
      {sensed ? (
        <path d="M0 8h6V5h6V2h6" fill="none" stroke="var(--signal)" strokeWidth="1.5" />
      ) : (
        <path d="M0 5h18" stroke="var(--ink)" strokeWidth="1.75" />
      )}
    </svg>
  );
}
