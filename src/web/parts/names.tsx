import { createContext, type ReactNode, useContext, useMemo } from "react";
import type { DrillResult, Site } from "../../server/contract/index.ts";
import { words } from "../words.ts";
import { joinUnits } from "./format.ts";
import { asTold } from "./told.ts";

/**
 * How the parts of a site are written: waters and their ways in italics as on a chart, with spaces for hyphens; everything else upright, by
 * the id that its owner gave it and will look for in the file.
 */
export interface Names {
  /** Id -> words of a system, body or flow; undefined for what is not wet. */
  water(id: string): string | undefined;
  /** Splits a text at the ids of waters, and at the quantity behind one ("reef-sump.temperature"). */
  readonly pattern: RegExp | null;
}

const NO_NAMES: Names = { water: () => undefined, pattern: null };
const NamesContext = createContext<Names>(NO_NAMES);

export function namesOf(site: Site): Names {
  const waters = new Map<string, string>();
  for (const { id } of site.bodies) waters.set(id, spaced(id));
  for (const { id } of site.flows) waters.set(id, spaced(id));
  for (const { id } of site.systems) waters.set(id, capital(spaced(id)));
  const ids = [...waters.keys()]
    .sort((a, b) => b.length - a.length)
    .map((id) => id.replace(/[.*+?^${}()|[\]\\]/g, "\\$&"));
  const pattern =
    ids.length === 0 ? null : new RegExp(`(?<![\\w-])(${ids.join("|")})(?:\\.([a-z]+)[a-z0-9_]*)?(?![\\w-])`);
  return { water: (id) => waters.get(id), pattern };
}

function spaced(id: string): string {
  return id.replaceAll("-", " ").replaceAll("_", " ");
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

export function NamesProvider({ site, children }: { readonly site: Site | null; readonly children: ReactNode }) {
  const names = useMemo(() => (site === null ? NO_NAMES : namesOf(site)), [site]);
  return <NamesContext value={names}>{children}</NamesContext>;
}

export function useNames(): Names {
  return useContext(NamesContext);
}

/** The name of one part. */
export function Name({ id }: { readonly id: string }) {
  const water = useNames().water(id);
  return water === undefined ? <span className="nb">{id}</span> : <em className="w">{water}</em>;
}

/** A text from the engine, with its figures in the reader's manner and the waters in it written as waters. */
export function Marked({ text }: { readonly text: string }) {
  const names = useNames();
  return piecesOf(text, names).map(({ at, words, wet }) =>
    wet ? (
      <em className="w" key={at}>
        {words}
      </em>
    ) : (
      words
    ),
  );
}

/** The same text for ears: waters as words, no marks. */
export function plainText(text: string, names: Names): string {
  return piecesOf(text, names)
    .map(({ words }) => words)
    .join("");
}

interface Piece {
  /** Where in the text it begins: what tells the pieces of one text apart. */
  readonly at: number;
  readonly words: string;
  readonly wet: boolean;
}

function piecesOf(text: string, { pattern, water }: Names): readonly Piece[] {
  const told = joinUnits(asTold(text));
  if (pattern === null) return [{ at: 0, words: told, wet: false }];
  let at = 0;
  // text, id of a water, its quantity or nothing, text, ...
  return told.split(pattern).flatMap((piece: string | undefined, i): Piece[] => {
    if (piece === undefined || piece === "") return [];
    const begins = at;
    at += piece.length;
    if (i % 3 === 1) return [{ at: begins, words: water(piece) ?? piece, wet: true }];
    return [{ at: begins, words: i % 3 === 2 ? ` ${words.quantity[piece] ?? piece}` : piece, wet: false }];
  });
}

/** The parts that fail in a drill, in the order in which they do. */
export function partsOf(drill: Pick<DrillResult, "faults">): readonly string[] {
  return [...new Set(drill.faults.map((fault) => fault.part))];
}
