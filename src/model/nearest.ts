/**
 * The known word that a misspelt one was most likely meant to be; undefined when nothing is near, since a
 * far-fetched guess is worse than none. Of two that are equally near, the one listed first.
 *
 * Upper and lower case are taken as equal, two neighbouring letters swapped are one slip.
 */
export function nearest(word: string, known: Iterable<string>): string | undefined {
  let best: string | undefined;
  let fewest = mostSlips + 1;
  for (const candidate of known) {
    const slips = slipsBetween(word.toLowerCase(), candidate.toLowerCase());
    const likeness = 1 - slips / Math.max(word.length, candidate.length, 1);
    if (slips < fewest && likeness >= leastLikeness) [best, fewest] = [candidate, slips];
  }
  return best;
}

/** `; did you mean "kerf"?`, or nothing: the end of a message that names an unknown word. */
export function didYouMean(word: string, known: Iterable<string>): string {
  return orMeant(nearest(word, known));
}

/** The same where it is known what was meant. */
export function orMeant(meant: string | undefined): string {
  return meant === undefined ? '' : `; did you mean "${meant}"?`;
}

const mostSlips = 3;
const leastLikeness = 0.6;

/**
 * Letters added, left out, changed, or swapped with their neighbour on the way from `a` to `b`; stops
 * caring above `mostSlips`.
 *
 * @source optimal string alignment, the restricted form of Damerau's distance (Comm. ACM 7 (1964), 171)
 */
function slipsBetween(a: string, b: string): number {
  if (Math.abs(a.length - b.length) > mostSlips) return mostSlips + 1;
  let beforeLast: readonly number[] = [];
  let last: readonly number[] = Array.from({ length: b.length + 1 }, (_, column) => column);
  for (let row = 1; row <= a.length; row++) {
    const current = [row];
    for (let column = 1; column <= b.length; column++) {
      const change = a[row - 1] === b[column - 1] ? 0 : 1;
      const isSwap = a[row - 1] === b[column - 2] && a[row - 2] === b[column - 1];
      current[column] = Math.min(
        (last[column] ?? 0) + 1,
        (current[column - 1] ?? 0) + 1,
        (last[column - 1] ?? 0) + change,
        isSwap ? (beforeLast[column - 2] ?? Number.POSITIVE_INFINITY) + 1 : Number.POSITIVE_INFINITY,
      );
    }
    [beforeLast, last] = [last, current];
  }
  return last[b.length] ?? 0;
}
