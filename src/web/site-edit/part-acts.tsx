import { useState } from "react";
import type { Described, Site, WrittenValue } from "../../server/contract/index.ts";
import { address, go } from "../app/router.tsx";
import { apply, type Outcome } from "../draft/draft-store.ts";
import { Name } from "../parts/names.tsx";
import { beginConnect, beginMove } from "../site-picture/moving.ts";
import { editWords } from "../words/site-edit.ts";
import { messageOf } from "./field-row.tsx";
import { freeName, type PartPlace } from "./part-path.ts";
import { takeOut } from "./take-out.ts";

/** Kinds of which a copy makes sense by itself: a copied way of water or system would need new waters too. */
const COPIED: readonly Described[] = [
  "device",
  "sensor",
  "body",
  "circuit",
  "battery",
  "link",
  "hub",
  "person",
  "rule",
  "room",
];

/** Kinds that stand in a water or hang from a circuit, and can do so elsewhere. */
const MOVED: readonly Described[] = ["device", "sensor", "battery", "link", "hub", "circuit"];

/** The name of the chosen part, which can be changed, and what can be done with the part as a whole. */
export function PartHead({ site, id, place }: { readonly site: Site; readonly id: string; readonly place: PartPlace }) {
  const [naming, setNaming] = useState(false);
  const [refusal, setRefusal] = useState("");
  const tell = (outcome: Outcome): boolean => {
    setRefusal(outcome.made ? "" : outcome.answer === null ? outcome.message : messageOf(outcome.answer));
    return outcome.made;
  };
  const rename = async (to: string): Promise<void> => {
    const name = to.trim();
    if (name === "" || name === id) return setNaming(false);
    if (!tell(await apply(editWords.renamed(id, name), [{ op: "rename", from: id, to: name }]))) return;
    setNaming(false);
    go(address("/site", { part: name }), "replace");
  };
  const copy = async (): Promise<void> => {
    const name = freeName(site, id);
    const path = [...place.path.slice(0, -1), name];
    const value: WrittenValue = place.written ?? {};
    if (tell(await apply(editWords.duplicated(id, name), [{ op: "set", path, value }])))
      go(address("/site", { part: name }), "replace");
  };
  const remove = async (): Promise<void> => {
    if (tell(await takeOut(site, id))) go(address("/site"), "replace");
  };
  const canName = place.kind !== "flow" && place.written !== null;
  return (
    <>
      {naming ? (
        <Naming id={id} onDone={(name) => void rename(name)} onLeave={() => setNaming(false)} />
      ) : (
        <h2>
          <Name id={id} />
        </h2>
      )}
      {refusal !== "" && (
        <p className="sm problem" role="alert">
          {refusal}
        </p>
      )}
      <p className="part-acts">
        {canName && (
          <button className="textual" type="button" onClick={() => setNaming(!naming)}>
            {editWords.rename}
          </button>
        )}
        {canName && COPIED.includes(place.kind) && (
          <button className="textual" type="button" onClick={() => void copy()}>
            {editWords.duplicate}
          </button>
        )}
        {place.written !== null && MOVED.includes(place.kind) && (
          <button className="textual" type="button" onClick={() => beginMove(id)}>
            {editWords.move}
          </button>
        )}
        {place.written !== null && place.kind === "body" && (
          <button className="textual" type="button" onClick={() => beginConnect(id)}>
            {editWords.connect}
          </button>
        )}
        {place.written !== null && place.kind !== "flow" && (
          <button className="textual" type="button" onClick={() => void remove()}>
            {editWords.takeOut}
          </button>
        )}
      </p>
    </>
  );
}

function Naming({
  id,
  onDone,
  onLeave,
}: {
  readonly id: string;
  readonly onDone: (name: string) => void;
  readonly onLeave: () => void;
}) {
  const [name, setName] = useState(id);
  return (
    <input
      className="value naming"
      aria-label={editWords.name}
      // biome-ignore lint/a11y/noAutofocus: it takes the place of the button that was just pressed
      autoFocus
      spellCheck={false}
      value={name}
      onChange={(event) => setName(event.target.value)}
      onFocus={(event) => event.target.select()}
      onBlur={() => name.trim() === id && onLeave()}
      onKeyDown={(event) => {
        if (event.key === "Enter") onDone(name);
        if (event.key === "Escape") onLeave();
      }}
    />
  );
}
