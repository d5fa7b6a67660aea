import { useMemo } from "react";
import type { DrillResult, SettledLife, Site } from "../../server/contract/index.ts";
import { address, drillAddress, Link } from "../app/router.tsx";
import { useKnown } from "../app/store.ts";
import { isShort, marginText } from "../board/margin.ts";
import { isChanged, useDraft } from "../draft/draft-store.ts";
import { figure } from "../parts/format.ts";
import { VerdictGlyph } from "../parts/glyphs.tsx";
import { Name, useNames } from "../parts/names.tsx";
import { asTold } from "../parts/told.ts";
import { EditFields } from "../site-edit/edit-fields.tsx";
import { PartHead } from "../site-edit/part-acts.tsx";
import { isSet, placeOf } from "../site-edit/part-path.ts";
import { EditTools } from "../site-edit/tools.tsx";
import { editWords } from "../words/site-edit.ts";
import { words } from "../words.ts";
import { type Field, factsOf } from "./fields.ts";

const MOST_DRILLS = 8;

/** Beside the picture: what the chosen part is, changed where it stands, and what it can do to you. */
export function Sheet({
  site,
  chosen,
  settled,
  drills,
}: {
  /** The site as it would be with the changes made so far. */
  readonly site: Site;
  readonly chosen: string | null;
  readonly settled: SettledLife | null;
  readonly drills: readonly DrillResult[];
}) {
  const facts = chosen === null ? null : factsOf(site, chosen, settled);
  const draft = useDraft();
  const { site: answer } = useKnown();
  const { water } = useNames();
  const written = isChanged(draft) ? (draft.answer?.written ?? null) : (answer?.written ?? null);
  const defaults = (isChanged(draft) ? draft.answer?.defaults : answer?.defaults) ?? [];
  const place = useMemo(
    () => (draft === null || chosen === null || !isSet(written) ? null : placeOf(site, written, chosen)),
    [draft, site, written, chosen],
  );
  const isWhole = facts === null && place === null;
  const canEdit = draft !== null && isSet(written);
  return (
    <aside className="sheet" aria-label={facts === null ? editWords.whole : (water(facts.id) ?? facts.id)}>
      {canEdit && <EditTools site={site} chosen={chosen} />}
      {answer !== null && answer.errors.length > 0 && <p className="sm">{editWords.cannot}</p>}
      {isWhole && !canEdit && <p className="sm">{words.picture.choose}</p>}
      {isWhole && canEdit && (
        <>
          <h2>{editWords.whole}</h2>
          <p className="lead sm">{editWords.wholeHint}</p>
          <EditFields
            site={site}
            id="site"
            kind="site"
            path={[]}
            written={written}
            fileWritten={answer?.written ?? null}
            defaults={defaults}
          />
          <h3 className="next">{editWords.silenceWatch}</h3>
          <EditFields
            site={site}
            id="silence-watch"
            kind="silence-watch"
            path={["silence-watch"]}
            written={written}
            fileWritten={answer?.written ?? null}
            defaults={defaults}
          />
        </>
      )}
      {!isWhole && chosen !== null && (
        <>
          <div aria-live="polite">
            {place === null ? (
              <h2>
                <Name id={chosen} />
              </h2>
            ) : (
              <PartHead key={chosen} site={site} id={chosen} place={place} />
            )}
            <p className="lead sm">
              {facts?.kind ?? (place === null ? "" : editWords.kind[place.kind])}
              {facts !== null && facts.where !== null && (
                <>
                  , {words.picture.in} <Name id={facts.where} />
                </>
              )}
            </p>
          </div>
          {place === null ? (
            <Facts fields={facts?.fields ?? []} />
          ) : (
            <>
              {place.written === null && <p className="sm">{editWords.implied}</p>}
              <EditFields
                key={chosen}
                site={site}
                id={chosen}
                kind={place.kind}
                path={place.path}
                written={written}
                fileWritten={answer?.written ?? null}
                defaults={defaults}
              />
            </>
          )}
          {facts?.caution === true && <p className="sm caution">{words.picture.caution}</p>}
          <CanDo id={chosen} drills={drills} />
        </>
      )}
    </aside>
  );
}

function Facts({ fields }: { readonly fields: readonly Field[] }) {
  const { water } = useNames();
  return (
    <dl>
      {fields.map(({ name, value }) => (
        <div className="field" key={name}>
          <dt>{name}</dt>
          <dd>{water(value) === undefined ? value : <Name id={value} />}</dd>
        </div>
      ))}
    </dl>
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
                asTold(drill.name),
                drill.circumstance,
                words.verdicts[drill.verdict],
                marginText(drill),
              )}
            >
              <VerdictGlyph verdict={drill.verdict} />
              <span>
                {asTold(drill.name)}, {drill.circumstance}
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
