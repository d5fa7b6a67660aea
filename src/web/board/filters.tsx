import type { Site } from "../../server/contract/index.ts";
import { Name, useNames } from "../parts/names.tsx";
import { words } from "../words.ts";
import { Key } from "./key.tsx";
import type { BoardChoice, GroupBy } from "./order.ts";

const GROUPS: readonly GroupBy[] = ["none", "system", "circumstance", "kind"];
/** More systems than this are chosen from a list: as words in a row they would push the rest off it. */
const SYSTEMS_AS_WORDS = 3;

interface Props {
  readonly site: Site;
  readonly choice: BoardChoice;
  readonly onChoose: (change: Partial<BoardChoice>) => void;
}

/** System and grouping as words in a row; on a phone, and where there are many systems, as lists. */
export function Filters({ site, choice, onChoose, narrow }: Props & { readonly narrow: boolean }) {
  if (narrow) {
    return (
      <div className="filters">
        <GroupList choice={choice} onChoose={onChoose} />
        <SystemList site={site} choice={choice} onChoose={onChoose} />
        <Search choice={choice} onChoose={onChoose} />
      </div>
    );
  }
  return (
    <div className="filters">
      {site.systems.length > SYSTEMS_AS_WORDS ? (
        <SystemList site={site} choice={choice} onChoose={onChoose} />
      ) : (
        <SystemWords site={site} choice={choice} onChoose={onChoose} />
      )}
      <fieldset className="seg" aria-label={words.board.groupBy}>
        <span className="lab">{words.board.groupBy.toLowerCase()}</span>
        {GROUPS.map((group) => (
          <button
            key={group}
            type="button"
            aria-pressed={choice.groupBy === group}
            onClick={() => onChoose({ groupBy: group })}
          >
            {words.board.group[group]}
          </button>
        ))}
      </fieldset>
      <div className="key sm">
        <Key />
      </div>
    </div>
  );
}

function SystemWords({ site, choice, onChoose }: Props) {
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

function SystemList({ site, choice, onChoose }: Props) {
  const { water } = useNames();
  return (
    <select
      className="btn"
      aria-label={words.board.system}
      value={choice.system ?? ""}
      onChange={(event) => onChoose({ system: event.target.value || null })}
    >
      <option value="">{words.board.allSystems}</option>
      {site.systems.map(({ id }) => (
        <option key={id} value={id}>
          {water(id)}
        </option>
      ))}
    </select>
  );
}

function GroupList({ choice, onChoose }: Omit<Props, "site">) {
  return (
    <select
      className="btn"
      aria-label={words.board.groupBy}
      value={choice.groupBy}
      onChange={(event) => onChoose({ groupBy: event.target.value as GroupBy })}
    >
      {GROUPS.map((group) => (
        <option key={group} value={group}>
          {words.board.groupOption(words.board.group[group])}
        </option>
      ))}
    </select>
  );
}

export function Search({ choice, onChoose }: Omit<Props, "site">) {
  return (
    <input
      className="find"
      type="search"
      aria-label={words.board.search}
      placeholder={words.board.search}
      value={choice.find}
      onChange={(event) => onChoose({ find: event.target.value })}
    />
  );
}
