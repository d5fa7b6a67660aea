import { useMemo } from "react";
import type { DrillResult, SettledLife, Site } from "../../server/contract/index.ts";
import { address, drillAddress, Link } from "../app/router.tsx";
import { isShort, marginText } from "../board/margin.ts";
import { figure } from "../parts/format.ts";
import { VerdictGlyph } from "../parts/glyphs.tsx";
import { Name, useNames } from "../parts/names.tsx";
import { words } from "../words.ts";
import { factsOf } from "./fields.ts";

const MOST_DRILLS = 8;

/** Beside the picture: what the chosen part is, and what it can do to you. */
export function Sheet({
  site,
  chosen,
  settled,
  drills,
}: {
  readonly site: Site;
  readonly chosen: string | null;
  readonly settled: SettledLife | null;
  readonly drills: readonly DrillResult[];
}) {
  const facts = useMemo(() => (chosen === null ? null : factsOf(site, chosen, settled)), [site, chosen, settled]);
  const { water } = useNames();
  if (facts === null) {
    return (
      <aside className="sheet">
        <p className="sm">{words.picture.choose}</p>
      </aside>
    );
  }
  return (
    <aside className="sheet" aria-label={water(facts.id) ?? facts.id}>
      <div aria-live="polite">
        <h2>
          <Name id={facts.id} />
        </h2>
        <p className="lead sm">
          {facts.kind}
          {facts.where !== null && (
            <>
              , {words.picture.in} <Name id={facts.where} />
            </>
          )}
        </p>
      </div>
      <dl>
        {facts.fields.map(({ name, value }) => (
          <div className="field" key={name}>
            <dt>{name}</dt>
            <dd>{water(value) === undefined ? value : <Name id={value} />}</dd>
          </div>
        ))}
      </dl>
      {facts.caution && <p className="sm caution">{words.picture.caution}</p>}
      <CanDo id={facts.id} drills={drills} />
    </aside>
  );
}

function CanDo({ id, drills }: { readonly id: string; readonly drills: readonly DrillResult[] }) {
  const { water } = useNames();
  const own = drills.filter(({ faults }) => faults.some(({ part }) => part === id));
  const shown = own.slice(0, MOST_DRILLS);
  return (
    <div className="faults">
      <h3>{words.picture.canDo(water(id) ?? id)}</h3>
      {drills.length === 0 && <p className="sm">{words.picture.notYet}</p>}
      {drills.length > 0 && own.length === 0 && <p className="sm">{words.picture.cannot}</p>}
      <ul>
        {shown.map((drill) => (
          <li key={drill.id}>
            <Link
              to={drillAddress(drill.id)}
              aria-label={words.picture.drill(
                drill.name,
                drill.circumstance,
                words.verdicts[drill.verdict],
                marginText(drill),
              )}
            >
              <VerdictGlyph verdict={drill.verdict} />
              <span>
                {drill.name}, {drill.circumstance}
              </span>
              <span className={isShort(drill) ? "nb short" : "nb"}>{marginText(drill)}</span>
            </Link>
          </li>
        ))}
      </ul>
      {own.length > shown.length && (
        <p className="sm">
          <Link to={address("/", { find: id })}>{words.picture.allOnBoard(figure(own.length))}</Link>
        </p>
      )}
    </div>
  );
}
