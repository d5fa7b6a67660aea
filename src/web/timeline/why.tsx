import { useState } from "react";
import type { DrillEvent, DrillReport } from "../../server/contract/index.ts";
import { wallClock } from "../parts/clock.ts";
import { asSentence, figure, span } from "../parts/format.ts";
import { Marked } from "../parts/names.tsx";
import { words } from "../words.ts";
import type { Run } from "./run.ts";
import { tellingEvents } from "./telling-events.ts";

/** What happened and why, in at most six sentences; all events behind a press. */
export function Why({ report, run }: { readonly report: DrillReport; readonly run: Run }) {
  const [all, setAll] = useState(false);
  const told =
    run.delayMin === 0
      ? report.events
      : report.events.filter(({ kind, t_min }) => t_min <= (report.minutes.acting ?? 0) && kind !== "harm");
  const storyEnd = Math.max(
    report.ended ?? Number.POSITIVE_INFINITY,
    report.verdict === "late" || report.verdict === "unseen" ? (report.minutes.harm_early ?? 0) : 0,
  );
  const shown = all ? told : tellingEvents(told, storyEnd);
  return (
    <section>
      <h2>{words.drill.why}</h2>
      <ol className="why-list">
        {shown.map((event) => (
          <EventLine key={`${event.t_min} ${event.kind} ${event.text}`} event={event} report={report} run={run} />
        ))}
        {run.delayMin > 0 && run.harmEarlyMin !== null && run.verdict === "late" && (
          <li>
            <time className="sd">{wallClock(report.starts, run.harmEarlyMin).clock}</time>
            <span>{words.drill.harmBegins(span(run.harmEarlyMin))}</span>
          </li>
        )}
      </ol>
      {!all && told.length > shown.length && (
        <button className="textual sm noprint" type="button" onClick={() => setAll(true)}>
          {words.drill.allEvents(figure(told.length))}
        </button>
      )}
    </section>
  );
}

function EventLine({
  event,
  report,
  run,
}: {
  readonly event: DrillEvent;
  readonly report: DrillReport;
  readonly run: Run;
}) {
  const isLater = run.delayMin > 0 && report.minutes.acting !== null && event.t_min >= report.minutes.acting;
  const { clock } = wallClock(report.starts, event.t_min + (isLater ? run.delayMin : 0));
  return (
    <li>
      <time className="sd">{clock}</time>
      <span>
        <Marked text={asSentence(isLater ? `${event.text}, ${words.drill.wasHere(span(run.delayMin))}` : event.text)} />
      </span>
    </li>
  );
}
