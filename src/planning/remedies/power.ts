/** Remedies about power: no single plug, strip or protection that takes all of the life support with it. */
import type { Body, Device, Site, SiteEdit } from "../../site/index.ts";
import { EFFORTS } from "./efforts.ts";
import { circuitsAbove, concerns, type Finding, isLocalPowerLoss, isMainsCut } from "./finding.ts";
import { carries, guardOf, roomsOn, socketCircuits } from "./loads.ts";
import { bodyOf, devicesIn, hasLife, home, keptAtC } from "./places.ts";
import type { Draft } from "./remedy.ts";
import { degC, freeName, keys, list, set, watts } from "./writing.ts";

const ELECTRICIAN = "Have circuits, sockets and protective devices fitted by a licensed electrician.";
const DRIP_LOOPS = "Dry hands, cords that hang lower than their sockets, and no strip behind a strip.";
const BATTERY = "Charge batteries where a fire would not block the way out, and fuse packs at the terminal.";

export function powerRemedies(site: Site): readonly Draft[] {
  const shared = sharedSupplies(site);
  return [
    ...shared.flatMap((supply) => sharedOut(site, supply)),
    ...site.circuits.flatMap(({ id }) => closesAgain(site, id)),
    ...site.rooms.flatMap(({ id }) => batteryAir(site, id)),
    ...site.batteries.flatMap(({ id }) => largerBattery(site, id)),
  ];
}

/** Devices that bring oxygen, and those that bring warmth. */
function movers(site: Site, system: string): readonly Device[] {
  return devicesIn(site, system, "return-pump", "wave-pump", "air-pump").filter(({ spare }) => spare === null);
}

/** What keeps a system alive: what moves water, air and warmth; a skimmer where little else brings air. */
function lifeSupport(site: Site, system: string): readonly Device[] {
  const flow = movers(site, system);
  const air = flow.length < 2 ? devicesIn(site, system, "skimmer").slice(0, 1) : [];
  return [...flow, ...air, ...devicesIn(site, system, "heater")];
}

interface Supply {
  /** The protective device or circuit behind which everything hangs. */
  readonly id: string;
  readonly systems: readonly string[];
  readonly moved: readonly Device[];
  readonly room: string;
}

/** Circuit that a system's whole life support hangs behind: the nearest protection, else the circuit itself; null: not all on one. */
function soleSupply(site: Site, system: string): string | null {
  const life = lifeSupport(site, system);
  if (life.length < 2 || home(site, system) === null) return null;
  const behind = new Set(life.map(({ on }) => guardOf(site, on) ?? on));
  const [only] = behind;
  return behind.size === 1 && only !== null ? only : null;
}

function sharedSupplies(site: Site): readonly Supply[] {
  const bySupply = new Map<string, string[]>();
  for (const { id } of site.systems) {
    const supply = soleSupply(site, id);
    if (supply !== null) bySupply.set(supply, [...(bySupply.get(supply) ?? []), id]);
  }
  return [...bySupply].flatMap(([id, systems]): Supply[] => {
    const moved = systems.flatMap((system) => halfOf(site, system));
    const room = bodyOf(site, moved[0]?.in ?? null)?.room ?? "";
    return moved.length === 0 ? [] : [{ id, systems, moved, room }];
  });
}

/** What goes to the other supply: every second heater, of the pumps every second one, and what brings air besides. */
function halfOf(site: Site, system: string): readonly Device[] {
  const second = (devices: readonly Device[]) => devices.filter((_, index) => index % 2 === 1);
  const pumps = devicesIn(site, system, "return-pump", "wave-pump").filter(({ spare }) => spare === null);
  return [...second(pumps), ...airOf(site, system), ...second(devicesIn(site, system, "heater"))];
}

/** What brings air besides the pumps, as far as it may go to the other supply. */
function airOf(site: Site, system: string): readonly Device[] {
  return devicesIn(site, system, "air-pump", "skimmer").filter(({ spare }) => spare === null);
}

