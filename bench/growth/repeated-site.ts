/**
 * A site of so many systems of one kind, as an owner would write it: display, frag tray, sump and barrel, each system in a room
 * of its own with its own strip and hub. Every system is a little larger than the one before, or all thermostats and floats would
 * switch in the same instant and what one site costs more than many small ones would stay hidden.
 */
import { formatSiteError, loadSite, type Site } from "../../src/site/index.ts";

/** Bodies of water of one system. */
export const BODIES_A_SYSTEM = 4;
/** Most that one board carries: ten times a heater of 3.5 A. */
export const MOST_SYSTEMS = 10;

/** The site, checked as `slackwater check` does. */
export function repeatedSite(systems: number): Site {
  const { site, errors } = loadSite(repeatedSiteText(systems), `${systems} systems`);
  if (!site) throw new Error(errors.map((error) => formatSiteError(error)).join("\n"));
  return site;
}

/** The text of the site file. */
export function repeatedSiteText(systems: number): string {
  if (systems < 1 || systems > MOST_SYSTEMS) throw new Error(`${systems} systems; 1 to ${MOST_SYSTEMS} can be made`);
  const places = Array.from({ length: systems }, (_, place) => place + 1);
  const each = (lines: (place: number) => readonly string[]) => places.flatMap(lines);
  return [
    "site: Row of reefs",
    "zone: Europe/London",
    "rooms:",
    ...each((n) => [`  room-${n}: { air: 120 m3, holds: 20 degC, outside: temperate-coast }`]),
    "power:",
    "  circuits:",
    "    board: { limit: 63 A, trips-on-leak: none }",
    ...each((n) => [`    strip-${n}: { on: board, limit: 13 A, trips-on-leak: 30 mA }`]),
    "links:",
    "  router: { kind: local, on: board }",
    "  line: { kind: internet, via: router }",
    "hubs:",
    ...each((n) => [`  hub-${n}: { on: strip-${n}, sends-over: line }`]),
    "systems:",
    ...each(systemLines),
    "devices:",
    ...each(deviceLines),
    "sensors:",
    ...each((n) => [`  temp-${n}: { measures: temperature, in: display-${n}, hub: hub-${n} }`]),
    "rules:",
    ...each((n) => [
      `  too-warm-${n}: { hub: hub-${n}, when: { temp-${n}: above 27.5 degC, for: 15 min }, notice: urgent }`,
      `  too-cold-${n}: { hub: hub-${n}, when: { temp-${n}: below 24 degC, for: 30 min }, notice: urgent }`,
    ]),
    "people:",
    '  keeper: { reached-by: push, asleep: 23:00-06:30, travel: 20 min, can: everything, looks: [ "08:00", "19:00" ] }',
    "ladder: [ keeper ]",
  ].join("\n");
}

/** Litres of display and sump. */
function sizesL(n: number): { readonly displayL: number; readonly sumpL: number } {
  return { displayL: 290 + 13 * n, sumpL: 60 + 3 * n };
}

function systemLines(n: number): string[] {
  const { displayL, sumpL } = sizesL(n);
  const holds =
    "{ salt: 35 ppt, temperature: 25.5 degC, alkalinity: 8 dKH, calcium: 425 mg/L, magnesium: 1330 mg/L, nitrate: 8 mg/L }";
  return [
    `  reef-${n}:`,
    `    room: room-${n}`,
    "    bodies:",
    `      display-${n}: { volume: ${displayL} L, holds: ${holds}, livestock: { corals: soft, alkalinity-use: 0.3 dKH/d, fish: 120 g } }`,
    `      tray-${n}: { role: frag, volume: 70 L, holds: ${holds}, livestock: { corals: soft } }`,
    `      sump-${n}: { volume: ${sumpL} L, brim: ${sumpL + 40} L, holds: ${holds} }`,
    `      barrel-${n}: { volume: 100 L, holds: fresh }`,
    "    circulation:",
    `      - { from: sump-${n}, to: display-${n}, by: return-${n}, back-siphon: 12 L }`,
    `      - { from: sump-${n}, to: tray-${n}, by: tray-pump-${n}, back-siphon: 4 L }`,
  ];
}

function deviceLines(n: number): string[] {
  const { sumpL } = sizesL(n);
  const device = (name: string, what: string) => `  ${name}-${n}: { ${what}, on: strip-${n} }`;
  return [
    device("heater", `kind: heater, power: 400 W, in: sump-${n}, own-thermostat: 25.5 degC`),
    device("return", `kind: return-pump, flow: 2000 L/h, power: 30 W, in: sump-${n}`),
    device("tray-pump", `kind: return-pump, flow: 400 L/h, power: 10 W, in: sump-${n}`),
    device("wave", `kind: wave-pump, flow: 4000 L/h, power: 12 W, in: display-${n}`),
    device("skimmer", `kind: skimmer, flow: 700 L/h, power: 15 W, in: sump-${n}`),
    device("lamp", `kind: light, power: 110 W, par: 120 PAR, in: display-${n}, schedule: "10:00-20:00"`),
    device("tray-lamp", `kind: light, power: 40 W, par: 120 PAR, in: tray-${n}, schedule: "10:00-20:00"`),
    device(
      "top-off",
      `kind: top-off, flow: 60 L/h, in: sump-${n}, from: barrel-${n}, own-float: { fills-below: ${sumpL - 1} L, stops-at: ${sumpL} L }, can-siphon: no`,
    ),
    device("feeder", `kind: feeder, in: display-${n}, amount: 2 g/d, holds: 60 g`),
  ];
}
