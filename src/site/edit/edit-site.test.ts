/** Changes to a site file: exactly what is named is written anew, and everything else stays, character for character. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { loadSite } from "../load-site.ts";
import { editSite, writtenSite } from "./edit-site.ts";
import type { EditPath, SiteEdit, WrittenValue } from "./site-edit.ts";

const SITE = `# A place that somebody describes.
site: Mill Loft
zone: Europe/Berlin   # where the clocks are

systems:
  tank:
    bodies:
      display: { volume: 180 L, surface: 0.45 m2, livestock: { corals: soft, fish: 90 g } } # the old one
      sump:
        volume: 60 L
        # measured with a bucket
        brim: 80 L
      can: { volume: 10 L, holds: fresh }
    circulation:
      - { from: sump, to: display, by: return-1, drain: 3000 L/h }

devices:
  # All on the shelf.
  heater:   { kind: heater, power: 200 W, in: sump, own-thermostat: 26 degC }
  return-1: { kind: return-pump, flow: 900 L/h, in: sump }
  top-off:  { kind: top-off, flow: 40 L/h, in: sump, from: can }

sensors:
  display-temp: { measures: temperature, in: display }
  sump-temp: { measures: temperature, in: sump }

rules:
  too-warm: { when: { display-temp: above 27.5 degC, for: 10 min }, notice: urgent, says: display-temp is high }
  apart: { when: { display-temp: differs from sump-temp by 0.8 K }, notice: soon }

people:
  keeper:
    reached-by: [ push, call ]
  friend: { travel: 20 min }

ladder: [ keeper, after 20 min friend ]
`;

function edited(...edits: readonly SiteEdit[]): string {
  const { text, problem } = editSite(SITE, edits);
  if (text === null) throw new Error(problem.message);
  return text;
}

/** Lines of the one that the other has not, in order. */
function changed(
  before: string,
  after: string,
): { readonly gone: readonly string[]; readonly come: readonly string[] } {
  const a = before.split("\n");
  const b = after.split("\n");
  return { gone: a.filter((line) => !b.includes(line)), come: b.filter((line) => !a.includes(line)) };
}

describe("writing a value", () => {
  it("touches the value and nothing else of its line", () => {
    const after = edited({ op: "set", path: ["devices", "heater", "power"], value: "150 W" });
    expect(after).toBe(SITE.replace("power: 200 W", "power: 150 W"));
  });

  it("keeps the comment beside it", () => {
    expect(edited({ op: "set", path: ["zone"], value: "UTC" })).toContain("zone: UTC   # where the clocks are\n");
  });

  it("adds a key at the end of a set on one line", () => {
    const after = edited({ op: "set", path: ["devices", "heater", "cut-out"], value: "29 degC" });
    expect(after).toContain("own-thermostat: 26 degC, cut-out: 29 degC }\n");
  });

  it("adds a key on a line of its own where the others have theirs", () => {
    const after = edited({ op: "set", path: ["systems", "tank", "bodies", "sump", "intake"], value: "12 L" });
    expect(after).toContain("        brim: 80 L\n        intake: 12 L\n      can:");
  });

  it("adds a part in the manner of its neighbours", () => {
    const after = edited({
      op: "set",
      path: ["devices", "lamp"],
      value: { kind: "light", in: "display", par: "110 PAR" },
    });
    expect(changed(SITE, after)).toEqual({ gone: [], come: ["  lamp: { kind: light, in: display, par: 110 PAR }"] });
  });

  it("puts a new section where a site file usually has it", () => {
    const after = edited({ op: "set", path: ["power"], value: { circuits: { shelf: { limit: "13 A" } } } });
    const keys = Object.keys(writtenSite(after) as object);
    expect(keys.indexOf("power")).toBe(keys.indexOf("zone") + 1);
    expect(loadSite(after, "x").errors).toEqual([]);
  });

  it("makes the blocks on the way to a deep value", () => {
    const after = edited({ op: "set", path: ["hubs", "hub-1", "reads-every"], value: "10 s" });
    expect(writtenSite(after)).toMatchObject({ hubs: { "hub-1": { "reads-every": "10 s" } } });
  });

  it("changes only the differing keys of a set that is written over", () => {
    const after = edited({
      op: "set",
      path: ["systems", "tank", "bodies", "sump"],
      value: { volume: "55 L", brim: "80 L" },
    });
    expect(after).toBe(SITE.replace("volume: 60 L", "volume: 55 L"));
  });

  it("adds an entry to a list", () => {
    expect(edited({ op: "set", path: ["ladder", 2], value: "after 1 h keeper" })).toContain(
      "ladder: [ keeper, after 20 min friend, after 1 h keeper ]",
    );
  });

  it("quotes what would mean something else without quotes", () => {
    const says = 'a, "b": {c} # d';
    const after = edited({ op: "set", path: ["rules", "too-warm", "says"], value: says });
    expect((writtenSite(after) as { rules: { "too-warm": { says: string } } }).rules["too-warm"].says).toBe(says);
  });
});

describe("taking away", () => {
  it("takes a key out of a set on one line, with its comma", () => {
    const after = edited({ op: "remove", path: ["devices", "heater", "power"] });
    expect(after).toContain("heater:   { kind: heater, in: sump, own-thermostat: 26 degC }");
  });

  it("leaves a comment that stands above", () => {
    const after = edited({ op: "remove", path: ["devices", "heater"] });
    expect(after).toContain("  # All on the shelf.\n  return-1:");
  });

  it("leaves an empty section where the last part went", () => {
    const after = edited({ op: "remove", path: ["people", "friend"] }, { op: "remove", path: ["people", "keeper"] });
    expect(after).toContain("people: {}\n\nladder:");
  });

  it("says so where there is nothing to take", () => {
    const { problem } = editSite(SITE, [{ op: "remove", path: ["devices", "chiller"] }]);
    expect(problem).toMatchObject({ index: 0, message: "there is no devices.chiller in the file" });
  });
});

