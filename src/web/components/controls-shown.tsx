import { useState } from "react";
import type { VerdictKind, WrittenValue } from "../../server/contract/index.ts";
import { VERDICTS } from "../board/order.ts";
import { Tally } from "../board/tally.tsx";
import { VerdictGlyph } from "../parts/glyphs.tsx";
import { useWidth } from "../parts/use-width.ts";
import { FieldRow } from "../site-edit/field-row.tsx";
import { plotOf } from "../timeline/chart.tsx";
import type { Run } from "../timeline/run.ts";
import { LaterSlider } from "../timeline/slider.tsx";
import { componentWords } from "../words/components.ts";
import { words } from "../words.ts";

const { button, field } = componentWords;

export function VerdictsShown() {
  return (
    <ul>
      {VERDICTS.map((verdict) => (
        <li className="pair-row" key={verdict}>
          <span className="verdict-word">
            <VerdictGlyph verdict={verdict} />
            {words.verdicts[verdict]}
          </span>
          <span className="sm">{componentWords.verdict[verdict]}</span>
        </li>
      ))}
    </ul>
  );
}

export function ButtonsShown() {
  return (
    <div className="abreast">
      <button className="btn main" type="button">
        {button.main}
      </button>
      <button className="btn" type="button">
        {button.plain}
      </button>
      <button className="btn" type="button" disabled>
        {button.disabled}
      </button>
      <button className="btn as-focused" type="button">
        {button.focus}
      </button>
      <button className="textual" type="button">
        {button.textual}
      </button>
    </div>
  );
}

const SYSTEMS = ["Atrium reef", "Lagoon", "Coral nursery"];

export function ChoicesShown() {
  const [chosen, setChosen] = useState(SYSTEMS[1]);
  const [shown, setShown] = useState({ power: true, messages: false });
  return (
    <>
      <fieldset className="seg outdent" aria-label={componentWords.segmented}>
        {SYSTEMS.map((system) => (
          <button key={system} type="button" aria-pressed={system === chosen} onClick={() => setChosen(system)}>
            <em className="w">{system}</em>
          </button>
        ))}
      </fieldset>
      <div className="abreast">
        <select
          className="btn"
          aria-label={componentWords.system}
          value={chosen}
          onChange={(event) => setChosen(event.target.value)}
        >
          {SYSTEMS.map((system) => (
            <option key={system}>{system}</option>
          ))}
        </select>
        {(["power", "messages"] as const).map((layer) => (
          <label className="layer" key={layer}>
            <input
              type="checkbox"
              checked={shown[layer]}
              onChange={(event) => setShown({ ...shown, [layer]: event.target.checked })}
            />
            {layer === "power" ? componentWords.layer : componentWords.layerOff}
          </label>
        ))}
      </div>
      <input className="find" type="search" aria-label={words.board.search} placeholder={words.board.search} />
      <details className="table">
        <summary>{componentWords.details}</summary>
        <p className="sm">{componentWords.detailsText}</p>
      </details>
    </>
  );
}

/** Fields as the sheet of a part has them; what is typed here goes nowhere. */
export function FieldsShown() {
  return (
    <div className="fields">
      <FieldShown name={field.plain} value="300 W" />
      <FieldShown name={field.changed} value="26 degC" was="26.5 degC" />
      <FieldShown name={field.wrong} value={field.wrongValue} wrong={field.wrongWords} />
      <FieldShown name={field.choice} value={field.choices[1]} choices={field.choices} />
      <FieldShown name={field.leftOut} value={null} />
    </div>
  );
}

function FieldShown({
  name,
  value,
  was,
  wrong,
  choices = [],
}: {
  readonly name: string;
  readonly value: string | null;
  readonly was?: string;
  readonly wrong?: string;
  readonly choices?: readonly string[];
}) {
  const [said, setSaid] = useState<WrittenValue | null>(value);
  return (
    <FieldRow
      facts={{
        path: [name],
        doc: field.doc,
        write: "",
        otherwise: field.otherwise,
        weight: 2,
        choices,
        names: [],
        none: null,
        many: false,
        pairs: null,
        onlyFor: [],
      }}
      value={said}
      was={was}
      wrong={wrong}
      otherwise={field.otherwise}
      names={[]}
      sensors={[]}
      devices={[]}
      where=""
      editOf={() => []}
      onCommit={async (next) => {
        setSaid(next);
        return "";
      }}
    />
  );
}

const COUNTS: ReadonlyMap<VerdictKind, number> = new Map<VerdictKind, number>([
  ["unseen", 18],
  ["late", 38],
  ["handed over", 138],
  ["handled", 8],
  ["absorbed", 1470],
]);

export function TallyShown() {
  const [pressed, setPressed] = useState<VerdictKind | null>("late");
  return <Tally counts={COUNTS} pressed={pressed} onPress={setPressed} />;
}

const END_MIN = 720;
const ACT_MIN = 90;
const DELAYS = [0, 30, 60, 120, 180, 240, 360, 480];

/** The slider on an axis of its own; later than four hours is late. */
export function SliderShown() {
  const [box, width] = useWidth<HTMLDivElement>();
  const [delayMin, setDelayMin] = useState(60);
  const run: Run = {
    delayMin,
    verdict: delayMin > 240 ? "late" : "handed over",
    actMin: ACT_MIN + delayMin,
    endedMin: null,
    marginMin: 240 - delayMin,
    harmEarlyMin: 400,
    harmLikelyMin: 460,
    harmLateMin: null,
    truth: () => [],
  };
  return (
    <div className="slider-sample" ref={box}>
      {width > 0 && (
        <LaterSlider
          plot={plotOf(width, { fromMin: 0, endMin: END_MIN }, width < 500)}
          actMin={ACT_MIN}
          delays={DELAYS}
          run={run}
          onChoose={setDelayMin}
        />
      )}
    </div>
  );
}
