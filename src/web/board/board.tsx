import { useMemo } from "react";
import type { RehearsalReport, Site } from "../../server/contract/index.ts";
import { address, go } from "../app/router.tsx";
import { drillsOf, type Known, startRehearsal } from "../app/store.ts";
import { figure } from "../parts/format.ts";
import { NARROW, useMedia } from "../parts/use-width.ts";
import { words } from "../words.ts";
import { readChoice, writeChoice } from "./choice.ts";
import { facetsOf } from "./facets.ts";
import { Filters } from "./filters.tsx";
import { Headline, worstOf } from "./headline.tsx";
import { Key } from "./key.tsx";
import { type BoardChoice, ordered, tally } from "./order.ts";
import { Rows } from "./rows.tsx";
import { Tally } from "./tally.tsx";

const NO_HARM: RehearsalReport["plain_life"] = [];

/** The margin board: every drill of the site on one time axis, what to fix first on top. */
export function Board({
  known,
  site,
  query,
}: {
  readonly known: Known;
  readonly site: Site;
  readonly query: URLSearchParams;
}) {
  const { report, partial, rehearsal } = known;
  const narrow = useMedia(NARROW);
  const drills = useMemo(() => ordered(drillsOf({ report, partial })), [report, partial]);
  const facets = useMemo(() => facetsOf(drills, site), [drills, site]);
  const counts = useMemo(() => tally(drills), [drills]);
  const atWork = rehearsal?.state === "at work";

  if (rehearsal === null || (rehearsal.state === "done" && drills.length === 0))
    return <p className="quiet">{words.work.loading}</p>;
  if (drills.length === 0) return atWork ? <p className="quiet">{words.work.starting}</p> : <NothingYet site={site} />;

  const choice = readChoice(query);
  const choose = (change: Partial<BoardChoice>): void =>
    go(address("/", writeChoice({ ...choice, ...change })), "replace");
  const soFar = atWork && report === null ? words.work.soFar(figure(drills.length), figure(rehearsal.total)) : null;
  return (
    <>
      <div className="top">
        <Headline drills={drills} plainLife={report?.plain_life ?? NO_HARM} soFar={soFar} />
        <Tally counts={counts} pressed={choice.verdict} onPress={(verdict) => choose({ verdict })} />
      </div>
      <Filters site={site} facets={facets} choice={choice} onChoose={choose} narrow={narrow} />
      <Rows
        site={site}
        drills={drills}
        choice={choice}
        onChoose={choose}
        narrow={narrow}
        headlineId={worstOf(drills)?.id ?? null}
        waiting={atWork && report === null ? rehearsal.total - drills.length : 0}
      />
      <div className="key2 sm">
        <b>{words.board.howToRead}</b>
        <Key />
      </div>
      {!atWork && (
        <p className="again noprint">
          <button className="btn" type="button" onClick={() => void startRehearsal()}>
            {words.work.again}
          </button>
        </p>
      )}
    </>
  );
}

function NothingYet({ site }: { readonly site: Site }) {
  return (
    <div className="empty">
      <h1 className="say">{words.empty.headline(site.name)}</h1>
      <p className="then">{words.empty.note}</p>
      <button className="btn main" type="button" onClick={() => void startRehearsal()}>
        {words.work.rehearse}
      </button>
    </div>
  );
}
