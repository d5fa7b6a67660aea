import { existsSync } from "node:fs";
import { join } from "node:path";
import fastifyStatic from "@fastify/static";
import type { FastifyInstance, FastifyReply } from "fastify";
import { sendProblem } from "./problem.ts";

const HOW_TO_BUILD = 'There is no index.html where the built app should lie; run "npm start", which builds it.';

/**
 * Serves the built web app. Paths that are no file are views of the app, which has its own router: they get its one page.
 *
 * @param folder Where `index.html` lies. Where it does not, pages say how to build it, and the API works all the same.
 */
export async function addPages(app: FastifyInstance, folder: string): Promise<void> {
  const built = existsSync(join(folder, "index.html"));
  if (built) {
    await app.register(fastifyStatic, { root: folder, cacheControl: false, setHeaders: setAge });
  }
  app.setNotFoundHandler((request, reply) => {
    const path = request.url.split("?")[0];
    if (request.method !== "GET" || path.startsWith("/api/")) {
      return sendProblem(reply, 404, "No such address", `There is no ${request.method} ${path}.`);
    }
    if (!built) return sendProblem(reply, 404, "The web app is not built", HOW_TO_BUILD);
    if (/\.[a-z0-9]+$/i.test(path)) return sendProblem(reply, 404, "No such file", `There is no ${path}.`);
    return reply.sendFile("index.html");
  });
}

/** Files with a hash in their name never change; everything else is asked for again. */
function setAge(reply: FastifyReply, path: string): void {
  const hashed = /-[\w-]{8}\.\w+$/.test(path);
  void reply.header("cache-control", hashed ? "public, max-age=31536000, immutable" : "no-cache");
}
