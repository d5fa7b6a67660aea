/** The sheet for the person with the key: whom to call, what to look at, at most five acts, what never to do. One page. */
import { type DrillResult, type Fault, faultId, faultsOf, type RehearsalReport } from "../../drills/index.ts";
import type { Person, Site, Skill } from "../../site/index.ts";
import { ACT_KINDS, type ActKind } from "./key-holder-acts.ts";
import type { KeyHolderAct, KeyHolderSheet } from "./types.ts";
import { windowsWords } from "./words.ts";

const MOST_ACTS = 5;
const MOST_CALLS = 4;
/** Where no rule tells, a tank this far from what it holds is worth a call, °C. */
const USUAL_SPAN_C = 1.5;

export function keyHolderSheet(site: Site, person: Person, report: RehearsalReport | null): KeyHolderSheet {
  return {
    person: person.id,
    helps: !person.can.includes("everything"),
    calls: callsOf(site, person),
    systems: site.systems.map(({ id, room, bodies }) => {
      const own = site.bodies.filter((body) => bodies.includes(body.id));
      return {
        system: id,
        room,
        ...limitsOf(site, bodies),
        vessels: own
          .filter(({ role, holds }) => (role === "reservoir" || role === "container") && holds.kind === "fresh")
          .map(({ id: body, holds }) => ({ body, holds: holds.kind })),
        pumps: site.devices
          .filter(({ system, kind }) => system === id && kind === "return-pump")
          .map((pump) => pump.id),
      };
    }),
    looks: looksAt(site),
    acts: actsOf(site, person, report),
    never: neverDo(site),
  };
}

function callsOf(site: Site, person: Person): KeyHolderSheet["calls"] {
  const ladder = site.ladder.map((step) => step.person);
  const able = site.people.filter(({ can }) => can.includes("everything")).map(({ id }) => id);
  const order = [...new Set([...ladder, ...able])].filter((id) => id !== person.id);
  return site.people
    .filter(({ id }) => order.includes(id))
    .toSorted((a, b) => order.indexOf(a.id) - order.indexOf(b.id))
    .slice(0, MOST_CALLS)
    .map(({ id, busy, travelMin }) => ({ person: id, notAt: windowsWords(busy), travelMin }));
}

/** What the notices call too cold and too warm; where none does, a span about what the water is held at. */
function limitsOf(
  site: Site,
  bodies: readonly string[],
): { readonly lowC: number | null; readonly highC: number | null } {
  const probes = new Set(
    site.sensors.filter(({ measures, at }) => measures === "temperature" && bodies.includes(at)).map(({ id }) => id),
  );
  if (probes.size === 0) return { lowC: null, highC: null };
  const limits = site.rules
    .filter(({ notice }) => notice !== null)
    .flatMap(({ when }) => when.all)
    .filter(({ sensor }) => probes.has(sensor))
    .map(({ is }) => is);
  const above = limits.flatMap((is) => (is.op === "above" ? [is.value] : []));
  const below = limits.flatMap((is) => (is.op === "below" ? [is.value] : []));
  const held = site.bodies.flatMap(({ id, holds }) =>
    bodies.includes(id) && holds.kind === "salt" ? [holds.temperatureC] : [],
  );
  const usualC = held[0] ?? null;
  return {
    highC: above.length > 0 ? Math.min(...above) : usualC === null ? null : usualC + USUAL_SPAN_C,
    lowC: below.length > 0 ? Math.max(...below) : usualC === null ? null : usualC - USUAL_SPAN_C,
  };
}

function looksAt(site: Site): readonly string[] {
  const hasFish = site.bodies.some(({ livestock }) => livestock.fishG > 0);
  return [
    "Look at the water: it is clear, and every pump hums.",
    "Look at the floor, under the tanks too: it is dry.",
    "Read each thermometer and write it down.",
    hasFish
      ? "Look for the fish: they swim, and none gasps at the surface."
      : "Look at the animals: they stand open as before.",
    "Send one photo of each tank.",
  ];
}

function neverDo(site: Site): readonly string[] {
  const holds = new Set(site.bodies.map((body) => body.holds.kind));
  const has = (kind: string) => site.devices.some((device) => device.kind === kind);
  return [
    "touch a plug with wet hands, or a plug or strip that is wet",
    "put a hand into the water",
    holds.has("limewater") || holds.has("solution")
      ? "open, move or fill the dosing and lime vessels: they burn skin and eyes"
      : "add anything from a bottle, or tap water",
    has("calcium-reactor") ? "open the cabinet with the gas cylinder, or stay where it hisses" : "change a setting",
    "touch corals, or an animal that you do not know",
    "leave a hose running",
  ];
}

function able(person: Person, needs: readonly Skill[]): boolean {
  return person.can.includes("everything") || needs.some((skill) => person.can.includes(skill));
}

interface Gathered {
  readonly kind: ActKind;
  readonly parts: Set<string>;
  haveMin: number | null;
}

/** The acts that rehearsed faults may ask of this person, those with the least time first. */
function actsOf(site: Site, person: Person, report: RehearsalReport | null): readonly KeyHolderAct[] {
  const kinds = ACT_KINDS.filter(({ needs }) => able(person, needs));
  const gathered = new Map<ActKind, Gathered>();
  for (const { fault, haveMin } of asked(site, report)) {
    const device = site.devices.find(({ id }) => id === fault.part);
    const kind = kinds.find((one) => one.fits(fault, device));
    if (kind === undefined) continue;
    const known = gathered.get(kind) ?? { kind, parts: new Set<string>(), haveMin: null };
    known.parts.add(fault.part);
    if (haveMin !== null) known.haveMin = Math.min(haveMin, known.haveMin ?? Number.POSITIVE_INFINITY);
    gathered.set(kind, known);
  }
  return [...gathered.values()]
    .toSorted((a, b) => (a.haveMin ?? Number.MAX_VALUE) - (b.haveMin ?? Number.MAX_VALUE))
    .slice(0, MOST_ACTS)
    .map(({ kind, parts, haveMin }) => {
      const plugged = kind.plugs(site, [...parts]);
      return {
        see: kind.see,
        act: kind.act(site, [...parts]),
        plugs: site.devices.filter(({ id }) => plugged.includes(id)).map(({ id, on }) => ({ device: id, on })),
        haveMin,
      };
    });
}

interface Asked {
  readonly fault: Fault;
  readonly haveMin: number | null;
}

/** Faults that ask for a hand: by the drills where there are any, else all that the site may have. */
function asked(site: Site, report: RehearsalReport | null): readonly Asked[] {
  const faults = faultsOf(site);
  if (report === null) return faults.map((fault) => ({ fault, haveMin: null }));
  const byId = new Map(faults.map((fault) => [faultId(fault), fault]));
  return report.drills.flatMap((drill) => {
    const fault = byId.get(drill.faults.map(({ part, mode }) => `${part}.${mode}`).join("+"));
    if (fault === undefined || !asksForHand(drill)) return [];
    return [{ fault, haveMin: drill.last_useful ?? drill.minutes.harm_early }];
  });
}

function asksForHand({ verdict, minutes, floor_l }: DrillResult): boolean {
  return (
    (verdict === "handed over" || verdict === "late" || verdict === "unseen") &&
    (minutes.harm_early !== null || floor_l > 0)
  );
}
