/** "Did you mean ...?": the known word that lies nearest to what was written. */

/**
 * Number of single letters to insert, delete, replace or swap with their neighbour to turn one word into the other
 * (optimal string alignment; Damerau 1964, Levenshtein 1966).
 */
export function editDistance(first: string, second: string): number {
  const width = second.length + 1;
  let beforePrevious = new Array<number>(width).fill(0);
  let previous = Array.from({ length: width }, (_, index) => index);
  for (let row = 1; row <= first.length; row++) {
    const current = new Array<number>(width).fill(row);
    for (let column = 1; column < width; column++) {
      const cost = first[row - 1] === second[column - 1] ? 0 : 1;
      let best = Math.min(previous[column] + 1, current[column - 1] + 1, previous[column - 1] + cost);
      const swapped =
        row > 1 && column > 1 && first[row - 1] === second[column - 2] && first[row - 2] === second[column - 1];
      if (swapped) best = Math.min(best, beforePrevious[column - 2] + 1);
      current[column] = best;
    }
    beforePrevious = previous;
    previous = current;
  }
  return previous[width - 1];
}

const LONGEST_COMPARED = 64;

/** Letters only, lower case: so that `ringA`, `ring_a` and `ring-a` count as the same word. */
function plain(word: string): string {
  return word.toLowerCase().replace(/[\s_-]+/g, "");
}

/** The nearest candidate, or null where none is near enough to be a slip of the hand. Ties go to the first. */
export function nearest(written: string, candidates: Iterable<string>): string | null {
  const word = plain(written.slice(0, LONGEST_COMPARED));
  let best: string | null = null;
  let bestDistance = Math.max(1, Math.floor(word.length / 3)) + 1;
  for (const candidate of candidates) {
    if (candidate.length > LONGEST_COMPARED) continue;
    const distance = editDistance(word, plain(candidate));
    if (distance < bestDistance) {
      best = candidate;
      bestDistance = distance;
    }
  }
  return best;
}

/** `did you mean 'x'?`, or a list of what there is, or a sentence that there is nothing. */
export function didYouMean(written: string, candidates: readonly string[]): string {
  const guess = nearest(written, candidates);
  if (guess !== null) return `did you mean '${guess}'?`;
  if (candidates.length === 0) return "there is none to choose from";
  const shown = candidates.slice(0, 12).join(", ");
  return candidates.length > 12 ? `there are ${shown} and ${candidates.length - 12} more` : `there is ${shown}`;
}
