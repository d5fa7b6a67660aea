/** Mains, circuits, batteries, links, hubs and the silence watch, from what was written of them. */
import { BATTERY_KEYS, CIRCUIT_KEYS, HUB_KEYS, LINK_KEYS, POWER_KEYS, SILENCE_WATCH_KEYS } from "../keys/power.ts";
import type { WrittenSite } from "../keys/site-keys.ts";
import type { Battery, Circuit, Hub, Link, Mains, SilenceWatch } from "../model.ts";
import type { WrittenPart } from "../shape/fields.ts";
import type { Building } from "./building.ts";
import { asFound, takerFor, valuesOf } from "./building.ts";

const START = { line: 1, column: 1 };

function implied<F>(building: Building, wanted: string, kind: "circuit" | "link" | "hub"): WrittenPart<F> {
  return { id: building.enterImplied(wanted, kind), idPlace: START, place: START, written: {} };
}

function buildCircuit(building: Building, part: WrittenPart<typeof CIRCUIT_KEYS>, volts: number): Circuit {
  const { id, written } = part;
  const take = takerFor(building, id, part.idPlace.line, CIRCUIT_KEYS, written);
  const on = take("on", null);
  if (on !== null && written.on !== undefined) building.refers(on, written.on.place, ["circuit"], `${id}.on`);
  const american = volts < 150;
  return {
    id,
    on,
    limitA: take("limit", american ? 15 : 16),
    tripsOnLeakMA: take("trips-on-leak", american ? 5 : 30),
    staysOpenAfterCut: take("stays-open-after-cut", false),
  };
}

function buildBattery(building: Building, part: WrittenPart<typeof BATTERY_KEYS>, firstCircuit: string): Battery {
  const { id, written } = part;
  const take = takerFor(building, id, part.idPlace.line, BATTERY_KEYS, written);
  const kind = take("kind", "battery");
  const energyWh = written.energy?.value ?? 1;
  const on = take("on", kind === "generator" ? null : firstCircuit);
  if (on !== null && written.on !== undefined) building.refers(on, written.on.place, ["circuit"], `${id}.on`);
  const feeds = take("feeds", []);
  for (const fed of feeds) building.refers(fed.value, fed.place, ["device", "link", "hub"], `${id}.feeds`);
  return {
    id,
    kind,
    energyWh,
    powerW: take("power", energyWh),
    feeds: valuesOf(feeds),
    on,
    startsItself: take("starts-itself", kind === "battery"),
    lastTriedMonths: take("last-tried", null),
  };
}

function buildLink(building: Building, part: WrittenPart<typeof LINK_KEYS>, firstCircuit: string): Link {
  const { id, written } = part;
  const take = takerFor(building, id, part.idPlace.line, LINK_KEYS, written);
  const via = take("via", null);
  if (via !== null && written.via !== undefined) building.refers(via, written.via.place, ["link"], `${id}.via`);
  const kind = take("kind", via !== null ? "internet" : /mobile|cell|phone/i.test(id) ? "mobile" : "local");
  const on = take("on", kind === "local" ? firstCircuit : null);
  if (on !== null && written.on !== undefined)
    building.refers(on, written.on.place, ["circuit", "battery"], `${id}.on`);
  return { id, kind, on, via };
}

function buildHub(
  building: Building,
  part: WrittenPart<typeof HUB_KEYS>,
  firstCircuit: string,
  links: readonly Link[],
): Hub {
  const { id, written } = part;
  const take = takerFor(building, id, part.idPlace.line, HUB_KEYS, written);
  const on = take("on", firstCircuit);
  if (on !== null && written.on !== undefined)
    building.refers(on, written.on.place, ["circuit", "battery"], `${id}.on`);
  const waysOut = links.filter((link) => link.kind !== "local").map((link) => link.id);
  const sendsOver = take("sends-over", asFound(waysOut));
  if (written["sends-over"] !== undefined) {
    for (const link of sendsOver) building.refers(link.value, link.place, ["link"], `${id}.sends-over`);
  }
  return {
    id,
    on,
    readsEveryS: take("reads-every", 10),
    sendsOver: valuesOf(sendsOver),
    watchdog: take("watchdog", false),
    siren: take("siren", false),
    testedMonths: take("tested", null, sendsOver.length === 0 ? 3 : undefined),
  };
}

