import { type FormEvent, useId, useState } from "react";
import type { ResultToRecord } from "../../server/contract/index.ts";
import { dayIn } from "../parts/clock.ts";
import { Glyph } from "../parts/glyphs.tsx";
import { papersWords } from "../words/papers.ts";

const say = papersWords.proving;

/** Where the result of a trial is written down. Nothing is chosen beforehand: a result is seen, not assumed. */
export function ResultForm({
  trial,
  madeAt,
  zone,
  people,
  onRecord,
}: {
  readonly trial: string;
  readonly madeAt: string;
  readonly zone: string;
  readonly people: readonly string[];
  readonly onRecord: (result: ResultToRecord) => Promise<void>;
}) {
  const today = dayIn(madeAt, zone);
  const id = useId();
  const [saving, setSaving] = useState(false);
  const [failure, setFailure] = useState<string | null>(null);

  async function submit(event: FormEvent<HTMLFormElement>): Promise<void> {
    event.preventDefault();
    const form = new FormData(event.currentTarget);
    const text = (name: string): string => {
      const value = form.get(name);
      return typeof value === "string" ? value : "";
    };
    setSaving(true);
    try {
      await onRecord({ trial, on: text("on"), held: text("held") === "yes", note: text("note"), by: text("by") });
    } catch (error) {
      setFailure(error instanceof Error ? error.message : String(error));
      setSaving(false);
    }
  }

  return (
    <form className="result noprint" aria-label={say.record} onSubmit={(event) => void submit(event)}>
      <fieldset>
        <legend className="lab">{say.result}</legend>
        <label className="radio">
          <input type="radio" name="held" value="yes" required /> {say.resultHeld}
        </label>
        <label className="radio">
          <input type="radio" name="held" value="no" required /> {say.resultFailed}
        </label>
      </fieldset>
      <label>
        <span className="lab">{say.day}</span>
        <input type="date" name="on" required defaultValue={today} max={today} />
      </label>
      <label>
        <span className="lab">{say.who}</span>
        <input type="text" name="by" list={`${id}-people`} maxLength={100} autoComplete="off" />
      </label>
      <datalist id={`${id}-people`}>
        {people.map((person) => (
          <option key={person} value={person} />
        ))}
      </datalist>
      <label className="wide">
        <span className="lab">{say.note}</span>
        <textarea name="note" rows={2} maxLength={1000} />
      </label>
      <button className="btn main" type="submit" disabled={saving}>
        {saving ? say.saving : say.save}
      </button>
      {failure !== null && (
        <p role="alert">
          <Glyph name="notice" /> {failure}
        </p>
      )}
    </form>
  );
}
