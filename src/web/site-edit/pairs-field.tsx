import { useEffect, useState } from "react";
import type { WrittenValue } from "../../server/contract/index.ts";
import { editWords } from "../words/site-edit.ts";
import { isSet } from "./part-path.ts";

interface Pair {
  /** Tells lines apart while they are edited. */
  readonly key: number;
  readonly part: string;
  readonly says: string;
}

/** The key of a condition that says how long it must hold. */
const FOR = "for";

let keys = 0;

function pairsOf(value: WrittenValue | null): readonly Pair[] {
  const entries = isSet(value) ? Object.entries(value).filter(([part]) => part !== FOR) : [];
  const pairs = entries.map(([part, says]) => ({ key: keys++, part, says: typeof says === "string" ? says : "" }));
  return pairs.length > 0 ? pairs : [{ key: keys++, part: "", says: "" }];
}

/** The condition of a rule, a sensor a line, or what it switches, a device a line. */
export function PairsField({
  kind,
  value,
  parts,
  labelledBy,
  onCommit,
}: {
  readonly kind: "condition" | "acts";
  readonly value: WrittenValue | null;
  readonly parts: readonly string[];
  readonly labelledBy: string;
  readonly onCommit: (value: WrittenValue | null) => Promise<void>;
}) {
  const [pairs, setPairs] = useState(() => pairsOf(value));
  const [holds, setHolds] = useState(() => holdOf(value));
  const said = JSON.stringify(value);
  // biome-ignore lint/correctness/useExhaustiveDependencies: the value is told apart by what it says, not by which object it is
  useEffect(() => {
    setPairs(pairsOf(value));
    setHolds(holdOf(value));
  }, [said]);

  const commit = (next: readonly Pair[], hold: string): void => {
    const whole = next.filter(({ part, says }) => part !== "" && says.trim() !== "");
    const unfinished = next.some(({ part, says }) => (part === "") !== (says.trim() === ""));
    if (unfinished) return; // a line that is half written waits for its other half
    const entries = whole.map(({ part, says }): [string, WrittenValue] => [part, says.trim()]);
    const all = hold.trim() === "" || kind === "acts" ? entries : [...entries, [FOR, hold.trim()] as [string, string]];
    const made = entries.length === 0 ? null : Object.fromEntries(all);
    if (JSON.stringify(made) !== said) void onCommit(made);
  };
  const change = (key: number, news: Partial<Pair>, finished: boolean): void => {
    const next = pairs.map((pair) => (pair.key === key ? { ...pair, ...news } : pair));
    setPairs(next);
    if (finished) commit(next, holds);
  };
  const remove = (key: number): void => {
    const next = pairs.filter((pair) => pair.key !== key);
    setPairs(next.length > 0 ? next : pairsOf(null));
    commit(next, holds);
  };
  return (
    <fieldset className="pairs" aria-labelledby={labelledBy}>
      {pairs.map((pair) => (
        <div className="pair" key={pair.key}>
          <select
            className="btn"
            aria-label={kind === "condition" ? editWords.sensor : editWords.device}
            value={pair.part}
            onChange={(event) => change(pair.key, { part: event.target.value }, true)}
          >
            <option value="">{editWords.choose}</option>
            {[...new Set([...parts, ...(pair.part === "" ? [] : [pair.part])])].map((part) => (
              <option key={part} value={part}>
                {part}
              </option>
            ))}
          </select>
          {kind === "condition" ? (
            <input
              className="value"
              aria-label={editWords.mustBe}
              placeholder={editWords.mustBeExample}
              value={pair.says}
              onChange={(event) => change(pair.key, { says: event.target.value }, false)}
              onBlur={() => commit(pairs, holds)}
              onKeyDown={(event) => event.key === "Enter" && commit(pairs, holds)}
            />
          ) : (
            <select
              className="btn"
              aria-label={editWords.state}
              value={pair.says}
              onChange={(event) => change(pair.key, { says: event.target.value }, true)}
            >
              <option value="">{editWords.choose}</option>
              <option value="on">{editWords.on}</option>
              <option value="off">{editWords.off}</option>
            </select>
          )}
          <button className="icon" type="button" aria-label={editWords.removeLine} onClick={() => remove(pair.key)}>
            <svg width="16" height="16" aria-hidden="true">
              <path d="M3 3l10 10M13 3L3 13" stroke="currentColor" strokeWidth="1.6" />
            </svg>
          </button>
        </div>
      ))}
      <div className="pair foot">
        <button
          className="textual"
          type="button"
          onClick={() => setPairs([...pairs, { key: keys++, part: "", says: "" }])}
        >
          {editWords.addLine}
        </button>
        {kind === "condition" && (
          <label className="sm">
            {editWords.holdsFor}{" "}
            <input
              className="value short"
              value={holds}
              placeholder={editWords.holdsForExample}
              onChange={(event) => setHolds(event.target.value)}
              onBlur={() => commit(pairs, holds)}
              onKeyDown={(event) => event.key === "Enter" && commit(pairs, holds)}
            />
          </label>
        )}
      </div>
    </fieldset>
  );
}

function holdOf(value: WrittenValue | null): string {
  const hold = isSet(value) ? value[FOR] : undefined;
  return typeof hold === "string" ? hold : "";
}
