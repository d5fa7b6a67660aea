/** Remedies about word and people: hubs that live, messages that leave, somebody who reads them and comes. */
import { formatMinuteOfDay, formatWindow, parseLocalTime, windowHolds } from "../../foundation/index.ts";
import type { Hub, LadderStep, Person, Site, SiteEdit, TimeWindow } from "../../site/index.ts";
import { circuitsAbove, type Finding, isMainsCut } from "./finding.ts";
import { circuitBehind } from "./loads.ts";
import { hubFor, hubForRoom, onSocket, rulesOn, tells } from "./places.ts";
import type { Draft } from "./remedy.ts";
import { canTell, hubCircuits, onBattery, wantsWord } from "./telling.ts";
import { ruleEdit, sensorEdit } from "./watch-edits.ts";
import { freeName, list, set } from "./writing.ts";

const BATTERY = "Charge batteries where a fire would not block the way out, and fuse packs at the terminal.";

export function messageRemedies(site: Site): readonly Draft[] {
  return [
    ...site.rooms.flatMap(({ id }) => [...leakWatch(site, id), ...leakStops(site, id)]),
    ...site.hubs.flatMap((hub) => [...hubBattery(site, hub), ...siren(site, hub)]),
    ...mobileLink(site),
    ...silenceWatch(site),
    ...calls(site),
    ...anotherPerson(site),
    ...lookHour(site),
  ];
}

function leakSensors(site: Site, room: string) {
  return site.sensors.filter(
    ({ measures, at }) =>
      measures === "leak" && (at === room || site.bodies.some((body) => body.id === at && body.room === room)),
  );
}

function wets(site: Site, finding: Finding, room: string): boolean {
  if (finding.drill.floor_l <= 0) return false;
  const body = site.bodies.find(({ id }) => id === finding.part);
  const system = finding.drill.system;
  return body !== undefined ? body.room === room : site.systems.some((one) => one.id === system && one.room === room);
}

function leakWatch(site: Site, room: string): readonly Draft[] {
  const sensors = leakSensors(site, room);
  if (sensors.some(({ id }) => tells(site, id)) || !site.systems.some((system) => system.room === room)) return [];
  const there = sensors.find(({ hub }) => hub !== null);
  const hub = there === undefined ? hubForRoom(site, room) : (site.hubs.find(({ id }) => id === there.hub) ?? null);
  const name = there?.id ?? freeName(site, `${room}-leak`);
  return [
    {
      kind: there === undefined ? "leak-watch" : "leak-notice",
      of: room,
      title:
        there === undefined
          ? `A leak sensor on the floor of ${room} with a notice`
          : `A notice when ${there.id} is wet`,
      parts: [room, ...(there === undefined ? [] : [there.id])],
      edits: [
        ...(there === undefined ? [sensorEdit(name, hub, { measures: "leak", at: room, type: "rope" })] : []),
        ruleEdit(freeName(site, `${room}-wet`), hub, {
          when: { [name]: "wet", for: "30 s" },
          notice: "urgent",
          says: `Water on the floor of ${room}`,
        }),
      ],
      why: "Water on the floor is heard of by the neighbour below, or by nobody.",
      needs: `A rope sensor along the stands in ${room}, wetted as a trial now and every three months.`,
      meets: (finding) => wets(site, finding, room) && finding.untold && canTell(site, finding, hub),
    },
  ];
}

/** A leak that stops by itself what feeds it: the return pump and whatever runs in. */
function leakStops(site: Site, room: string): readonly Draft[] {
  const sensor = leakSensors(site, room).find(({ id }) => tells(site, id));
  const rule = sensor === undefined ? undefined : rulesOn(site, sensor.id).find(({ notice }) => notice !== null);
  const hub = rule === undefined ? hubForRoom(site, room) : (site.hubs.find(({ id }) => id === rule.hub) ?? null);
  const systems = site.systems.filter((system) => system.room === room).map(({ id }) => id);
  const stopped = site.devices.filter(
    (device) =>
      systems.includes(device.system) &&
      ["return-pump", "top-off", "refill-valve"].includes(device.kind) &&
      device.spare === null &&
      hub !== null &&
      (device.by === null || device.by === hub.id) &&
      !(rule?.act.some((act) => act.device === device.id) ?? false),
  );
  if (hub === null || stopped.length === 0) return [];
  const name = freeName(site, `${room}-leak-switch`);
  const edits: readonly SiteEdit[] =
    rule !== undefined
      ? [
          ...stopped.map(({ id }) => set(["rules", rule.id, "do", id], "off")),
          ...(rule.atMostS === null && rule.until === null ? [set(["rules", rule.id, "at-most"], "12 h")] : []),
        ]
      : [
          sensorEdit(name, hub, { measures: "leak", at: room, type: "rope" }),
          ruleEdit(freeName(site, `${room}-wet-stops`), hub, {
            when: { [name]: "wet", for: "30 s" },
            acts: stopped,
            atMost: "12 h",
            notice: "urgent",
            says: `Water on the floor of ${room}`,
          }),
        ];
  return [
    {
      kind: "leak-stops",
      of: room,
      title: `A leak sensor in ${room} that stops ${stopped.map(({ id }) => id).join(", ")}`,
      parts: [room, ...stopped.map(({ id }) => id)],
      edits: [...stopped.flatMap((device) => onSocket(site, device, hub)), ...edits],
      why: "A flood of minutes is over before anybody comes; what feeds it must stop by itself.",
      needs:
        "Switched sockets for the pumps that stay on without the hub, for top-offs that fall off; the sensor wetted as a trial now and every three months.",
      caution: "Keep sockets above the highest water, and let cords hang lower than their sockets.",
      times: stopped.length,
      meets: (finding) =>
        wets(site, finding, room) &&
        canTell(site, finding, hub) &&
        (PUMPED_OUT.includes(finding.mode) || finding.untold),
    },
  ];
}

