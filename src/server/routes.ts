import type { FastifyInstance } from "fastify";
import type { DrillShelf } from "./drill-shelf.ts";
import { readDrillId } from "./drill-shelf.ts";
import type { Streams } from "./event-stream.ts";
import { sendNoSite, sendProblem } from "./problem.ts";
import type { RehearsalDesk } from "./rehearsal-desk.ts";
import { addStartRoutes } from "./routes-start.ts";
import type { SiteDesk } from "./site-desk.ts";

export interface Desks {
  readonly site: SiteDesk;
  readonly rehearsal: RehearsalDesk;
  readonly drills: DrillShelf;
  readonly streams: Streams;
}

const STEP_MIN = { least: 0.25, most: 240, usual: 5 };

/** The JSON API. Each answer is described in contract/types.ts. */
export function addRoutes(app: FastifyInstance, { site, rehearsal, drills, streams }: Desks): void {
  addStartRoutes(app, { site, rehearsal });

  app.get("/healthz", async () => ({
    answering: true,
    file: (await site.answer()).file,
    rehearsal: rehearsal.answer().state,
  }));

  app.get("/api/site", async () => site.answer());

  app.get("/api/rehearsal", async () => rehearsal.answer());

  app.get("/api/rehearsal/live", (_request, reply) => streams.follow(rehearsal, reply));

  app.post("/api/rehearsal/start", async (_request, reply) => {
    const open = site.site();
    if (open === null) return sendNoSite(reply, "No site to rehearse");
    rehearsal.start(open, true);
    return reply.code(202).send(rehearsal.answer());
  });

  app.post("/api/rehearsal/stop", async (_request, reply) => {
    rehearsal.stop();
    return reply.code(202).send(rehearsal.answer());
  });

  app.get<{ Querystring: { id: string; step: number } }>(
    "/api/drill",
    { schema: { querystring: DRILL_QUERY } },
    async (request, reply) => {
      const open = site.site();
      if (open === null) return sendNoSite(reply, "No site to drill");
      const id = readDrillId(request.query.id);
      if (id === null) {
        return sendProblem(
          reply,
          400,
          "Not a drill id",
          `Have "${request.query.id}", want part.mode@circumstance or part.mode+part.mode@circumstance.`,
        );
      }
      const known = open.circumstances.map((circumstance) => circumstance.id);
      if (!known.includes(id.circumstance)) {
        return sendProblem(
          reply,
          404,
          "No such circumstance",
          `Have "${id.circumstance}", want one of ${known.join(", ")}.`,
        );
      }
      return drills.take(open, site.edition(), id, request.query.step);
    },
  );

  app.post<{ Body: { name: string } }>("/api/open", { schema: { body: OPEN_BODY } }, async (request, reply) => {
    const { name } = request.body;
    if ((await site.open(name)) === "no such file") {
      return sendProblem(
        reply,
        404,
        "No such site file",
        `Have "${name}", want one of ${(await site.answer()).others.join(", ")}.`,
      );
    }
    rehearsal.forget();
    const opened = site.site();
    if (opened !== null) rehearsal.start(opened);
    return site.answer();
  });
}

const DRILL_QUERY = {
  type: "object",
  required: ["id"],
  properties: {
    id: { type: "string", minLength: 3, maxLength: 300 },
    step: { type: "number", minimum: STEP_MIN.least, maximum: STEP_MIN.most, default: STEP_MIN.usual },
  },
} as const;

const OPEN_BODY = {
  type: "object",
  required: ["name"],
  additionalProperties: false,
  properties: { name: { type: "string", minLength: 1, maxLength: 200 } },
} as const;
