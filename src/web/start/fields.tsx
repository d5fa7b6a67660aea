import { createContext, type ReactNode, use, useState } from "react";
import type { AnswerProblem } from "../../server/contract/index.ts";
import { asSentence } from "../parts/format.ts";
import { Glyph } from "../parts/glyphs.tsx";
import { startWords as words } from "../words/start.ts";

/** What every field looks up by its name: what a blank is taken as, and what is wrong with it. */
export interface FieldLook {
  readonly usual: Readonly<Record<string, string>>;
  readonly errors: readonly AnswerProblem[];
  /** Someone has asked to go on: then every field says what is wrong with it. */
  readonly isAsked: boolean;
}

export const FieldContext = createContext<FieldLook>({ usual: {}, errors: [], isAsked: false });

interface TextProps {
  /** As the program calls it: "tanks.0.volume". */
  readonly name: string;
  readonly label: string;
  readonly note?: string;
  readonly value: string | null;
  readonly list?: string;
  readonly wide?: boolean;
  onChange(value: string | null): void;
}

/** A text with what is usual filled in; cleared it is usual again. What is wrong stands under it in the loader's words. */
export function TextField({ name, label, note, value, list, wide = false, onChange }: TextProps) {
  const look = use(FieldContext);
  const [isLeft, setLeft] = useState(false);
  const error = isLeft || look.isAsked ? (look.errors.find(({ field }) => field === name) ?? null) : null;
  const described = [error === null ? "" : `${name}-wrong`, note === undefined ? "" : `${name}-note`].join(" ").trim();
  return (
    <div className={`ask-text${wide ? " wide" : ""}${error === null ? "" : " wrong"}`}>
      <div className="ask-label">
        <label htmlFor={name}>{label}</label>
        {value === null && <span className="sd">{words.usual}</span>}
      </div>
      <input
        id={name}
        type="text"
        value={value ?? look.usual[name] ?? ""}
        list={list}
        maxLength={200}
        autoComplete="off"
        spellCheck={false}
        aria-invalid={error !== null}
        aria-describedby={described === "" ? undefined : described}
        onChange={(event) => onChange(event.target.value)}
        onBlur={() => {
          setLeft(true);
          if (value?.trim() === "") onChange(null);
        }}
      />
      <Wrong id={`${name}-wrong`} error={error} />
      {note !== undefined && (
        <p className="sd" id={`${name}-note`}>
          {note}
        </p>
      )}
    </div>
  );
}

function Wrong({ id, error }: { readonly id: string; readonly error: AnswerProblem | null }) {
  if (error === null) return null;
  return (
    <p className="sm err ask-wrong" id={id}>
      <Glyph name="notice" />
      <span>
        {asSentence(error.message)} {asSentence(error.hint)}
      </span>
    </p>
  );
}

/** One of a few, all of them seen. */
export function Choice<T extends string>({
  name,
  legend,
  of,
  value,
  onChange,
}: {
  readonly name: string;
  readonly legend: string;
  readonly of: Readonly<Record<T, string>>;
  readonly value: T;
  onChange(value: T): void;
}) {
  return (
    <fieldset className="ask-choice">
      <legend>{legend}</legend>
      {(Object.entries(of) as [T, string][]).map(([each, label]) => (
        <label key={each}>
          <input type="radio" name={name} checked={each === value} onChange={() => onChange(each)} />
          {label}
        </label>
      ))}
    </fieldset>
  );
}

/** Any of a few. */
export function Ticks<T extends string>({
  name,
  legend,
  of,
  value,
  note,
  onChange,
}: {
  readonly name: string;
  readonly legend: string;
  readonly of: Readonly<Record<T, string>>;
  readonly value: readonly T[];
  readonly note?: string;
  onChange(value: readonly T[]): void;
}) {
  const { errors } = use(FieldContext);
  const error = errors.find(({ field }) => field === name) ?? null;
  const all = Object.entries(of) as [T, string][];
  return (
    <fieldset className="ask-choice" aria-describedby={error === null ? undefined : `${name}-wrong`}>
      <legend>{legend}</legend>
      {all.map(([each, label], index) => (
        <label key={each}>
          <input
            id={index === 0 ? name : undefined}
            type="checkbox"
            checked={value.includes(each)}
            onChange={(event) =>
              onChange(
                all
                  .map(([word]) => word)
                  .filter((word) => (word === each ? event.target.checked : value.includes(word))),
              )
            }
          />
          {label}
        </label>
      ))}
      <Wrong id={`${name}-wrong`} error={error} />
      {note !== undefined && <p className="sd">{note}</p>}
    </fieldset>
  );
}

export function Tick({
  label,
  value,
  onChange,
}: {
  readonly label: string;
  readonly value: boolean;
  onChange(value: boolean): void;
}) {
  return (
    <label className="ask-tick">
      <input type="checkbox" checked={value} onChange={(event) => onChange(event.target.checked)} />
      {label}
    </label>
  );
}

/** How many, from a short list: nothing that is not a number can be given. */
export function Count({
  name,
  label,
  from,
  to,
  value,
  inWords = String,
  onChange,
}: {
  readonly name: string;
  readonly label: string;
  readonly from: number;
  readonly to: number;
  readonly value: number;
  inWords?(count: number): string;
  onChange(value: number): void;
}) {
  const counts = Array.from({ length: to - from + 1 }, (_, index) => from + index);
  return (
    <div className="ask-text">
      <div className="ask-label">
        <label htmlFor={name}>{label}</label>
      </div>
      <select id={name} value={value} onChange={(event) => onChange(Number(event.target.value))}>
        {counts.map((count) => (
          <option key={count} value={count}>
            {inWords(count)}
          </option>
        ))}
      </select>
    </div>
  );
}

/** Fields beside each other while there is room. */
export function Row({ children }: { readonly children: ReactNode }) {
  return <div className="ask-row">{children}</div>;
}
