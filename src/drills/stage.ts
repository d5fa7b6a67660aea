/** Keeps what was made of one site: its settled state in each circumstance, and the settings that start from it. */
import type { Circumstance, Site } from "../site/index.ts";
import { compile, type Model } from "../twin/index.ts";
import { liveWhole, makeSetting, type Scenery, type Setting, type Whole } from "./setting.ts";
import { settledState } from "./settle.ts";

export class Stage {
  readonly model: Model;
  readonly seed: number;
  readonly #settled = new Map<string, Float64Array>();
  readonly #shelf: Float64Array[] = [];
  readonly #wholes = new Map<string, Whole>();
  readonly #settings = new Map<string, Setting>();

  constructor(site: Site, seed: number) {
    this.model = compile(site);
    this.seed = seed;
  }

  /** Simulates these systems in a circumstance, over its horizon where no days are given. */
  setting(circumstance: Circumstance, systems: readonly number[], days = circumstance.horizonDays): Setting {
    const key = `${circumstance.id}:${systems.join()}:${days}`;
    const known = this.#settings.get(key);
    if (known) return known;
    const { model, seed } = this;
    const scenery = { model, circumstance, seed, start: this.#start(circumstance), shelf: this.#shelf };
    const made = makeSetting(scenery, this.#whole(scenery, days), systems, days);
    this.#settings.set(key, made);
    return made;
  }

  #whole(scenery: Scenery, days: number): Whole {
    const key = `${scenery.circumstance.id}:${days}`;
    const whole = this.#wholes.get(key) ?? liveWhole(scenery, days);
    this.#wholes.set(key, whole);
    return whole;
  }

  #start(circumstance: Circumstance): Float64Array {
    const known = this.#settled.get(circumstance.id) ?? settledState(this.model, circumstance, this.seed);
    this.#settled.set(circumstance.id, known);
    return known;
  }
}