function movedTo(moved: readonly Device[], circuit: string): readonly SiteEdit[] {
  return moved.map(({ id }) => set(["devices", id, "on"], circuit));
}

/** Findings that a second supply spares: the power of the one is gone, and with it all of a system's life support. */
function losesAll(site: Site, { id, systems }: Supply, finding: Finding): boolean {
  const lost = finding.lost;
  if (lost === null || finding.stressor === null) return false;
  const takes = lost === id || circuitsAbove(site, lost).includes(id);
  return takes && systems.some((system) => concerns(finding, system));
}

function sharedOut(site: Site, supply: Supply): readonly Draft[] {
  const { id, moved, room } = supply;
  const names = moved.map((device) => device.id);
  const { words, moreEUR } = standIns(site, supply.systems, id);
  const besides = words.length === 0 ? "" : `, with ${words.join(" and ")}`;
  const there = socketCircuits(site).find(
    (circuit) =>
      (guardOf(site, circuit.id) ?? circuit.id) !== id &&
      !circuitsAbove(site, circuit.id).includes(id) &&
      !circuitsAbove(site, id).includes(circuit.id) &&
      (roomsOn(site, circuit.id).has(room) || roomsOn(site, circuit.id).size === 0) &&
      carries(site, circuit.id, moved),
  );
  const common = {
    of: id,
    parts: [id, ...names],
    moreEUR,
    meets: (finding: Finding) => losesAll(site, supply, finding),
  };
  if (there !== undefined)
    return [
      {
        ...common,
        kind: "share-out",
        title: `Half of the life support of ${supply.systems.join(" and ")} moved to ${there.id}${besides}`,
        edits: [...movedTo(moved, there.id), ...standIns(site, supply.systems, there.id).edits],
        why: `Everything hangs behind ${id}: one trip stops all flow, air and warmth.`,
        needs: `${names.join(", ")} plugged into ${there.id}${besides}.`,
        caution: DRIP_LOOPS,
      },
    ];
  return [
    {
      ...common,
      kind: "new-circuit",
      title: `A second protected circuit beside ${id}, with half of the life support of ${supply.systems.join(" and ")}${besides}`,
      ...newCircuit(site, supply),
      why: `Everything hangs behind ${id}: one trip stops all flow, air and warmth.`,
      needs: `A circuit with a leakage breaker of its own, and ${names.join(", ")} plugged into it${besides}; its button pressed every three months.`,
      caution: ELECTRICIAN,
    },
  ];
}

function newCircuit(site: Site, { id, systems, moved, room }: Supply): { readonly edits: readonly SiteEdit[] } {
  const american = site.mains.volts < 150;
  const name = freeName(site, `${room}-second-circuit`);
  const board = site.circuits.find((circuit) => circuit.id === id)?.on ?? null;
  return {
    edits: [
      ...impliedCircuit(site),
      set(
        ["power", "circuits", name],
        keys({ on: board, limit: american ? "15 A" : "16 A", "trips-on-leak": american ? "5 mA" : "30 mA" }),
      ),
      ...movedTo(moved, name),
      ...standIns(site, systems, name).edits,
    ],
  };
}

/** Half of the pumps alone bring too little oxygen, and one heater is on the wrong side: such a system gets an air pump and a spare heater. */
function standIns(site: Site, systems: readonly string[], circuit: string): StandIns {
  const bodies = systems.map((system) => home(site, system)).filter((body) => body !== null);
  const airless = bodies.filter(
    (body) => !devicesIn(site, body.system, "air-pump").some((pump) => pump.in === body.id && pump.spare === null),
  );
  const oneHeater = bodies.filter((body) => devicesIn(site, body.system, "heater").length === 1);
  const ids = (of: readonly Body[]) => of.map(({ id }) => id).join(" and ");
  return {
    edits: [
      ...airless.map((body) => airPump(site, body, circuit, false)),
      ...oneHeater.map((body) => spareOn(site, body, circuit)),
    ],
    words: [
      ...(airless.length === 0 ? [] : [`an air pump for ${ids(airless)}`]),
      ...(oneHeater.length === 0 ? [] : [`a spare heater for ${ids(oneHeater)}`]),
    ],
    moreEUR: {
      low: AIR_PUMP_EUR.low * airless.length + EFFORTS["spare-heater"].lowEUR * oneHeater.length,
      high: AIR_PUMP_EUR.high * airless.length + EFFORTS["spare-heater"].highEUR * oneHeater.length,
    },
  };
}

