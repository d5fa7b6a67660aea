import type { FastifyInstance } from "fastify";
import { editSite, FIELD_REFERENCE, LARGEST_FILE_BYTES, loadSite, type SiteEdit, writtenSite } from "../site/index.ts";
import { changedParts } from "./changed-parts.ts";
import type { EditAnswer, KeepConflict } from "./contract/index.ts";
import type { JournalDesk } from "./journal-desk.ts";
import { sendProblem } from "./problem.ts";
import type { SiteDesk } from "./site-desk.ts";
import type { TrialDesk } from "./trial-desk.ts";

/** A text of the largest file that is read, with what JSON adds to it. */
const BODY_LIMIT = 2 * LARGEST_FILE_BYTES;
const MOST_EDITS = 500;

/** Changes to the site: made on a text, tried, and only then kept. */
export function addEditRoutes(
  app: FastifyInstance,
  {
    site,
    trials,
    journal,
    onKept,
  }: {
    readonly site: SiteDesk;
    readonly trials: TrialDesk;
    readonly journal: Pick<JournalDesk, "renew">;
    readonly onKept: () => void;
  },
): void {
  app.get("/api/fields", async () => FIELD_REFERENCE);

  app.post<{ Body: { text: string; edits: SiteEdit[] } }>(
    "/api/site/edit",
    { bodyLimit: BODY_LIMIT, schema: { body: EDIT_BODY } },
    async (request): Promise<EditAnswer> => {
      const { text, edits } = request.body;
      const file = (await site.answer()).file;
      const edited = editSite(text, edits);
      const now = edited.text ?? text;
      const { site: described, errors, defaults } = await journal.renew(loadSite(now, file), site.file());
      return { text: now, site: described, errors, defaults, written: writtenSite(now), problem: edited.problem };
    },
  );

  app.put<{ Body: { text: string } }>(
    "/api/site",
    { bodyLimit: BODY_LIMIT, schema: { body: KEEP_BODY } },
    async (request, reply) => {
      const etag = request.headers["if-match"];
      if (etag === undefined)
        return sendProblem(reply, 428, "Say which version you changed", "Send the etag of GET /api/site as If-Match.");
      const { text } = request.body;
      const [error] = loadSite(text, (await site.answer()).file).errors;
      if (error !== undefined)
        return sendProblem(
          reply,
          422,
          "Not kept",
          `Line ${error.line}: ${error.where} ${error.message}; ${error.hint}`,
        );
      if ((await site.keep(text, etag)) === "kept") {
        onKept();
        return site.answer();
      }
      const conflict: KeepConflict = {
        type: "about:blank",
        title: "The file has changed meanwhile",
        status: 412,
        detail: "The file is not the one that you changed. Nothing was written.",
        current: await site.answer(),
      };
      return reply.code(412).type("application/problem+json; charset=utf-8").send(JSON.stringify(conflict));
    },
  );

  app.post<{ Body: { text?: string; file?: string } }>(
    "/api/trials",
    { bodyLimit: BODY_LIMIT, schema: { body: TRIAL_BODY } },
    async (request, reply) => {
      const { text, file } = request.body;
      if (text !== undefined) {
        const loaded = loadSite(text, (await site.answer()).file);
        const reading = await journal.renew({ ...loaded, text }, site.file());
        return reply.code(202).send(trials.begin(reading, null, changedParts(site.site(), reading.site)));
      }
      const reading = await site.look(file ?? "");
      if (reading === null)
        return sendProblem(
          reply,
          404,
          "No such site file",
          `Have "${file}", want one of ${(await site.answer()).others.join(", ")}.`,
        );
      return reply.code(202).send(trials.begin(reading, file ?? null, []));
    },
  );

  app.get<{ Params: { id: string }; Querystring: { from: number } }>(
    "/api/trials/:id",
    { schema: { querystring: FROM_QUERY } },
    async (request, reply) => {
      const answer = trials.answer(request.params.id, request.query.from);
      return answer ?? sendProblem(reply, 404, "No such trial", "It is forgotten: try the change again.");
    },
  );

  app.post<{ Params: { id: string } }>("/api/trials/:id/stop", async (request, reply) => {
    trials.stop(request.params.id);
    return reply.code(204).send();
  });
}

const PATH = {
  type: "array",
  minItems: 1,
  maxItems: 12,
  items: {
    anyOf: [
      { type: "string", maxLength: 200 },
      { type: "integer", minimum: 0 },
    ],
  },
} as const;
const NAME = { type: "string", minLength: 1, maxLength: 200 } as const;

/** `value` is any value that can be written: a text, a list or a set of them. What is deeper than a site file goes is refused by the loader. */
const EDIT = {
  type: "object",
  required: ["op"],
  oneOf: [
    { properties: { op: { const: "set" }, path: PATH, value: {} }, required: ["path", "value"] },
    { properties: { op: { const: "remove" }, path: PATH }, required: ["path"] },
    { properties: { op: { const: "rename" }, from: NAME, to: NAME }, required: ["from", "to"] },
    { properties: { op: { const: "take-out" }, part: NAME }, required: ["part"] },
  ],
} as const;

const EDIT_BODY = {
  type: "object",
  required: ["text", "edits"],
  additionalProperties: false,
  properties: {
    text: { type: "string", maxLength: LARGEST_FILE_BYTES },
    edits: { type: "array", maxItems: MOST_EDITS, items: EDIT },
  },
} as const;

const KEEP_BODY = {
  type: "object",
  required: ["text"],
  additionalProperties: false,
  properties: { text: { type: "string", minLength: 1, maxLength: LARGEST_FILE_BYTES } },
} as const;

const TRIAL_BODY = {
  type: "object",
  additionalProperties: false,
  minProperties: 1,
  maxProperties: 1,
  properties: { text: { type: "string", minLength: 1, maxLength: LARGEST_FILE_BYTES }, file: NAME },
} as const;

const FROM_QUERY = {
  type: "object",
  properties: { from: { type: "integer", minimum: 0, default: 0 } },
} as const;
