/**
 * Random places that somebody could own: one to three systems, each of one to five waters with pumps, weirs and stores, with
 * whatever devices serve them. Written as an owner would write them, so that what loads is what is tested.
 */
import fc from "fast-check";

const CLIMATES = ["temperate-coast", "temperate-inland", "continental", "subtropical", "tropical", "desert"];

/** What a system is made of, drawn at random. */
interface Shape {
  readonly displayL: number;
  readonly sumpL: number | null;
  readonly tray: boolean;
  readonly refugium: boolean;
  /** A third water that is pumped from the sump and runs back. */
  readonly cube: boolean;
  readonly lid: string;
  readonly salinity: number;
  readonly warmC: number;
  readonly alkalinityDKH: number;
  readonly nitrateMgL: number;
  readonly corals: string | null;
  readonly demandDKH: number;
  readonly fishG: number;
  readonly topOff: string;
  readonly alkalinitySalt: string | null;
  readonly calcium: boolean;
  readonly magnesium: boolean;
  readonly carbon: boolean;
  readonly change: boolean;
  readonly reactor: boolean;
  readonly skimmer: boolean;
  readonly chiller: boolean;
  readonly fan: boolean;
  readonly air: boolean;
  readonly light: boolean;
  readonly feeder: boolean;
  readonly hub: boolean;
  readonly battery: boolean;
  readonly canSiphon: boolean;
  readonly checkValve: boolean;
}

const shapes: fc.Arbitrary<Shape> = fc.record({
  displayL: fc.integer({ min: 40, max: 1500 }),
  sumpL: fc.option(fc.integer({ min: 30, max: 300 }), { freq: 3 }),
  tray: fc.boolean(),
  refugium: fc.boolean(),
  cube: fc.boolean(),
  lid: fc.constantFrom("open", "mesh", "lid"),
  salinity: fc.integer({ min: 31, max: 36 }),
  warmC: fc.integer({ min: 22, max: 27 }),
  alkalinityDKH: fc.integer({ min: 6, max: 11 }),
  nitrateMgL: fc.integer({ min: 1, max: 40 }),
  corals: fc.constantFrom("soft", "large-polyp", "small-polyp", "mixed", null),
  demandDKH: fc.integer({ min: 1, max: 30 }).map((tenths) => tenths / 10),
  fishG: fc.integer({ min: 0, max: 400 }),
  topOff: fc.constantFrom("fresh", "limewater", "line", "shared", "none"),
  alkalinitySalt: fc.constantFrom("bicarbonate", "carbonate", "hydroxide", null),
  calcium: fc.boolean(),
  magnesium: fc.boolean(),
  carbon: fc.boolean(),
  change: fc.boolean(),
  reactor: fc.boolean(),
  skimmer: fc.boolean(),
  chiller: fc.boolean(),
  fan: fc.boolean(),
  air: fc.boolean(),
  light: fc.boolean(),
  feeder: fc.boolean(),
  hub: fc.boolean(),
  battery: fc.boolean(),
  canSiphon: fc.boolean(),
  checkValve: fc.boolean(),
});

/** A whole site file. */
export const randomSites: fc.Arbitrary<string> = fc
  .record({
    shapes: fc.array(shapes, { minLength: 1, maxLength: 3 }),
    climate: fc.constantFrom(...CLIMATES),
    airM3: fc.integer({ min: 25, max: 300 }),
    holdsC: fc.integer({ min: 17, max: 24 }),
    people: fc.integer({ min: 0, max: 5 }),
    generator: fc.boolean(),
  })
  .map(({ shapes: drawn, climate, airM3, holdsC, people, generator }) =>
    [
      "site: Any",
      "zone: Europe/London",
      "rooms:",
      `  hall: { air: ${airM3} m3, holds: ${holdsC} degC, outside: ${climate}, people: ${people}, occupied: "08:00-20:00" }`,
      `  cellar: { air: ${Math.round(airM3 / 2)} m3, holds: ${holdsC - 3} degC, outside: ${climate} }`,
      "power:",
      "  circuits:",
      "    board: { limit: 63 A, trips-on-leak: none }",
      "    ring: { on: board, limit: 32 A, trips-on-leak: 30 mA, stays-open-after-cut: yes }",
      "    strip: { on: ring, limit: 16 A, trips-on-leak: none }",
      "  batteries:",
      `    cells: { energy: 60 Wh, power: 20 W, on: strip, feeds: ${drawn.some((one) => one.battery) ? "spare-air" : "router"} }`,
      ...(generator ? ["    generator: { kind: generator, energy: 8 kWh, power: 3 kW, feeds: router }"] : []),
      "links:",
      "  router: { kind: local, on: ring }",
      "  line: { kind: internet, via: router }",
      "hubs:",
      "  hub: { on: strip, sends-over: line }",
      "systems:",
      ...drawn.flatMap((shape, place) => systemLines(shape, "abc"[place], place)),
      "devices:",
      `  spare-air: { kind: air-pump, in: a-display, on: strip, spare: { last-tried: never } }`,
      ...drawn.flatMap((shape, place) => deviceLines(shape, "abc"[place])),
      "sensors:",
      ...drawn.flatMap((_, place) => sensorLines("abc"[place])),
      "rules:",
      ...drawn.flatMap((shape, place) => (shape.hub ? ruleLines(shape, "abc"[place]) : [])),
      "  wet: { hub: hub, when: { floor: wet }, notice: urgent }",
      "people:",
      "  keeper: { reached-by: push, travel: 30 min, can: everything }",
      "ladder: [ keeper ]",
    ].join("\n"),
  );

