import { type InputHTMLAttributes, type ReactNode, type SelectHTMLAttributes, useId } from "react";
import { Glyph } from "./glyphs.tsx";
import "./field.css";

interface Frame {
  readonly label: string;
  /** What it was before: given only where it has been changed. */
  readonly was?: string;
  /** What is wrong, and what would be right. */
  readonly wrong?: ReactNode;
}

/** A value to be typed, with its name, and words where it was changed or is wrong. */
export function TextField({ label, was, wrong, ...input }: Frame & InputHTMLAttributes<HTMLInputElement>) {
  const id = useId();
  return (
    <Entry label={label} was={was} wrong={wrong} id={id}>
      <input {...input} id={id} {...described(id, was, wrong)} />
    </Entry>
  );
}

/** A value to be chosen from a few. */
export function ChoiceField({
  label,
  was,
  wrong,
  children,
  ...select
}: Frame & SelectHTMLAttributes<HTMLSelectElement>) {
  const id = useId();
  return (
    <Entry label={label} was={was} wrong={wrong} id={id}>
      <select {...select} id={id} {...described(id, was, wrong)}>
        {children}
      </select>
    </Entry>
  );
}

function described(id: string, was: Frame["was"], wrong: Frame["wrong"]) {
  return {
    "aria-invalid": wrong === undefined ? undefined : true,
    "aria-describedby": was === undefined && wrong === undefined ? undefined : `${id}said`,
  };
}

function Entry({ label, was, wrong, id, children }: Frame & { readonly id: string; readonly children: ReactNode }) {
  const state = wrong !== undefined ? "entry wrong" : was !== undefined ? "entry changed" : "entry";
  return (
    <div className={state}>
      <label htmlFor={id}>{label}</label>
      {children}
      {wrong !== undefined ? (
        <p className="said" id={`${id}said`}>
          <Glyph name="notice" />
          <span>{wrong}</span>
        </p>
      ) : (
        was !== undefined && (
          <p className="said" id={`${id}said`}>
            {was}
          </p>
        )
      )}
    </div>
  );
}
