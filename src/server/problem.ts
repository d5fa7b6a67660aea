import { STATUS_CODES } from "node:http";
import type { FastifyInstance, FastifyReply } from "fastify";
import { InputError, NotFoundError, SlackwaterError } from "../foundation/index.ts";
import type { Problem } from "./contract/index.ts";

/** Answers with application/problem+json (RFC 9457): what is wrong, and what would be right. */
export function sendProblem(reply: FastifyReply, status: number, title: string, detail: string): FastifyReply {
  const problem: Problem = { type: "about:blank", title, status, detail };
  return reply.code(status).type("application/problem+json; charset=utf-8").send(JSON.stringify(problem));
}

/** Answers that there is no site to do this with, and where to read why. */
export function sendNoSite(reply: FastifyReply, title: string): FastifyReply {
  return sendProblem(reply, 409, title, "The open site file could not be read; GET /api/site says why.");
}

/** Every error that leaves the server leaves as a problem; of our own faults only the message, never the stack. */
export function answerErrorsAsProblems(app: FastifyInstance): void {
  app.setErrorHandler((error: Error, request, reply) => {
    const status = statusOf(error);
    if (status >= 500) request.log.error(error);
    const hint = error instanceof SlackwaterError && error.hint !== "" ? `; ${error.hint}` : "";
    return sendProblem(reply, status, STATUS_CODES[status] ?? "Error", error.message + hint);
  });
}

function statusOf(error: Error & { statusCode?: number }): number {
  if (error instanceof NotFoundError) return 404;
  if (error instanceof InputError) return 422;
  return error.statusCode !== undefined && error.statusCode >= 400 ? error.statusCode : 500;
}
