/** Everything around the water of a first site file: power, links, what measures and tells, people, absences. */
import { inline, type Piece, piece } from "./pieces.ts";
import { type PersonPlan, type Plan, printable, type TankPlan } from "./plan.ts";
import { breakerA } from "./trade-rules.ts";
import { tidy } from "./write-water.ts";

/** What the devices on each circuit draw together, A. */
export type Loads = Readonly<Record<string, number>>;

const AIR_BATTERY_WH = 40;
const ROUTER_BATTERY_WH = 100;

export function powerPieces(plan: Plan, loads: Loads): readonly Piece[] {
  const { answers, mains, mainsV } = plan;
  const american = mainsV < 150;
  const house = american ? 15 : 16;
  const leak = american ? "5 mA" : "30 mA";
  const limit = (id: string, least: number): string => `${breakerA(loads[id] ?? 0, least, mainsV)} A`;
  const strong = (id: string, least: number): string =>
    breakerA(loads[id] ?? 0, least, mainsV) > least
      ? ` It carries ${limit(id, least)}, because what hangs on it draws ${Math.ceil(loads[id] ?? 0)} A together.`
      : "";
  const circuits =
    answers.plugging === "one-strip"
      ? [
          piece(
            4,
            `house: ${inline({ limit: limit("house", house), "trips-on-leak": leak })}`,
            `all sockets of the tanks stand behind one leakage breaker that opens at ${leak}.${strong("house", house)}`,
          ),
          piece(
            4,
            `${plan.strip}: ${inline({ on: "house", limit: limit(plan.strip, 13), "trips-on-leak": "none" })}`,
            `one strip holds every plug.${strong(plan.strip, 13)}`,
          ),
        ]
      : [
          piece(
            4,
            `${plan.ringA}: ${inline({ limit: limit(plan.ringA, house), "trips-on-leak": leak })}`,
            `each circuit has a leakage breaker of its own that opens at ${leak}; the return, the first heater and every second pump are on this one.${strong(plan.ringA, house)}`,
          ),
          piece(
            4,
            `${plan.ringB}: ${inline({ limit: limit(plan.ringB, house), "trips-on-leak": leak })}`,
            `the second heater, the other pumps, skimmer and light are on this one.${strong(plan.ringB, house)}`,
          ),
        ];
  return [
    piece(0, "power:"),
    piece(2, `mains: ${inline(mains.text)}`, null, { "power.mains": mains.field }),
    piece(2, "circuits:"),
    ...circuits,
    ...batteryPieces(plan),
  ];
}

function batteryPieces(plan: Plan): readonly Piece[] {
  const { airBattery, routerBattery, plugging } = plan.answers;
  if (!airBattery && !routerBattery) return [];
  const onB = plugging === "one-strip" ? plan.strip : plan.ringB;
  return [
    piece(2, "batteries:"),
    ...(airBattery
      ? plan.tanks.map((tank, index) =>
          piece(
            4,
            `${tank.airCells}: ${inline({ energy: `${AIR_BATTERY_WH} Wh`, power: "8 W", on: onB, feeds: [tank.air] })}`,
            index === 0 ? `an air pump's battery holds ${AIR_BATTERY_WH} Wh, and nobody has tried it yet.` : null,
          ),
        )
      : []),
    ...(routerBattery
      ? [
          piece(
            4,
            `${plan.routerBattery}: ${inline({ energy: `${ROUTER_BATTERY_WH} Wh`, on: aroundOf(plan) })}`,
            `the battery of the router holds ${ROUTER_BATTERY_WH} Wh${plan.hasHub ? ", carries the hub too" : ""}, and nobody has tried it yet.`,
          ),
        ]
      : []),
  ];
}

/** Where the router and the hub are plugged in when no battery stands between. */
const aroundOf = (plan: Plan): string => (plan.answers.plugging === "one-strip" ? plan.strip : plan.ringA);

