import { useState } from "react";
import type { DrillEvent, DrillReport } from "../../server/contract/index.ts";
import { wallClock } from "../parts/clock.ts";
import { asSentence, figure, span } from "../parts/format.ts";
import { useManner } from "../parts/manner.ts";
import { Marked } from "../parts/names.tsx";
import { timelineWords } from "../words/timeline.ts";
import { words } from "../words.ts";
import type { Run } from "./run.ts";
import { tellingEvents } from "./telling-events.ts";

const MOST_SENTENCES = 6;
/** Events and minutes are rounded each in their own way, min. */
const ROUNDING_MIN = 0.5;

/** What happened and why, in at most six sentences; all events behind a press. */
export function Why({ report, run }: { readonly report: DrillReport; readonly run: Run }) {
  const [all, setAll] = useState(false);
  const { twelveHours } = useManner();
  const told =
    run.delayMin === 0
      ? report.events
      : report.events.filter(
          ({ kind, t_min }) => t_min <= (report.minutes.acting ?? 0) + ROUNDING_MIN && kind !== "harm",
        );
  const storyEnd = Math.max(
    report.ended ?? Number.POSITIVE_INFINITY,
    report.verdict === "late" || report.verdict === "unseen" ? (report.minutes.harm_early ?? 0) : 0,
  );
  const harmLater = run.delayMin > 0 && run.verdict === "late" ? run.harmEarlyMin : null;
  const shown = all ? told : tellingEvents(told, storyEnd, harmLater === null ? MOST_SENTENCES : MOST_SENTENCES - 1);
  // Harm that comes before the late help stands before it, so that the story keeps its order.
  const before = shown.filter((event) => harmLater === null || toldAt(event, report, run) <= harmLater);
  const after = shown.filter((event) => !before.includes(event));
  return (
    <section>
      <h2>{words.drill.why}</h2>
      <ol className={twelveHours ? "why-list twelve" : "why-list"}>
        {before.map((event) => (
          <EventLine key={`${event.t_min} ${event.kind} ${event.text}`} event={event} report={report} run={run} />
        ))}
        {harmLater !== null && (
          <li>
            <time className="sd">{clockOf(report.starts, harmLater)}</time>
            <span>{words.drill.harmBegins(span(harmLater))}</span>
          </li>
        )}
        {after.map((event) => (
          <EventLine key={`${event.t_min} ${event.kind} ${event.text}`} event={event} report={report} run={run} />
        ))}
      </ol>
      {!all && told.length > shown.length && (
        <button className="textual sm noprint" type="button" onClick={() => setAll(true)}>
          {words.drill.allEvents(figure(told.length))}
        </button>
      )}
    </section>
  );
}

/** Help and what follows from it come later in a later run; the rest stays where it was. */
function comesLater(event: DrillEvent, report: DrillReport, run: Run): boolean {
  return run.delayMin > 0 && report.minutes.acting !== null && event.t_min >= report.minutes.acting - ROUNDING_MIN;
}

function toldAt(event: DrillEvent, report: DrillReport, run: Run): number {
  return event.t_min + (comesLater(event, report, run) ? run.delayMin : 0);
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
  const isLater = comesLater(event, report, run);
  return (
    <li>
      <time className="sd">{clockOf(report.starts, toldAt(event, report, run))}</time>
      <span>
        <Marked text={asSentence(isLater ? `${event.text}, ${words.drill.wasHere(span(run.delayMin))}` : event.text)} />
      </span>
    </li>
  );
}

/** Why the rules that could have noticed the harm did not: each in a sentence with what its sensor read. */
export function SilentRules({ report }: { readonly report: DrillReport }) {
  const [first] = report.silent_rules;
  if (first === undefined) return null;
  const say = timelineWords.silent;
  return (
    <section>
      <h2>{say.head}</h2>
      <p className="sm">{asSentence(say.at(span(first.at_min)))}</p>
      <ul className="silent-list">
        {report.silent_rules.map(({ rule, why }) => (
          <li key={rule ?? why}>
            <Marked text={asSentence(rule === null ? why : say.rule(rule, why))} />
          </li>
        ))}
      </ul>
    </section>
  );
}

/** The clock time of a moment, with its weekday where it is another day than the fault's. */
function clockOf(starts: string, min: number): string {
  const { clock, day } = wallClock(starts, min);
  return day === wallClock(starts, 0).day ? clock : `${day.slice(0, 3)} ${clock}`;
}
