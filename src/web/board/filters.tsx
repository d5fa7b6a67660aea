import type { ReactNode, Ref } from "react";
import type { Site } from "../../server/contract/index.ts";
import { Name, useNames } from "../parts/names.tsx";
import { boardWords } from "../words/board.ts";
import { words } from "../words.ts";
import type { Facets } from "./facets.ts";
import { Key } from "./key.tsx";
import { type BoardChoice, GROUPS, type GroupBy, ORDERS, type Order } from "./order.ts";

/** More systems than this are chosen from a list: as words in a row they would push the rest off it. */
const SYSTEMS_AS_WORDS = 3;

interface Props {
  readonly choice: BoardChoice;
  readonly onChoose: (change: Partial<BoardChoice>) => void;
}

interface All extends Props {
  readonly site: Site;
  readonly facets: Facets;
}

/** Systems as words in a row, all else as lists; on a phone only what is asked for most, and the rest behind a press. */
export function Filters({ narrow, ...all }: All & { readonly narrow: boolean }) {
  const { choice, onChoose, site } = all;
  if (narrow) {
    const isMore =
      choice.circumstance !== null || choice.part !== null || choice.fault !== null || choice.order !== "margin";
    return (
      <div className="filters">
        <GroupList choice={choice} onChoose={onChoose} />
        <SystemList {...all} />
        <Search choice={choice} onChoose={onChoose} />
        <details className="more" open={isMore || undefined}>
          <summary>{boardWords.more}</summary>
          <div className="more-lists">
            <OrderList choice={choice} onChoose={onChoose} />
            <CircumstanceList {...all} />
            <PartList {...all} />
            <FaultList {...all} />
          </div>
        </details>
      </div>
    );
  }
  return (
    <div className="filters">
      {site.systems.length > SYSTEMS_AS_WORDS ? <SystemList {...all} /> : <SystemWords {...all} />}
      <div className="lists">
        <CircumstanceList {...all} />
        <PartList {...all} />
        <FaultList {...all} />
        <GroupList choice={choice} onChoose={onChoose} />
        <OrderList choice={choice} onChoose={onChoose} />
      </div>
      <div className="key sm">
        <Key />
      </div>
    </div>
  );
}

function SystemWords({ site, choice, onChoose }: All) {
  return (
    <fieldset className="seg sys" aria-label={words.board.system}>
      <button type="button" aria-pressed={choice.system === null} onClick={() => onChoose({ system: null })}>
        {words.board.allSystems}
      </button>
      {site.systems.map(({ id }) => (
        <button key={id} type="button" aria-pressed={choice.system === id} onClick={() => onChoose({ system: id })}>
          <Name id={id} />
        </button>
      ))}
    </fieldset>
  );
}

/** A list of which the first entry chooses nothing. */
function List({
  name,
  none,
  value,
  onChange,
  children,
}: {
  readonly name: string;
  readonly none: string;
  readonly value: string | null;
  readonly onChange: (value: string | null) => void;
  readonly children: ReactNode;
}) {
  return (
    <select
      className={value === null ? "btn" : "btn chosen"}
      aria-label={name}
      value={value ?? ""}
      onChange={(event) => onChange(event.target.value || null)}
    >
      <option value="">{none}</option>
      {children}
    </select>
  );
}

function SystemList({ site, choice, onChoose }: All) {
  const { water } = useNames();
  return (
    <List
      name={words.board.system}
      none={words.board.allSystems}
      value={choice.system}
      onChange={(system) => onChoose({ system })}
    >
      {site.systems.map(({ id }) => (
        <option key={id} value={id}>
          {water(id)}
        </option>
      ))}
    </List>
  );
}

function CircumstanceList({ facets, choice, onChoose }: All) {
  return (
    <List
      name={boardWords.circumstance}
      none={boardWords.allCircumstances}
      value={choice.circumstance}
      onChange={(circumstance) => onChoose({ circumstance })}
    >
      {facets.circumstances.map((one) => (
        <option key={one}>{one}</option>
      ))}
    </List>
  );
}

function PartList({ facets, choice, onChoose }: All) {
  const { water } = useNames();
  return (
    <List name={boardWords.part} none={boardWords.allParts} value={choice.part} onChange={(part) => onChoose({ part })}>
      {facets.parts.map(({ kind, parts }) => (
        <optgroup key={kind} label={words.kinds[kind] ?? kind}>
          {parts.map((part) => (
            <option key={part} value={part}>
              {water(part) ?? part}
            </option>
          ))}
        </optgroup>
      ))}
    </List>
  );
}

function FaultList({ facets, choice, onChoose }: All) {
  return (
    <List
      name={boardWords.fault}
      none={boardWords.allFaults}
      value={choice.fault}
      onChange={(fault) => onChoose({ fault })}
    >
      {facets.faults.map((fault) => (
        <option key={fault}>{fault}</option>
      ))}
    </List>
  );
}

function GroupList({ choice, onChoose }: Props) {
  return (
    <select
      className={choice.groupBy === "none" ? "btn" : "btn chosen"}
      aria-label={words.board.groupBy}
      value={choice.groupBy}
      onChange={(event) => onChoose({ groupBy: event.target.value as GroupBy })}
    >
      {GROUPS.map((group) => (
        <option key={group} value={group}>
          {boardWords.groupOption(boardWords.groups[group])}
        </option>
      ))}
    </select>
  );
}

function OrderList({ choice, onChoose }: Props) {
  return (
    <select
      className={choice.order === "margin" ? "btn" : "btn chosen"}
      aria-label={boardWords.order}
      value={choice.order}
      onChange={(event) => onChoose({ order: event.target.value as Order })}
    >
      {ORDERS.map((order) => (
        <option key={order} value={order}>
          {boardWords.orderOption(boardWords.orders[order])}
        </option>
      ))}
    </select>
  );
}

export function Search({ choice, onChoose, ref }: Props & { readonly ref?: Ref<HTMLInputElement> }) {
  return (
    <input
      ref={ref}
      className="find"
      type="search"
      aria-label={words.board.search}
      placeholder={words.board.search}
      value={choice.find}
      onChange={(event) => onChoose({ find: event.target.value })}
    />
  );
}
