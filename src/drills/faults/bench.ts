/** The bench of a running twin: what faults and people do to it. */
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

/** Nitrogen of a carcass: 2.75 % of wet weight (science.md 8.1), mol per gram. */
const CARCASS_MOL_N_PER_G = 0.0275 / 14.007;

/** Something that may switch was touched: work out power anew and let the hubs look. */
function stir(twin: Twin): void {
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
  const { model } = twin;
  const bodyAt = (id: string) => {
    const place = model.bodyIndex.get(id);
    if (place === undefined) throw new RangeError(`No body is called '${id}'`);
    return place;
  };
  const systemOf = (id: string): SystemModel =>
    model.systems.find((system) => system.id === model.site.bodies[bodyAt(id)].system)!;
  const systemBy = (id: string): SystemModel => model.systems.find((system) => system.id === id) ?? systemOf(id);
  return {
    site: model.site,
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
    food: (body, grams) => addFood(twin, systemOf(body), bodyAt(body), grams, 0.5),
    carcass: (body, grams) => addMol(twin, systemOf(body), bodyAt(body), UNROTTED, grams * CARCASS_MOL_N_PER_G),
    pour(body, what, amountMol, carbonPerEq = 0) {
      const system = systemOf(body);
      const column = what === "alkalinity" ? TA : what === "calcium" ? CA : what === "carbon" ? CARBON : DIC;
      addMol(twin, system, bodyAt(body), column, amountMol);
      if (what === "alkalinity" && carbonPerEq > 0) addMol(twin, system, bodyAt(body), DIC, amountMol * carbonPerEq);
    },
    move: (from, to, litres) => moveWater(twin, bodyAt(from), bodyAt(to), litres),
    takeOut(body, share) {
      const system = systemOf(body);
      for (const water of system.waters) {
        for (const column of [ORGANIC, UNROTTED]) {
          addMol(twin, system, water, column, -share * twin.bodies[water * BODY_COLUMNS + column]);
        }
      }
    },
    changeWater: (system, share) => changeWater(twin, systemBy(system), share),
    addFresh: (body, litres) => pourFresh(twin, systemOf(body), bodyAt(body), litres),
    spill: (body, litres) => loseWater(twin, systemOf(body).index, bodyAt(body), litres, true),
    startBattery: (battery) => startBattery(twin, model.batteryIndex.get(battery) ?? 0),
    refill: (body) => refillStore(twin, bodyAt(body)),
    closeCircuit: (circuit) => resetCircuit(twin, model.circuitIndex.get(circuit) ?? 0),
  };
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
