import type { DrillResult, RehearsalAnswer, RehearsalReport, RehearsalState, Site } from "./contract/index.ts";
import type { Clock, Engine, RehearsalProgress } from "./engine-port.ts";

/** Runs one rehearsal at a time, keeps the last good report, and tells whoever listens. */
export interface RehearsalDesk {
  /** @param anew also where the result of this very site is known: someone asked for it */
  start(site: Site, anew?: boolean): void;
  stop(): void;
  /** Another site was opened: what was rehearsed says nothing about it. */
  forget(): void;
  /** Something else that the web app shows has changed. */
  touch(): void;
  answer(): RehearsalAnswer;
  /** A stream message for someone who has seen `count` drills of run `run`. */
  message(seen: { readonly run: number; readonly count: number }): {
    readonly run: number;
    readonly count: number;
    readonly body: RehearsalAnswer;
  };
  /** Calls back after each change until the returned function is called. */
  subscribe(listener: () => void): () => void;
  /** Resolves when no rehearsal is at work. */
  idle(): Promise<void>;
}

interface Run {
  readonly number: number;
  readonly abort: AbortController;
  readonly startedAt: number;
  state: RehearsalState;
  done: number;
  total: number;
  drills: DrillResult[];
  finishedAt: string | null;
  problem: string | null;
}

export function openRehearsalDesk({
  engine,
  seed,
  clock,
}: {
  engine: Pick<Engine, "rehearse">;
  seed: number;
  clock: Clock;
}): RehearsalDesk {
  let run: Run | null = null;
  let runs = 0;
  let version = 0;
  let report: RehearsalReport | null = null;
  let work: Promise<void> = Promise.resolve();
  const listeners = new Set<() => void>();

  function changed(): void {
    for (const listener of listeners) listener();
  }

  function begin(site: Site, anew = false): void {
    run?.abort.abort();
    runs += 1;
    version += 1;
    const mine: Run = {
      number: runs,
      abort: new AbortController(),
      startedAt: clock(),
      state: "at work",
      done: 0,
      total: 0,
      drills: [],
      finishedAt: null,
      problem: null,
    };
    run = mine;
    work = carryOut(site, mine, anew);
    changed();
  }

  async function carryOut(site: Site, mine: Run, anew: boolean): Promise<void> {
    const onProgress = (progress: RehearsalProgress): void => {
      if (mine.state !== "at work") return;
      mine.done = progress.done;
      mine.total = progress.total;
      mine.drills.push(...progress.fresh);
      changed();
    };
    try {
      const result = await engine.rehearse(site, { seed, anew, onProgress, signal: mine.abort.signal });
      if (mine.state !== "at work") return;
      if (result.complete && mine === run) report = result;
      else mine.drills = [...result.drills];
      finish(mine, result.complete ? "done" : "stopped", null);
    } catch (error) {
      if (mine.state !== "at work") return;
      if (mine.abort.signal.aborted) finish(mine, "stopped", null);
      else finish(mine, "failed", error instanceof Error ? error.message : String(error));
    }
  }

  function finish(mine: Run, state: RehearsalState, problem: string | null): void {
    mine.state = state;
    mine.problem = problem;
    mine.finishedAt = new Date(clock()).toISOString();
    if (state === "done") mine.drills = [];
    if (mine === run) changed();
  }

  function answerFrom(from: number): RehearsalAnswer {
    if (run === null)
      return {
        state: "none",
        version,
        done: 0,
        total: 0,
        secondsLeft: null,
        finishedAt: null,
        report,
        partial: [],
        from,
        problem: null,
      };
    const { state, done, total, finishedAt, problem } = run;
    return {
      state,
      version,
      done,
      total,
      secondsLeft: secondsLeft(run, clock()),
      finishedAt,
      report,
      partial: run.drills.slice(from),
      from,
      problem,
    };
  }

  return {
    start: begin,
    stop() {
      if (run?.state !== "at work") return;
      run.abort.abort();
      finish(run, "stopped", null);
    },
    forget() {
      run?.abort.abort();
      run = null;
      report = null;
      version += 1;
      changed();
    },
    touch() {
      version += 1;
      changed();
    },
    answer: () => answerFrom(0),
    message(seen) {
      const number = run?.number ?? 0;
      const from = seen.run === number ? Math.min(seen.count, run?.drills.length ?? 0) : 0;
      return { run: number, count: run?.drills.length ?? 0, body: { ...answerFrom(from), report: null } };
    },
    subscribe(listener) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    idle: () => work,
  };
}

/** Seconds that the rest will take at the pace so far; null until the pace is known from a second of work. */
function secondsLeft(run: Run, now: number): number | null {
  const elapsedS = (now - run.startedAt) / 1000;
  if (run.state !== "at work" || run.done === 0 || elapsedS < 1) return null;
  return (elapsedS / run.done) * (run.total - run.done);
}
