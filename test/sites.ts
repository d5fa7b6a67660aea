/**
 * Small sites for tests, written as an owner would write them, and a twin of each that is started and ready to run.
 * All begin on Wednesday 13 May 2026 at 00:00 by a clock that never changes its offset.
 */
import { fixedClock, mustHave, parseLocalTime } from "../src/foundation/index.ts";
import { saturationVapourPressureKPa } from "../src/science/index.ts";
import { formatSiteError, loadSite, type Site } from "../src/site/index.ts";
import { ROOM_AIR_C, ROOM_CO2, ROOM_HUMIDITY } from "../src/twin/columns.ts";
import {
  advance,
  alkalinityDKH,
  compile,
  createTwin,
  isRunning,
  leverAt,
  lookSoon,
  oxygenMgL,
  phTotal,
  powerMoved,
  salinity,
  startTwin,
  type Twin,
  type TwinEvent,
  type TwinOptions,
  temperatureC,
  timeS,
  volumeL,
} from "../src/twin/index.ts";

export const HOUR_S = 3600;
export const DAY_S = 86_400;

/** Loads a site from its text; a site that does not load is a mistake of the test and is said with all its errors. */
export function siteOf(text: string): Site {
  const { site, errors } = loadSite(text, "test.yaml");
  if (site === null) throw new Error(errors.map((error) => formatSiteError(error)).join("\n"));
  return site;
}

/** A started twin with its parts by name. */
export interface Run {
  readonly twin: Twin;
  readonly site: Site;
  /** Everything the twin told. */
  readonly events: TwinEvent[];
  body(id: string): number;
  /** Runs on for some hours. */
  hours(hours: number): Run;
  /** Runs on for some hours in pieces of so many seconds. */
  pieces(hours: number, pieceS: number, each?: () => void): Run;
  set(part: string, lever: string, value: number): Run;
  temperatureC(body: string): number;
  salinity(body: string): number;
  oxygenMgL(body: string): number;
  phTotal(body: string): number;
  alkalinityDKH(body: string): number;
  volumeL(body: string): number;
  runs(device: string): boolean;
}

export interface RunOptions extends Partial<TwinOptions> {
  /** Local time of second 0. */
  readonly startsLocal?: string;
}

/** Starts a twin of a site; nobody has hands unless said. */
export function startRun(site: Site | string, options: RunOptions = {}): Run {
  const known = typeof site === "string" ? siteOf(site) : site;
  const clock = fixedClock(mustHave(parseLocalTime(options.startsLocal ?? "2026-05-13T00:00")));
  const { seed = 1, closed = false, hands = false, fromS = 0, toS = 60 * DAY_S } = options;
  const twin = createTwin(compile(known), clock, { seed, closed, hands, fromS, toS });
  startTwin(twin, fromS);
  const events: TwinEvent[] = [];
  twin.onEvent = (event) => events.push(event);
  // Runs no time, but knows the water afterwards.
  advance(twin, fromS);
  const body = (id: string) => placeOf(twin.model.bodyIndex, id);
  const run: Run = {
    twin,
    site: known,
    events,
    body,
    hours: (hours) => {
      advance(twin, timeS(twin) + hours * HOUR_S);
      return run;
    },
    pieces: (hours, pieceS, each) => {
      const endS = timeS(twin) + hours * HOUR_S;
      while (timeS(twin) < endS - 1e-6) {
        advance(twin, Math.min(endS, timeS(twin) + pieceS));
        each?.();
      }
      return run;
    },
    set: (part, lever, value) => {
      twin.levers[leverAt(twin.model, part, lever)] = value;
      powerMoved(twin);
      lookSoon(twin);
      return run;
    },
    temperatureC: (id) => temperatureC(twin, body(id)),
    salinity: (id) => salinity(twin, body(id)),
    oxygenMgL: (id) => oxygenMgL(twin, body(id)),
    phTotal: (id) => phTotal(twin, body(id)),
    alkalinityDKH: (id) => alkalinityDKH(twin, body(id)),
    volumeL: (id) => volumeL(twin, body(id)),
    runs: (id) => isRunning(twin, placeOf(twin.model.deviceIndex, id)),
  };
  return run;
}

function placeOf(index: ReadonlyMap<string, number>, id: string): number {
  const place = index.get(id);
  if (place === undefined) throw new Error(`The test's site has no part ${id}; it has ${[...index.keys()].join(", ")}`);
  return place;
}

/** Air that is held as it is while a run goes on, as a textbook holds it. */
export interface HeldAir {
  readonly airC: number;
  /** 0..1 */
  readonly relativeHumidity: number;
  readonly co2Ppm?: number;
}

/** Runs on in ten-minute pieces with the air of the first room held; `each` hears the hours gone by. */
export function runInAir(run: Run, hours: number, air: HeldAir, each?: (hours: number) => void): Run {
  const vapourKPa = air.relativeHumidity * saturationVapourPressureKPa(air.airC);
  const hold = () => {
    run.twin.rooms[ROOM_AIR_C] = air.airC;
    run.twin.rooms[ROOM_HUMIDITY] = (0.622 * vapourKPa) / (101.325 - vapourKPa);
    if (air.co2Ppm !== undefined) run.twin.rooms[ROOM_CO2] = air.co2Ppm;
  };
  const fromS = timeS(run.twin);
  hold();
  return run.pieces(hours, 600, () => {
    hold();
    each?.((timeS(run.twin) - fromS) / HOUR_S);
  });
}
