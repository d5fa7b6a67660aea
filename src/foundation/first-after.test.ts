import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { firstAfter } from "./index.ts";

describe("the first after a number", () => {
  it("is where going through them all finds it", () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: -9, max: 9 })), fc.integer({ min: -10, max: 10 }), (numbers, value) => {
        const ascending = [...numbers].sort((a, b) => a - b);
        const found = ascending.findIndex((one) => one > value);
        expect(firstAfter(ascending, value)).toBe(found < 0 ? ascending.length : found);
      }),
    );
  });
});
