import type { FastifyInstance, FastifyReply } from "fastify";
import { makePapers } from "../planning/index.ts";
import type { Papers, ResultToRecord } from "./contract/index.ts";
import type { Clock } from "./engine-port.ts";
import type { JournalDesk } from "./journal-desk.ts";
import { sendNoSite, sendProblem } from "./problem.ts";
import type { RehearsalDesk } from "./rehearsal-desk.ts";
import type { SiteDesk } from "./site-desk.ts";

/** The papers of the open site, and the journal of what was tried on the real one. */
export function addPapersRoutes(
  app: FastifyInstance,
  {
    site,
    rehearsal,
    journal,
    clock,
    onRecorded,
  }: {
    readonly site: SiteDesk;
    readonly rehearsal: RehearsalDesk;
    readonly journal: JournalDesk;
    readonly clock: Clock;
    /** Called when the ages of the open site may have changed. */
    readonly onRecorded: () => Promise<void>;
  },
): void {
  /** Null where no site could be read. */
  async function papers(): Promise<Papers | null> {
    const open = site.site();
    if (open === null) return null;
    const { lines, unread } = await journal.kept(site.file());
    const { report, finishedAt } = rehearsal.answer();
    return makePapers({
      site: journal.written(site.file()) ?? open,
      defaults: (await site.answer()).defaults,
      journal: lines,
      unread,
      rehearsal: report === null ? null : { report, finishedAt },
      nowMs: clock(),
    });
  }

  async function answer(reply: FastifyReply): Promise<Papers | FastifyReply> {
    return (await papers()) ?? noSite(reply);
  }

  app.get("/api/papers", async (_request, reply) => answer(reply));

  app.post<{ Body: ResultToRecord }>("/api/journal", { schema: { body: RESULT_BODY } }, async (request, reply) => {
    const { trial, on, held, note, by } = request.body;
    const known = await papers();
    if (known === null) return noSite(reply);
    const item = known.proving.items.find(({ id }) => id === trial);
    if (item === undefined)
      return sendProblem(reply, 404, "No such trial", `This site has no trial "${trial}"; GET /api/papers lists them.`);
    const at = momentOf(on, known.zone, clock());
    if (at === null)
      return sendProblem(reply, 422, "Not recorded", `Have "${on}", want a day up to today, like 2026-11-25.`);
    await journal.record(site.file(), { at, trial, part: item.part, held, note: note.trim(), by: by.trim() });
    await onRecorded();
    return answer(reply);
  });

  app.post<{ Body: { id: string } }>(
    "/api/journal/take-back",
    { schema: { body: TAKE_BACK_BODY } },
    async (request, reply) => {
      if (!(await journal.takeBack(site.file(), request.body.id)))
        return sendProblem(reply, 404, "No such result", "It isn't in the journal, or was taken back before.");
      await onRecorded();
      return answer(reply);
    },
  );
}

function noSite(reply: FastifyReply): FastifyReply {
  return sendNoSite(reply, "No site to write papers for");
}

/** A trial of today was a moment ago; one of an earlier day counts from that day's noon. Null for a day that has not come. */
function momentOf(on: string, zone: string, nowMs: number): string | null {
  const noonMs = Date.parse(`${on}T12:00:00.000Z`);
  const today = new Intl.DateTimeFormat("en-CA", { timeZone: zone, dateStyle: "short" }).format(new Date(nowMs));
  if (Number.isNaN(noonMs) || on > today) return null;
  return new Date(on === today ? nowMs : noonMs).toISOString();
}

const RESULT_BODY = {
  type: "object",
  required: ["trial", "on", "held", "note", "by"],
  additionalProperties: false,
  properties: {
    trial: { type: "string", minLength: 3, maxLength: 300 },
    on: { type: "string", pattern: "^\\d{4}-\\d\\d-\\d\\d$" },
    held: { type: "boolean" },
    note: { type: "string", maxLength: 1000 },
    by: { type: "string", maxLength: 100 },
  },
} as const;

const TAKE_BACK_BODY = {
  type: "object",
  required: ["id"],
  additionalProperties: false,
  properties: { id: { type: "string", minLength: 1, maxLength: 100 } },
} as const;
