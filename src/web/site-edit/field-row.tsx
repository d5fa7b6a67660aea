import { type ReactNode, useEffect, useId, useRef, useState } from "react";
import type { FieldFacts, SiteEdit, WrittenValue } from "../../server/contract/index.ts";
import { check } from "../draft/draft-store.ts";
import { joinUnits } from "../parts/format.ts";
import { Glyph } from "../parts/glyphs.tsx";
import { editWords } from "../words/site-edit.ts";
import { keyWords } from "./important.ts";
import { PairsField } from "./pairs-field.tsx";
import { itemsOf, lineOf, saidOf, valueSaid } from "./value-text.ts";

export interface FieldRowProps {
  readonly facts: FieldFacts;
  /** What is written; null where it is left out. */
  readonly value: WrittenValue | null;
  /** What the file itself says, where that differs; undefined where it does not. */
  readonly was: WrittenValue | null | undefined;
  /** What holds where it is left out. */
  readonly otherwise: string;
  /** Names that can stand here. */
  readonly names: readonly string[];
  /** Sensors and devices, for conditions and acts. */
  readonly sensors: readonly string[];
  readonly devices: readonly string[];
  /** Its name in messages: "heater-1.power". */
  readonly where: string;
  /** What is known to be wrong with it before anyone types. */
  readonly wrong?: string;
  /** The change that a value makes. */
  readonly editOf: (value: WrittenValue | null) => readonly SiteEdit[];
  /** Makes it; gives back why it was refused, or nothing. */
  readonly onCommit: (value: WrittenValue | null) => Promise<string>;
}

const CHECK_AFTER_MS = 350;

/** One key of a part: its name, what is written, and what is wrong with what is being typed. */
export function FieldRow(props: FieldRowProps) {
  const { facts, was, value, otherwise } = props;
  const [problem, setProblem] = useState(props.wrong ?? "");
  const id = useId();
  const changed = was !== undefined;
  const commit = async (next: WrittenValue | null): Promise<void> => setProblem(await props.onCommit(next));
  return (
    <div className={`field edit${changed ? " changed" : ""}${problem === "" ? "" : " wrong"}`}>
      <div className="said">
        <label htmlFor={id} id={`${id}-name`}>
          {keyWords(facts)}
        </label>
        {changed && (
          <span className="sm">
            {was === null || was === "" ? editWords.wasNothing : editWords.was(joinUnits(saidOf(was)))}
          </span>
        )}
      </div>
      <Control {...props} id={id} problem={problem} onProblem={setProblem} commit={commit} />
      <div className="below" id={`${id}-hint`}>
        {problem !== "" ? (
          <p className="sm problem" role="alert">
            <Glyph name="notice" /> {problem}
          </p>
        ) : (
          <p className="sm hint">
            {facts.doc.replaceAll("`", "")} {value === null && otherwise !== "" && editWords.leftOut(otherwise)}
          </p>
        )}
      </div>
    </div>
  );
}

interface ControlProps extends FieldRowProps {
  readonly id: string;
  readonly problem: string;
  readonly onProblem: (problem: string) => void;
  readonly commit: (value: WrittenValue | null) => Promise<void>;
}

function Control(props: ControlProps): ReactNode {
  const { facts, value, names, sensors, devices, id, commit } = props;
  if (facts.pairs !== null) {
    const parts = facts.pairs === "condition" ? sensors : devices;
    return <PairsField kind={facts.pairs} value={value} parts={parts} labelledBy={`${id}-name`} onCommit={commit} />;
  }
  const options = facts.choices.length > 0 ? facts.choices : facts.names.length > 0 ? names : [];
  if (options.length > 0 && facts.many) return <Several {...props} options={options} />;
  if (options.length > 0) return <OneOf {...props} options={options} />;
  return <Line {...props} />;
}

