import {
  type DrillReport,
  type EditAnswer,
  type FieldsAnswer,
  type KeepConflict,
  type PairCellAnswer,
  type PairsAnswer,
  parseDrillReport,
  parseEditAnswer,
  parseFieldsAnswer,
  parseKeepConflict,
  parsePairCellAnswer,
  parsePairsAnswer,
  parseProblem,
  parseRehearsalAnswer,
  parseRemediesAnswer,
  parseSiteAnswer,
  parseTrialAnswer,
  type RehearsalAnswer,
  type RemediesAnswer,
  type SiteAnswer,
  type SiteEdit,
  type TrialAnswer,
} from "../../server/contract/index.ts";
import { asSentence } from "../parts/format.ts";
import { words } from "../words.ts";

/** The program's answers, typed. Each call rejects with a sentence that can be shown. */
export const api = {
  site: async (): Promise<SiteAnswer> => parseSiteAnswer(await ask("/api/site")),

  rehearsal: async (): Promise<RehearsalAnswer> => parseRehearsalAnswer(await ask("/api/rehearsal")),

  start: async (): Promise<void> => void (await ask("/api/rehearsal/start", { method: "POST" })),

  stop: async (): Promise<void> => void (await ask("/api/rehearsal/stop", { method: "POST" })),

  open: async (name: string): Promise<SiteAnswer> => parseSiteAnswer(await ask("/api/open", sending("POST", { name }))),

  drill: async (id: string, signal: AbortSignal): Promise<DrillReport> =>
    parseDrillReport(await ask(`/api/drill?id=${encodeURIComponent(id)}`, { signal })),

  fields: async (): Promise<FieldsAnswer> => parseFieldsAnswer(await ask("/api/fields")),

  remedies: async (): Promise<RemediesAnswer> => parseRemediesAnswer(await ask("/api/remedies")),

  /** Makes changes on a text; nothing is written to the file. */
  edit: async (text: string, edits: readonly SiteEdit[]): Promise<EditAnswer> =>
    parseEditAnswer(await ask("/api/site/edit", sending("POST", { text, edits }))),

  /** Writes a text over the file where that still is the one of `etag`; else says what stands there now. */
  async keep(text: string, etag: string): Promise<SiteAnswer | KeepConflict> {
    const how = sending("PUT", { text });
    const response = await fetch("/api/site", { ...how, headers: { ...how.headers, "if-match": etag } });
    const body: unknown = await response.json();
    if (response.ok) return parseSiteAnswer(body);
    if (response.status === 412) return parseKeepConflict(body);
    throw new Error(asSentence(parseProblem(body).detail));
  },

  tryText: async (text: string): Promise<TrialAnswer> =>
    parseTrialAnswer(await ask("/api/trials", sending("POST", { text }))),

  tryFile: async (file: string): Promise<TrialAnswer> =>
    parseTrialAnswer(await ask("/api/trials", sending("POST", { file }))),

  trial: async (id: string, from: number): Promise<TrialAnswer> =>
    parseTrialAnswer(await ask(`/api/trials/${encodeURIComponent(id)}?from=${from}`)),

  async stopTrial(id: string): Promise<void> {
    await fetch(`/api/trials/${encodeURIComponent(id)}/stop`, { method: "POST" });
  },
  pairs: async (): Promise<PairsAnswer> => parsePairsAnswer(await ask("/api/pairs")),

  startPairs: async (): Promise<PairsAnswer> => parsePairsAnswer(await ask("/api/pairs/start", { method: "POST" })),

  stopPairs: async (): Promise<PairsAnswer> => parsePairsAnswer(await ask("/api/pairs/stop", { method: "POST" })),

  pairCell: async (first: string, trigger: string, signal: AbortSignal): Promise<PairCellAnswer> =>
    parsePairCellAnswer(
      await ask(`/api/pairs/cell?first=${encodeURIComponent(first)}&trigger=${encodeURIComponent(trigger)}`, {
        signal,
      }),
    ),

  /** Follows the rehearsal. The browser opens the stream again by itself after each loss. */
  live(listener: { onMessage(message: RehearsalAnswer): void; onWord(): void; onSilence(): void }): { close(): void } {
    const source = new EventSource("/api/rehearsal/live");
    source.onopen = listener.onWord;
    source.onerror = listener.onSilence;
    source.onmessage = (event: MessageEvent<string>) =>
      listener.onMessage(parseRehearsalAnswer(JSON.parse(event.data)));
    return source;
  },
};

export function sending(
  method: "POST" | "PUT",
  body: object,
): RequestInit & { readonly headers: Record<string, string> } {
  return { method, headers: { "content-type": "application/json" }, body: JSON.stringify(body) };
}

/** One question to the program; rejects with a sentence that can be shown. */
export async function ask(address: string, how?: RequestInit): Promise<unknown> {
  const response = await fetch(address, how).catch((error: unknown) => {
    // A call that the page gave up itself is no silence of the program.
    throw how?.signal?.aborted === true ? error : new Error(words.trouble.noAnswer);
  });
  const body: unknown = await response.json();
  if (response.ok) return body;
  throw new Error(asSentence(parseProblem(body).detail));
}