interface StandIns {
  readonly edits: readonly SiteEdit[];
  readonly words: readonly string[];
  readonly moreEUR: { readonly low: number; readonly high: number };
}

/** A small air pump with hose and stone: practice. */
const AIR_PUMP_EUR = { low: 15, high: 40 };
const SPARE_BELOW_K = 1.5;
const SPARE_CUT_OUT_ABOVE_K = 3;

function spareOn(site: Site, body: Body, on: string): SiteEdit {
  const powerW = Math.max(...devicesIn(site, body.system, "heater").map((heater) => heater.powerW));
  return set(["devices", freeName(site, `${body.id}-second-heater`)], {
    kind: "heater",
    power: watts(powerW),
    in: body.id,
    on,
    "own-thermostat": degC(keptAtC(body) - SPARE_BELOW_K),
    "cut-out": degC(keptAtC(body) + SPARE_CUT_OUT_ABOVE_K),
    tested: "1 month",
    age: "1 month",
  });
}

function airPump(site: Site, body: Body, on: string, waits: boolean): SiteEdit {
  return set(
    ["devices", freeName(site, waits ? `${body.id}-battery-air` : `${body.id}-air`)],
    keys({
      kind: "air-pump",
      power: watts(AIR_W),
      flow: `${Math.max(60, 10 * Math.round((AIR_L_PER_H_PER_L * body.volumeL) / 10))} L/h`,
      in: body.id,
      on,
      spare: waits ? { "last-tried": "1 month" } : null,
      age: "1 month",
    }),
  );
}

/** The one circuit of a site that describes none has to be written before another can stand beside it. */
function impliedCircuit(site: Site): readonly SiteEdit[] {
  const [only] = site.circuits;
  if (site.circuits.length !== 1 || only.on !== null || only.id !== "house") return [];
  return [
    set(["power", "circuits", only.id, "limit"], `${only.limitA} A`),
    set(
      ["power", "circuits", only.id, "trips-on-leak"],
      only.tripsOnLeakMA === null ? "none" : `${only.tripsOnLeakMA} mA`,
    ),
  ];
}

function closesAgain(site: Site, id: string): readonly Draft[] {
  const circuit = site.circuits.find((one) => one.id === id);
  if (circuit === undefined || !circuit.staysOpenAfterCut) return [];
  return [
    {
      kind: "closes-again",
      of: id,
      title: `Protection for ${id} that stays closed through a power cut`,
      parts: [id],
      edits: [set(["power", "circuits", id, "stays-open-after-cut"], "no")],
      why: "As it is, every blink of the mains is a power cut that lasts until somebody comes.",
      needs: "Another protective device in the board.",
      caution: ELECTRICIAN,
      meets: (finding) =>
        (finding.part === id && finding.mode === "stays-open-after-blink") ||
        ["cut-40-min", "cut-4-h"].includes(finding.mode),
    },
  ];
}

const AIR_W = 4;
const AIR_WH = 100;
const AIR_L_PER_H_PER_L = 0.4;
/** Power of what carries air, W at least, and hours that it should last. */
const CARRIED_H = 24;

/** Cuts that end before a day's battery does. */
const SHORT_CUTS = ["cut-40-min", "cut-4-h", "cut-12-h", "cut-12-h-no-mobile"];

