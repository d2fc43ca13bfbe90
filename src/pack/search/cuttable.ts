import type { JobRules, JobSheet } from '../job.ts';
import { alongOf, crossOf, isGapFine, type Node, Shape } from './tree.ts';

/**
 * How the first cuts part the tree from the rest of its sheet.
 *
 *   rest first              end first               each alone
 *   ┌───────────────┐       ┌─────────┬─────┐       ┌───┬───┬───┬───┐
 *   │     rest      │       │  rest   │     │       │   │   │   │   │
 *   ├───┬───┬───┬───┤       ├───┬───┬─┤ end │       ├───┤   ├───┤end│
 *   │   │   │   │end│       │   │   │ │     │       │   │   │   │   │
 *   └───┴───┴───┴───┘       └───┴───┴─┴─────┘       └───┴───┴───┴───┘
 */
export type Opening = 'rest first' | 'end first' | 'each alone';

export function canBeCut(root: Node, sheet: JobSheet, rules: JobRules): boolean {
  return openingOf(root, sheet, rules) !== undefined;
}

/** The first opening that obeys the rules, in an order that a person likes; undefined if none does. */
export function openingOf(root: Node, sheet: JobSheet, rules: JobRules): Opening | undefined {
  if (root.width > sheet.length || root.height > sheet.width) return undefined;
  // A part alone is opened as if it were a row of one.
  const shape = root.shape === Shape.part ? Shape.row : root.shape;
  const long = shape === Shape.row ? sheet.length : sheet.width;
  const high = shape === Shape.row ? sheet.width : sheet.length;
  const end = long - alongOf(root, shape);
  const rest = high - crossOf(root, shape);
  const kids = root.shape === Shape.part ? [root] : root.kids;
  const mayBeCut = (length: number) => length - rules.kerf <= rules.longestCut;
  const parts = kids.length > 1;

  if (!isGapFine(end, rules) || !kids.every((kid) => isFineInside(kid, rules))) return undefined;
  const mayTake = (rounds: number) => rounds <= rules.rounds;
  const roundsAt = (cross: number) =>
    Number.isFinite(rules.rounds) ? roundsOfLine(kids, shape, cross, !parts && end === 0) : 0;

  const alone =
    ((!parts && end === 0) || mayBeCut(high)) &&
    kids.every((kid) => {
      const gap = high - crossOf(kid, shape);
      return isGapFine(gap, rules) && (gap === 0 || mayBeCut(alongOf(kid, shape)));
    }) &&
    mayTake(roundsAt(high));
  // A narrow rest is of no use in one length either, and taking it off first costs a cut more.
  if (alone && parts && rest * narrow <= high) return 'each alone';

  if (isGapFine(rest, rules)) {
    const low = crossOf(root, shape);
    const insideFine = kids.every((kid) => {
      const gap = low - crossOf(kid, shape);
      return isGapFine(gap, rules) && (gap === 0 || mayBeCut(alongOf(kid, shape)));
    });
    const crossesFine = !parts || mayBeCut(low);
    const rounds = roundsAt(low);
    const restFirst =
      (rest === 0 || mayBeCut(long)) &&
      (end === 0 || mayBeCut(low)) &&
      mayTake(rounds + (rest === 0 ? 0 : 1));
    const endFirst =
      (end === 0 || mayBeCut(high)) &&
      (rest === 0 || mayBeCut(alongOf(root, shape))) &&
      mayTake(rest === 0 ? rounds : roundsAfterEnd(rounds, end, parts));
    if (insideFine && crossesFine) {
      // A rip runs along the sheet's length: it is what takes a row's rest off, and a column's end.
      const order: Opening[] =
        shape === Shape.row ? ['rest first', 'end first'] : ['end first', 'rest first'];
      for (const opening of order) if (opening === 'rest first' ? restFirst : endFirst) return opening;
    }
  }
  return alone ? 'each alone' : undefined;
}

/** A rest is narrow up to one part in so many of its side. */
const narrow = 8;

/**
 * Rounds of cuts that a line takes: its own, and what its kids take beyond them. The cuts that bring a kid
 * down to its cross size are of the kid's own direction.
 *
 * @param isWhole  the line is one kid that needs no cut along
 */
function roundsOfLine(kids: readonly Node[], shape: Shape, cross: number, isWhole: boolean): number {
  let most = 0;
  for (const kid of kids) {
    const rounds =
      kid.shape === Shape.part
        ? crossOf(kid, shape) < cross
          ? 1
          : 0
        : roundsOfLine(kid.kids, kid.shape, alongOf(kid, shape), false);
    if (rounds > most) most = rounds;
  }
  return isWhole ? most : most + 1;
}

/** End, then rest, then what is left of the line's own cuts. */
function roundsAfterEnd(rounds: number, end: number, parts: boolean): number {
  const before = end === 0 ? 1 : 2;
  return parts ? before + rounds : before + Math.max(0, rounds - 1);
}

function isFineInside(node: Node, rules: JobRules): boolean {
  if (node.shape === Shape.part) return true;
  const cross = crossOf(node, node.shape);
  if (cross - rules.kerf > rules.longestCut) return false;
  return node.kids.every((kid) => {
    const gap = cross - crossOf(kid, node.shape);
    return (
      isGapFine(gap, rules) &&
      (gap === 0 || alongOf(kid, node.shape) - rules.kerf <= rules.longestCut) &&
      isFineInside(kid, rules)
    );
  });
}