/** Water that the return pump throws out slowly enough for a switch to matter. */
const PUMPED_OUT = ["union-sprays", "drain-blocked", "drain-narrowed"];

const HUB_WH = 120;
const CARRIED_W = 60;

function hubBattery(site: Site, hub: Hub): readonly Draft[] {
  if (hub.on === null || onBattery(site, hub)) return [];
  const links = neededLinks(site, hub).filter((link) => link.on !== null && !onBattery(site, link));
  const circuit = circuitBehind(site, hub.on) ?? site.circuits[0].id;
  const watched = site.sensors.find(
    ({ measures, at, hub: by, id }) => measures === "mains" && at === circuit && by === hub.id && tells(site, id),
  );
  const name = freeName(site, `${circuit}-live`);
  const needs = circuitsAbove(site, circuit);
  const names = [hub.id, ...links.map(({ id }) => id)];
  return [
    {
      kind: "hub-battery",
      of: hub.id,
      title: `A battery for ${names.join(" and ")}, and a notice when ${circuit} is dead`,
      parts: [...names, circuit],
      edits: [
        set(["power", "batteries", freeName(site, `${hub.id}-battery`)], {
          energy: `${HUB_WH * names.length} Wh`,
          power: `${CARRIED_W * names.length} W`,
          on: circuit,
          feeds: list(names),
          "last-tried": "1 month",
        }),
        ...(watched === undefined
          ? [
              sensorEdit(name, hub, { measures: "mains", at: circuit }),
              ruleEdit(freeName(site, `${circuit}-dead`), hub, {
                when: { [name]: "absent", for: "1 min" },
                notice: "urgent",
                says: `${circuit} has no power`,
              }),
            ]
          : []),
      ],
      why: "What must tell that the power is gone can not hang on the same power.",
      needs:
        "A battery that takes over by itself, tried every month with the plug pulled, and this kept up; a relay on the circuit that the hub reads.",
      caution: BATTERY,
      meets: (finding) => {
        const lost = finding.lost;
        const dark = isMainsCut(finding) || (lost !== null && needs.includes(lost));
        return dark && finding.stressor !== null && wantsWord(finding);
      },
    },
  ];
}

/** Links in the house through which the hub's ways out lead. */
function neededLinks(site: Site, hub: Hub) {
  const chain = (id: string | null): readonly string[] => {
    const link = site.links.find((one) => one.id === id);
    return link === undefined ? [] : [link.id, ...chain(link.via)];
  };
  const ids = new Set(hub.sendsOver.flatMap(chain));
  return site.links.filter(({ id }) => ids.has(id));
}

/** A siren helps where somebody who can hear it is in the building. */
function siren(site: Site, hub: Hub): readonly Draft[] {
  const inside = site.people.filter(({ onSite }) => onSite.length > 0);
  if (hub.siren || inside.length === 0) return [];
  return [
    {
      kind: "siren",
      of: hub.id,
      title: `A siren at ${hub.id} for those who are in the building`,
      parts: [hub.id, ...inside.map(({ id }) => id)],
      edits: [
        set(["hubs", hub.id, "siren"], "yes"),
        ...inside
          .filter(({ reachedBy }) => !reachedBy.includes("siren"))
          .map((person) => set(["people", person.id, "reached-by"], list([...person.reachedBy, "siren"]))),
      ],
      why: "It needs no line and no service, and reaches whoever is near.",
      needs: "A buzzer that is heard through doors, and people who know what it means; tried every three months.",
      meets: (finding) =>
        canTell(site, finding, hub) &&
        finding.systems.some((system) => hubFor(site, system)?.id === hub.id) &&
        comesInTime(finding, SIREN_MIN) &&
        isInside(site, finding),
    },
  ];
}

