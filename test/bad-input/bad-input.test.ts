/**
 * One faulty file for each way of going wrong, named for its fault: every one is told with its line, what is wrong and
 * what would be right; none is accepted by half, and none brings the loader down.
 */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { formatSiteError, loadSite } from "../../src/site/index.ts";

const folder = import.meta.dirname;
const read = (name: string): string => readFileSync(join(folder, `${name}.yaml`), "utf8");

/** File, line, a piece of what is said to be wrong, a piece of the hint. */
const FAULTY: readonly (readonly [string, number, string, string])[] = [
  ["battery-feeds-nobody", 8, "no device or link or hub is called 'air-pump'", "there is"],
  ["bracket-not-closed", 37, "the bracket '[' is not closed", "close it"],
  ["brim-below-the-water", 15, "the brim of 250 L lies below the 300 L", "to the rim"],
  ["circuit-unknown", 22, "no circuit or battery is called 'stripe'", "did you mean 'strip'?"],
  ["circuits-in-a-ring", 5, "ring-a -> strip -> ring-a", "end the chain"],
  ["circumstance-on-a-day-that-is-not", 39, "there is no such day", "2026-08-15T02:00"],
  ["circumstance-with-a-stranger", 39, "no person is called 'nobody'", "keeper"],
  ["comparison-unknown", 31, "is not a comparison", "below, above"],
  ["cut-out-below-the-thermostat", 22, "opens before the thermostat", "2 K"],
  ["decimal-comma", 22, "comma", "25.5 degC"],
  ["device-fed-by-nothing", 22, "no battery feeds it", "circuit"],
  ["doser-without-a-bottle", 25, "not said where doser draws from", "container"],
  ["drain-too-small", 20, "only 1000 L/h can come back", "drain"],
  ["empty-file", 1, "empty", "site:"],
  ["float-above-the-brim", 28, "never floats", "float-at"],
  ["float-asked-for-a-number", 31, "can not be 'above'", "wet or dry"],
  ["float-that-never-stops", 24, "could never stop", "less than"],
  ["indented-wrongly", 2, "indentation", "exactly under each other"],
  ["key-by-another-name", 22, "'watts' is not a key of a device", "did you mean 'power'?"],
  ["key-missing", 22, "'in' is missing", "name of a body"],
  ["key-misspelt", 22, "'powr' is not a key of a device", "did you mean 'power'?"],
  ["key-of-another-kind", 22, "'par' belongs to a light; heater is a heater", "kind"],
  ["key-twice", 22, "already on line 22", "keep one"],
  ["ladder-step-unreadable", 37, "a while", "after 10 min caretaker"],
  ["link-that-does-not-leave", 11, "no notice leaves over it alone", "via"],
  ["list-in-place-of-keys", 22, "a list stands here", "device"],
  ["name-of-the-wrong-kind", 27, "'heater' is a device, not a body", "display"],
  ["name-twice", 25, "'display' is already a body (line 15)", "once in a site"],
  ["name-unusable", 28, "'sump float' can not be a name", "letters, digits"],
  ["person-unknown", 37, "no person is called 'neighbor'", "did you mean 'neighbour'?"],
  ["person-unreachable", 36, "nothing reaches them", "reached-by"],
  ["pump-that-drives-nothing", 23, "drives no circulation", "by: return"],
  ["pump-that-stands-elsewhere", 20, "return stands in display", "in: sump at return"],
  ["pumped-where-it-can-not-come-back", 20, "can not come back", "salt water"],
  ["reference-and-anchor", 17, "'&water'", "write the value out"],
  ["rule-switches-what-it-can-not", 33, "hub can not switch heater: it is plugged straight in", "by: hub"],
  ["rule-that-does-nothing", 30, "switches nothing and tells nobody", "notice: urgent"],
  ["salinity-ambiguous", 18, "has no unit", "ppt"],
  ["schedule-unreadable", 22, "'weekdys'", "did you mean 'weekdays'?"],
  ["second-document", 38, "second document", "one description"],
  ["sensor-in-the-wrong-unit", 31, "measures water temperature", "25.5 degC"],
  [
    "sensors-of-two-quantities-compared",
    31,
    "display-temp measures water temperature, sump-float a float",
    "same quantity",
  ],
  ["set-back-warmer", 4, "warmer than the 18 degC", "swap"],
  ["shape-that-can-not-be", 15, "3300 L, but volume says 300 L", "check the units"],
  ["silence-watch-without-people", 38, "'tells' is missing", "person"],
  ["siren-that-is-not-there", 36, "there is none", "siren: yes"],
  ["systems-missing", 1, "'systems' is missing", "system"],
  ["tab-in-the-indentation", 31, "a tab", "spaces"],
  ["top-off-from-salt-water", 24, "salt water out of display", "fresh water"],
  ["unit-missing", 16, "'60' has no unit", "620 L"],
  ["unit-misspelt", 22, "'degX'", "25.5 degC"],
  ["unit-of-another-dimension", 16, "is an electrical power, but a volume is wanted", "620 L"],
  ["until-contradicts-when", 32, "both can hold at once", "gap"],
  ["until-without-a-gap", 32, "no gap", "gap"],
  ["volume-absurd", 16, "more than", "volume"],
  ["volume-negative", 16, "negative", "620 L"],
  ["volume-not-a-number", 16, "does not begin with a number", "620 L"],
  ["water-that-gives-nothing-of-the-kind", 18, "gives no alkalinity", "bicarbonate"],
  ["word-misspelt", 22, "'haeter' is not one of the words", "did you mean 'heater'?"],
  ["zone-unknown", 2, "no time zone is called 'Europe/Lodnon'", "did you mean 'Europe/London'?"],
];

