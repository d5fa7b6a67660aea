import type { DrillResult, RehearsalReport, SettledLife, Site, TrialAnswer } from "./contract/index.ts";
import type { Clock, Engine, SiteReading } from "./engine-port.ts";

/**
 * Rehearses other versions of the site beside the open one: a change before it is kept, another file to compare with.
 *
 * One is at work at a time: whoever tries the next change has lost interest in the last. The last few stay to be looked at.
 */
export interface TrialDesk {
  /** @param first parts whose drills are tried before all others: those that were changed */
  begin(reading: SiteReading, file: string | null, first: readonly string[]): TrialAnswer;
  answer(id: string, from: number): TrialAnswer | null;
  stop(id: string): void;
  stopAll(): void;
}

interface Trial {
  readonly id: string;
  readonly file: string | null;
  readonly reading: SiteReading;
  readonly abort: AbortController;
  readonly startedAt: number;
  state: TrialAnswer["state"];
  done: number;
  total: number;
  drills: DrillResult[];
  report: RehearsalReport | null;
  settled: SettledLife | null;
  problem: string | null;
}

const TRIALS_KEPT = 6;

export function openTrialDesk({
  engine,
  seed,
  clock,
}: {
  readonly engine: Pick<Engine, "rehearse" | "settled">;
  readonly seed: number;
  readonly clock: Clock;
}): TrialDesk {
  const trials = new Map<string, Trial>();
  let count = 0;

  async function carryOut(trial: Trial, site: Site, first: readonly string[]): Promise<void> {
    // Whoever is told that a trial is done need not ask for its levels any more.
    const settling = engine
      .settled(site)
      .catch(() => null)
      .then((life) => {
        trial.settled = life;
      });
    try {
      trial.report = await engine.rehearse(site, {
        seed,
        first,
        signal: trial.abort.signal,
        onProgress({ done, total, fresh }) {
          trial.done = done;
          trial.total = total;
          trial.drills.push(...fresh);
        },
      });
      await settling;
      if (trial.state === "at work") trial.state = trial.report.complete ? "done" : "stopped";
    } catch (error) {
      trial.state = trial.abort.signal.aborted ? "stopped" : "failed";
      if (trial.state === "failed") trial.problem = error instanceof Error ? error.message : String(error);
    }
  }

  function stop(trial: Trial): void {
    if (trial.state !== "at work") return;
    trial.abort.abort();
    trial.state = "stopped";
  }

  function told(trial: Trial, from: number): TrialAnswer {
    const { id, file, reading, state, done, total, report, settled, problem } = trial;
    const elapsedS = (clock() - trial.startedAt) / 1000;
    const known = state === "at work" && done > 0 && elapsedS >= 1;
    return {
      id,
      file,
      state,
      done,
      total,
      secondsLeft: known ? (elapsedS / done) * (total - done) : null,
      problem,
      site: reading.site,
      settled,
      errors: reading.errors,
      report: state === "done" ? report : null,
      drills: state === "done" ? [] : trial.drills.slice(from),
      from,
    };
  }

  return {
    begin(reading, file, first) {
      // A page that was left and opened again asks for the file that is at work already: that goes on.
      const same = [...trials.values()].find(
        (other) =>
          other.state === "at work" && file !== null && other.file === file && other.reading.text === reading.text,
      );
      if (same !== undefined) return told(same, 0);
      for (const other of trials.values()) stop(other);
      count += 1;
      const trial: Trial = {
        id: String(count),
        file,
        reading,
        abort: new AbortController(),
        startedAt: clock(),
        state: reading.site === null ? "failed" : "at work",
        done: 0,
        total: 0,
        drills: [],
        report: null,
        settled: null,
        problem: null,
      };
      trials.set(trial.id, trial);
      if (trials.size > TRIALS_KEPT) trials.delete(trials.keys().next().value as string);
      if (reading.site !== null) {
        void carryOut(trial, reading.site, first);
      }
      return told(trial, 0);
    },
    answer(id, from) {
      const trial = trials.get(id);
      return trial === undefined ? null : told(trial, from);
    },
    stop(id) {
      const trial = trials.get(id);
      if (trial !== undefined) stop(trial);
    },
    stopAll() {
      for (const trial of trials.values()) stop(trial);
    },
  };
}
