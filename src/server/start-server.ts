import { fileURLToPath } from "node:url";
import compress from "@fastify/compress";
import helmet from "@fastify/helmet";
import type { FastifyInstance } from "fastify";
import fastify from "fastify";
import { readSiteFile } from "../site/index.ts";
import { openDrillShelf } from "./drill-shelf.ts";
import type { Clock, Engine, ReadSite } from "./engine-port.ts";
import { openStreams } from "./event-stream.ts";
import { watchFile } from "./file-watch.ts";
import { refuseForeignCallers } from "./host-guard.ts";
import { openJournalDesk } from "./journal-desk.ts";
import { keepingReports } from "./kept-reports.ts";
import { addPages } from "./pages.ts";
import { openPairsDesk } from "./pairs-desk.ts";
import { answerErrorsAsProblems } from "./problem.ts";
import { openRehearsalDesk } from "./rehearsal-desk.ts";
import { addRoutes } from "./routes.ts";
import { addEditRoutes } from "./routes-edit.ts";
import { addPairsRoutes } from "./routes-pairs.ts";
import { addPapersRoutes } from "./routes-papers.ts";
import { addRemedyRoutes } from "./routes-remedies.ts";
import { openSiteDesk } from "./site-desk.ts";
import { openTrialDesk } from "./trial-desk.ts";

export interface ServerParts {
  /** The site file to open. */
  readonly file: string;
  readonly engine: Engine;
  /** How a site file is read; by itself, as the site room does it. */
  readonly readSite?: ReadSite;
  readonly seed?: number;
  /** Folder of the built web app. */
  readonly pages?: string;
  /** Rehearse as soon as the site is read, and again when it changes. Otherwise someone must ask for it. */
  readonly rehearsesByItself?: boolean;
  readonly clock?: Clock;
}

export interface RunningServer {
  /** Where to point the browser, e.g. "http://127.0.0.1:4180". */
  readonly address: string;
  close(): Promise<void>;
}

/** How many opened drills are kept with their traces: a few megabytes each. */
const DRILLS_KEPT = 24;
/** How many rehearsals are remembered: about a megabyte each. */
const REPORTS_KEPT = 6;
const DAY_MS = 86_400_000;
const BUILT_PAGES = fileURLToPath(new URL("../../dist/web", import.meta.url));

/**
 * Opens a site file and serves the app for it.
 *
 * Bound to the loopback address, and to nothing else: there is no sign-in, so nobody but this machine may reach it.
 *
 * @param port 0 takes any free one.
 * @throws     Where the port is taken.
 */
export async function startServer(
  parts: ServerParts & { readonly port: number; readonly host?: "127.0.0.1" },
): Promise<RunningServer> {
  const app = await buildServer(parts);
  try {
    const address = await app.listen({ port: parts.port, host: parts.host ?? "127.0.0.1" });
    return { address, close: () => app.close() };
  } catch (error) {
    await app.close();
    if ((error as NodeJS.ErrnoException).code !== "EADDRINUSE") throw error;
    throw new Error(
      `Cannot listen on port ${parts.port}: another program has it; choose another port, or 0 for any free one`,
    );
  }
}

/** The server without its port, for tests. Reads the site file before it resolves. */
export async function buildServer(parts: ServerParts): Promise<FastifyInstance> {
  const {
    file,
    readSite = readSiteFile,
    seed = 1,
    pages = BUILT_PAGES,
    rehearsesByItself = true,
    clock = Date.now,
  } = parts;
  const app = fastify({ forceCloseConnections: true, logger: false, bodyLimit: 16_384 });
  refuseForeignCallers(app);
  answerErrorsAsProblems(app);
  await app.register(helmet, {
    strictTransportSecurity: false,
    contentSecurityPolicy: { useDefaults: false, directives: CONTENT_POLICY },
  });
  await app.register(compress);

  const engine = keepingReports(parts.engine, REPORTS_KEPT);
  const rehearsal = openRehearsalDesk({ engine, seed, clock });
  const journal = openJournalDesk({ readSite, clock });
  const onChange = (): void => {
    rehearsal.touch();
    pairs.follow();
  };
  const site = openSiteDesk({ file, readSite: journal.readSite, engine, clock, onChange });
  const pairs = openPairsDesk({ engine, seed, clock, edition: () => site.edition() });
  const trials = openTrialDesk({ engine, seed, clock });
  const streams = openStreams();
  addRoutes(app, { site, rehearsal, drills: openDrillShelf({ engine, seed, keeps: DRILLS_KEPT }), streams });
  addPairsRoutes(app, { site, pairs });
  // What was rehearsed is known by its edition, so that a version is begun once, whoever notices it first.
  let rehearsed = 0;
  const rehearseNew = (): void => {
    const open = site.site();
    if (open === null || site.edition() === rehearsed || !rehearsesByItself) return;
    rehearsed = site.edition();
    rehearsal.start(open);
  };
  addEditRoutes(app, { site, trials, journal, onKept: rehearseNew });
  addRemedyRoutes(app, { site, rehearsal });
  const readAndRehearse = async (): Promise<void> => {
    await site.read();
    rehearseNew();
  };
  addPapersRoutes(app, { site, rehearsal, journal, clock, onRecorded: readAndRehearse });
  await addPages(app, pages);

  await readAndRehearse();
  // What was recorded grows older by itself, also where nobody touches a file.
  const growingOlder = setInterval(() => void readAndRehearse(), DAY_MS).unref();
  const stopWatching = watchFile(site.file, () => void readAndRehearse());
  app.addHook("preClose", async () => {
    clearInterval(growingOlder);
    stopWatching();
    streams.closeAll();
    rehearsal.stop();
    trials.stopAll();
    pairs.stop();
  });
  return app;
}

/** Everything from this server, nothing inline: a text from a site file can never become a script. */
const CONTENT_POLICY = {
  defaultSrc: ["'none'"],
  scriptSrc: ["'self'"],
  styleSrc: ["'self'"],
  fontSrc: ["'self'"],
  imgSrc: ["'self'", "data:"],
  connectSrc: ["'self'"],
  manifestSrc: ["'self'"],
  workerSrc: ["'self'"],
  baseUri: ["'none'"],
  formAction: ["'self'"],
  frameAncestors: ["'none'"],
};
