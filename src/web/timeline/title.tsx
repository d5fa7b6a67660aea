import type { DrillReport, Site } from "../../server/contract/index.ts";
import { Link } from "../app/router.tsx";
import { marginText } from "../board/margin.ts";
import { wallClock } from "../parts/clock.ts";
import { figure, measure } from "../parts/format.ts";
import { VerdictGlyph } from "../parts/glyphs.tsx";
import { Name, partsOf } from "../parts/names.tsx";
import { asTold } from "../parts/told.ts";
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
        <Link to="/">{words.frame.drills}</Link>
        {place.index > 0 && <span>{words.drill.place(figure(place.index), figure(place.all))}</span>}
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
  const extreme = extremeOf(report.trace.t_min, run.truth(lead.key), endMin, lead.notable);
  if (extreme === null) return null;
  return (
    <div className="pair">
      <span className="lab">{extreme.isHigh ? words.drill.highest(lead.name) : words.drill.lowest(lead.name)}</span>
      <div className="big">{measure(extreme.value, lead.unit, lead.digits)}</div>
    </div>
  );
}
