/**
 * Heat and evaporation of one worked tank: a 400 L display (120 x 60 x 55 cm) and a 100 L sump, 2.04 MJ/K, 1.035 m2 of open
 * surface, 22.8 W/K through walls and bottom; room 22 degrees C at half humidity, air at 0.05 m/s, quiet surface.
 */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  evaporationKgPerM2S,
  latentHeatKJPerKg,
  saturationVapourPressureKPa,
  surfaceLossWPerM2K,
  WALL_CONDUCTIVITY,
  wallLossWPerM2K,
} from "./index.ts";

const HEAT_J_PER_K = 2.04e6;
const SURFACE_M2 = 1.035;
const WALLS_W_PER_K = 22.8;
const AIR_M_S = 0.05;
const QUIET = 0.5;
const HUMIDITY = 0.5;

const evaporationKgPerS = (waterC: number, roomC: number) =>
  evaporationKgPerM2S(waterC, roomC, HUMIDITY, AIR_M_S, QUIET) * SURFACE_M2;
const dryW = (waterC: number, roomC: number) =>
  (surfaceLossWPerM2K(AIR_M_S, QUIET) * SURFACE_M2 + WALLS_W_PER_K) * (waterC - roomC);
const lossW = (waterC: number, roomC: number) =>
  dryW(waterC, roomC) + evaporationKgPerS(waterC, roomC) * latentHeatKJPerKg(waterC) * 1000;

/** Temperature at which this much power balances the losses, by halving. */
function balanceC(powerW: number, roomC: number): number {
  let low = 0;
  let high = 80;
  for (let step = 0; step < 60; step++) {
    const middle = (low + high) / 2;
    if (lossW(middle, roomC) < powerW) low = middle;
    else high = middle;
  }
  return low;
}

/** Hours from 26 degrees C until the water passes `untilC`, in steps of a minute. */
function hoursUntil(untilC: number, powerW: number, roomC: number): number {
  let waterC = 26;
  const rising = untilC > waterC;
  for (let minute = 0; minute < 6000; minute++) {
    if (rising ? waterC >= untilC : waterC <= untilC) return minute / 60;
    waterC += ((powerW - lossW(waterC, roomC)) * 60) / HEAT_J_PER_K;
  }
  return Number.POSITIVE_INFINITY;
}

describe("the worked tank", () => {
  it("at 26 degrees C loses 127 W dry and 95 W with 3.4 L of vapour a day", () => {
    expect(dryW(26, 22)).toBeCloseTo(127, 0);
    expect(evaporationKgPerS(26, 22) * 86_400).toBeCloseTo(3.4, 1);
    expect(lossW(26, 22)).toBeCloseTo(222, 0);
  });

  it("settles at 23.5 on its pumps, 20.4 with nothing on, 30.7 and 37.2 with one or two heaters stuck on", () => {
    expect(balanceC(120, 22)).toBeCloseTo(23.5, 1);
    expect(balanceC(0, 22)).toBeCloseTo(20.4, 1);
    expect(Math.abs(balanceC(420, 22) - 30.7)).toBeLessThan(0.1);
    expect(Math.abs(balanceC(720, 22) - 37.2)).toBeLessThan(0.1);
  });

  it("passes 30 degrees C after a day with one heater stuck on, and after 5.6 h with two", () => {
    expect(Math.abs(hoursUntil(30, 420, 22) - 25.6)).toBeLessThan(0.5);
    expect(Math.abs(hoursUntil(30, 720, 22) - 5.6)).toBeLessThan(0.1);
    expect(Math.abs(hoursUntil(32, 720, 22) - 9.6)).toBeLessThan(0.15);
  });

  it("cools to 24 degrees C in 22 h without heater, and to 20 in 15.4 h of black-out in a cold room", () => {
    expect(Math.abs(hoursUntil(24, 120, 22) - 22)).toBeLessThan(0.5);
    expect(Math.abs(hoursUntil(20, 0, 18) - 15.4)).toBeLessThan(0.3);
  });
});

describe("evaporation", () => {
  it("grows with wind and dry air, and turns to condensation over cold water in a steamy room", () => {
    expect(evaporationKgPerM2S(26, 22, 0.5, 1, 0.5)).toBeGreaterThan(evaporationKgPerM2S(26, 22, 0.5, 0, 0.5));
    expect(evaporationKgPerM2S(26, 22, 0.3, 0, 0.5)).toBeGreaterThan(evaporationKgPerM2S(26, 22, 0.7, 0, 0.5));
    expect(evaporationKgPerM2S(18, 30, 0.9, 0, 0.5)).toBeLessThan(0);
  });

  it("a fan of 0.5 to 2 m/s multiplies it by 1.4 to 2.8", () => {
    const still = evaporationKgPerM2S(26, 24, 0.5, 0, 0.5);
    expect(evaporationKgPerM2S(26, 24, 0.5, 0.5, 0.5) / still).toBeCloseTo(1.4, 1);
    expect(evaporationKgPerM2S(26, 24, 0.5, 2, 0.5) / still).toBeCloseTo(2.8, 1);
  });

  it("the vapour pressure rises with warmth", () => {
    fc.assert(
      fc.property(fc.double({ min: -10, max: 60, noNaN: true }), (t) => {
        expect(saturationVapourPressureKPa(t + 0.5)).toBeGreaterThan(saturationVapourPressureKPa(t));
      }),
    );
  });
});

it("walls lose 7.5 W/(m2 K) through 10 mm of glass, 5.4 through 12 mm of acrylic, 5.6 through glass with still water", () => {
  expect(wallLossWPerM2K(0.01, WALL_CONDUCTIVITY.glass, true)).toBeCloseTo(7.5, 1);
  expect(wallLossWPerM2K(0.012, WALL_CONDUCTIVITY.acrylic, true)).toBeCloseTo(5.4, 1);
  expect(wallLossWPerM2K(0.012, WALL_CONDUCTIVITY.glass, false)).toBeCloseTo(5.6, 1);
});
