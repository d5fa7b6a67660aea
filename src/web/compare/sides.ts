/** Which two versions lie side by side, from what the page knows. */
import type { DrillResult, RehearsalReport, Site, TrialAnswer } from "../../server/contract/index.ts";
import type { Known } from "../app/store.ts";
import { type Draft, isChanged } from "../draft/draft-store.ts";
import { compareWords } from "../words/compare.ts";

/** What the open file is compared with: the draft, the version before, a file by its name; null where nothing is chosen. */
export type With = "draft" | "before" | { readonly file: string } | null;

export interface Side {
  /** What it is, in words. */
  readonly name: string;
  readonly drills: readonly DrillResult[];
  readonly plainLife: RehearsalReport["plain_life"];
  /** Whether its drills are those of the open file, whose timelines can be opened. */
  readonly isOpen: boolean;
}

export interface Sides {
  readonly before: Side;
  readonly after: Side;
  /** Whether all drills of both are there. */
  readonly whole: boolean;
}

/** What the address asks for; without a word in it, the comparison that is at hand. */
export function readWith(query: URLSearchParams, known: Known, draft: Draft | null): With {
  const asked = query.get("with") ?? "";
  if (asked === "draft" || asked === "before") return asked;
  if (asked !== "") return { file: asked };
  if (isChanged(draft)) return "draft";
  return known.before === null ? null : "before";
}

/** The open file and a trial of something else. */
export function withTrial(
  known: Known,
  name: string,
  trial: { readonly answer: TrialAnswer; readonly drills: readonly DrillResult[] } | null,
): Sides | null {
  const { report, site } = known;
  if (report === null || site === null) return null;
  return {
    before: {
      name: compareWords.asItIs(site.file),
      drills: report.drills,
      plainLife: report.plain_life,
      isOpen: true,
    },
    after: {
      name,
      drills: trial?.drills ?? [],
      plainLife: trial?.answer.report?.plain_life ?? report.plain_life,
      isOpen: false,
    },
    whole: trial?.answer.state === "done",
  };
}

/** The version before and the open file; while the open file is rehearsed, as far as that has come. */
export function withBefore({
  report,
  before,
  partial,
  rehearsal,
  site,
}: Pick<Known, "report" | "before" | "partial" | "rehearsal" | "site">): Sides | null {
  const running = partial.length > 0 && rehearsal?.state !== "done";
  const old = running ? report : before;
  if (old === null || report === null || site === null) return null;
  return {
    before: { name: compareWords.versionBefore, drills: old.drills, plainLife: old.plain_life, isOpen: false },
    after: {
      name: compareWords.versionNow(site.file),
      drills: running ? partial : report.drills,
      plainLife: running ? old.plain_life : report.plain_life,
      isOpen: true,
    },
    whole: !running,
  };
}

/** Two sites as one, for the names of their waters. */
export function together(a: Site, b: Site | null): Site {
  if (b === null) return a;
  return {
    ...b,
    bodies: [...a.bodies, ...b.bodies],
    flows: [...a.flows, ...b.flows],
    systems: [...a.systems, ...b.systems],
  };
}
