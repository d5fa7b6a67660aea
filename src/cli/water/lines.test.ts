/** Waters a line, good and bad, from streams cut anywhere and to readers as slow as they like; then the real command. */
import { spawnSync } from "node:child_process";
import { join } from "node:path";
import { Readable, Writable } from "node:stream";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { answerLines } from "./lines.ts";

const REEF = '{"temperature_c":25,"salinity":35,"alkalinity_umol_kg":2300,"dic_umol_kg":2000}';

interface Told {
  readonly replies: Record<string, unknown>[];
  readonly bad: number;
}

/** @param chunks what arrives, cut as it comes */
async function told(chunks: Iterable<Uint8Array | string>, usual = {}, highWaterMark = 16_384): Promise<Told> {
  let text = "";
  const output = new Writable({
    highWaterMark,
    write(chunk, _, done) {
      text += String(chunk);
      setImmediate(done);
    },
  });
  const bad = await answerLines(Readable.from(chunks, { objectMode: true }), output, usual);
  output.end();
  await new Promise((resolve) => output.once("finish", resolve));
  const lines = text === "" ? [] : text.trimEnd().split("\n");
  return { replies: lines.map((line) => JSON.parse(line)), bad };
}

describe("lines of waters", () => {
  it("are answered one by one, and a bad one does not stop the next", async () => {
    const { replies, bad } = await told([
      [
        REEF,
        "",
        "nonsense",
        '{"id":"b","temperature_c":25,"salinity":-1}',
        "[1,2]",
        "  ",
        REEF.replace("{", '{"id":9,'),
      ].join("\n"),
    ]);
    expect(bad).toBe(3);
    expect(replies).toHaveLength(5);
    expect(replies[0].ph_total).toBeCloseTo(8.0458, 4);
    expect(replies[1]).toMatchObject({ line: 3, error: expect.stringMatching(/^not JSON/) });
    expect(replies[2]).toEqual({
      id: "b",
      line: 4,
      error: "salinity: have -1, want a number from 0 to 60",
    });
    expect(replies[3]).toMatchObject({ line: 5, error: expect.stringMatching(/^want an object/) });
    expect(replies[4]).toEqual({ ...replies[0], id: 9 });
  });

  it("are the same however the stream is cut, with either line end, with a mark at the start and without an end", async () => {
    const text = `\uFEFF${REEF}\r\n{"id":"Röhre 海","temperature_c":20,"salinity":30}\r\n\r\n${REEF}`;
    const whole = await told([text.replace("\uFEFF", "")]);
    const bytes = new TextEncoder().encode(text);
    await fc.assert(
      fc.asyncProperty(fc.array(fc.nat(bytes.length), { maxLength: 20 }), async (cuts) => {
        const ends = [...cuts, bytes.length].sort((a, b) => a - b);
        const pieces = ends.map((end, place) => bytes.slice(ends[place - 1] ?? 0, end));
        expect(await told(pieces)).toEqual(whole);
      }),
      { numRuns: 50 },
    );
    expect(whole.replies[1].id).toBe("Röhre 海");
  });

  it("that are longer than any question are refused and let go, and the next is answered", async () => {
    const flood = Array.from({ length: 40 }, () => "x".repeat(100_000));
    const { replies, bad } = await told([...flood, "\n", REEF, "\n", `${"y".repeat(1_000_001)}\n`, ...flood]);
    expect(bad).toBe(3);
    expect(replies.map(({ line }) => line)).toEqual([1, undefined, 3, 4]);
    expect(replies[0].error).toMatch(/longer than/);
  });

  it("wait for a slow reader", async () => {
    const many = Array.from({ length: 200 }, (_, id) => `${REEF.replace("{", `{"id":${id},`)}\n`);
    const { replies } = await told(many, {}, 1);
    expect(replies.map(({ id }) => id)).toEqual(many.map((_, id) => id));
  });

  it("take what holds for all of them, unless they say otherwise", async () => {
    const { replies } = await told([`${REEF}\n${REEF.replace("{", '{"borate":"uppstrom",')}`], { borate: "lee" });
    expect(Number(replies[0].ph_total)).toBeLessThan(Number(replies[1].ph_total));
  });

  it("none of them are no answer and no fault", async () => {
    expect(await told([])).toEqual({ replies: [], bad: 0 });
    expect(await told(["\n\n \n"])).toEqual({ replies: [], bad: 0 });
  });
});

const main = join(import.meta.dirname, "../main.ts");

function slackwater(options: readonly string[], input = ""): { code: number | null; out: string; err: string } {
  const { status, stdout, stderr } = spawnSync(process.execPath, [main, "water", ...options], {
    input,
    encoding: "utf8",
  });
  return { code: status, out: stdout, err: stderr };
}

describe("slackwater water", () => {
  it("ends with 0 when every line was good and with 1 when one was not", () => {
    expect(slackwater([], `${REEF}\n`).code).toBe(0);
    const mixed = slackwater([], `${REEF}\nnonsense\n${REEF}\n`);
    expect(mixed.code).toBe(1);
    expect(mixed.out.trimEnd().split("\n")).toHaveLength(3);
  });

  it("answers one water by options, to people with units and to programs with JSON", () => {
    const options = ["--temperature", "25", "--salinity", "35", "--dkh", "8", "--ph-nbs", "8.2"];
    const people = slackwater(options);
    expect(people.code).toBe(0);
    expect(people.out).toMatch(/total alkalinity +2788\.1 {2}umol\/kg/);
    const programs = slackwater([...options, "--json", "--borate", "lee", "--constants"]);
    expect(JSON.parse(programs.out)).toMatchObject({
      salinity: 35,
      constants: { co2_fugacity_factor: expect.any(Number) },
    });
  });

  it("says what is wrong with a water and ends with 1, and with 2 when the command was not understood", () => {
    const cold = slackwater(["--temperature-c", "-3", "--salinity", "35"]);
    expect(cold).toEqual({ code: 1, out: "", err: "temperature_c: -3 is ice; S 35 freezes at -1.92\n" });
    expect(JSON.parse(slackwater(["--salinity", "35", "--json"]).out)).toEqual({ error: "temperature_c is missing" });
    for (const options of [["--bogus"], ["--salinity", ""]]) {
      const { code, err } = slackwater(options);
      expect(code, options.join(" ")).toBe(2);
      expect(err).toContain("Usage: slackwater water");
    }
  });
});