function OneOf({
  facts,
  value,
  otherwise,
  options,
  id,
  commit,
  problem,
}: ControlProps & { readonly options: readonly string[] }) {
  const said = saidOf(value);
  const all = [...new Set([...options, ...(facts.none === null ? [] : [facts.none]), ...(said === "" ? [] : [said])])];
  return (
    <select
      id={id}
      className={said === "" ? "btn value left-out" : "btn value"}
      value={said}
      aria-describedby={`${id}-hint`}
      aria-invalid={problem !== "" || undefined}
      onChange={(event) => void commit(event.target.value === "" ? null : event.target.value)}
    >
      <option value="">{facts.otherwise === "" ? editWords.choose : editWords.asUsual(otherwise)}</option>
      {all.map((option) => (
        <option key={option} value={option}>
          {option}
        </option>
      ))}
    </select>
  );
}

function Several({ value, options, id, commit }: ControlProps & { readonly options: readonly string[] }) {
  const chosen = itemsOf(value);
  const all = [...new Set([...options, ...chosen])];
  const turn = (option: string, on: boolean): void => {
    const next = all.filter((each) => (each === option ? on : chosen.includes(each)));
    void commit(next.length === 0 ? null : next.length === 1 ? next[0] : next);
  };
  return (
    <fieldset className="several" id={id} aria-labelledby={`${id}-name`} aria-describedby={`${id}-hint`}>
      {all.map((option) => (
        <label key={option} className="layer">
          <input
            type="checkbox"
            checked={chosen.includes(option)}
            onChange={(event) => turn(option, event.target.checked)}
          />
          {option}
        </label>
      ))}
    </fieldset>
  );
}

function Line({ facts, value, otherwise, id, where, editOf, onProblem, problem, commit }: ControlProps) {
  const written = lineOf(value);
  const [typed, setTyped] = useState(written ?? "");
  const waiting = useRef<ReturnType<typeof setTimeout> | null>(null);
  const typedNow = useRef(typed);
  typedNow.current = typed;
  // What is undone, put back or changed in the file shows here; what is being typed stays.
  useEffect(() => setTyped(written ?? ""), [written]);
  useEffect(
    () => () => {
      if (waiting.current !== null) clearTimeout(waiting.current);
    },
    [],
  );
  if (written === null) return <span className="sm value">{saidOf(value)}</span>;
  const type = (text: string): void => {
    setTyped(text);
    if (waiting.current !== null) clearTimeout(waiting.current);
    waiting.current = setTimeout(() => void tell(text), CHECK_AFTER_MS);
  };
  const tell = async (text: string): Promise<void> => {
    if (text.trim() === written) return onProblem("");
    const answer = await check(editOf(valueSaid(text, facts)));
    if (typedNow.current === text && answer !== null) onProblem(messageOf(answer, where));
  };
  const finish = (): void => {
    if (waiting.current !== null) clearTimeout(waiting.current);
    if (typed.trim() !== written) void commit(valueSaid(typed, facts));
  };
  return (
    <input
      id={id}
      className="value"
      value={typed}
      placeholder={otherwise}
      autoComplete="off"
      spellCheck={false}
      aria-describedby={`${id}-hint`}
      aria-invalid={problem !== "" || undefined}
      onChange={(event) => type(event.target.value)}
      onBlur={finish}
      onKeyDown={(event) => {
        if (event.key === "Enter") finish();
        if (event.key === "Escape") {
          setTyped(written);
          onProblem("");
        }
      }}
    />
  );
}

/**
 * What is wrong with a change, in one sentence, as the check of the file would say it; empty where nothing is.
 *
 * @param here the key at which it is shown, which need not be said again
 */
export function messageOf(
  answer: {
    readonly problem: { readonly message: string; readonly hint: string } | null;
    readonly errors: readonly { readonly message: string; readonly hint: string; readonly where: string }[];
  },
  here = "",
): string {
  const said = answer.problem ?? answer.errors[0];
  if (said === undefined) return "";
  const at = "where" in said && typeof said.where === "string" ? said.where : "";
  const where = at === "" || at === here ? "" : `${at}: `;
  return `${where}${said.message}${said.hint === "" ? "" : `; ${said.hint}`}`;
}
