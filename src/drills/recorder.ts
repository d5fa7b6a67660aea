/** Collects the trace of a run at even steps. */
import { didYouMean, NotFoundError } from "../foundation/index.ts";
import { type Probe, sensedProbes, type Twin, type TwinEvent, truthProbes } from "../twin/index.ts";
import type { Watcher } from "./run-on.ts";
import type { Setting } from "./setting.ts";
import type { Trace } from "./types.ts";

/** Six digits are more than any sensor has. */
const DIGITS = 6;

/** As many digits as mean something; what has no end is 0. */
export function roundFigure(value: number): number {
  return Number.isFinite(value) ? Number(value.toPrecision(DIGITS)) : 0;
}

/** Minutes of a time in s. */
export function minutesAt(tS: number): number {
  return roundFigure(tS / 60);
}

/** Moments from the fault on, so many minutes apart, s. */
export function evenGrid(days: number, stepMin: number): Float64Array {
  const count = Math.floor((days * 1440) / stepMin) + 1;
  return Float64Array.from({ length: count }, (_, place) => place * stepMin * 60);
}

export class Recorder {
  readonly #stepMin: number;
  readonly #times: number[] = [];
  readonly #truth: readonly { readonly probe: Probe; readonly values: number[] }[];
  readonly #sensed: readonly { readonly probe: Probe; readonly values: (number | null)[] }[];

  /** Keeps the quantities and sensors named in `only`, or all, of the systems that the setting simulates. */
  constructor(setting: Setting, only: readonly string[], stepMin: number) {
    refuseUnknown(setting, only);
    this.#stepMin = stepMin;
    const keep = (probe: Probe) => only.length === 0 || only.includes(probe.name);
    const { systemOf } = setting.model.sensing;
    this.#truth = truthProbes(setting.model)
      .filter((probe) => keep(probe) && isSimulated(setting, probe.name))
      .map((probe) => ({ probe, values: [] }));
    this.#sensed = sensedProbes(setting.model)
      .filter((probe, sensor) => keep(probe) && (systemOf[sensor] < 0 || setting.systems.includes(systemOf[sensor])))
      .map((probe) => ({ probe, values: [] }));
  }

  /** Notes all values, if the moment is one of the even steps and has not been noted yet. */
  take(twin: Twin, tS: number): void {
    const minute = tS / 60;
    if (Math.abs(minute / this.#stepMin - Math.round(minute / this.#stepMin)) > 1e-6) return;
    if (this.#times.length > 0 && minute <= this.#times[this.#times.length - 1]) return;
    this.#times.push(roundFigure(minute));
    for (const { probe, values } of this.#truth) values.push(roundFigure(probe.read(twin)));
    for (const { probe, values } of this.#sensed) {
      const value = probe.read(twin);
      values.push(Number.isNaN(value) ? null : roundFigure(value));
    }
  }

  /** Someone who watches an attempt for this recorder; what happens goes to `events`. */
  watcher(setting: Setting, events: TwinEvent[] = []): Watcher {
    return {
      everyS: this.#stepMin * 60,
      untilS: setting.grid[setting.grid.length - 1],
      see: (tS) => this.take(setting.twin, tS),
      hear: (event) => events.push(event),
    };
  }

  trace(): Trace {
    return {
      t_min: this.#times,
      truth: Object.fromEntries(this.#truth.map(({ probe, values }) => [probe.name, values])),
      sensed: Object.fromEntries(this.#sensed.map(({ probe, values }) => [probe.name, values])),
    };
  }
}

/** A name that nothing has is a slip of whoever asks. */
function refuseUnknown(setting: Setting, only: readonly string[]): void {
  if (only.length === 0) return;
  const known = [...truthProbes(setting.model), ...sensedProbes(setting.model)].map((probe) => probe.name);
  const unknown = only.find((name) => !known.includes(name));
  if (unknown === undefined) return;
  throw new NotFoundError("trace/unknown-name", `Nothing here is called '${unknown}'`, didYouMean(unknown, known));
}

/** Rooms and floors belong to every setting, bodies and devices to those of their system. */
function isSimulated({ model, systems }: Setting, name: string): boolean {
  const part = name.split(".")[0];
  const owner =
    model.site.bodies.find((body) => body.id === part) ?? model.site.devices.find((device) => device.id === part);
  return owner === undefined || systems.some((index) => model.systems[index].id === owner.system);
}
