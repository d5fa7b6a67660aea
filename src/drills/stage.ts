/** Keeps the settings of one site that have been made, one a circumstance and set of systems. */
import type { Circumstance, Site } from "../site/index.ts";
import { compile, type Model } from "../twin/index.ts";
import { makeSetting, type Setting } from "./setting.ts";

export class Stage {
  readonly model: Model;
  readonly seed: number;
  readonly #settings = new Map<string, Setting>();

  constructor(site: Site, seed: number) {
    this.model = compile(site);
    this.seed = seed;
  }

  setting(circumstance: Circumstance, systems: readonly number[]): Setting {
    const key = `${circumstance.id}:${systems.join()}`;
    const known = this.#settings.get(key);
    if (known) return known;
    const made = makeSetting(this.model, circumstance, this.seed, systems);
    this.#settings.set(key, made);
    return made;
  }
}