describe("a file with one fault", () => {
  it.each(FAULTY)("%s is told at line %d", (name, line, message, hint) => {
    const { site, errors } = loadSite(read(name), `${name}.yaml`);
    expect(site).toBeNull();
    expect(errors.map(formatSiteError)).toHaveLength(1);
    expect(errors[0]).toMatchObject({ file: `${name}.yaml`, line });
    expect(errors[0].message).toContain(message);
    expect(errors[0].hint).toContain(hint);
    expect(errors[0].code).toMatch(/^[a-z0-9]+\/[a-z0-9-]+$/);
  });

  it("stands in the table, every one of them", () => {
    const files = readdirSync(folder).filter((name) => name.endsWith(".yaml"));
    const named = [...FAULTY.map(([name]) => `${name}.yaml`), "nothing-wrong.yaml"];
    expect(files.sort()).toEqual(named.sort());
    expect(FAULTY.length).toBeGreaterThanOrEqual(24);
  });

  it("was made from a file that has none", () => {
    const { site, errors } = loadSite(read("nothing-wrong"), "nothing-wrong.yaml");
    expect(errors).toEqual([]);
    expect(site?.devices.map((device) => device.id)).toEqual(["heater", "return", "top-off", "doser"]);
  });
});

describe("a file with many faults", () => {
  it("tells them all at once, in the order of the file", () => {
    const faulty = read("nothing-wrong")
      .replace("volume: 60 L", "volume: 60")
      .replace("kind: heater", "kind: haeter")
      .replace("below 26.5 degC", "below 26.5 W")
      .replace("after 15 min neighbour", "after 15 min neighbor");
    const { site, errors } = loadSite(faulty, "many.yaml");
    expect(site).toBeNull();
    expect(errors.map((error) => error.line)).toEqual([16, 22, 32, 37]);
  });

  it("prints each in one line, as file, place, what and what instead", () => {
    const [error] = loadSite(read("circuit-unknown"), "examples/x.yaml").errors;
    expect(formatSiteError(error)).toBe(
      "examples/x.yaml:22:55 heater.on: no circuit or battery is called 'stripe'; did you mean 'strip'?",
    );
  });
});

describe("a file that means harm", () => {
  const refused = (text: string): readonly string[] => {
    const { site, errors } = loadSite(text, "harm.yaml");
    expect(site).toBeNull();
    expect(errors.length).toBeGreaterThan(0);
    return errors.map((error) => error.code);
  };

  it("is not read past five million characters", () => {
    expect(refused(`site: ${"x".repeat(5_000_001)}`)).toContain("file/too-large");
  });

  it("may not describe more than two thousand parts", () => {
    const people = Array.from({ length: 2001 }, (_, index) => `  p${index}: {}`).join("\n");
    expect(refused(`site: Crowd\nsystems:\n  s: { bodies: { b: { volume: 1 L } } }\npeople:\n${people}\n`)).toContain(
      "file/too-many-parts",
    );
  });

  it("may not nest without end, by brackets or by indentation", () => {
    const deeply = (levels: number): string => "[".repeat(levels) + "]".repeat(levels);
    expect(refused(`site: ${deeply(30)}`)).toContain("yaml/too-deep");
    expect(refused(`site: ${deeply(100_000)}`)).toContain("yaml/too-deep");
    expect(refused("[".repeat(100_000))[0]).toMatch(/^yaml\//);
    const indented = Array.from({ length: 2000 }, (_, level) => `${" ".repeat(level)}a:`).join("\n");
    expect(refused(indented)[0]).toMatch(/^yaml\//);
  });

  it("may not multiply itself by references", () => {
    const bomb = ["a: &a [x, x, x, x, x, x, x, x, x]"];
    for (let level = 1; level < 12; level++) {
      const [name, before] = ["abcdefghijkl"[level], "abcdefghijkl"[level - 1]];
      bomb.push(`${name}: &${name} [*${before}, *${before}, *${before}, *${before}, *${before}]`);
    }
    expect(refused(bomb.join("\n"))).toContain("yaml/reference");
    expect(refused("site: A\n<<: { zone: UTC }\n")).toContain("key/unknown");
  });

  it("may not reach into the language", () => {
    expect(refused("site: A\n__proto__: { zone: UTC }\n")).toContain("key/unknown");
    expect(refused("site: A\nsystems: { constructor: { bodies: { b: { volume: 5 L } } } }\n")).toContain("name/form");
    expect(refused("site: !!js/function 'x'\n")[0]).toMatch(/^yaml\//);
    expect(refused("site: \u0000\n")).toContain("yaml/not-text");
    expect(({} as { zone?: string }).zone).toBeUndefined();
  });

  it("never brings the loader down, whatever is cut out of or written into it", () => {
    const whole = read("nothing-wrong");
    const spot = fc.integer({ min: 0, max: whole.length });
    const scrap = fc.oneof(
      fc.string({ maxLength: 12 }),
      fc.constantFrom("{", "}", "[", "]", ": ", "\n", "&a ", "*a", "- ", "'", "|"),
    );
    fc.assert(
      fc.property(spot, fc.integer({ min: 0, max: 40 }), scrap, (at, cut, put) => {
        const { site, errors } = loadSite(whole.slice(0, at) + put + whole.slice(at + cut), "cut.yaml");
        expect(site === null).toBe(errors.length > 0);
        for (const error of errors) expect(error.line).toBeGreaterThanOrEqual(1);
      }),
      { numRuns: 300 },
    );
  });
});
