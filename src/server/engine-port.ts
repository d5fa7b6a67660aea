import type {
  DefaultUsed,
  DrillReport,
  DrillResult,
  PairCensus,
  RehearsalReport,
  SettledLife,
  Site,
  SiteProblem,
} from "./contract/index.ts";

/** Some drills of a rehearsal are done. */
export interface RehearsalProgress {
  readonly done: number;
  readonly total: number;
  /** Results since the last call, in any order. */
  readonly fresh: readonly DrillResult[];
}

/**
 * What the server needs from the rooms that compute; the command line supplies it.
 *
 * None of these may hold the main thread for long: the server answers pages while they work.
 */
export interface Engine {
  /**
   * All drills of the site. Rejects where it cannot be done; after `signal` it may reject, or give back what it has with
   * `complete: false`.
   */
  rehearse(site: Site, options: RehearseOptions): Promise<RehearsalReport>;
  /** The same with all pairs, and the count of those that are tried and left out. */
  rehearsePairs(site: Site, options: RehearseOptions): Promise<PairRehearsal>;
  /** One drill with its whole trace. Rejects with NotFoundError where the site has no such part, fault or circumstance. */
  drill(site: Site, faultIds: readonly string[], circumstance: string, options: DrillOptions): Promise<DrillReport>;
  /** The settled normal life of the site. */
  settled(site: Site): Promise<SettledLife | null>;
}

export interface PairRehearsal {
  readonly census: PairCensus;
  readonly report: RehearsalReport;
}

export interface RehearseOptions {
  readonly seed: number;
  /** Parts whose drills are wanted before all others. */
  readonly first?: readonly string[];
  /** Computed again, also where the result is known. */
  readonly anew?: boolean;
  readonly onProgress: (progress: RehearsalProgress) => void;
  readonly signal: AbortSignal;
}

export interface DrillOptions {
  readonly seed: number;
  /** Minutes between two points of the trace. */
  readonly stepMin: number;
}

/** A site file was read: the site, or every problem that keeps it from being one. */
export interface SiteReading {
  readonly site: Site | null;
  readonly errors: readonly SiteProblem[];
  /** What the file leaves out and the loader filled in. */
  readonly defaults: readonly DefaultUsed[];
  /** The file as it stands; null where it could not be had. */
  readonly text: string | null;
}

export type ReadSite = (file: string) => Promise<SiteReading>;

/** Milliseconds since 1970, UTC: the server's one door to the wall clock. */
export type Clock = () => number;
