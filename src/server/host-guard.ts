import type { FastifyInstance, FastifyRequest } from "fastify";
import { sendProblem } from "./problem.ts";

const LOCAL_NAMES = new Set(["localhost", "127.0.0.1", "[::1]"]);

/**
 * Refuses whoever reaches this loopback server under a foreign name or from a foreign page.
 *
 * The server trusts everyone who can reach it, which is everyone on this machine. A web page elsewhere could make the
 * browser reach it too: by pointing its own name at 127.0.0.1 (caught by the Host header), or by sending a form here
 * (caught by Origin and Sec-Fetch-Site).
 */
export function refuseForeignCallers(app: FastifyInstance): void {
  app.addHook("onRequest", async (request, reply) => {
    const host = request.headers.host ?? "";
    if (!LOCAL_NAMES.has(hostName(host))) {
      return sendProblem(
        reply,
        403,
        "Foreign host name",
        `This server answers to localhost, 127.0.0.1 and [::1] only; the request asked for "${host}".`,
      );
    }
    if (request.method !== "GET" && request.method !== "HEAD" && comesFromElsewhere(request)) {
      return sendProblem(
        reply,
        403,
        "Foreign page",
        "Changes are taken from this server's own pages only; open the app at the address that `serve` printed.",
      );
    }
  });
}

function comesFromElsewhere(request: FastifyRequest): boolean {
  const { origin, host } = request.headers;
  if (origin !== undefined) return origin !== `http://${host}`;
  const site = request.headers["sec-fetch-site"];
  return site !== undefined && site !== "same-origin" && site !== "none";
}

/** "[::1]:4090" -> "[::1]"; "localhost:4090" -> "localhost". */
function hostName(host: string): string {
  return host.toLowerCase().replace(/:\d+$/, "");
}