const LINK_FAULTS = ["hangs", "dies", "line-down-4-h", "line-down-3-d", "service-down"];

function mobileLink(site: Site): readonly Draft[] {
  if (site.hubs.length === 0 || site.links.some(({ kind }) => kind === "mobile")) return [];
  const name = freeName(site, "mobile");
  const isLink = (part: string) => part === "*" || site.links.some(({ id }) => id === part);
  return [
    {
      kind: "mobile-link",
      of: "site",
      title: "A mobile link besides the line",
      parts: [...site.hubs.map(({ id }) => id), ...site.links.map(({ id }) => id)],
      edits: [
        ...impliedLinks(site),
        set(["links", name], { kind: "mobile" }),
        ...site.hubs.map((hub) => set(["hubs", hub.id, "sends-over"], [...hub.sendsOver, name])),
      ],
      why: "Router, line and message service fail together as one way; a radio does not share them.",
      needs:
        "A radio modem at the hub with a card of its own, a trial message over it alone, and another one every month.",
      // A second way hides that the first is dead: only what fails after it is better for it.
      meets: (finding) =>
        (finding.drill.faults.length === 2 &&
          finding.drill.faults.some(({ part, mode }) => isLink(part) && LINK_FAULTS.includes(mode))) ||
        (finding.drill.minutes.noticed === null && finding.drill.verdict === "late"),
    },
  ];
}

/** Router and line of a site that describes none have to be written before another can stand beside them. */
function impliedLinks(site: Site): readonly SiteEdit[] {
  if (site.links.length !== 2) return [];
  const [router, line] = site.links;
  if (
    router.kind !== "local" ||
    line.kind !== "internet" ||
    line.via !== router.id ||
    router.on !== site.circuits[0].id
  )
    return [];
  if (router.id !== "router" || line.id !== "line" || router.via !== null || line.on !== null) return [];
  return [set(["links", router.id, "kind"], "local"), set(["links", line.id, "via"], router.id)];
}

const SILENT_MIN = 20;
const MUTE_HUB = ["hangs", "dies"];

function silenceWatch(site: Site): readonly Draft[] {
  const told = site.ladder.slice(0, 2).map(({ person }) => person);
  if (site.silenceWatch !== null || site.hubs.length === 0 || told.length === 0) return [];
  const needs = site.hubs.flatMap((hub) => [
    ...hubCircuits(site, hub),
    ...neededLinks(site, hub)
      .filter((link) => !onBattery(site, link))
      .flatMap(({ on }) => circuitsAbove(site, on)),
  ]);
  return [
    {
      kind: "silence-watch",
      of: "site",
      title: `A watch outside the house that tells ${told.join(" and ")} when a hub falls silent`,
      parts: [...site.hubs.map(({ id }) => id), ...told],
      edits: [set(["silence-watch"], { after: `${SILENT_MIN} min`, tells: list(told), tested: "1 month" })],
      why: "When hub, router or power die, silence is the only sign, and it must be heard where they cannot die with them.",
      needs:
        "A service elsewhere that expects a word from every hub, tried every month by unplugging one, and this kept up.",
      meets: (finding) => {
        const lost = finding.lost;
        const silent =
          (site.hubs.some(({ id }) => id === finding.part) && MUTE_HUB.includes(finding.mode)) ||
          site.links.some(({ id }) => id === finding.part) ||
          finding.mode === "service-down" ||
          finding.mode === "surges" ||
          isMainsCut(finding) ||
          (lost !== null && needs.includes(lost));
        return silent && wantsWord(finding);
      },
    },
  ];
}

/** Whether somebody is in the building when the notice is raised. */
function isInside(site: Site, { closed, drill }: Finding): boolean {
  const circumstance = site.circumstances.find(({ id }) => id === drill.circumstance);
  const start = parseLocalTime(circumstance?.startsLocal ?? "");
  if (closed || !start.ok) return false;
  const minute = start.value / 60 + (drill.minutes.noticed ?? 0);
  const day = Math.floor(minute / MINUTES_A_DAY);
  const away = new Set(circumstance?.away.map(({ person }) => person));
  return site.people.some(
    ({ id, onSite }) =>
      !away.has(id) &&
      onSite.some((window) => windowHolds(window, (day + EPOCH_DAY) % 7, minute - day * MINUTES_A_DAY)),
  );
}

const MINUTES_A_DAY = 1440;
/** 1 January 1970 was a Thursday; days count from Monday. */
const EPOCH_DAY = 3;

