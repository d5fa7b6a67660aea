import type { DrillEvent, DrillReport } from "../../server/contract/index.ts";
import { asTold } from "../parts/told.ts";
import { words } from "../words.ts";
import { LaneName, Note, type Plot, textWidth } from "./lane-frame.tsx";

type Mark = "sent" | "lost" | "read";

/** Marks nearer to each other than this, px, are moved apart: order matters more than the minute. */
const LEAST_GAP = 11;
const LONGEST_LABEL = 40;

/** Notices and messages on their way: sent, lost, read, each with who. */
export function MessageLane({
  plot,
  report,
  top,
  height,
}: {
  readonly plot: Plot;
  readonly report: DrillReport;
  readonly top: number;
  readonly height: number;
}) {
  const { left, right, narrow } = plot;
  const y = top + height / 2 - 4;
  const messages = placeMarks(report.events, plot);
  const sent = messages.find(({ mark }) => mark === "sent");
  const read = messages.find(({ mark }) => mark === "read");
  return (
    <g>
      <path d={`M${left} ${y}H${right}`} stroke="var(--hair)" />
      <LaneName plot={plot} top={top} name={words.drill.lane.messages} note={words.drill.lane.messagesNote} />
      {sent !== undefined && read !== undefined && (
        <path d={`M${sent.x} ${y}H${read.x}`} stroke="var(--signal)" strokeWidth="1.5" strokeDasharray="2 3" />
      )}
      {messages.map(({ mark, x }) => (
        <MessageMark key={x} mark={mark} x={x} y={y} />
      ))}
      {!narrow &&
        placeLabels(messages, plot, y).map((label) => (
          <Note key={`${label.x} ${label.y}`} x={label.x} y={label.y}>
            {label.text}
          </Note>
        ))}
    </g>
  );
}

interface Message {
  readonly mark: Mark;
  readonly text: string;
  readonly x: number;
}

function placeMarks(events: readonly DrillEvent[], { x, fromMin, endMin }: Plot): readonly Message[] {
  let free = Number.NEGATIVE_INFINITY;
  return events
    .filter(
      (event) =>
        (event.kind === "notice" || event.kind === "message") && event.t_min >= fromMin && event.t_min <= endMin,
    )
    .map((event) => {
      const at = Math.max(x(event.t_min), free);
      free = at + LEAST_GAP;
      return { mark: markOf(event), text: asTold(event.text), x: at };
    });
}

function MessageMark({ mark, x, y }: { readonly mark: Mark; readonly x: number; readonly y: number }) {
  if (mark === "sent") return <path d={`M${x} ${y - 6}V${y + 6}`} stroke="var(--signal)" strokeWidth="2.5" />;
  if (mark === "lost") return <path d={`M${x - 4} ${y - 4}l8 8m0-8l-8 8`} stroke="var(--ink-2)" strokeWidth="1.75" />;
  return <path d={`M${x - 5} ${y}l5-5 5 5-5 5z`} fill="var(--signal)" stroke="var(--signal)" />;
}

/** What became of a message, from the engine's own words for it. */
export function markOf(event: Pick<DrillEvent, "kind" | "text">): Mark {
  if (
    /no answer|not reach|unreach|lost|undeliver|fails|cannot|can't|goes nowhere|is down|is off|asleep|unread|not heard|unheard|no way|does not get/i.test(
      event.text,
    )
  )
    return "lost";
  if (/\bread|\btake|hears|answers|received|gets\b/i.test(event.text)) return "read";
  return event.kind === "notice" || /\bleaves?\b|\bsent\b|\bsends?\b|\bsays\b/i.test(event.text) ? "sent" : "read";
}

interface Label {
  readonly text: string;
  readonly x: number;
  readonly y: number;
}

const IMPORTANCE: readonly Mark[] = ["read", "sent", "lost"];

/** Above the line or below it, the telling ones first; what finds no room is in the list of events all the same. */
function placeLabels(messages: readonly Message[], { right }: Plot, y: number): readonly Label[] {
  const rows = [y - 11, y + 21];
  const labels: Label[] = [];
  for (const mark of IMPORTANCE) {
    for (const message of messages.filter((candidate) => candidate.mark === mark)) {
      const text =
        message.text.length > LONGEST_LABEL ? `${message.text.slice(0, LONGEST_LABEL - 2)}\u2026` : message.text;
      const x = Math.min(message.x - 4, right - textWidth(text));
      const row = rows.find((baseline) =>
        labels.every(
          (other) =>
            other.y !== baseline || x > other.x + textWidth(other.text) + 12 || x + textWidth(text) + 12 < other.x,
        ),
      );
      if (row !== undefined) labels.push({ text, x, y: row });
    }
  }
  return labels;
}