/** Where equipment stands. */
function mainOf({ sumpL }: Shape, id: string): string {
  return sumpL === null ? `${id}-display` : `${id}-sump`;
}

function systemLines(shape: Shape, id: string, place: number): string[] {
  const { displayL, sumpL, lid, salinity, warmC, alkalinityDKH, nitrateMgL, corals, demandDKH, fishG } = shape;
  const life = [
    ...(corals === null ? [] : [`corals: ${corals}, alkalinity-use: ${demandDKH} dKH/d`]),
    ...(fishG > 0 ? [`fish: ${fishG} g`] : []),
  ];
  const holds = `{ salt: ${salinity} ppt, temperature: ${warmC} degC, alkalinity: ${alkalinityDKH} dKH, nitrate: ${nitrateMgL} mg/L }`;
  const withSump = sumpL !== null;
  const can = (name: string, what: string) => `      ${id}-${name}: { volume: 4 L, holds: { ${what} } }`;
  return [
    `  ${id}:`,
    `    room: ${place === 2 ? "cellar" : "hall"}`,
    "    bodies:",
    `      ${id}-display: { role: display, volume: ${displayL} L, lid: ${lid}, holds: ${holds}${life.length > 0 ? `, livestock: { ${life.join(", ")} }` : ""} }`,
    ...(withSump
      ? [`      ${id}-sump: { volume: ${sumpL} L, brim: ${Math.round(1.5 * sumpL)} L, holds: ${holds} }`]
      : []),
    ...(withSump && shape.tray ? [`      ${id}-tray: { role: frag, volume: 60 L, holds: ${holds} }`] : []),
    ...(withSump && shape.cube ? [`      ${id}-cube: { role: display, volume: 50 L, holds: ${holds} }`] : []),
    ...(withSump && shape.refugium
      ? [`      ${id}-refugium: { role: refugium, volume: 50 L, holds: ${holds}, livestock: { plants: 30 g } }`]
      : []),
    ...(place === 0 || shape.topOff === "fresh" ? [`      ${id}-barrel: { volume: 80 L, holds: fresh }`] : []),
    ...(shape.topOff === "limewater" ? [`      ${id}-lime: { volume: 50 L, intake: 0 L, holds: limewater }`] : []),
    ...(shape.alkalinitySalt === null
      ? []
      : [can("alkalinity-can", `solution: alkalinity, salt: ${shape.alkalinitySalt}, strength: 1 meq/mL`)]),
    ...(shape.calcium ? [can("calcium-can", "solution: calcium, strength: 1 mmol/mL")] : []),
    ...(shape.magnesium ? [can("magnesium-can", "solution: magnesium, strength: 1 mmol/mL")] : []),
    ...(shape.carbon ? [can("carbon-can", "solution: carbon, strength: 0.1 g/mL")] : []),
    ...(shape.change ? [`      ${id}-new: { role: reservoir, volume: 120 L, holds: { salt: 35 ppt } }`] : []),
    ...(withSump ? circulationLines(shape, id) : []),
  ];
}

function circulationLines({ tray, cube, refugium, checkValve }: Shape, id: string): string[] {
  return [
    "    circulation:",
    `      - { from: ${id}-sump, to: ${id}-display, by: ${id}-return, check-valve: ${checkValve ? "yes" : "no"} }`,
    ...(tray ? [`      - { from: ${id}-sump, to: ${id}-tray, by: ${id}-tray-pump }`] : []),
    ...(cube ? [`      - { from: ${id}-sump, to: ${id}-cube, by: ${id}-cube-pump, spare-drain: 500 L/h }`] : []),
    ...(refugium
      ? [`      - { from: ${id}-display, to: ${id}-refugium }`, `      - { from: ${id}-refugium, to: ${id}-sump }`]
      : []),
  ];
}

