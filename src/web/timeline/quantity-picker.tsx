import { Name } from "../parts/names.tsx";
import { words } from "../words.ts";
import type { Curve } from "./quantities.ts";

/** Which curves to show: every quantity of every body, as boxes to tick, and how far to look. */
export function QuantityPicker({
  waters,
  shown,
  onToggle,
}: {
  readonly waters: readonly Curve[];
  readonly shown: readonly string[];
  readonly onToggle: (key: string) => void;
}) {
  const parts = [...new Set(waters.map(({ part }) => part))];
  return (
    <details className="picker noprint">
      <summary>{words.drill.quantities}</summary>
      <div className="choices">
        {parts.map((part) => (
          <fieldset key={part}>
            <legend>
              <Name id={part} />
            </legend>
            {waters
              .filter((curve) => curve.part === part)
              .map((curve) => (
                <label className="layer" key={curve.key}>
                  <input type="checkbox" checked={shown.includes(curve.key)} onChange={() => onToggle(curve.key)} />
                  {curve.name}
                </label>
              ))}
          </fieldset>
        ))}
      </div>
    </details>
  );
}