/** A battery carries what its `feeds` says and everything that says it is `on` it. */
function withWhatIsOnThem(
  batteries: readonly Battery[],
  plugged: readonly { readonly id: string; readonly on: string | null }[],
): readonly Battery[] {
  return batteries.map((battery) => {
    const also = plugged
      .filter((part) => part.on === battery.id && !battery.feeds.includes(part.id))
      .map((part) => part.id);
    return also.length === 0 ? battery : { ...battery, feeds: [...battery.feeds, ...also] };
  });
}

export interface PowerAndLinks {
  readonly mains: Mains;
  readonly circuits: readonly Circuit[];
  readonly batteries: readonly Battery[];
  readonly links: readonly Link[];
  readonly hubs: readonly Hub[];
}

/** Batteries first hear of links and hubs here; devices that stand on a battery are added by `carryDevices`. */
export function buildPower(building: Building, site: WrittenSite): PowerAndLinks {
  const power = site.power?.value ?? {};
  const needsHub = (site.sensors?.value.length ?? 0) + (site.rules?.value.length ?? 0) > 0;
  const hubsWritten = site.hubs?.value ?? [];
  const takePower = takerFor(building, "power", site.power?.place.line ?? 1, POWER_KEYS, power);
  const volts = takePower("mains", 230);
  const circuitParts = power.circuits?.value ?? [];
  const circuits = (
    circuitParts.length > 0 ? circuitParts : [implied<typeof CIRCUIT_KEYS>(building, "house", "circuit")]
  ).map((part) => buildCircuit(building, part, volts));
  const first = circuits[0].id;
  if (circuitParts.length === 0) {
    const { weight, why } = POWER_KEYS.circuits;
    building.noteDefault("power", "circuits", `one circuit called ${first}`, weight, why, site.power?.place.line ?? 1);
  }
  const anyHub = hubsWritten.length > 0 || needsHub;
  const linkParts = site.links?.value ?? (anyHub ? [implied<typeof LINK_KEYS>(building, "router", "link")] : []);
  const links = linkParts.map((part) => buildLink(building, part, first));
  if (site.links === undefined && anyHub) {
    const line = building.enterImplied("line", "link");
    links.push({ id: line, kind: "internet", on: null, via: links[0].id });
    building.noteDefault(
      "links",
      "line",
      `an internet line via ${links[0].id}`,
      1,
      "a notice needs one way out that still works",
      1,
    );
  }
  const hubParts =
    hubsWritten.length > 0 || !needsHub ? hubsWritten : [implied<typeof HUB_KEYS>(building, "hub", "hub")];
  const hubs = hubParts.map((part) => buildHub(building, part, first, links));
  const batteries = (power.batteries?.value ?? []).map((part) => buildBattery(building, part, first));
  return { mains: { volts }, circuits, batteries: withWhatIsOnThem(batteries, [...links, ...hubs]), links, hubs };
}

/** Batteries with the devices that stand on them. */
export function carryDevices(
  batteries: readonly Battery[],
  plugged: readonly { readonly id: string; readonly on: string | null }[],
): readonly Battery[] {
  return withWhatIsOnThem(batteries, plugged);
}

export function buildSilenceWatch(building: Building, site: WrittenSite): SilenceWatch | null {
  const written = site["silence-watch"]?.value ?? null;
  if (written === null) {
    building.noteDefault(
      "silence-watch",
      "silence-watch",
      "none",
      1,
      "when the hub, the router or the power dies, silence is the only sign",
      site["silence-watch"]?.place.line ?? 1,
    );
    return null;
  }
  const take = takerFor(building, "silence-watch", site["silence-watch"]?.place.line ?? 1, SILENCE_WATCH_KEYS, written);
  for (const person of written.tells?.value ?? [])
    building.refers(person.value, person.place, ["person"], "silence-watch.tells");
  return {
    afterMin: take("after", 30),
    tells: valuesOf(written.tells?.value ?? []),
    testedMonths: take("tested", null),
  };
}
