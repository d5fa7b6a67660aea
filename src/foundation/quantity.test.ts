import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Dimension, Limits } from "./index.ts";
import { DIMENSIONS, factsOf, formatQuantity, mustHave, parseQuantity, parseRate, printQuantity } from "./index.ts";

function valueIn(text: string, dimension: Dimension): number {
  return mustHave(parseQuantity(text, dimension)).value;
}

function problemIn(
  text: string,
  dimension: Dimension,
  limits: Limits = {},
): { code: string; message: string; hint: string } {
  const result = parseQuantity(text, dimension, limits);
  if (result.ok) throw new Error(`'${text}' was accepted as ${result.value.value}`);
  return result.problem;
}

describe("quantities as people write them", () => {
  it.each<[string, Dimension, number]>([
    ["620 L", "volume", 620],
    ["620L", "volume", 620],
    ["250 mL", "volume", 0.25],
    ["10 gal", "volume", 37.85411784],
    ["10 imp gal", "volume", 45.4609],
    ["10 gal UK", "volume", 45.4609],
    ["380 m3", "volume", 380_000],
    ["1.2 m³", "volume", 1200],
    ["25.5 degC", "temperature", 25.5],
    ["25.5 °C", "temperature", 25.5],
    ["77 degF", "temperature", 25],
    ["32 °F", "temperature", 0],
    ["-40 degF", "temperature", -40],
    ["0.9 degF", "temperature difference", 0.5],
    ["0.5 degC", "temperature difference", 0.5],
    ["1.5 kW", "power", 1500],
    ["0.6 kWh", "energy", 600],
    ["30 mA", "current", 0.03],
    ["40 gal/h", "flow", 151.41647136],
    ["2 L/min", "flow", 120],
    ["24 L/d", "flow", 1],
    ["24000 mL/d", "flow", 1],
    ["24 L a day", "flow", 1],
    ["2 lb", "mass", 907.18474],
    ["2 g/d", "mass per day", 2],
    ["2.5 meq/L", "alkalinity", 7.009625],
    ["50.043 ppm CaCO3", "alkalinity", 2.80385],
    ["2 h", "duration", 7200],
    ["1 h 30 min", "duration", 5400],
    ["1 day 6 hours", "duration", 108_000],
    ["12 months", "duration", 365.25 * 86400],
    ["1 year", "duration", 365.25 * 86400],
    ["20 in", "length", 0.508],
    ["8 ft2", "area", 0.74322432],
    ["60 %", "share", 0.6],
    ["0.6", "share", 0.6],
    ["8.1", "ph", 8.1],
    ["pH 8.1".replace("pH ", ""), "ph", 8.1],
    ["350 mV", "potential", 350],
    ["900 uatm", "air co2", 900],
    ["12 a day", "times per day", 12],
    ["1 meq/mL", "alkalinity strength", 1],
  ])("reads '%s' as %s = %d", (text, dimension, wanted) => {
    expect(valueIn(text, dimension)).toBeCloseTo(wanted, 9);
  });

  it("agrees with the defining chemistry: 1 meq/L is 50.04 mg/L of calcium carbonate and 2.804 degrees", () => {
    expect(valueIn("1 meq/L", "alkalinity")).toBeCloseTo(2.804, 3);
    expect(valueIn("100 ppm CaCO3", "alkalinity") / valueIn("1 meq/L", "alkalinity")).toBeCloseTo(100 / 50.04, 3);
    expect(valueIn("8 dKH", "alkalinity") / valueIn("2789 umol/kg", "alkalinity")).toBeCloseTo(1, 3);
  });

  it("turns nitrogen into nitrate and phosphorus into phosphate by their molar masses", () => {
    expect(valueIn("1 mg/L N", "nitrate")).toBeCloseTo(4.427, 3);
    expect(valueIn("10 ppb P", "phosphate")).toBeCloseTo(0.03066, 5);
  });

  it("prints a quantity back in the unit in which it was written", () => {
    for (const text of ["78 degF", "160 gal", "40 gal/h", "3 weeks", "60 %", "2.9 meq/L", "12 /d"]) {
      const dimension = (Object.keys(DIMENSIONS) as Dimension[]).find((name) => parseQuantity(text, name).ok);
      expect(dimension, text).toBeDefined();
      if (dimension !== undefined) expect(printQuantity(mustHave(parseQuantity(text, dimension)))).toBe(text);
    }
  });

  it("reads every way of writing every unit back to the number that was printed in it", () => {
    for (const name of Object.keys(DIMENSIONS) as Dimension[]) {
      const facts = factsOf(name);
      for (const unit of facts.units) {
        for (const spelling of [unit.symbol, ...(unit.also ?? [])]) {
          const found = parseQuantity(`1 ${spelling}`, name, { min: -1e9, max: 1e9 });
          const plausible = unit.factor >= facts.min && unit.factor <= facts.max;
          if (found.ok) expect(found.value.unit, `${name}: ${spelling}`).toBe(unit.symbol);
          else expect(plausible, `${name}: 1 ${spelling}: ${found.problem.message}`).toBe(false);
        }
      }
    }
  });

  it("survives a round trip through print and read in every unit", () => {
    const units = (Object.keys(DIMENSIONS) as Dimension[]).flatMap((dimension) =>
      factsOf(dimension).units.map((unit) => ({ dimension, symbol: unit.symbol })),
    );
    fc.assert(
      fc.property(
        fc.constantFrom(...units),
        fc.double({ min: 0, max: 1, noNaN: true }),
        ({ dimension, symbol }, share) => {
          const { min, max } = factsOf(dimension);
          const value = min + share * (Math.min(max, 1000) - min);
          const read = parseQuantity(formatQuantity(value, dimension, symbol), dimension, { min: -1e12, max: 1e12 });
          // Six digits are printed; a value on the very edge may round past it, which is refused with a reason.
          if (read.ok)
            expect(Math.abs(read.value.value - value)).toBeLessThanOrEqual(1e-5 * Math.max(20, Math.abs(value)));
          else expect(["quantity/out-of-range", "quantity/negative"]).toContain(read.problem.code);
        },
      ),
    );
  });
});

