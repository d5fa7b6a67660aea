import type { FastifyInstance } from "fastify";
import type { PairsDesk } from "./pairs-desk.ts";
import { sendProblem } from "./problem.ts";
import type { SiteDesk } from "./site-desk.ts";

/** Pairs of faults: asked for by hand, since they take longer than all else. Answers are described in contract/pairs.ts. */
export function addPairsRoutes(
  app: FastifyInstance,
  { site, pairs }: { readonly site: SiteDesk; readonly pairs: PairsDesk },
): void {
  app.get("/api/pairs", async () => pairs.answer());

  app.post("/api/pairs/start", async (_request, reply) => {
    const open = site.site();
    if (open === null)
      return sendProblem(
        reply,
        409,
        "No site to rehearse",
        "The open site file could not be read; GET /api/site says why.",
      );
    pairs.start(open);
    return reply.code(202).send(pairs.answer());
  });

  app.post("/api/pairs/stop", async (_request, reply) => {
    pairs.stop();
    await pairs.idle();
    return reply.code(202).send(pairs.answer());
  });

  app.get<{ Querystring: { first: string; then: string } }>(
    "/api/pairs/cell",
    { schema: { querystring: CELL_QUERY } },
    async (request, reply) => {
      const { first, then } = request.query;
      const answer = pairs.cell(first, then);
      if (answer !== null) return answer;
      return sendProblem(
        reply,
        404,
        "No such pair",
        `No pair of ${first}, then ${then} was tried; GET /api/pairs lists those that were.`,
      );
    },
  );
}

const CELL_QUERY = {
  type: "object",
  required: ["first", "then"],
  properties: {
    first: { type: "string", minLength: 1, maxLength: 120 },
    // biome-ignore lint/suspicious/noThenProperty: a JSON schema, never awaited
    then: { type: "string", minLength: 1, maxLength: 120 },
  },
} as const;
