import type { JobRules, JobSheet } from '../job.ts';
import { alongOf, crossOf, isGapFine, isGapHeld, isLevel, isShavable, type Node, Shape } from './tree.ts';

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
  const low = crossOf(root, shape);
  const end = long - alongOf(root, shape);
  const rest = high - low;
  const kids = root.shape === Shape.part ? [root] : root.kids;
  const parts = kids.length > 1;
  const mayTake = (rounds: number) => rounds <= rules.rounds;
  const roundsAt = (cross: number) =>
    Number.isFinite(rules.rounds) ? roundsOfLine({ kids, shape, end, cross }, rules) : 0;

  const alone = isLineFine({ kids, shape, end, cross: high }, rules) && mayTake(roundsAt(high));
  // A narrow rest is of no use in one length either, and taking it off first costs a cut more.
  if (alone && parts && rest * narrow <= high) return 'each alone';

  // What is shaved off all kids at once is the last cut that way, so nothing may be left to cut beside one.
  const isRestFine = isGapHeld(rest, rules) || (isGapFine(rest, rules) && isLevel(kids, shape, low));
  if (isRestFine) {
    const rounds = roundsAt(low);
    const restFirst =
      isLineFine({ kids, shape, end, cross: low }, rules) &&
      (rest === 0 || mayBeCut(long, rules)) &&
      mayTake(rounds + (rest === 0 ? 0 : 1));
    const endFirst =
      (isGapHeld(end, rules) || (isGapFine(end, rules) && !parts)) &&
      isLineFine({ kids, shape, end: 0, cross: low }, rules) &&
      (end === 0 || mayBeCut(high, rules)) &&
      (rest === 0 || mayBeCut(alongOf(root, shape), rules)) &&
      mayTake(rest === 0 ? rounds : roundsAfterEnd(rounds, end, parts));
    // A rip runs along the sheet's length: it is what takes a row's rest off, and a column's end.
    const order: Opening[] = shape === Shape.row ? ['rest first', 'end first'] : ['end first', 'rest first'];
    for (const opening of order) if (opening === 'rest first' ? restFirst : endFirst) return opening;
  }
  return alone ? 'each alone' : undefined;
}

/** A rest is narrow up to one part in so many of its side. */
const narrow = 8;

/**
 * Rounds of cuts that a line takes: its own, and what its kids take beyond them. The cuts that bring a kid
 * down to its cross size are of the kid's own direction.
 */
function roundsOfLine(line: Line, rules: JobRules): number {
  const { kids, shape, end, cross } = line;
  const shares = sharesOf(line, rules) ?? noShares;
  let most = 0;
  for (let i = 0; i < kids.length; i++) {
    const kid = kids[i]!;
    const gap = cross - crossOf(kid, shape);
    const rounds =
      kid.shape === Shape.part
        ? Math.sign(gap)
        : roundsOfLine(lineInside(kid, shape, cross, shares[i] ?? 0), rules);
    if (rounds > most) most = rounds;
  }
  return kids.length > 1 || end > 0 ? most + 1 : most;
}

/** End, then rest, then what is left of the line's own cuts. */
function roundsAfterEnd(rounds: number, end: number, parts: boolean): number {
  const before = end === 0 ? 1 : 2;
  return parts ? before + rounds : before + Math.max(0, rounds - 1);
}

function isLineFine(line: Line, rules: JobRules): boolean {
  const { kids, shape, end, cross } = line;
  if ((kids.length > 1 || end > 0) && !mayBeCut(cross, rules)) return false;
  const shares = sharesOf(line, rules);
  if (shares === undefined) return false;
  return kids.every((kid, i) => {
    const gap = cross - crossOf(kid, shape);
    if (kid.shape !== Shape.part) return isLineFine(lineInside(kid, shape, cross, shares[i] ?? 0), rules);
    return isGapFine(gap, rules) && (gap === 0 || mayBeCut(alongOf(kid, shape), rules));
  });
}

/** Kids in a piece that is `cross` cells across, with `end` cells to spare along. */
export interface Line {
  readonly kids: readonly Node[];
  readonly shape: Shape;
  readonly end: number;
  readonly cross: number;
}

/** What a kid that is a line has to be cut out of. */
export function lineInside(kid: Node, parent: Shape, cross: number, share: number): Line {
  const size = alongOf(kid, parent) + (isShavable(kid, parent) ? 0 : share);
  return { kids: kid.kids, shape: kid.shape, end: cross - crossOf(kid, parent), cross: size };
}

/**
 * What is too narrow to be held behind a line's last kid goes to kids that can do with a wider piece: a part
 * loses up to a kerf in its last cut that way, other lines leave more beside their own kids.
 *
 *     ├─ part ─┤▒├─── part ───┤▒├── part ──┤     all that is lost is no more than a kerf behind each
 *
 * @returns  how much wider each kid's piece is, in the kids' order; nothing where the end comes off as it is;
 *           undefined where the line can't be cut
 */
export function sharesOf({ kids, shape, end, cross }: Line, rules: JobRules): readonly number[] | undefined {
  if (isGapHeld(end, rules)) return noShares;
  const shares = kids.map(() => 0);
  let left = end;
  for (let i = kids.length - 1; i >= 0 && left > 0; i--) {
    if (!isShavable(kids[i]!, shape)) continue;
    shares[i] = Math.min(left, rules.kerf);
    left -= shares[i]!;
  }
  if (left === 0) return shares;
  const wider = kids.findLastIndex(
    (kid) => !isShavable(kid, shape) && isLineFine(lineInside(kid, shape, cross, left), rules),
  );
  if (wider < 0) return undefined;
  shares[wider] = left;
  return shares;
}

const noShares: readonly number[] = [];

function mayBeCut(length: number, rules: JobRules): boolean {
  return length - rules.kerf <= rules.longestCut;
}
