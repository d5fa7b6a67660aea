import { useState } from "react";
import type { ProvingItem, ResultToRecord } from "../../server/contract/index.ts";
import { dayWords } from "../parts/clock.ts";
import { asSentence, figure, span } from "../parts/format.ts";
import { Glyph } from "../parts/glyphs.tsx";
import { Marked } from "../parts/names.tsx";
import { papersWords } from "../words/papers.ts";
import { ageWords } from "./age.ts";
import { ResultForm } from "./result-form.tsx";

const say = papersWords.proving;

/** One trial: a line on the screen that opens to its steps and its form; on paper all of it, with room to write. */
export function TrialItem({
  item,
  madeAt,
  zone,
  people,
  isOpen,
  onOpen,
  onRecord,
  onTakeBack,
}: {
  readonly item: ProvingItem;
  readonly madeAt: string;
  readonly zone: string;
  readonly people: readonly string[];
  readonly isOpen: boolean;
  readonly onOpen: () => void;
  readonly onRecord: (result: ResultToRecord) => Promise<void>;
  readonly onTakeBack: (id: string) => Promise<void>;
}) {
  const { last, withinS } = item;
  const body = `trial-${item.id}`;
  return (
    <li className={isOpen ? "trial open" : "trial"}>
      <div className="trial-line">
        <h2>
          <button type="button" aria-expanded={isOpen} aria-controls={body} onClick={onOpen}>
            <Marked text={item.title} />
          </button>
        </h2>
        <p className={item.due ? "age due" : "age"}>{ageWords(item, madeAt)}</p>
        <p className="sm every">{say.every(figure(item.everyMonths), item.everyMonths)}</p>
      </div>
      {last !== null && <LastResult item={item} zone={zone} onTakeBack={onTakeBack} />}
      <div className="trial-body" id={body}>
        <div>
          <h3>{say.steps}</h3>
          <ol className="steps">
            {item.steps.map((step) => (
              <li key={step}>
                <Marked text={step} />
              </li>
            ))}
          </ol>
          {item.caution !== null && <p className="sm">{item.caution}</p>}
        </div>
        <div>
          <h3>
            {say.must}
            {withinS !== null && withinS > 0 && `, ${say.within(span(withinS / 60))}`}
          </h3>
          <ul className="sentences">
            {item.must.map((sentence) => (
              <li key={sentence}>
                <Marked text={sentence} />
              </li>
            ))}
          </ul>
          <h3>{say.putBack}</h3>
          <p>
            <Marked text={item.putBack} />
          </p>
          <p className="sm">
            {item.renews === null
              ? say.renewsNothing
              : say.renews(say.keys[item.renews.key], item.renews.of, item.part === "*" ? "" : item.part)}
          </p>
        </div>
        {isOpen && <ResultForm trial={item.id} madeAt={madeAt} zone={zone} people={people} onRecord={onRecord} />}
      </div>
      <p className="write-here" aria-hidden="true">
        {say.writeHere}
      </p>
    </li>
  );
}

function LastResult({
  item,
  zone,
  onTakeBack,
}: {
  readonly item: ProvingItem;
  readonly zone: string;
  readonly onTakeBack: (id: string) => Promise<void>;
}) {
  const { last } = item;
  const [failure, setFailure] = useState<string | null>(null);
  if (last === null) return null;
  const parts = [dayWords(last.at, zone), last.by === "" ? "" : say.by(last.by), last.note];
  return (
    <p className="sm last">
      {asSentence(parts.filter((part) => part !== "").join(", "))}{" "}
      <button
        className="textual noprint"
        type="button"
        onClick={() =>
          void onTakeBack(last.id).catch((error: unknown) =>
            setFailure(error instanceof Error ? error.message : String(error)),
          )
        }
      >
        {say.takeBack}
      </button>
      {failure !== null && (
        <span role="alert">
          <Glyph name="notice" /> {failure}
        </span>
      )}
    </p>
  );
}