export function linkPieces(plan: Plan): readonly Piece[] {
  const { routerBattery, messages } = plan.answers;
  if (!plan.hasHub && !routerBattery) return [];
  const on = routerBattery ? plan.routerBattery : plan.answers.plugging === "one-strip" ? "house" : plan.ringA;
  const ways = messages === "router" ? ["line"] : messages === "router-and-mobile" ? ["line", "mobile"] : [];
  return [
    piece(0, "links:"),
    piece(
      2,
      `router: ${inline({ kind: "local", on })}`,
      routerBattery ? null : "the router is on the same power as the tanks, and silent when that fails.",
    ),
    piece(2, `line: ${inline({ kind: "internet", via: "router" })}`),
    ...(messages === "router-and-mobile" ? [piece(2, `mobile: ${inline({ kind: "mobile" })}`)] : []),
    ...(plan.hasHub
      ? [
          piece(0, "hubs:"),
          piece(
            2,
            `hub: ${inline({ on: routerBattery ? plan.routerBattery : aroundOf(plan), "sends-over": ways, siren: messages === "beep" ? "yes" : null })}`,
            plan.hubIsImplied ? "there is a hub, because a heater or a top-off is switched by one." : null,
          ),
        ]
      : []),
  ];
}

/** Every tank has a probe where there is a hub; a leak sensor alone needs none. */
const hasProbes = (plan: Plan): boolean => plan.answers.hub || plan.hubIsImplied;

const needsFloat = (tank: TankPlan): boolean =>
  tank.answers.topOff !== "by-hand" && tank.answers.topOffSwitch === "hub";
const heatsByHub = (tank: TankPlan): boolean =>
  tank.heaters.length > 0 && tank.answers.heaterSwitch !== "own-thermostat";

export function sensorPieces(plan: Plan): readonly Piece[] {
  if (!plan.hasHub) return [];
  const probes = hasProbes(plan)
    ? plan.tanks.map((tank) => piece(2, `${tank.probe}: ${inline({ measures: "temperature", in: tank.display })}`))
    : [];
  const floats = plan.tanks
    .filter(needsFloat)
    .map((tank) => piece(2, `${tank.float}: ${inline({ measures: "float", in: tank.sump ?? tank.display })}`));
  const leak = plan.answers.leakSensor
    ? [
        piece(
          2,
          `${plan.leak}: ${inline({ measures: "leak", at: "room" })}`,
          "the leak sensor lies where the first water would come, and nobody has wetted it to try.",
        ),
      ]
    : [];
  return [piece(0, "sensors:"), ...probes, ...floats, ...leak];
}

const TOO_WARM_K = 2;
const TOO_COLD_K = 1.5;
const HOLD_K = 0.2;

export function rulePieces(plan: Plan): readonly Piece[] {
  if (!plan.hasHub) return [];
  const rule = (id: string, keys: Parameters<typeof inline>[0], assumes: string | null = null): Piece =>
    piece(2, `${id}: ${inline(keys)}`, assumes);
  const degC = (value: number): string => `${tidy(value)} degC`;
  const ofTank = (tank: TankPlan, index: number): readonly Piece[] => {
    const warm = tank.temperatureC;
    return [
      ...(heatsByHub(tank)
        ? [
            rule(
              tank.holdWarmth,
              {
                when: { [tank.probe]: `below ${degC(warm - HOLD_K)}` },
                do: Object.fromEntries(tank.heaters.map((id) => [id, "on"])),
                until: { [tank.probe]: `above ${degC(warm + HOLD_K)}` },
              },
              `the hub holds ${tank.called} within ${HOLD_K} K of ${tank.temperature.text}.`,
            ),
          ]
        : []),
      ...(hasProbes(plan)
        ? [
            rule(
              tank.tooWarm,
              { when: { [tank.probe]: `above ${degC(warm + TOO_WARM_K)}`, for: "10 min" }, notice: "urgent" },
              index === 0
                ? `the hub tells of ${TOO_WARM_K} K too much for ten minutes and of ${TOO_COLD_K} K too little for thirty.`
                : null,
            ),
            rule(tank.tooCold, {
              when: { [tank.probe]: `below ${degC(warm - TOO_COLD_K)}`, for: "30 min" },
              notice: "urgent",
            }),
          ]
        : []),
      ...(needsFloat(tank)
        ? [
            rule(
              tank.fillUp,
              { when: { [tank.float]: "dry" }, do: { [tank.topOff]: "on" }, until: { [tank.float]: "wet" } },
              `one float decides when the hub tops off ${tank.called}, and nothing limits how long.`,
            ),
          ]
        : []),
    ];
  };
  const leak = plan.answers.leakSensor
    ? [rule(plan.floorWet, { when: { [plan.leak]: "wet" }, notice: "urgent", says: "Water on the floor" })]
    : [];
  return [piece(0, "rules:"), ...plan.tanks.flatMap(ofTank), ...leak];
}

