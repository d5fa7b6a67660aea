import { access, readdir, readFile } from "node:fs/promises";
import { basename, dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import type { FastifyInstance, FastifyReply } from "fastify";
import { ANOTHER_PERSON, firstSite, slug, USUAL_ANSWERS, USUAL_TANK } from "../planning/index.ts";
import { loadSite } from "../site/index.ts";
import {
  ContractError,
  type FirstSite,
  type FirstSiteAnswers,
  type FirstSiteStart,
  LIMITS,
  parseFirstSiteAnswers,
  type SiteAnswer,
  type TakenIn,
} from "./contract/index.ts";
import { freeName, isSiteFileName, writeNewFile, writeUnderFreeName } from "./new-file.ts";
import { sendProblem } from "./problem.ts";
import type { RehearsalDesk } from "./rehearsal-desk.ts";
import type { SiteDesk } from "./site-desk.ts";

const EXAMPLES = fileURLToPath(new URL("../../examples", import.meta.url));
/** Twelve tanks and eight people with every answer as long as it may be. */
const ANSWERS_BYTES = 131_072;

interface StartDesks {
  readonly site: SiteDesk;
  readonly rehearsal: RehearsalDesk;
}

/** The ways to a first rehearsal: a conversation, an example, a file from elsewhere. All of them write only new files. */
export function addStartRoutes(app: FastifyInstance, desks: StartDesks): void {
  const folder = (): string => dirname(desks.site.file());

  app.get(
    "/api/first-site",
    async (): Promise<FirstSiteStart> => ({
      answers: USUAL_ANSWERS,
      anotherTank: USUAL_TANK,
      anotherPerson: ANOTHER_PERSON,
      examples: await examples(),
    }),
  );

  app.post<{ Body: unknown }>("/api/first-site", { bodyLimit: ANSWERS_BYTES }, async (request, reply) => {
    const answers = answersOf(request.body, reply);
    if (answers === null) return reply;
    return tell(answers, await nameFor(desks.site, answers));
  });

  app.post<{ Body: { answers: unknown; file?: string } }>(
    "/api/first-site/keep",
    { bodyLimit: ANSWERS_BYTES, schema: { body: KEEP_BODY } },
    async (request, reply) => {
      const answers = answersOf(request.body.answers, reply);
      if (answers === null) return reply;
      const { file } = request.body;
      if (file !== undefined && !isSiteFileName(file)) return refuseName(reply, file);
      const name = file ?? (await nameFor(desks.site, answers));
      const made = firstSite(answers, name);
      if (made.site === null) {
        const [first] = made.errors;
        return sendProblem(
          reply,
          422,
          "The answers make no site yet",
          `${first.where}: ${first.message}; ${first.hint}.`,
        );
      }
      if (file === undefined) return openNew(desks, await writeUnderFreeName(folder(), name, made.text));
      if (!(await writeNewFile(folder(), file, made.text))) {
        const free = await freeName(folder(), file);
        return sendProblem(reply, 409, "The name is taken", `There is a ${file} already; ${free} is free.`);
      }
      return openNew(desks, file);
    },
  );

  app.post<{ Body: { file: string } }>(
    "/api/examples/open",
    { schema: { body: FILE_BODY } },
    async (request, reply) => {
      const { file } = request.body;
      const known = await exampleFiles();
      if (!known.includes(file))
        return sendProblem(reply, 404, "No such example", `Have "${file}", want one of ${known.join(", ")}.`);
      const text = await readFile(join(EXAMPLES, file), "utf8");
      const beside = await readFile(join(folder(), file), "utf8").catch(() => null);
      // A copy, so that it can be changed; one that is there unchanged serves again.
      const name = beside === text ? file : await writeUnderFreeName(folder(), file, text);
      return { errors: [], opened: await openNew(desks, name) } satisfies TakenIn;
    },
  );

  app.post<{ Querystring: { name: string }; Body: string }>(
    "/api/take-in",
    {
      bodyLimit: LIMITS.fileBytes,
      schema: { querystring: NAME_QUERY },
      errorHandler: (error, _request, reply) => {
        if (error.code !== "FST_ERR_CTP_BODY_TOO_LARGE") throw error;
        void sendProblem(
          reply,
          413,
          "The file is too large",
          `More than ${LIMITS.fileBytes / 1_000_000} MB are not read; a site file has some kilobytes.`,
        );
      },
    },
    async (request, reply) => {
      const { name } = request.query;
      if (typeof request.body !== "string")
        return sendProblem(reply, 415, "Not a text", "Want the file's text, sent as text/plain.");
      const kept = fileNameFrom(name);
      const { site, errors } = loadSite(request.body, name);
      if (site === null) return { errors, opened: null } satisfies TakenIn;
      const written = await writeUnderFreeName(folder(), kept, request.body);
      return { errors: [], opened: await openNew(desks, written) } satisfies TakenIn;
    },
  );
}

/** Opens a file of the folder and rehearses it, like any other that is opened. */
async function openNew({ site, rehearsal }: StartDesks, name: string): Promise<SiteAnswer> {
  await site.open(name);
  rehearsal.forget();
  const opened = site.site();
  if (opened !== null) rehearsal.start(opened);
  return site.answer();
}

/** What the answers make; null after they were refused. */
function answersOf(body: unknown, reply: FastifyReply): FirstSiteAnswers | null {
  try {
    return parseFirstSiteAnswers(body);
  } catch (error) {
    if (!(error instanceof ContractError)) throw error;
    sendProblem(reply, 400, "Not the answers of a conversation", `${error.message}.`);
    return null;
  }
}

function tell(answers: FirstSiteAnswers, file: string): FirstSite {
  return { ...firstSite(answers, file), file };
}

/** The file that was named when the program began and is still to be written; else one that is called like the place. */
async function nameFor(site: SiteDesk, answers: FirstSiteAnswers): Promise<string> {
  const named = site.file();
  const isThere = await access(named).then(
    () => true,
    () => false,
  );
  if (!isThere && isSiteFileName(basename(named))) return basename(named);
  return freeName(dirname(named), fileNameFrom(answers.place ?? ""));
}

/** "My reef.YAML" -> "my-reef.yaml"; whatever can't be a name becomes "my-place.yaml". */
function fileNameFrom(text: string): string {
  return `${slug(text.replace(/\.ya?ml$/i, "")) || "my-place"}.yaml`;
}

function refuseName(reply: FastifyReply, name: string): FastifyReply {
  return sendProblem(
    reply,
    422,
    "Not a name for a site file",
    `Have "${name}", want letters, digits, spaces, '-' and '_' with .yaml at the end, and no folder.`,
  );
}

async function exampleFiles(): Promise<readonly string[]> {
  const names = await readdir(EXAMPLES).catch(() => []);
  return names.filter((name) => name.endsWith(".yaml")).sort();
}

async function examples(): Promise<FirstSiteStart["examples"]> {
  const files = await exampleFiles();
  const read = files.map(async (file) => {
    const { site } = loadSite(await readFile(join(EXAMPLES, file), "utf8"), file);
    return site === null ? [] : [{ file, name: site.name, systems: site.systems.length, devices: site.devices.length }];
  });
  return (await Promise.all(read)).flat();
}

const TEXT = { type: "string", minLength: 1, maxLength: 200 } as const;
const KEEP_BODY = {
  type: "object",
  required: ["answers"],
  additionalProperties: false,
  properties: { answers: { type: "object" }, file: TEXT },
} as const;
const FILE_BODY = {
  type: "object",
  required: ["file"],
  additionalProperties: false,
  properties: { file: TEXT },
} as const;
const NAME_QUERY = { type: "object", required: ["name"], properties: { name: TEXT } } as const;
