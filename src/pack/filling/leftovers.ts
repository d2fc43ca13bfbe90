import { compare, isPositive, minus, toFraction } from '../../measure/index.ts';
import type { CutRules, CutTree, Length } from '../../model/index.ts';
import type { Pace } from '../pace.ts';

/** What a layout leaves over, and what was done to it: how it may be cut hangs on both. */
export interface Leftover {
  readonly length: Length;
  readonly width: Length;
  /** Rounds of cuts that it took so far, and which way the last of them went. */
  readonly rounds: number;
  readonly last: Way | undefined;
  /** The ways in which it, or a piece it was cut from, was shaved: it must not be cut that way again. */
  readonly done: readonly Way[];
}

export type Way = 'rip' | 'crosscut';

interface Size {
  readonly length: Length;
  readonly width: Length;
}

/** All that a sheet's layout leaves over; near pieces before far ones. */
export function leftoversOf(tree: CutTree, sheet: Size, rules: CutRules): readonly Leftover[] {
  const found: Leftover[] = [];
  // A list in place of recursion: a long row of small parts nests as deep as it has parts.
  const inHand: { readonly tree: CutTree; readonly piece: Leftover }[] = [
    { tree, piece: { ...sheet, rounds: 0, last: undefined, done: [] } },
  ];
  for (let next = inHand.pop(); next !== undefined; next = inHand.pop()) {
    const { tree: it, piece } = next;
    if (it.kind === 'left over') found.push(piece);
    if (it.kind === 'part' || it.kind === 'left over') continue;
    const { near, far } = piecesOf(it.kind, it.at, piece, rules);
    if (it.far !== undefined && far !== undefined) inHand.push({ tree: it.far, piece: far });
    inHand.push({ tree: it.near, piece: near });
  }
  return found;
}

function piecesOf(
  kind: Way,
  at: Length,
  piece: Leftover,
  { kerf, leastStrip }: CutRules,
): { readonly near: Leftover; readonly far: Leftover | undefined } {
  const side = sideOf(kind);
  const far = minus(minus(piece[side], at), kerf);
  const isShaved = isPositive(leastStrip) && !isPositive(far);
  const after: Leftover = {
    ...piece,
    rounds: kind === piece.last ? piece.rounds : piece.rounds + 1,
    last: kind,
    done: isShaved ? [...piece.done, kind] : piece.done,
  };
  return { near: { ...after, [side]: at }, far: isPositive(far) ? { ...after, [side]: far } : undefined };
}

/** The side that a cut parts. */
function sideOf(kind: Way): 'length' | 'width' {
  return kind === 'rip' ? 'width' : 'length';
}

/**
 * True where a leftover may be cut up so. What was done to it before is looked at too, which a sheet of its own
 * would not know: its rounds, and the ways in which it was shaved.
 */
export function* mayBeCutUp(
  tree: CutTree,
  leftover: Leftover,
  rules: CutRules,
  pace: Pace,
): Generator<void, boolean> {
  const inHand: { readonly tree: CutTree; readonly piece: Leftover }[] = [{ tree, piece: leftover }];
  for (let next = inHand.pop(); next !== undefined; next = inHand.pop()) {
    if (pace.isDue(workOfCut)) yield;
    const { tree: it, piece } = next;
    if (it.kind === 'part' || it.kind === 'left over') continue;
    const { near, far } = piecesOf(it.kind, it.at, piece, rules);
    const cutLength = it.kind === 'rip' ? piece.length : piece.width;
    if (compare(it.at, piece[sideOf(it.kind)]) >= 0) return false;
    if (piece.done.includes(it.kind)) return false;
    if (rules.rounds !== undefined && near.rounds > rules.rounds) return false;
    if (rules.longestCut !== undefined && compare(cutLength, rules.longestCut) > 0) return false;
    if ([it.at, far?.[sideOf(it.kind)]].some((size) => size && compare(size, rules.leastStrip) < 0))
      return false;
    if (it.far !== undefined && far !== undefined) inHand.push({ tree: it.far, piece: far });
    inHand.push({ tree: it.near, piece: near });
  }
  return true;
}

/** In rounds of simple loops. */
const workOfCut = 300;

/** The same layout with some of what it leaves over cut up, by their places in `leftoversOf`. */
export function cutUp(tree: CutTree, fillings: ReadonlyMap<number, CutTree>): CutTree {
  let place = 0;
  const rebuilt = (it: CutTree): CutTree => {
    if (it.kind === 'part') return it;
    if (it.kind === 'left over') return fillings.get(place++) ?? it;
    const near = rebuilt(it.near);
    const far = it.far && rebuilt(it.far);
    return near === it.near && far === it.far ? it : { ...it, near, far };
  };
  return rebuilt(tree);
}

/** Equal for leftovers of one sheet that may be cut up alike. */
export function keyOf({ length, width, rounds, last, done }: Leftover): string {
  return [toFraction(length), toFraction(width), rounds, last, ...done].join(' ');
}
