/** What a remedy is: a change to the site file, what it costs, and which findings it is meant to change. */
import type { SiteEdit } from "../../site/index.ts";
import type { EffortName } from "./efforts.ts";
import type { Finding } from "./finding.ts";

/** What kind of change it is; the pages group by it. */
export type RemedyKind = EffortName;

export interface Remedy {
  /** Stable: kind and part. The same remedy of the same part has the same id, whatever else changes. */
  readonly id: string;
  /** What it is, in plain words. */
  readonly title: string;
  readonly kind: RemedyKind;
  /** Parts of the site that it concerns, as they are called before the change. */
  readonly parts: readonly string[];
  /** Ids of the drills whose findings it is meant to change. A first guess: what it does is computed by trial. */
  readonly aims: readonly string[];
  readonly edits: readonly SiteEdit[];
  /** One sentence where the work can hurt, else null. */
  readonly caution: string | null;
  readonly costEUR: RoughCost;
  /** Minutes of work until it is in place. */
  readonly minutesOnce: number;
  /** Minutes of upkeep that it adds a month; negative where it saves some. */
  readonly minutesPerMonth: number;
  /** One sentence. */
  readonly why: string;
  /** What somebody has to do in the real world before the changed file is true. */
  readonly needs: string;
}

export interface RoughCost {
  readonly low: number;
  readonly high: number;
  /** Both ends, with the word "rough". */
  readonly words: string;
}

/** A remedy before it is known which findings it aims at. */
export interface Draft {
  readonly kind: RemedyKind;
  /** The part that makes its id. */
  readonly of: string;
  readonly title: string;
  readonly parts: readonly string[];
  readonly edits: readonly SiteEdit[];
  readonly why: string;
  readonly needs: string;
  readonly caution?: string;
  /** How many of the things in the table of efforts it takes; 1 where it is not said. */
  readonly times?: number;
  /** Money beyond the table's, EUR. */
  readonly moreEUR?: { readonly low: number; readonly high: number };
  /** Upkeep beyond the table's, minutes a month. */
  readonly moreMinutesPerMonth?: number;
  readonly meets: (finding: Finding) => boolean;
}