/** From a notice to hands on the fault, min: by ear in the building; woken, dressed and on the way; by the second on the ladder. */
const SIREN_MIN = 10;
const CALLED_MIN = 30;
const SECOND_MIN = 60;

/** A notice left, was read too late, and there is time for somebody who is quicker. */
function comesInTime(finding: Finding, minutes: number): boolean {
  const { verdict, last_useful: useful, minutes: at } = finding.drill;
  return at.noticed !== null && verdict === "late" && useful !== null && useful > at.noticed + minutes;
}

function calls(site: Site): readonly Draft[] {
  const first = site.people.find(({ id }) => id === site.ladder[0]?.person);
  if (first === undefined || first.reachedBy.includes("call")) return [];
  return [
    {
      kind: "calls",
      of: first.id,
      title: `Urgent notices also call ${first.id}`,
      parts: [first.id],
      edits: [set(["people", first.id, "reached-by"], list([...first.reachedBy, "call"]))],
      why: "Only a call wakes a sleeper.",
      needs: "A service that rings the phone, a number that rings through silence, and a trial at night.",
      meets: (finding) =>
        comesInTime(finding, CALLED_MIN + first.travelMin) ||
        (finding.untold && finding.drill.minutes.noticed !== null),
    },
  ];
}

function isReachable(person: Person): boolean {
  return person.reachedBy.includes("call") && person.busy.length === 0 && person.travelMin <= 30;
}

function canEnd({ can }: Person): boolean {
  return can.includes("everything") || can.includes("repair");
}

function steps(ladder: readonly LadderStep[]): readonly string[] {
  return ladder.map(({ person, afterMin }, index) =>
    index === 0 && afterMin === 0 ? person : `after ${afterMin} min ${person}`,
  );
}

function anotherPerson(site: Site): readonly Draft[] {
  const [first, ...rest] = site.ladder;
  if (first === undefined) return [];
  const others = site.people.filter(({ id }) => rest.some(({ person }) => person === id));
  if (others.some((person) => isReachable(person) && canEnd(person))) return [];
  const name = freeName(site, "second-keeper");
  const ladder: readonly LadderStep[] = [first, { person: name, afterMin: 10 }, ...rest];
  return [
    {
      kind: "another-person",
      of: "site",
      title: "A second person with a key and the skill, who can be called at any hour",
      parts: site.ladder.map(({ person }) => person),
      edits: [
        set(["people", name], {
          "reached-by": ["push", "call"],
          asleep: "23:00-06:30",
          travel: "15 min",
          can: "everything",
          tested: "1 month",
        }),
        set(["ladder"], steps(ladder)),
      ],
      why: "Keepers fly, teach, sleep and fall ill; tanks do not wait.",
      needs:
        "Somebody near with a key, a page at the tank with pictures, an hour together, and a trial message every month that is answered.",
      meets: (finding) =>
        comesInTime(finding, SECOND_MIN) || (finding.untold && finding.drill.minutes.noticed !== null),
    },
  ];
}

const LOOK_AT_MIN = 10 * 60;
const WEEKEND = [5, 6];
const LATER_MIN = 480;

function lookHour(site: Site): readonly Draft[] {
  const person = site.people.find(({ id }) => id === site.ladder[0]?.person);
  if (person === undefined) return [];
  const looked = new Set(site.people.flatMap(({ looks }) => looks.flatMap(({ days }) => days)));
  const days = looked.size === 0 ? [0, 1, 2, 3, 4, 5, 6] : WEEKEND.filter((day) => !looked.has(day));
  if (days.length === 0) return [];
  const moment = (at: { readonly days: readonly number[]; readonly atMin: number }) =>
    formatWindow({ days: at.days, fromMin: at.atMin, toMin: at.atMin + 1 } satisfies TimeWindow).replace(
      /-\d\d:\d\d$/,
      "",
    );
  const looks = [...person.looks.map(moment), moment({ days, atMin: LOOK_AT_MIN })];
  return [
    {
      kind: "look-hour",
      of: person.id,
      title: `${person.id} also looks in ${days.length === 7 ? "every day" : "at weekends"} at ${formatMinuteOfDay(LOOK_AT_MIN)}`,
      parts: [person.id],
      edits: [set(["people", person.id, "looks"], list(looks))],
      why: "What no sensor sees, an eye does, if it comes in time.",
      needs: "A way to the tanks and five minutes, each time, kept up.",
      meets: (finding) =>
        finding.drill.verdict === "unseen" &&
        !finding.closed &&
        finding.stressor !== null &&
        (finding.drill.last_useful ?? 0) > LATER_MIN,
    },
  ];
}