describe("what is refused, and how", () => {
  it("asks for a unit rather than guess it", () => {
    const problem = problemIn("620", "volume");
    expect(problem.code).toBe("quantity/unit-missing");
    expect(problem.message).toBe("'620' has no unit");
    expect(problem.hint).toContain("620 L");
  });

  it("says which dimension it got and which it wants", () => {
    const problem = problemIn("300 W", "volume");
    expect(problem.code).toBe("quantity/wrong-dimension");
    expect(problem.message).toBe("'300 W' is an electrical power, but a volume is wanted");
  });

  it("guesses a misspelt unit", () => {
    expect(problemIn("620 Litters", "volume").hint).toContain("did you mean 'Liters'?".replace("Liters", "liters"));
    expect(problemIn("25 degX", "temperature").code).toBe("quantity/unknown-unit");
  });

  it("does not take 'm' for minutes or months", () => {
    expect(problemIn("10 m", "duration").code).toBe("quantity/wrong-dimension");
  });

  it.each(["NaN L", "Infinity L", "lots", "", "L", "--5 L", "5 5 L", "0x10 L"])("refuses '%s' as a volume", (text) => {
    expect(problemIn(text, "volume").hint).toContain("620 L");
  });

  it.each(["1e99 L", "1e999 L", "99999999999 L"])("refuses the absurd size '%s'", (text) => {
    expect(problemIn(text, "volume").code).toBe("quantity/out-of-range");
  });

  it("refuses a negative volume and says so", () => {
    expect(problemIn("-620 L", "volume").code).toBe("quantity/negative");
    expect(problemIn("−620 L", "volume").code).toBe("quantity/negative");
  });

  it("refuses a decimal comma, because it can mean two things", () => {
    const problem = problemIn("25,5 degC", "temperature");
    expect(problem.code).toBe("quantity/comma");
    expect(problem.hint).toContain("'25.5 degC'");
  });

  it("keeps to limits that are narrower than the dimension's, and names them in the written unit", () => {
    const problem = problemIn("120 degF", "temperature", { min: 0, max: 40 });
    expect(problem.message).toContain("104 degF");
    expect(problemIn("0 L", "volume", { aboveZero: true }).code).toBe("quantity/out-of-range");
    expect(problemIn("60", "share").code).toBe("quantity/out-of-range");
  });

  it("never throws and never returns a number that is not finite, whatever is written", () => {
    fc.assert(
      fc.property(fc.string(), fc.constantFrom(...(Object.keys(DIMENSIONS) as Dimension[])), (text, dimension) => {
        const result = parseQuantity(text, dimension);
        if (result.ok) expect(Number.isFinite(result.value.value)).toBe(true);
        else expect(result.problem.hint.length).toBeGreaterThan(0);
        const rate = parseRate(text, dimension);
        if (rate.ok) expect(Number.isFinite(rate.value.perHour)).toBe(true);
      }),
    );
  });
});

describe("changes per time", () => {
  it.each<[string, Dimension, number]>([
    ["0.5 degC/h", "temperature", 0.5],
    ["1.8 degF/h", "temperature", 1],
    ["0.2 pH/month", "ph", 0.2 / 730.5],
    ["0.2 pH per month", "ph", 0.2 / 730.5],
    ["1 ppt/day", "salinity units", 1 / 24],
    ["20 mV a week", "potential", 20 / 168],
    ["-2 L/min", "volume", -120],
  ])("reads '%s' as a change of %s by %d per hour", (text, dimension, wanted) => {
    expect(mustHave(parseRate(text, dimension)).perHour).toBeCloseTo(wanted, 12);
  });

  it("refuses a change that has no time, no unit or the wrong one", () => {
    for (const text of ["0.5 degC", "0.5 /h", "0.5 W/h", "0.5 degC/kg"]) {
      expect(parseRate(text, "temperature").ok, text).toBe(false);
    }
  });
});
