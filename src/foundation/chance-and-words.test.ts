import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  deepFreeze,
  didYouMean,
  editDistance,
  hash32,
  hashNoise,
  hashText,
  hashUniform,
  InputError,
  mustHave,
  NOISE_BOUND,
  nearest,
  parseQuantity,
  parseSalinity,
} from "./index.ts";

const int32 = fc.integer({ min: -(2 ** 31), max: 2 ** 31 - 1 });

describe("chance by counter", () => {
  it("gives the same draw for the same three numbers, on any machine", () => {
    // MurmurHash3_x86_32 of the three integers as twelve little-endian bytes, seed 0, from an independent program.
    expect([hash32(0, 0, 0), hash32(1, 2, 3), hash32(2026, 7, 86_400)]).toEqual([
      3_644_920_907, 3_923_217_110, 1_376_592_437,
    ]);
    expect(hashNoise(1, 2, 3)).toBe(hashNoise(1, 2, 3));
  });

  it("has mean 0 and variance 1, and neighbouring counters and streams do not know of each other", () => {
    const count = 200_000;
    let sum = 0;
    let squares = 0;
    let alongCounter = 0;
    let acrossStreams = 0;
    for (let tick = 0; tick < count; tick++) {
      const draw = hashNoise(42, 7, tick);
      sum += draw;
      squares += draw * draw;
      alongCounter += draw * hashNoise(42, 7, tick + 1);
      acrossStreams += draw * hashNoise(42, 8, tick);
    }
    const fiveSigma = 5 / Math.sqrt(count);
    expect(Math.abs(sum / count)).toBeLessThan(fiveSigma);
    expect(Math.abs(squares / count - 1)).toBeLessThan(2 * fiveSigma);
    expect(Math.abs(alongCounter / count)).toBeLessThan(fiveSigma);
    expect(Math.abs(acrossStreams / count)).toBeLessThan(fiveSigma);
  });

  it("is bounded, and uniform draws never touch their ends", () => {
    fc.assert(
      fc.property(int32, int32, int32, (seed, stream, counter) => {
        expect(Math.abs(hashNoise(seed, stream, counter))).toBeLessThanOrEqual(NOISE_BOUND);
        const uniform = hashUniform(seed, stream, counter);
        expect(uniform).toBeGreaterThan(0);
        expect(uniform).toBeLessThan(1);
      }),
    );
  });

  it("fills sixteen equal bins evenly (chi-square below the 0.1 % point for 15 degrees of freedom)", () => {
    const bins = new Array<number>(16).fill(0);
    for (let tick = 0; tick < 64_000; tick++) bins[Math.floor(hashUniform(3, 9, tick) * 16)] += 1;
    const chiSquare = bins.reduce((total, seen) => total + (seen - 4000) ** 2 / 4000, 0);
    expect(chiSquare).toBeLessThan(37.7);
  });

  it("tells similar ids apart", () => {
    const ids = Array.from({ length: 2000 }, (_, index) => `sensor-${index}`);
    expect(new Set(ids.map(hashText)).size).toBe(2000);
  });
});

describe("did you mean", () => {
  it("counts slips of the hand", () => {
    expect(editDistance("ring-a", "ring-a")).toBe(0);
    expect(editDistance("heater", "haeter")).toBe(1);
    expect(editDistance("kitten", "sitting")).toBe(3);
    expect(editDistance("", "abc")).toBe(3);
  });

  it("is symmetric and never more than the longer word", () => {
    fc.assert(
      fc.property(fc.string({ maxLength: 12 }), fc.string({ maxLength: 12 }), (first, second) => {
        expect(editDistance(first, second)).toBe(editDistance(second, first));
        expect(editDistance(first, second)).toBeLessThanOrEqual(Math.max(first.length, second.length));
      }),
    );
  });

  it("finds the near word and leaves the far one alone", () => {
    expect(nearest("ringa", ["ring-b", "ring-a"])).toBe("ring-a");
    expect(nearest("mystery", ["ring-a", "ring-b"])).toBeNull();
    expect(didYouMean("dispaly", ["display", "sump"])).toBe("did you mean 'display'?");
    expect(didYouMean("xyzzy", [])).toBe("there is none to choose from");
    expect(didYouMean("xyzzy", ["display", "sump"])).toBe("there is display, sump");
  });
});

describe("salinity in words", () => {
  it("reads the three ways of writing it", () => {
    expect(mustHave(parseSalinity("35 ppt"))).toEqual({ kind: "practical", salinity: 35 });
    expect(mustHave(parseSalinity("1.0264 SG"))).toEqual({
      kind: "specific-gravity",
      specificGravity: 1.0264,
      referenceC: 25,
      referenceGiven: false,
    });
    expect(mustHave(parseSalinity("1.0266 SG at 20 degC"))).toMatchObject({ referenceC: 20, referenceGiven: true });
    expect(mustHave(parseSalinity("53.1 mS/cm at 77 degF"))).toMatchObject({ kind: "conductivity", mSPerCm: 53.1 });
  });

  it("asks what a bare number is", () => {
    const result = parseSalinity("1.026");
    expect(result.ok ? "" : result.problem.message).toContain("could be SG or ppt");
    for (const text of [
      "35",
      "35 ppt at 25 degC",
      "1.026 SG at",
      "1.026 SG at noon",
      "35 dKH",
      "1.3 SG",
      "900 mS/cm",
      "a at b at c",
    ]) {
      expect(parseSalinity(text).ok, text).toBe(false);
    }
  });
});

describe("problems and frozen values", () => {
  it("throws a typed error with a stable code where a value is a must", () => {
    expect(() => mustHave(parseQuantity("620", "volume"))).toThrowError(InputError);
    expect(() => mustHave(parseQuantity("620", "volume"))).toThrowError(
      expect.objectContaining({ code: "quantity/unit-missing" }),
    );
  });

  it("freezes all the way down", () => {
    const value = deepFreeze({ a: [{ b: 1 }] });
    expect(Object.isFrozen(value.a[0])).toBe(true);
    expect(() => {
      value.a[0].b = 2;
    }).toThrow(TypeError);
  });
});
