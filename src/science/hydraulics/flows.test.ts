/** Water that runs by its own weight, in the sizes of a home. */
import fc from "fast-check";
import { expect, it } from "vitest";
import { orificeFlowLPerH, siphonFlowLPerH, weirFlowLPerH, weirHeadM } from "./index.ts";

it("40 cm of weir carry 2550 L/h at 10 mm and 7200 L/h at 20 mm of head", () => {
  expect(Math.abs(weirFlowLPerH(0.4, 0.01) - 2550)).toBeLessThan(10);
  expect(Math.abs(weirFlowLPerH(0.4, 0.02) - 7200)).toBeLessThan(30);
});

it("the head over a weir comes back from its flow", () => {
  fc.assert(
    fc.property(
      fc.double({ min: 0.05, max: 2, noNaN: true }),
      fc.double({ min: 1, max: 30_000, noNaN: true }),
      (b, q) => {
        expect(weirFlowLPerH(b, weirHeadM(b, q)) / q).toBeCloseTo(1, 10);
      },
    ),
  );
});

it("full siphons of 25, 32, 40 and 50 mm carry 3600, 5900, 9300 and 14 500 L/h under 0.6 m", () => {
  const pipes = [
    [25, 3600],
    [32, 5900],
    [40, 9300],
    [50, 14_500],
  ];
  for (const [diameter, flow] of pipes) expect(Math.abs(siphonFlowLPerH(diameter, 0.6) / flow - 1)).toBeLessThan(0.02);
});

it("a square millimetre under half a metre leaks 6.8 L/h", () => {
  expect(orificeFlowLPerH(1, 0.5)).toBeCloseTo(6.8, 1);
});

it("nothing runs uphill", () => {
  expect(weirFlowLPerH(0.4, -0.01)).toBe(0);
  expect(weirHeadM(0.4, 0)).toBe(0);
  expect(orificeFlowLPerH(1, -1)).toBe(0);
  expect(siphonFlowLPerH(25, 0)).toBe(0);
});
