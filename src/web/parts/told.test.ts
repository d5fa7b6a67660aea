import fc from "fast-check";
import { afterEach, describe, expect, it } from "vitest";
import { mannerOf, setManner } from "./manner.ts";
import { asTold } from "./told.ts";

/** As read: no-break and thin spaces as spaces. */
const plain = (text: string): string => text.replace(/[\u00a0\u2009]/g, " ");
const toldIn = (locale: string, text: string): string => {
  setManner(mannerOf(locale));
  return plain(asTold(text));
};

afterEach(() => setManner(mannerOf("en-GB")));

describe("to a keeper in the United States", () => {
  it.each([
    ["the water stands at 25.9 °C", "the water stands at 78.6 °F"],
    ["too-warm, above 27.2 degC", "too-warm, above 81.0 °F"],
    ["the cut-out of reef-heater-2 opens at 30 °C", "the cut-out of reef-heater-2 opens at 86 °F"],
    ["cuts off above 27 °C.", "cuts off above 80.6 °F."],
    ["values between 15 and 35 °C", "values between 59 and 95 °F"],
    ["15–35 °C", "59–95 °F"],
    ["reports -127 °C, its code", "reports −196.6 °F, its code"],
    ["a notice 1 °C above normal", "a notice 1.8 °F above normal"],
    ["0.2 °C above the usual", "0.4 °F above the usual"],
    ["when they differ by 0.8 °C", "when they differ by 1.4 °F"],
    ["a gap of at least 1 °C between", "a gap of at least 1.8 °F between"],
    ["dial is knocked 3 °C up", "dial is knocked 5.4 °F up"],
    ["reads 3 °C too low", "reads 5.4 °F too low"],
    ["10 °C above the season", "18 °F above the season"],
    ["rising by more than 0.5 degC an hour", "rising by more than 0.9 °F an hour"],
    ["more than 0.5 degC away from b", "more than 0.9 °F away from b"],
    ["fell by 1.5 K", "fell by 2.7 °F"],
    ["12 L on the floor", "3.2 gal on the floor"],
    ["2380 L/h and 620 L", "629 gal/h and 164 gal"],
    ["5 cm above the sediment", "2.0 in above the sediment"],
    ["kept from 05:20 to 17:40.", "kept from 5:20 am to 5:40 pm."],
    ["weekdays 07:00-16:00", "weekdays 7:00 am-4:00 pm"],
    ["at 00:05", "at 12:05 am"],
  ])("%s is told as %s", (text, told) => {
    expect(toldIn("en-US", text)).toBe(told);
  });

  it.each([
    "300 W, 8.2 dKH, 420 ppm, 6.1 mg/L and 30 mL",
    "heater-3 L",
    "after 4 h 35 min",
    "wait 5 min",
    "3 mg/L",
    "slackwater 0.1.0",
    "Rule 27 holds",
    "site.yaml:31",
  ])("%s stays as it is", (text) => {
    expect(toldIn("en-US", text)).toBe(text);
  });
});

it("a keeper in Germany reads decimal commas, on a clock of 24 hours", () => {
  expect(toldIn("de-DE", "at 05:20 above 27.2 degC and 8.2 dKH, from 1.31 to 1.54.")).toBe(
    "at 05:20 above 27,2 °C and 8,2 dKH, from 1,31 to 1,54.",
  );
});

it("a keeper in Britain reads what the engine wrote", () => {
  const text = "from 05:20 on above 27.2 °C, 1 °C above normal, with 12 L on the floor and pH 8.05";
  expect(toldIn("en-GB", text)).toBe(text);
});

it("what was told once is not turned again", () => {
  const piece = fc.oneof(
    fc.constantFrom("above", "by", "too low", "heater-3", "and", "to", "an hour", "05:20", "17:00", "."),
    fc
      .tuple(fc.integer({ min: -400, max: 4000 }), fc.constantFrom("°C", "degC", "K", "L", "L/h", "dKH", "cm", "W", ""))
      .map(([tenths, unit]) => `${(tenths / 10).toFixed(1)} ${unit}`),
  );
  fc.assert(
    fc.property(fc.constantFrom("en-GB", "en-US", "de-DE"), fc.array(piece, { maxLength: 6 }), (locale, pieces) => {
      setManner(mannerOf(locale));
      const once = asTold(pieces.join(" "));
      expect(asTold(once)).toBe(once);
    }),
  );
});