function deviceLines(shape: Shape, id: string): string[] {
  const { sumpL, tray, cube, warmC, fishG } = shape;
  const main = mainOf(shape, id);
  const withSump = sumpL !== null;
  const by = shape.hub ? ", by: hub" : "";
  const device = (name: string, what: string) => `  ${id}-${name}: { kind: ${what}, on: strip }`;
  const doser = (what: string, mLPerDay: number) =>
    device(`${what}-doser`, `doser, in: ${main}, from: ${id}-${what}-can, amount: ${mLPerDay} mL/d`);
  return [
    device("heater", `heater, in: ${main}, own-thermostat: ${warmC} degC${by}`),
    ...(withSump ? [device("return", `return-pump, in: ${id}-sump`)] : []),
    ...(withSump && tray ? [device("tray-pump", `return-pump, in: ${id}-sump, flow: 300 L/h`)] : []),
    ...(withSump && cube ? [device("cube-pump", `return-pump, in: ${id}-sump, flow: 200 L/h`)] : []),
    device("wave", `wave-pump, in: ${id}-display`),
    ...topOffLines(shape, id, main),
    ...(shape.alkalinitySalt === null ? [] : [doser("alkalinity", 40)]),
    ...(shape.calcium ? [doser("calcium", 20)] : []),
    ...(shape.magnesium ? [doser("magnesium", 5)] : []),
    ...(shape.carbon ? [doser("carbon", 3)] : []),
    ...(shape.change ? [device("change", `water-change, in: ${main}, from: ${id}-new, amount: 8 L/d`)] : []),
    ...(shape.reactor ? [device("reactor", `calcium-reactor, in: ${main}${by}`)] : []),
    ...(shape.skimmer ? [device("skimmer", `skimmer, in: ${main}`)] : []),
    ...(shape.chiller ? [device("chiller", `chiller, in: ${main}, own-thermostat: ${warmC + 2} degC`)] : []),
    ...(shape.fan ? [device("fan", `fan, in: ${id}-display, own-thermostat: ${warmC + 1} degC`)] : []),
    ...(shape.air ? [device("air", `air-pump, in: ${id}-display`)] : []),
    ...(shape.light ? [device("lamp", `light, in: ${id}-display, schedule: "09:00-19:00"`)] : []),
    ...(shape.feeder && fishG > 0 ? [device("feeder", `feeder, in: ${id}-display, amount: 2 g/d, holds: 60 g`)] : []),
  ];
}

function topOffLines({ topOff, displayL, sumpL, canSiphon }: Shape, id: string, main: string): string[] {
  if (topOff === "none") return [];
  const normalL = sumpL ?? displayL;
  const float = `own-float: { fills-below: ${(0.985 * normalL).toFixed(2)} L, stops-at: ${normalL} L }`;
  const siphon = `can-siphon: ${canSiphon ? "yes" : "no"}`;
  if (topOff === "line") return [`  ${id}-top-off: { kind: refill-valve, in: ${main}, on: strip, ${float} }`];
  const from = topOff === "limewater" ? `${id}-lime` : topOff === "shared" ? "a-barrel" : `${id}-barrel`;
  return [`  ${id}-top-off: { kind: top-off, in: ${main}, from: ${from}, on: strip, ${siphon}, ${float} }`];
}

function sensorLines(id: string): string[] {
  return [
    `  ${id}-temp: { measures: temperature, in: ${id}-display, hub: hub }`,
    `  ${id}-ph: { measures: ph, in: ${id}-display, hub: hub }`,
    ...(id === "a" ? ["  floor: { measures: leak, at: hall, hub: hub }"] : []),
  ];
}

function ruleLines({ warmC, reactor }: Shape, id: string): string[] {
  return [
    `  ${id}-warm: { hub: hub, when: { ${id}-temp: above ${warmC + 2} degC }, do: { ${id}-heater: off }, until: { ${id}-temp: below ${warmC + 1} degC }, notice: urgent }`,
    ...(reactor
      ? [
          `  ${id}-acid: { hub: hub, when: { ${id}-ph: below 7.7 }, do: { ${id}-reactor: off }, until: { ${id}-ph: above 7.9 }, notice: soon }`,
        ]
      : []),
  ];
}
