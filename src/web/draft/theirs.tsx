import { useMemo, useState } from "react";
import { figure } from "../parts/format.ts";
import { Glyph } from "../parts/glyphs.tsx";
import { draftWords } from "../words/draft.ts";
import { canPutOnTop, putOnTop, takeTheirs, useDraft } from "./draft-store.ts";
import { textOf } from "./history.ts";
import { lineDifference } from "./line-difference.ts";

const say = draftWords.theirs;

/** Said when the file was changed elsewhere while there are changes here: what differs, and what to do about it. */
export function Theirs() {
  const draft = useDraft();
  const [shown, setShown] = useState(false);
  const [refusal, setRefusal] = useState("");
  if (draft?.theirs == null) return null;
  const { theirs } = draft;
  const broken = theirs.errors.length > 0;
  const putMine = async (): Promise<void> => {
    const outcome = await putOnTop();
    setRefusal(outcome.made ? "" : say.failed(outcome.message));
  };
  return (
    <div className="note theirs" role="alert">
      <div className="err">
        <Glyph name="notice" />
        <div>
          <b>{say.title}</b>
          <div>
            {say.say} {broken && say.broken} {refusal}
          </div>
          <p className="acts">
            <button
              className="btn"
              type="button"
              aria-disabled={!canPutOnTop(draft)}
              onClick={() => canPutOnTop(draft) && void putMine()}
            >
              {say.onTop}
            </button>
            <button className="btn" type="button" onClick={takeTheirs} title={say.takeHint}>
              {say.take}
            </button>
            <button className="textual" type="button" aria-expanded={shown} onClick={() => setShown(!shown)}>
              {shown ? say.hide : say.show}
            </button>
          </p>
          {shown && <Difference file={theirs.text ?? ""} here={textOf(draft.history)} />}
        </div>
      </div>
    </div>
  );
}

function Difference({ file, here }: { readonly file: string; readonly here: string }) {
  const lines = useMemo(() => lineDifference(file, here), [file, here]);
  if (lines.every(({ where }) => where === "skipped")) return <p className="sm">{say.noDifference}</p>;
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reached by keys
    <section className="difference" tabIndex={0} aria-label={say.show}>
      {lines.map((line, i) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: lines have no other name than their place
        <div key={i} className={`line ${line.where}`}>
          <span className="whose">{line.where === "a" ? say.inFile : line.where === "b" ? say.here : ""}</span>
          <code>{line.where === "skipped" ? say.skipped(figure(line.count)) : line.text || " "}</code>
        </div>
      ))}
    </section>
  );
}
