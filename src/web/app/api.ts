import {
  type DrillReport,
  type PairCellAnswer,
  type PairsAnswer,
  parseDrillReport,
  parsePairCellAnswer,
  parsePairsAnswer,
  parseProblem,
  parseRehearsalAnswer,
  parseSiteAnswer,
  type RehearsalAnswer,
  type RehearsalReport,
  type SiteAnswer,
} from "../../server/contract/index.ts";
import { asSentence } from "../parts/format.ts";

/** The program's answers, typed. Each call rejects with a sentence that can be shown. */
export const api = {
  site: async (): Promise<SiteAnswer> => parseSiteAnswer(await ask("/api/site")),

  rehearsal: async (): Promise<{ readonly report: RehearsalReport | null }> =>
    parseRehearsalAnswer(await ask("/api/rehearsal")),

  start: async (): Promise<void> => void (await ask("/api/rehearsal/start", { method: "POST" })),

  stop: async (): Promise<void> => void (await ask("/api/rehearsal/stop", { method: "POST" })),

  open: async (name: string): Promise<SiteAnswer> =>
    parseSiteAnswer(
      await ask("/api/open", {
        method: "POST",
        headers: { "content-type": "application/json" },
        body: JSON.stringify({ name }),
      }),
    ),

  drill: async (id: string, signal: AbortSignal): Promise<DrillReport> =>
    parseDrillReport(await ask(`/api/drill?id=${encodeURIComponent(id)}`, { signal })),

  pairs: async (): Promise<PairsAnswer> => parsePairsAnswer(await ask("/api/pairs")),

  startPairs: async (): Promise<PairsAnswer> => parsePairsAnswer(await ask("/api/pairs/start", { method: "POST" })),

  stopPairs: async (): Promise<PairsAnswer> => parsePairsAnswer(await ask("/api/pairs/stop", { method: "POST" })),

  pairCell: async (first: string, trigger: string, signal: AbortSignal): Promise<PairCellAnswer> =>
    parsePairCellAnswer(
      await ask(`/api/pairs/cell?first=${encodeURIComponent(first)}&then=${encodeURIComponent(trigger)}`, { signal }),
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

async function ask(address: string, how?: RequestInit): Promise<unknown> {
  const response = await fetch(address, how);
  const body: unknown = await response.json();
  if (response.ok) return body;
  throw new Error(asSentence(parseProblem(body).detail));
}
