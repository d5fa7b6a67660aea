import type { FastifyInstance } from "fastify";
import type { PairsDesk } from "./pairs-desk.ts";
import { sendNoSite, sendProblem } from "./problem.ts";
import type { SiteDesk } from "./site-desk.ts";

/** Pairs of faults: asked for by hand, since they take longer than all else. Answers are described in contract/pairs.ts. */
export function addPairsRoutes(
  app: FastifyInstance,
  { site, pairs }: { readonly site: SiteDesk; readonly pairs: PairsDesk },
): void {
  app.get("/api/pairs", async () => pairs.answer());

  app.post("/api/pairs/start", async (_request, reply) => {
    const open = site.site();
    if (open === null) return sendNoSite(reply, "No site to rehearse");
    pairs.start(open);
    return reply.code(202).send(pairs.answer());
  });

  app.post("/api/pairs/stop", async (_request, reply) => {
    pairs.stop();
    await pairs.idle();
    return reply.code(202).send(pairs.answer());
  });

  app.get<{ Querystring: { first: string; trigger: string } }>(
    "/api/pairs/cell",
    { schema: { querystring: CELL_QUERY } },
    async (request, reply) => {
      const { first, trigger } = request.query;
      const answer = pairs.cell(first, trigger);
      if (answer !== null) return answer;
      return sendProblem(
        reply,
        404,
        "No such pair",
        `No pair of ${first}, then ${trigger} was tried; GET /api/pairs lists those that were.`,
      );
    },
  );
}

const CELL_QUERY = {
  type: "object",
  required: ["first", "trigger"],
  properties: {
    first: { type: "string", minLength: 1, maxLength: 120 },
    trigger: { type: "string", minLength: 1, maxLength: 120 },
  },
} as const;
