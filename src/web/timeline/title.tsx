import { useEffect } from "react";
import type { DrillReport, Site } from "../../server/contract/index.ts";
import { address, drillAddress, Link } from "../app/router.tsx";
import { marginText } from "../board/margin.ts";
import { moveSavedPlace, savedPlace } from "../board/saved-place.ts";
import { wallClock } from "../parts/clock.ts";
import { figure, measure } from "../parts/format.ts";
import { VerdictGlyph } from "../parts/glyphs.tsx";
import { Name, partsOf } from "../parts/names.tsx";
import { asTold } from "../parts/told.ts";
import { timelineWords } from "../words/timeline.ts";
import { words } from "../words.ts";
import type { Curve } from "./quantities.ts";
import type { Run } from "./run.ts";
import { extremeOf } from "./water-lane.tsx";

/** What was drilled, when and with whom; what came of it. */
export function Title({
  report,
  run,
  site,
  lead,
  endMin,
  place,
}: {
  readonly report: DrillReport;
  readonly run: Run;
  readonly site: Site;
  readonly lead: Curve | undefined;
  readonly endMin: number;
  readonly place: { readonly index: number; readonly all: number };
}) {
  return (
    <>
      <p className="crumb sm">
        <Link to={`/${savedPlace()?.search ?? ""}`}>{words.frame.drills}</Link>
        {place.index > 0 && <span>{words.drill.place(figure(place.index), figure(place.all))}</span>}
        {report.faults.length === 2 && (
          <Link to={address("/pairs", { first: report.faults[0].part, trigger: report.faults[1].part })}>
            {timelineWords.pairs}
          </Link>
        )}
        <Neighbours id={report.id} />
      </p>
      <div className="title">
        <div>
          <h1>{asTold(report.name)}</h1>
          <p>
            <Where report={report} />. <When report={report} site={site} />
          </p>
        </div>
        <div className="verdict" aria-live="polite">
          <div className="pair">
            <span className="lab">{words.drill.verdict}</span>
            <div className="big">
              <VerdictGlyph verdict={run.verdict} size={20} />
              {words.verdicts[run.verdict]}
            </div>
          </div>
          <div className="pair">
            <span className="lab">{words.drill.margin}</span>
            <div className="big">{marginText({ verdict: run.verdict, margin_min: run.marginMin })}</div>
          </div>
          {lead !== undefined && <Extreme report={report} run={run} lead={lead} endMin={endMin} />}
        </div>
      </div>
    </>
  );
}

/** The drills before and after this one in the rows that it was opened from. */
function Neighbours({ id }: { readonly id: string }) {
  const walk = savedPlace()?.walk ?? [];
  const at = walk.indexOf(id);
  useEffect(() => moveSavedPlace(id), [id]);
  if (at < 0) return null;
  return (
    <>
      {at > 0 && <Link to={drillAddress(walk[at - 1])}>{timelineWords.before}</Link>}
      {at + 1 < walk.length && <Link to={drillAddress(walk[at + 1])}>{timelineWords.after}</Link>}
    </>
  );
}

function Where({ report }: { readonly report: DrillReport }) {
  const parts = partsOf(report);
  return (
    <>
      {parts.map((part, i) => (
        <span key={part}>
          {i > 0 && ` ${words.board.and} `}
          <Name id={part} />
        </span>
      ))}
      {report.system !== null && !parts.includes(report.system) && (
        <>
          , <Name id={report.system} />
        </>
      )}
    </>
  );
}

function When({ report, site }: { readonly report: DrillReport; readonly site: Site }) {
  const { day, clock } = wallClock(report.starts, 0);
  const circumstance = site.circumstances.find(({ id }) => id === report.circumstance);
  const away = circumstance?.away.map(({ person }) => person) ?? [];
  const notes = [
    words.drill.starts(day, clock),
    away.length > 0 ? words.drill.away(away.join(", ")) : "",
    circumstance?.closed === true ? words.drill.closed : "",
  ];
  return `${notes.filter((note) => note !== "").join(", ")}.`;
}

function Extreme({
  report,
  run,
  lead,
  endMin,
}: {
  readonly report: DrillReport;
  readonly run: Run;
  readonly lead: Curve;
  readonly endMin: number;
}) {
  if (lead.sensedOnly === true) return null;
  const extreme = extremeOf(report.trace.t_min, run.truth(lead.key), endMin, lead.notable);
  if (extreme === null) return null;
  return (
    <div className="pair">
      <span className="lab">{extreme.isHigh ? words.drill.highest(lead.name) : words.drill.lowest(lead.name)}</span>
      <div className="big">{measure(extreme.value, lead.unit, lead.digits)}</div>
    </div>
  );
}