describe("another name", () => {
  it("is written wherever the file means the part, and in no text that only mentions it", () => {
    const after = edited({ op: "rename", from: "display-temp", to: "reef-temp" });
    expect(after).toContain("reef-temp: above 27.5 degC");
    expect(after).toContain("says: display-temp is high");
    expect(after).toContain("apart: { when: { reef-temp: differs from sump-temp by 0.8 K }");
    expect(loadSite(after, "x").errors).toEqual([]);
  });

  it("reaches into comparisons and steps of the ladder", () => {
    const after = edited(
      { op: "rename", from: "sump-temp", to: "cellar" },
      { op: "rename", from: "friend", to: "min" },
    );
    expect(after).toContain("differs from cellar by 0.8 K");
    expect(after).toContain("ladder: [ keeper, after 20 min min ]");
    const again = editSite(after, [{ op: "rename", from: "min", to: "friend" }]);
    expect(again.text).toContain("after 20 min friend");
  });

  it("is not given while the file has errors, for then it is not known who means whom", () => {
    const { problem } = editSite(SITE.replace("200 W", "200 X"), [{ op: "rename", from: "sump", to: "box" }]);
    expect(problem?.message).toContain("while the file has errors");
  });
});

describe("taking a part out", () => {
  it("takes every mention and what can not be without it", () => {
    const after = edited({ op: "take-out", part: "display-temp" });
    expect(after).not.toMatch(/display-temp(?! is high)/);
    expect(Object.keys((writtenSite(after) as { rules: object }).rules)).toEqual([]);
    expect(loadSite(after, "x").errors).toEqual([]);
  });

  it("takes a person off the ladder", () => {
    expect(edited({ op: "take-out", part: "friend" })).toContain("ladder: [ keeper ]\n");
  });

  it("takes the pump of a flow with the flow's end", () => {
    const after = edited({ op: "take-out", part: "sump" });
    const { devices, sensors } = writtenSite(after) as { devices: object; sensors: object };
    expect(Object.keys(devices)).toEqual([]);
    expect(Object.keys(sensors)).toEqual(["display-temp"]);
    expect(loadSite(after, "x").errors).toEqual([]);
  });
});

/** Paths of everything that is written. */
function pathsOf(value: WrittenValue, path: EditPath = []): readonly EditPath[] {
  if (typeof value === "string") return path.length > 0 ? [path] : [];
  const inner = Array.isArray(value)
    ? value.flatMap((item: WrittenValue, index) => pathsOf(item, [...path, index]))
    : Object.entries(value).flatMap(([key, item]) => pathsOf(item, [...path, key]));
  return path.length > 0 ? [path, ...inner] : inner;
}

function valueAt(value: WrittenValue | undefined, path: EditPath): WrittenValue | undefined {
  return path.reduce<WrittenValue | undefined>(
    (inner, key) => (typeof inner === "object" ? (inner as Record<string, WrittenValue>)[key as string] : undefined),
    value,
  );
}

const WRITTEN = writtenSite(SITE) as WrittenValue;
const COMMENTS = SITE.match(/#.*$/gm) ?? [];
const somePath = fc.constantFrom(...pathsOf(WRITTEN));
const someText = fc.string({ unit: "grapheme", maxLength: 30 }).map((text) => text.trim());
const someValue = fc.oneof(
  someText,
  fc.array(someText, { maxLength: 3 }),
  fc.dictionary(fc.stringMatching(/^[a-z][a-z-]{0,8}$/), someText, { maxKeys: 3 }),
);

describe("any change", () => {
  it("writes what was meant, where it was meant, and keeps every comment", () => {
    fc.assert(
      fc.property(somePath, someValue, (path, value) => {
        const after = edited({ op: "set", path, value });
        const written = writtenSite(after) as WrittenValue;
        expect(valueAt(written, path)).toEqual(value);
        for (const other of pathsOf(WRITTEN)) {
          const related = path.every((key, depth) => other[depth] === key) || other.every((key, d) => path[d] === key);
          if (!related) expect(valueAt(written, other)).toEqual(valueAt(WRITTEN, other));
        }
        if (typeof valueAt(WRITTEN, path) === "string")
          for (const comment of COMMENTS) expect(after).toContain(comment);
      }),
    );
  });

  it("takes away what was meant and nothing beside it", () => {
    fc.assert(
      fc.property(somePath, (path) => {
        const after = writtenSite(edited({ op: "remove", path })) as WrittenValue;
        const holder = path.slice(0, -1);
        const before = valueAt(WRITTEN, holder) as Record<string, WrittenValue>;
        const last = path[path.length - 1];
        const wanted = Array.isArray(before)
          ? before.filter((_item, index) => index !== last)
          : Object.fromEntries(Object.entries(before).filter(([key]) => key !== last));
        expect(valueAt(after, holder)).toEqual(wanted);
      }),
    );
  });

  it("of a part's name there and back is no change", () => {
    const parts = [
      "display",
      "sump",
      "can",
      "heater",
      "return-1",
      "top-off",
      "display-temp",
      "sump-temp",
      "too-warm",
      "keeper",
      "friend",
      "tank",
    ];
    fc.assert(
      fc.property(fc.constantFrom(...parts), fc.stringMatching(/^[a-z][a-z0-9-]{3,12}z$/), (part, name) => {
        const there = edited({ op: "rename", from: part, to: name });
        expect(loadSite(there, "x").errors).toEqual([]);
        expect(editSite(there, [{ op: "rename", from: name, to: part }]).text).toBe(SITE);
      }),
    );
  });
});
