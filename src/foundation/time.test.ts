import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { LocalClock, WallWindow } from "./index.ts";
import {
  anyWindowHolds,
  civilFromDays,
  dayOfWeekAt,
  dayOfYearAt,
  daysFromCivil,
  fixedClock,
  formatLocalTime,
  formatWindow,
  localTimeAt,
  minuteOfDayAt,
  mustHave,
  nextWindowChange,
  parseLocalTime,
  parseMoment,
  parseWindow,
  timeOfLocal,
  windowHolds,
} from "./index.ts";

const HOUR = 3600;

/** Europe/London around the spring change of 2026: 29 March 01:00 UTC, from UTC+0 to UTC+1. */
const spring: LocalClock = {
  startEpochS: mustHave(parseLocalTime("2026-03-28T12:00")),
  firstOffsetS: 0,
  changes: [{ atS: 13 * HOUR, offsetS: HOUR }],
};
/** And around the autumn change: 25 October 01:00 UTC, back to UTC+0. */
const autumn: LocalClock = {
  startEpochS: mustHave(parseLocalTime("2026-10-24T12:00")) - HOUR,
  firstOffsetS: HOUR,
  changes: [{ atS: 14 * HOUR, offsetS: 0 }],
};

describe("dates as plain numbers", () => {
  it("agrees with the calendar of the machine over two centuries", () => {
    for (let days = 0; days < 84_000; days += 17) {
      const date = new Date(days * 86_400_000);
      expect(civilFromDays(days)).toEqual({
        year: date.getUTCFullYear(),
        month: date.getUTCMonth() + 1,
        day: date.getUTCDate(),
      });
    }
  });

  it("is its own inverse", () => {
    fc.assert(
      fc.property(fc.integer({ min: -200_000, max: 200_000 }), (days) => {
        const { year, month, day } = civilFromDays(days);
        expect(daysFromCivil(year, month, day)).toBe(days);
      }),
    );
  });

  it("reads and prints local times", () => {
    expect(formatLocalTime(mustHave(parseLocalTime("2026-08-15T02:00")))).toBe("2026-08-15T02:00");
    for (const text of [
      "2026-02-30T10:00",
      "2026-13-01T10:00",
      "2026-01-01T24:00",
      "2026-01-01",
      "yesterday",
      "0999-01-01T00:00",
    ]) {
      expect(parseLocalTime(text).ok, text).toBe(false);
    }
  });
});

describe("a wall clock that is a value", () => {
  it("knows that 15 August 2026 is a Saturday", () => {
    const clock = fixedClock(mustHave(parseLocalTime("2026-08-15T02:00")));
    expect(dayOfWeekAt(clock, 0)).toBe(5);
    expect(minuteOfDayAt(clock, 90)).toBe(121.5);
    expect(dayOfWeekAt(clock, 22 * HOUR)).toBe(6);
    expect(dayOfYearAt(clock, 0)).toBeCloseTo(226 + 2 / 24, 9);
    expect(localTimeAt(clock, -3 * HOUR)).toBe("2026-08-14T23:00");
  });

  it("skips an hour in spring and repeats one in autumn", () => {
    expect(localTimeAt(spring, 13 * HOUR - 60)).toBe("2026-03-29T00:59");
    expect(localTimeAt(spring, 13 * HOUR)).toBe("2026-03-29T02:00");
    expect(localTimeAt(autumn, 14 * HOUR - 60)).toBe("2026-10-25T01:59");
    expect(localTimeAt(autumn, 14 * HOUR)).toBe("2026-10-25T01:00");
  });

  it("finds the moment of a wall time: the jump for a skipped one, the first coming for a repeated one", () => {
    expect(timeOfLocal(spring, mustHave(parseLocalTime("2026-03-29T01:30")))).toBe(13 * HOUR);
    expect(timeOfLocal(spring, mustHave(parseLocalTime("2026-03-29T03:00")))).toBe(14 * HOUR);
    expect(timeOfLocal(autumn, mustHave(parseLocalTime("2026-10-25T01:30")))).toBe(13.5 * HOUR);
    expect(timeOfLocal(autumn, mustHave(parseLocalTime("2026-10-25T02:30")))).toBe(15.5 * HOUR);
    // Before any clock change of spring the wall showed 00:59 at 13 h, and shows 02:00 right after.
    expect(timeOfLocal(spring, mustHave(parseLocalTime("2026-03-29T00:59")))).toBe(13 * HOUR - 60);
  });

  it("opens a window twice where its hour comes twice", () => {
    const window = [mustHave(parseWindow("Sun 01:15-01:45"))];
    const edges: number[] = [];
    for (let at = nextWindowChange(window, autumn, 0); at < 20 * HOUR; at = nextWindowChange(window, autumn, at))
      edges.push(at / HOUR);
    expect(edges).toEqual([13.25, 13.75, 14.25, 14.75]);
  });
});