/** Whether air for a day changes a finding: the power is back by then, or somebody who knows has come. */
function carriesOver(site: Site, finding: Finding, systems: readonly string[]): boolean {
  const { verdict, minutes } = finding.drill;
  if (finding.stressor !== "hypoxia" || !systems.some((system) => concerns(finding, system))) return false;
  const known = verdict === "late" && minutes.acting !== null && minutes.acting < CARRIED_H * 60;
  const staysOff = systems.some((system) =>
    movers(site, system).some(({ on }) =>
      circuitsAbove(site, on).some((id) => site.circuits.find((one) => one.id === id)?.staysOpenAfterCut),
    ),
  );
  return (
    ((isMainsCut(finding) || isLocalPowerLoss(finding)) && known) || (SHORT_CUTS.includes(finding.mode) && !staysOff)
  );
}

function onCells(site: Site, device: string): boolean {
  return site.batteries.some(({ feeds }) => feeds.includes(device));
}

function breathless(site: Site, room: string): readonly string[] {
  return site.systems
    .filter(({ id }) => home(site, id)?.room === room)
    .filter(
      ({ id }) => ![...movers(site, id), ...devicesIn(site, id, "air-pump")].some((device) => onCells(site, device.id)),
    )
    .map(({ id }) => id);
}

function batteryAir(site: Site, room: string): readonly Draft[] {
  const systems = breathless(site, room);
  if (systems.length === 0) return [];
  const pumps = systems.flatMap((system) => {
    const body = home(site, system);
    return body === null
      ? []
      : [
          {
            body,
            name: freeName(site, `${body.id}-battery-air`),
            on: movers(site, system)[0]?.on ?? devicesIn(site, system, "heater")[0]?.on ?? site.circuits[0].id,
          },
        ];
  });
  const power = AIR_W * pumps.length;
  return [
    {
      kind: "battery-air",
      of: room,
      title: `An air pump on a battery for ${pumps.map(({ body }) => body.id).join(" and ")}`,
      parts: pumps.map(({ body }) => body.id),
      edits: [
        ...pumps.map(({ body, on }) => airPump(site, body, on, true)),
        set(["power", "batteries", freeName(site, `${room}-air-battery`)], {
          energy: `${AIR_WH * pumps.length} Wh`,
          power: watts(2 * power),
          on: pumps[0].on,
          feeds: list(pumps.map(({ name }) => name)),
          "last-tried": "1 month",
        }),
      ],
      why: "Without flow and air animals last hours; a few watts of air carry them through a day.",
      needs:
        "An air pump that starts by itself when the power goes, with cells for a day; tried every month by pulling the plug, and this kept up.",
      caution: BATTERY,
      times: pumps.length,
      meets: (finding) => carriesOver(site, finding, systems),
    },
  ];
}

function largerBattery(site: Site, id: string): readonly Draft[] {
  const battery = site.batteries.find((one) => one.id === id);
  if (battery === undefined || battery.kind !== "battery") return [];
  const carried = site.devices.filter((device) => battery.feeds.includes(device.id));
  const breath = carried.filter(({ kind }) => ["air-pump", "wave-pump", "return-pump"].includes(kind));
  const loadW = carried.reduce((sum, { powerW }) => sum + powerW, 0);
  if (breath.length === 0 || battery.energyWh >= CARRIED_H * loadW) return [];
  const systems = [...new Set(breath.map(({ system }) => system))].filter((system) =>
    site.bodies.some((body) => body.system === system && hasLife(body)),
  );
  return [
    {
      kind: "larger-battery",
      of: id,
      title: `A battery for a whole day in place of ${id}`,
      parts: [id, ...breath.map((device) => device.id)],
      edits: [
        set(["power", "batteries", id, "energy"], `${10 * Math.ceil((1.25 * CARRIED_H * loadW) / 10)} Wh`),
        set(["power", "batteries", id, "power"], watts(Math.max(battery.powerW, 2 * loadW))),
        set(["power", "batteries", id, "last-tried"], "1 month"),
      ],
      why: `${id} lasts ${Math.max(1, Math.round(battery.energyWh / loadW))} h; most harm by want of oxygen comes later.`,
      needs:
        "A battery of that energy, tried once for its full time, then every month by pulling the plug, and this kept up.",
      caution: BATTERY,
      meets: (finding) =>
        finding.systems.every((system) => systems.includes(system)) && carriesOver(site, finding, systems),
    },
  ];
}
