import type { PairCell, PairCellAnswer, PairDrill, PairsAnswer, RehearsalState, Site } from "./contract/index.ts";
import type { Clock, Engine } from "./engine-port.ts";
import { byHarm, cellsOf, pairsOf, pairsSummary } from "./pair-cells.ts";

/** Rehearses all pairs of the open site when someone asks for it, and keeps what came of it until the site changes. */
export interface PairsDesk {
  start(site: Site): void;
  stop(): void;
  /** Forgets what was rehearsed of another edition of the site. */
  follow(): void;
  answer(): PairsAnswer;
  /** Null where no pair of these two parts was tried. */
  cell(first: string, trigger: string): PairCellAnswer | null;
  /** Resolves when no rehearsal is at work. */
  idle(): Promise<void>;
}

interface Run {
  readonly edition: number;
  readonly abort: AbortController;
  readonly startedAt: number;
  state: RehearsalState;
  done: number;
  total: number;
  problem: string | null;
  pairs: readonly PairDrill[];
  cells: readonly PairCell[];
  summary: PairsAnswer["pairs"];
}

export function openPairsDesk({
  engine,
  seed,
  clock,
  edition,
}: {
  engine: Pick<Engine, "rehearsePairs">;
  seed: number;
  clock: Clock;
  /** Of the open site: what belongs to another one is of no use any more. */
  edition: () => number;
}): PairsDesk {
  let run: Run | null = null;
  let work: Promise<void> = Promise.resolve();

  async function carryOut(site: Site, mine: Run): Promise<void> {
    try {
      const { census, report } = await engine.rehearsePairs(site, {
        seed,
        signal: mine.abort.signal,
        onProgress: ({ done, total }) => {
          mine.done = done;
          mine.total = total;
        },
      });
      mine.pairs = pairsOf(report.drills);
      mine.cells = cellsOf(mine.pairs, census);
      mine.summary = pairsSummary(mine.pairs, census, mine.cells, report.elapsed_s);
      mine.state = report.complete ? "done" : "stopped";
    } catch (error) {
      mine.state = mine.abort.signal.aborted ? "stopped" : "failed";
      mine.problem = mine.abort.signal.aborted ? null : error instanceof Error ? error.message : String(error);
    }
  }

  function follow(): void {
    if (run === null || run.edition === edition()) return;
    run.abort.abort();
    run = null;
  }

  return {
    start(site) {
      run?.abort.abort();
      const mine: Run = {
        edition: edition(),
        abort: new AbortController(),
        startedAt: clock(),
        state: "at work",
        done: 0,
        total: 0,
        problem: null,
        pairs: [],
        cells: [],
        summary: null,
      };
      run = mine;
      work = carryOut(site, mine);
    },
    stop() {
      if (run?.state === "at work") run.abort.abort();
    },
    follow,
    answer() {
      follow();
      if (run === null) return { state: "none", done: 0, total: 0, secondsLeft: null, problem: null, pairs: null };
      const { state, done, total, problem, summary } = run;
      return { state, done, total, secondsLeft: secondsLeft(run, clock()), problem, pairs: summary };
    },
    cell(first, trigger) {
      follow();
      const drills = (run?.pairs ?? []).filter((pair) => pair.first === first && pair.trigger === trigger);
      return drills.length === 0 ? null : { first, trigger, drills: [...drills].sort(byHarm) };
    },
    idle: () => work,
  };
}

/** Seconds that the rest will take at the pace so far; null until the pace is known from a second of work. */
function secondsLeft({ state, done, total, startedAt }: Run, now: number): number | null {
  const elapsedS = (now - startedAt) / 1000;
  if (state !== "at work" || done === 0 || elapsedS < 1) return null;
  return (elapsedS / done) * (total - done);
}
