/** Waters as lines of JSON: one line in, one line out, in order, however many there are. */
import { once } from "node:events";
import type { Writable } from "node:stream";
import { answer, plain } from "./answer.ts";

/** Characters of the longest line that is read; a question needs a few hundred. */
const LONGEST_LINE = 1_000_000;

interface Line {
  /** From 1, empty lines counted. */
  readonly number: number;
  /** Null where it was too long to keep. */
  readonly text: string | null;
}

/** Cuts a stream of text into lines, those of one chunk at a time; keeps no more than one chunk and one line. */
async function* linesOf(input: AsyncIterable<Uint8Array | string>): AsyncGenerator<readonly Line[]> {
  const decoder = new TextDecoder();
  let rest = "";
  let isTooLong = false;
  let number = 0;
  const close = (text: string): Line => {
    number++;
    const line = { number, text: isTooLong || text.length > LONGEST_LINE ? null : text };
    isTooLong = false;
    return line;
  };
  for await (const chunk of input) {
    const pieces = (rest + (typeof chunk === "string" ? chunk : decoder.decode(chunk, { stream: true }))).split("\n");
    rest = pieces.pop() ?? "";
    yield pieces.map(close);
    if (rest.length > LONGEST_LINE) isTooLong = true;
    if (isTooLong) rest = "";
  }
  rest += decoder.decode();
  if (rest !== "" || isTooLong) yield [close(rest)];
}

/** One line answered: the line to write, or null for an empty one. */
function reply(
  { number, text }: Line,
  usual: Readonly<Record<string, unknown>>,
): { json: string; isGood: boolean } | null {
  if (text === null) return refusal(number, `line is longer than ${LONGEST_LINE} characters`);
  if (text.trim() === "") return null;
  let said: unknown;
  try {
    said = JSON.parse(text);
  } catch (error) {
    return refusal(number, `not JSON: ${error instanceof Error ? error.message : String(error)}`);
  }
  if (typeof said !== "object" || said === null || Array.isArray(said))
    return refusal(
      number,
      'want an object, such as {"temperature_c":25,"salinity":35,"alkalinity_umol_kg":2300,"ph_nbs":8.2}',
    );
  const id = "id" in said ? { id: said.id } : {};
  const { result, problems } = answer({ ...usual, ...said });
  if (problems) return refusal(number, problems.join("; "), id);
  return { json: JSON.stringify({ ...id, ...plain(result) }), isGood: true };
}

function refusal(
  line: number,
  error: string,
  id: Readonly<Record<string, unknown>> = {},
): { json: string; isGood: boolean } {
  return { json: JSON.stringify({ ...id, line, error }), isGood: false };
}

/**
 * Answers every line of `input` on `output`, waiting whenever its reader is slower. Resolves to the number of bad lines.
 * @param usual fields that hold for every line which does not say otherwise
 */
export async function answerLines(
  input: AsyncIterable<Uint8Array | string>,
  output: Writable,
  usual: Readonly<Record<string, unknown>>,
): Promise<number> {
  let bad = 0;
  for await (const lines of linesOf(input)) {
    const replies = lines.map((line) => reply(line, usual)).filter((one) => one !== null);
    bad += replies.filter((one) => !one.isGood).length;
    if (replies.length > 0 && !output.write(`${replies.map((one) => one.json).join("\n")}\n`))
      await once(output, "drain");
  }
  return bad;
}
