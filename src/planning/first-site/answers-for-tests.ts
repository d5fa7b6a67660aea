/** Any answers that a person could give, each as somebody would write it. */
import fc from "fast-check";
import type { FirstSiteAnswers, PersonAnswers, TankAnswers } from "./answers.ts";

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
  life: fc.constantFrom("fish", "soft", "large-polyp", "small-polyp", "mixed", "seahorses"),
  temperature: orUsual(fc.oneof(amount(18, 29, ["degC", "C"]), amount(66, 84, ["degF", "F"]))),
  hasSump: fc.boolean(),
  sumpVolume: orUsual(amount(3, 2000, VOLUME_UNITS)),
  heaters: fc.integer({ min: 0, max: 6 }),
  heaterPower: orUsual(amount(10, 2000, ["W", "watts"])),
  heaterSwitch: fc.constantFrom("own-thermostat", "hub", "hub-and-own-thermostat"),
  returnFlow: orUsual(amount(50, 30_000, FLOW_UNITS)),
  wavePumps: fc.integer({ min: 0, max: 8 }),
  waveFlow: orUsual(amount(50, 50_000, FLOW_UNITS)),
  hasSkimmer: fc.boolean(),
  hasLight: fc.boolean(),
  lightHours: orUsual(window),
  topOff: fc.constantFrom("by-hand", "fresh", "limewater"),
  topOffVolume: orUsual(amount(1, 2000, VOLUME_UNITS)),
  topOffSwitch: fc.constantFrom("own-float", "hub"),
  dosing: fc.constantFrom("nothing", "two-part", "reactor"),
});

const person: fc.Arbitrary<PersonAnswers> = fc.record({
  name: orUsual(anyName),
  reachedBy: fc.uniqueArray(fc.constantFrom("push", "text", "call"), { minLength: 1 }),
  asleep: orUsual(window),
  whereabouts: fc.constantFrom("lives-here", "works-here", "elsewhere"),
  travel: orUsual(amount(1, 600, ["min", "minutes"])),
  can: fc.constantFrom("everything", "simple", "call"),
});

export const anyAnswers: fc.Arbitrary<FirstSiteAnswers> = fc.record({
  place: orUsual(anyName),
  zone: orUsual(fc.constantFrom("Europe/London", "America/New_York", "Asia/Tokyo", "Australia/Perth")),
  tanks: fc.array(tank, { minLength: 1, maxLength: 12 }),
  plugging: fc.constantFrom("one-strip", "two-circuits"),
  mains: orUsual(amount(100, 240, ["V", "volts"])),
  airBattery: fc.boolean(),
  routerBattery: fc.boolean(),
  hub: fc.boolean(),
  leakSensor: fc.boolean(),
  messages: fc.constantFrom("router", "router-and-mobile", "beep"),
  silenceWatch: fc.boolean(),
  people: fc.array(person, { minLength: 1, maxLength: 8 }),
  away: orUsual(
    amount(1, 60, ["days", "d", "weeks"]).filter((text) => !text.endsWith("weeks") || Number.parseFloat(text) < 50),
  ),
});