describe("windows of local time", () => {
  it.each<[string, WallWindow]>([
    ["10:00-20:00", { days: [0, 1, 2, 3, 4, 5, 6], fromMin: 600, toMin: 1200 }],
    ["weekdays 07:00-16:00", { days: [0, 1, 2, 3, 4], fromMin: 420, toMin: 960 }],
    ["Mon Wed 18:00 - 19:00", { days: [0, 2], fromMin: 1080, toMin: 1140 }],
    ["weekends", { days: [5, 6], fromMin: 0, toMin: 1440 }],
    ["Fri-Mon 22:00-06:00", { days: [0, 4, 5, 6], fromMin: 1320, toMin: 360 }],
    ["Saturday and Sunday 9:00-24:00", { days: [5, 6], fromMin: 540, toMin: 1440 }],
    ["daily", { days: [0, 1, 2, 3, 4, 5, 6], fromMin: 0, toMin: 1440 }],
  ])("reads '%s'", (text, wanted) => {
    expect(mustHave(parseWindow(text))).toEqual(wanted);
    expect(mustHave(parseWindow(formatWindow(wanted)))).toEqual(wanted);
  });

  it("refuses what is not a window, and guesses a misspelt day", () => {
    for (const text of ["", "10:00", "25:00-26:00", "10:60-11:00", "10:00-10:00", "24:00-06:00", "Mon-Wed-Fri"]) {
      expect(parseWindow(text).ok, text).toBe(false);
    }
    const result = parseWindow("weekdys 07:00-16:00");
    expect(result.ok ? "" : result.problem.hint).toBe("did you mean 'weekdays'?");
  });

  it("reads moments that come back", () => {
    expect(mustHave(parseMoment("weekdays 08:15"))).toEqual({ days: [0, 1, 2, 3, 4], atMin: 495 });
    expect(parseMoment("weekdays").ok).toBe(false);
  });

  it("lets a window past midnight belong to the day on which it begins", () => {
    const friday = mustHave(parseWindow("Fri 22:00-06:00"));
    expect(windowHolds(friday, 4, 1380)).toBe(true);
    expect(windowHolds(friday, 5, 300)).toBe(true);
    expect(windowHolds(friday, 4, 300)).toBe(false);
    expect(windowHolds(friday, 5, 360)).toBe(false);
  });

  it("names exactly the moments at which being inside changes, minute by minute, across a clock change", () => {
    const times = fc.integer({ min: 0, max: 1439 });
    const window = fc.record({
      days: fc.subarray([0, 1, 2, 3, 4, 5, 6], { minLength: 1 }),
      fromMin: times,
      toMin: times.map((minute) => minute + 1),
    });
    fc.assert(
      fc.property(
        fc.constantFrom(spring, autumn),
        fc.array(window, { minLength: 1, maxLength: 3 }),
        (clock, windows) => {
          let next = nextWindowChange(windows, clock, 0);
          for (let minute = 1; minute < 48 * 60; minute += 1) {
            const changed =
              anyWindowHolds(windows, clock, minute * 60) !== anyWindowHolds(windows, clock, minute * 60 - 60);
            expect(changed).toBe(next === minute * 60);
            if (changed) next = nextWindowChange(windows, clock, next);
          }
        },
      ),
      { numRuns: 100 },
    );
  });

  it("never changes where a window holds always", () => {
    expect(nextWindowChange([mustHave(parseWindow("daily"))], spring, 0)).toBe(Number.POSITIVE_INFINITY);
    expect(nextWindowChange([], spring, 0)).toBe(Number.POSITIVE_INFINITY);
  });
});
