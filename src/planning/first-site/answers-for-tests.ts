/** Any answers that a person could give, each as somebody would write it. */
import fc from "fast-check";
import type { FirstSiteAnswers, PersonAnswers, TankAnswers } from "./answers.ts";
import {
  ABILITIES,
  DOSINGS,
  HEATER_SWITCHES,
  LIVES,
  MESSAGES,
  MOST_HEATERS,
  MOST_PEOPLE,
  MOST_TANKS,
  MOST_WAVE_PUMPS,
  PLUGGINGS,
  REACHES,
  TOP_OFF_SWITCHES,
  TOP_OFFS,
  WHEREABOUTS,
} from "./answers.ts";

const orUsual = (written: fc.Arbitrary<string>): fc.Arbitrary<string | null> =>
  fc.option(written, { nil: null, freq: 2 });

function amount(least: number, most: number, units: readonly string[]): fc.Arbitrary<string> {
  return fc
    .tuple(fc.double({ min: least, max: most, noNaN: true }), fc.constantFrom(...units))
    .map(([value, unit]) => `${value.toPrecision(3).replace(/e\+?(\d+)/, "e$1")} ${unit}`);
}

const VOLUME_UNITS = ["L", "litres", "gal", "imp gal", "gallons"];
const FLOW_UNITS = ["L/h", "gal/h", "gph", "litres per hour"];
const clock = fc
  .integer({ min: 0, max: 1439 })
  .map((min) => `${String(Math.floor(min / 60)).padStart(2, "0")}:${String(min % 60).padStart(2, "0")}`);
const window = fc
  .tuple(clock, clock)
  .filter(([from, to]) => from !== to)
  .map(([from, to]) => `${from}-${to}`);
/** Words in any script, with all signs that a keyboard has and some that mean something in a site file. */
const anyName = fc.oneof(
  fc.string({ minLength: 1, maxLength: 30, unit: "grapheme" }),
  fc.constantFrom(
    "room",
    "hub",
    "none",
    "constructor",
    "a: b",
    "# no",
    "- x",
    "Riff & Söhne",
    "sump-to-display",
    "水槽",
    "{}",
  ),
);

const tank: fc.Arbitrary<TankAnswers> = fc.record({
  name: orUsual(anyName),
  volume: orUsual(amount(5, 5000, VOLUME_UNITS)),
  life: fc.constantFrom(...LIVES),
  temperature: orUsual(fc.oneof(amount(18, 29, ["degC", "C"]), amount(66, 84, ["degF", "F"]))),
  hasSump: fc.boolean(),
  sumpVolume: orUsual(amount(3, 2000, VOLUME_UNITS)),
  heaters: fc.integer({ min: 0, max: MOST_HEATERS }),
  heaterPower: orUsual(amount(10, 2000, ["W", "watts"])),
  heaterSwitch: fc.constantFrom(...HEATER_SWITCHES),
  returnFlow: orUsual(amount(50, 30_000, FLOW_UNITS)),
  wavePumps: fc.integer({ min: 0, max: MOST_WAVE_PUMPS }),
  waveFlow: orUsual(amount(50, 50_000, FLOW_UNITS)),
  hasSkimmer: fc.boolean(),
  hasLight: fc.boolean(),
  lightHours: orUsual(window),
  topOff: fc.constantFrom(...TOP_OFFS),
  topOffVolume: orUsual(amount(1, 2000, VOLUME_UNITS)),
  topOffSwitch: fc.constantFrom(...TOP_OFF_SWITCHES),
  dosing: fc.constantFrom(...DOSINGS),
});

const person: fc.Arbitrary<PersonAnswers> = fc.record({
  name: orUsual(anyName),
  reachedBy: fc.uniqueArray(fc.constantFrom(...REACHES), { minLength: 1 }),
  asleep: orUsual(window),
  whereabouts: fc.constantFrom(...WHEREABOUTS),
  travel: orUsual(amount(1, 600, ["min", "minutes"])),
  can: fc.constantFrom(...ABILITIES),
});

export const anyAnswers: fc.Arbitrary<FirstSiteAnswers> = fc.record({
  place: orUsual(anyName),
  zone: orUsual(fc.constantFrom("Europe/London", "America/New_York", "Asia/Tokyo", "Australia/Perth")),
  tanks: fc.array(tank, { minLength: 1, maxLength: MOST_TANKS }),
  plugging: fc.constantFrom(...PLUGGINGS),
  mains: orUsual(amount(100, 240, ["V", "volts"])),
  airBattery: fc.boolean(),
  routerBattery: fc.boolean(),
  hub: fc.boolean(),
  leakSensor: fc.boolean(),
  messages: fc.constantFrom(...MESSAGES),
  silenceWatch: fc.boolean(),
  people: fc.array(person, { minLength: 1, maxLength: MOST_PEOPLE }),
  away: orUsual(
    amount(1, 60, ["days", "d", "weeks"]).filter((text) => !text.endsWith("weeks") || Number.parseFloat(text) < 50),
  ),
});
