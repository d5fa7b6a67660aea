import { expect, it } from "vitest";
import { school } from "../../../test/browser/fixtures/sites.ts";
import { namesOf, plainText } from "./names.tsx";

const names = namesOf(school());

it("waters are written with spaces, systems with a large letter, other parts as their owner wrote them", () => {
  expect(names.water("coral-nursery")).toBe("Coral nursery");
  expect(names.water("lagoon-sump")).toBe("lagoon sump");
  expect(names.water("heater-1")).toBeUndefined();
});

it.each([
  ["heater-2 in lagoon-sump stays on", "heater-2 in lagoon sump stays on"],
  ["first sign: lagoon-display.temperature", "first sign: lagoon display temperature"],
  ["oxygen in lagoon-display.", "oxygen in lagoon display."],
  ["my-lagoon and lagoons are not ours", "my-lagoon and lagoons are not ours"],
])("%j is heard as %j", (text, heard) => {
  expect(plainText(text, names)).toBe(heard);
});
