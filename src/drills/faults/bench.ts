/** The bench of a running twin: what faults and people do to it. */
import { didYouMean, NotFoundError } from "../../foundation/index.ts";
import {
  addFood,
  addMol,
  BODY_COLUMNS,
  CA,
  CARBON,
  changeWater,
  DIC,
  leverAt,
  lookSoon,
  loseWater,
  type Model,
  moveWater,
  ORGANIC,
  pourFresh,
  powerMoved,
  refillStore,
  resetCircuit,
  SITE_LEVERS,
  type SystemModel,
  startBattery,
  TA,
  type Twin,
  UNROTTED,
} from "../../twin/index.ts";
import { type Bench, type Fault, faultId } from "./fault.ts";

/** Nitrogen of a carcass: 2.75 % of wet weight, mol per gram (docs/science.md#life). */
const CARCASS_MOL_N_PER_G = 0.0275 / 14.007;

/** Something that may switch was touched: work out power anew and let the hubs look. */
export function stir(twin: Twin): void {
  powerMoved(twin);
  lookSoon(twin);
}

/** Levers of a part and where they lie, by part id. */
function leversOf(model: Model, part: string): readonly (readonly [string, number])[] {
  const prefix = `${part}:`;
  return [...model.levers.index]
    .filter(([key]) => key.startsWith(prefix))
    .map(([key, place]) => [key.slice(prefix.length), place]);
}

/** Links, people and what is outside the house move neither water nor power: pulling at them must leave the course as it is. */
export function stirs(model: Model, part: string, lever: string): boolean {
  return (
    lever !== "muted" &&
    part !== SITE_LEVERS &&
    !model.linkIndex.has(part) &&
    !model.site.people.some((person) => person.id === part)
  );
}

export function makeBench(twin: Twin): Bench {
  return { site: twin.model.site, ...leverHands(twin), ...waterHands(twin), ...powerHands(twin) };
}

function leverHands(twin: Twin): Pick<Bench, "set" | "release"> {
  const { model } = twin;
  return {
    set(part, lever, value) {
      twin.levers[leverAt(model, part, lever)] = value;
      if (stirs(model, part, lever)) stir(twin);
    },
    release(part, lever) {
      for (const [name, place] of leversOf(model, part)) {
        if (lever === undefined || lever === name) twin.levers[place] = model.levers.neutral[place];
      }
      if (lever === undefined || stirs(model, part, lever)) stir(twin);
    },
  };
}

type WaterHands = "food" | "carcass" | "pour" | "move" | "takeOut" | "changeWater" | "addFresh" | "spill" | "refill";

/** What hands do to water; the hubs look, since readings may jump. */
function waterHands(twin: Twin): Pick<Bench, WaterHands> {
  const at = (body: string) => bodyAt(twin.model, body);
  const of = (body: string) => systemOf(twin.model, body);
  const add = (body: string, column: number, mol: number) => addMol(twin, of(body), at(body), column, mol);
  const seen =
    <Given extends readonly unknown[]>(act: (...given: Given) => void) =>
    (...given: Given): void => {
      act(...given);
      lookSoon(twin);
    };
  return {
    food: seen((body, grams) => addFood(twin, of(body), at(body), grams, 0.5)),
    carcass: seen((body, grams) => add(body, UNROTTED, grams * CARCASS_MOL_N_PER_G)),
    pour: seen((body, what, amountMol, carbonPerEq = 0) => {
      add(body, COLUMN_OF[what], amountMol);
      if (what === "alkalinity" && carbonPerEq > 0) add(body, DIC, amountMol * carbonPerEq);
    }),
    move: seen((from, to, litres) => moveWater(twin, at(from), at(to), litres)),
    takeOut: seen((body, share) => takeOut(twin, of(body), share)),
    changeWater: seen((system, share) => changeWater(twin, systemNamed(twin.model, system), share)),
    addFresh: seen((body, litres) => pourFresh(twin, of(body), at(body), litres)),
    spill: seen((body, litres) => loseWater(twin, of(body).index, at(body), litres, true)),
    refill: seen((body) => refillStore(twin, at(body))),
  };
}

const COLUMN_OF = { alkalinity: TA, calcium: CA, carbon: CARBON, co2: DIC } as const;

/** A share of what rots in the waters of a system. */
function takeOut(twin: Twin, system: SystemModel, share: number): void {
  for (const water of system.waters)
    for (const column of [ORGANIC, UNROTTED])
      addMol(twin, system, water, column, -share * twin.bodies[water * BODY_COLUMNS + column]);
}

function powerHands(twin: Twin): Pick<Bench, "startBattery" | "closeCircuit"> {
  const { batteryIndex, circuitIndex } = twin.model;
  return {
    startBattery: (battery) => startBattery(twin, placeOf(batteryIndex, "battery", battery)),
    closeCircuit: (circuit) => resetCircuit(twin, placeOf(circuitIndex, "circuit", circuit)),
  };
}

function placeOf(index: ReadonlyMap<string, number>, kind: string, id: string): number {
  const place = index.get(id);
  if (place !== undefined) return place;
  throw new NotFoundError(`bench/unknown-${kind}`, `No ${kind} is called '${id}'`, didYouMean(id, [...index.keys()]));
}

function bodyAt(model: Model, id: string): number {
  return placeOf(model.bodyIndex, "body", id);
}

function systemOf(model: Model, body: string): SystemModel {
  return systemNamed(model, model.site.bodies[bodyAt(model, body)].system);
}

/** By its own name or that of one of its bodies. */
function systemNamed(model: Model, id: string): SystemModel {
  return model.systems.find((system) => system.id === id) ?? systemOf(model, id);
}

const pulledByFault = new WeakMap<Model, Map<string, readonly (readonly [part: string, lever: string])[]>>();

/** Levers that a fault pulls, found by letting it pull them on a bench that only writes down. */
export function leversPulled(model: Model, fault: Fault): readonly (readonly [part: string, lever: string])[] {
  const known = pulledByFault.get(model) ?? new Map();
  pulledByFault.set(model, known);
  const id = faultId(fault);
  const found = known.get(id) ?? record(model, fault);
  known.set(id, found);
  return found;
}

function record(model: Model, fault: Fault): readonly (readonly [part: string, lever: string])[] {
  const pulled: [string, string][] = [];
  const nothing = () => undefined;
  fault.mode.inject(
    {
      site: model.site,
      set(part, lever) {
        leverAt(model, part, lever);
        pulled.push([part, lever]);
      },
      release: nothing,
      food: nothing,
      carcass: nothing,
      pour: nothing,
      move: nothing,
      takeOut: nothing,
      changeWater: nothing,
      addFresh: nothing,
      spill: nothing,
      startBattery: nothing,
      refill: nothing,
      closeCircuit: nothing,
    },
    fault.part,
  );
  return pulled;
}
