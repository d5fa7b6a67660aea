import {
  type FirstSite,
  type FirstSiteAnswers,
  type FirstSiteStart,
  parseFirstSite,
  parseFirstSiteStart,
  parseSiteAnswer,
  parseTakenIn,
  type SiteAnswer,
  type TakenIn,
} from "../../server/contract/index.ts";
import { ask } from "../app/api.ts";

const json = (body: unknown, signal?: AbortSignal): RequestInit => ({
  method: "POST",
  headers: { "content-type": "application/json" },
  body: JSON.stringify(body),
  ...(signal === undefined ? {} : { signal }),
});

export const startApi = {
  begin: async (): Promise<FirstSiteStart> => parseFirstSiteStart(await ask("/api/first-site")),

  make: async (answers: FirstSiteAnswers, signal?: AbortSignal): Promise<FirstSite> =>
    parseFirstSite(await ask("/api/first-site", json(answers, signal))),

  keep: async (answers: FirstSiteAnswers): Promise<SiteAnswer> =>
    parseSiteAnswer(await ask("/api/first-site/keep", json({ answers }))),

  openExample: async (file: string): Promise<TakenIn> => parseTakenIn(await ask("/api/examples/open", json({ file }))),

  takeIn: async (file: File): Promise<TakenIn> =>
    parseTakenIn(
      await ask(`/api/take-in?name=${encodeURIComponent(file.name.slice(-100))}`, {
        method: "POST",
        headers: { "content-type": "text/plain; charset=utf-8" },
        body: await file.text(),
      }),
    ),
};
