/** Which lines of two texts are the same, for people who want to see what another has changed. */
export interface DifferentLine {
  /** "a" and "b" stand in one of the texts only; "same" in both; "skipped" stands for many that are the same. */
  readonly where: "a" | "b" | "same" | "skipped";
  readonly text: string;
  /** Lines that "skipped" stands for; 1 otherwise. */
  readonly count: number;
}

/** Lines that are the same and shown around a difference. */
const AROUND = 1;
/** Beyond this many lines that differ the middle is told as replaced, not compared line by line. */
const MOST_COMPARED = 2000;

/** The differences of two texts in the order of the file, with a line around each. */
export function lineDifference(a: string, b: string): readonly DifferentLine[] {
  const left = a.split("\n");
  const right = b.split("\n");
  let head = 0;
  while (head < left.length && head < right.length && left[head] === right[head]) head += 1;
  let tail = 0;
  while (
    tail < left.length - head &&
    tail < right.length - head &&
    left[left.length - 1 - tail] === right[right.length - 1 - tail]
  )
    tail += 1;
  const middle = compared(left.slice(head, left.length - tail), right.slice(head, right.length - tail));
  const same = (text: string): DifferentLine => ({ where: "same", text, count: 1 });
  return shortened([
    ...left.slice(0, head).map(same),
    ...middle,
    ...left.slice(left.length - tail, left.length).map(same),
  ]);
}

/** By the longest common run of lines. */
function compared(left: readonly string[], right: readonly string[]): readonly DifferentLine[] {
  const gone = (text: string): DifferentLine => ({ where: "a", text, count: 1 });
  const come = (text: string): DifferentLine => ({ where: "b", text, count: 1 });
  if (left.length * right.length > MOST_COMPARED * MOST_COMPARED) return [...left.map(gone), ...right.map(come)];
  const width = right.length + 1;
  const longest = new Uint32Array((left.length + 1) * width);
  for (let i = left.length - 1; i >= 0; i--) {
    for (let j = right.length - 1; j >= 0; j--) {
      longest[i * width + j] =
        left[i] === right[j]
          ? longest[(i + 1) * width + j + 1] + 1
          : Math.max(longest[(i + 1) * width + j], longest[i * width + j + 1]);
    }
  }
  const lines: DifferentLine[] = [];
  let i = 0;
  let j = 0;
  while (i < left.length && j < right.length) {
    if (left[i] === right[j]) {
      lines.push({ where: "same", text: left[i], count: 1 });
      i += 1;
      j += 1;
    } else if (longest[(i + 1) * width + j] >= longest[i * width + j + 1]) lines.push(gone(left[i++]));
    else lines.push(come(right[j++]));
  }
  return [...lines, ...left.slice(i).map(gone), ...right.slice(j).map(come)];
}

function shortened(lines: readonly DifferentLine[]): readonly DifferentLine[] {
  const near = lines.map((_, i) =>
    lines.slice(Math.max(0, i - AROUND), i + AROUND + 1).some(({ where }) => where !== "same"),
  );
  const short: DifferentLine[] = [];
  for (const [i, line] of lines.entries()) {
    const last = short[short.length - 1];
    if (near[i]) short.push(line);
    else if (last?.where === "skipped") short[short.length - 1] = { ...last, count: last.count + 1 };
    else short.push({ where: "skipped", text: "", count: 1 });
  }
  return short;
}
