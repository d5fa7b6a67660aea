import type { Site } from "../../server/contract/index.ts";
import { span } from "../parts/format.ts";
import { pictureWords } from "../words/site-picture.ts";
import { SIZES, textWidth } from "./geometry.ts";
import type { Label, Rung } from "./shapes.ts";

const HEAD = 5;
/** From the head to the name, px. */
const TO_NAME = 12;
const NOTE_LINE = 14;
const RUNG_HEIGHT = 82;
/** Least length of the line between two people, px. */
const STEP = 34;

/** The people in the order in which they are told, with how long each is given to take a notice; then who is told by nothing. */
export function layOutLadder(
  site: Site,
  left: number,
  top: number,
  width: number,
): { readonly rungs: readonly Rung[]; readonly bottom: number } {
  const told = site.ladder.flatMap(({ person: id, afterMin }) => {
    const person = site.people.find((candidate) => candidate.id === id);
    return person === undefined ? [] : [{ person, afterMin }];
  });
  const others = site.people.filter(({ id }) => !site.ladder.some(({ person }) => person === id));
  const all = [...told, ...others.map((person) => ({ person, afterMin: null }))];
  const rungs: Rung[] = [];
  let x = left + HEAD + 2;
  let y = top + HEAD;
  all.forEach(({ person, afterMin }, i) => {
    const ways = person.reachedBy.length === 0 ? "" : pictureWords.reachedBy(person.reachedBy.join(pictureWords.and));
    const when = afterMin === null ? pictureWords.notOnLadder : i === 0 ? pictureWords.toldFirst : "";
    const notes = [when, ways].filter((note) => note !== "");
    const wait = afterMin === null || i === 0 ? "" : pictureWords.wait(span(afterMin));
    const own = TO_NAME + Math.max(textWidth(person.id), ...notes.map((note) => textWidth(note, SIZES.sounding)));
    const before = rungs.at(-1);
    const reach = Math.max(STEP, textWidth(wait, SIZES.sounding) + 24);
    const next = x + (before === undefined ? 0 : wait === "" ? 28 : reach + 8);
    const breaks = before !== undefined && next + own > width;
    const from = { x, y };
    if (breaks) {
      x = left + HEAD + 2;
      y += RUNG_HEIGHT;
    } else x = next;
    rungs.push({
      person,
      x,
      y,
      name: { text: person.id, x: x + TO_NAME, y: y + 4, anchor: "start", on: "paper" },
      words: [wait, ...notes].filter((note) => note !== "").join(", "),
      notes: notes.map(
        (text, line): Label => ({
          text,
          x: x + TO_NAME,
          y: y + 4 + NOTE_LINE * (line + 1),
          anchor: "start",
          on: "paper",
        }),
      ),
      step: before === undefined || wait === "" ? null : stepTo(before, from, { x, y }, wait, breaks),
    });
    x += own;
  });
  return { rungs, bottom: all.length === 0 ? top : y + RUNG_HEIGHT - 40 };
}

/** Along from the name before to the next head; or down to it where it begins a new line. */
function stepTo(
  before: Rung,
  from: { readonly x: number; readonly y: number },
  to: { readonly x: number; readonly y: number },
  wait: string,
  breaks: boolean,
): NonNullable<Rung["step"]> {
  const label = (x: number, y: number, anchor: Label["anchor"]): Label => ({ text: wait, x, y, anchor, on: "paper" });
  if (!breaks) {
    const start = before.name.x + textWidth(before.name.text) + 6;
    const end = to.x - HEAD - 4;
    return {
      d: `M${start} ${from.y}H${end - 8}`,
      arrow: { x: end, y: to.y, way: "right" },
      wait: label((Math.max(start, from.x) + end - 8) / 2, to.y - 7, "middle"),
    };
  }
  return {
    d: `M${before.x} ${before.y + HEAD + 3}V${to.y - HEAD - 22}H${to.x}V${to.y - HEAD - 10}`,
    arrow: { x: to.x, y: to.y - HEAD - 3, way: "down" },
    wait: label(to.x + TO_NAME, to.y - HEAD - 9, "start"),
  };
}