/** What someone can do who knows the plugs and the can, and no more. */
const SIMPLE_ACTS = ["unplug", "top-off", "mop", "call keeper"];

export function peoplePieces(plan: Plan): readonly Piece[] {
  const first = plan.people[0];
  const telling = plan.hasHub && plan.answers.silenceWatch && plan.answers.messages !== "beep";
  return [
    piece(0, "people:"),
    ...plan.people.flatMap((person) => personOf(plan, person)),
    ...(plan.people.length > 1
      ? [
          piece(
            0,
            `ladder: ${inline(plan.people.map(({ id }, index) => (index === 0 ? id : `after 15 min ${id}`)))}`,
            "whoever is told has a quarter of an hour before the next is told.",
          ),
        ]
      : []),
    ...(telling
      ? [
          piece(
            0,
            `silence-watch: ${inline({ after: "30 min", tells: first.id })}`,
            "what watches from outside tells the keeper after half an hour of silence.",
          ),
        ]
      : []),
  ];
}

function personOf(plan: Plan, person: PersonPlan): readonly Piece[] {
  const { id, answers } = person;
  const hears = plan.hasHub && plan.answers.messages === "beep" && answers.whereabouts !== "elsewhere";
  const can = { everything: ["everything"], simple: SIMPLE_ACTS, call: ["call keeper"] }[answers.can];
  const mark = (key: string, field: string): Record<string, string> => ({
    [`${id}.${key}`]: `${person.field}.${field}`,
  });
  const here = {
    "lives-here": {
      onSite: ["weekdays 18:00-08:00", "weekends"],
      looks: ["07:30", "20:30"],
      words: "is at home outside working hours and looks at the tanks at 07:30 and 20:30",
    },
    "works-here": {
      onSite: ["weekdays 08:00-16:30"],
      looks: ["weekdays 08:15", "weekdays 15:45"],
      words: "is there on weekdays from 08:00 to 16:30 and looks at the tanks at 08:15 and 15:45",
    },
    elsewhere: { onSite: [], looks: [], words: "comes only when called" },
  }[answers.whereabouts];
  return [
    piece(2, `${id}:`, `${printable(person.name.text)} ${here.words}.`, {
      [id]: `${person.field}.name`,
    }),
    piece(
      4,
      `reached-by: ${inline(hears ? [...answers.reachedBy, "siren"] : answers.reachedBy)}`,
      null,
      mark("reached-by", "reachedBy"),
    ),
    piece(4, `asleep: ${inline(person.asleep.text)}`, null, mark("asleep", "asleep")),
    ...(here.onSite.length === 0
      ? []
      : [piece(4, `on-site: ${inline(here.onSite)}`), piece(4, `looks: ${inline(here.looks)}`)]),
    piece(4, `travel: ${inline(person.travel.text)}`, null, mark("travel", "travel")),
    piece(4, `can: ${inline(can)}`),
  ];
}

export function circumstancePieces(plan: Plan): readonly Piece[] {
  const keeper = plan.people[0].id;
  const marks = { "away.horizon": plan.away.field, [`${keeper}.back-after`]: plan.away.field };
  return [
    piece(0, "circumstances:"),
    piece(2, `day: ${inline({ starts: "2026-05-13T11:00" })}`),
    piece(2, `night: ${inline({ starts: "2026-01-17T02:00" })}`),
    piece(
      2,
      "away:",
      `the longest usual absence begins on a hot Saturday in August, with reservoirs at 80 %, and ${printable(plan.people[0].name.text)} answers messages within four hours.`,
    ),
    piece(4, "starts: 2026-08-15T09:00"),
    piece(4, `horizon: ${inline(plan.away.text)}`, null, marks),
    piece(4, `away: ${inline({ [keeper]: { "back-after": plan.away.text, "replies-after": "4 h" } })}`),
    piece(4, "reservoirs: 80 %"),
  ];
}
