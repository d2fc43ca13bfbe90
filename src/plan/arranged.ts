import { compare, toFraction } from '../measure/index.ts';
import type { Length } from '../model/index.ts';
import { oneByOne } from './oneByOne.ts';
import { type Parted, type PartedPiece, restOf, sizeAcross } from './parting.ts';
import { type Bench, settingOrder } from './settingOrder.ts';

export interface Arranged {
  /** The same sheets, parted the same; each piece's own lie in the order in which they are cut off. */
  readonly sheets: readonly Parted[];
  /** Widths in the order in which they are set out, over all sheets. */
  readonly widths: readonly Length[];
}

/**
 * Lays the pieces of all sheets of a material in the order in which few settings do for all of them. What
 * lies in which piece stays as it is, so no part moves to another sheet and no cut is added.
 */
export function* arranged(sheets: readonly Parted[]): Generator<undefined, Arranged> {
  const widths = rankedWidths(sheets);
  yield;
  const hands = yield* handsOf(sheets);
  const { widths: order, turns } = yield* settingOrder(benchesOf(hands, widths.rank));
  const turnOf = new Map(
    [...hands].map(([key, { sizes }], bench) => [
      key,
      new Map([...sizes.keys()].map((size, want) => [size, turns[bench]![want]!])),
    ]),
  );
  return {
    sheets: yield* oneByOne(sheets, (sheet, index) => inOrder(sheet, index, 0, turnOf)),
    widths: order.map((width) => widths.sizes[width]!),
  };
}

interface RankedWidths {
  /** Ascending. */
  readonly sizes: readonly Length[];
  readonly rank: ReadonlyMap<string, number>;
}

function rankedWidths(sheets: readonly Parted[]): RankedWidths {
  const found = new Map<string, Length>();
  const look = (piece: Parted): void => {
    if (piece.kind !== 'cut') return;
    for (const it of piece.into) {
      const size = sizeAcross(it, piece.direction);
      found.set(toFraction(size), size);
      look(it);
    }
  };
  sheets.forEach(look);
  const sizes = [...found.values()].sort(compare);
  return { sizes, rank: new Map(sizes.map((size, i) => [toFraction(size), i])) };
}

/** Pieces of one sheet that are alike and come into hand in the same round: they are cut as one. */
interface InHand {
  readonly lastIsFree: boolean;
  /** What is cut off it, by size, in the order of lying. */
  readonly sizes: Map<string, { count: number; readonly frees: Set<string> }>;
}

/** By a key that tells sheet, round and likeness. */
type Hands = ReadonlyMap<string, InHand>;

function* handsOf(sheets: readonly Parted[]): Generator<undefined, Hands> {
  const hands = new Map<string, InHand>();
  for (const [index, sheet] of sheets.entries()) {
    let pieces = [sheet].filter(isCut);
    for (let round = 0; pieces.length > 0; round++) {
      for (const piece of pieces) {
        const key = keyOf(index, round, piece);
        if (!hands.has(key))
          hands.set(
            key,
            inHand(piece, (kid) => keyOf(index, round + 1, kid)),
          );
      }
      pieces = pieces.flatMap(({ into }) => into.filter(isCut));
    }
    yield;
  }
  return hands;
}

function isCut(piece: Parted): piece is PartedPiece {
  return piece.kind === 'cut';
}

function keyOf(sheet: number, round: number, { likeness }: PartedPiece): string {
  return `${sheet} ${round} ${likeness}`;
}

function inHand(piece: PartedPiece, keyOfKid: (kid: PartedPiece) => string): InHand {
  const rest = restOf(piece);
  const sizes: InHand['sizes'] = new Map();
  for (const it of piece.into) {
    if (it === rest) continue;
    const size = toFraction(sizeAcross(it, piece.direction));
    const ofSize = sizes.get(size) ?? { count: 0, frees: new Set() };
    ofSize.count++;
    if (isCut(it)) ofSize.frees.add(keyOfKid(it));
    sizes.set(size, ofSize);
  }
  return { lastIsFree: rest === undefined && !piece.endsInLoss, sizes };
}

function benchesOf(hands: Hands, rank: RankedWidths['rank']): readonly Bench[] {
  const index = new Map([...hands.keys()].map((key, i) => [key, i]));
  const waitsFor = new Map<string, number>();
  for (const { sizes } of hands.values()) {
    for (const { frees } of sizes.values()) {
      for (const key of frees) waitsFor.set(key, (waitsFor.get(key) ?? 0) + 1);
    }
  }
  return [...hands].map(([key, { lastIsFree, sizes }]) => ({
    lastIsFree,
    waitsFor: waitsFor.get(key) ?? 0,
    wants: [...sizes].map(([size, { count, frees }], place) => ({
      width: rank.get(size)!,
      isSingle: count === 1,
      frees: [...frees].map((freed) => index.get(freed)!),
      rank: place,
    })),
  }));
}

type Turns = ReadonlyMap<string, ReadonlyMap<string, number>>;

/** By turn; what is equally wide lies by its likeness, equal beside equal, and scrap behind parts. */
function inOrder(piece: Parted, sheet: number, round: number, turns: Turns): Parted {
  if (!isCut(piece)) return piece;
  const turnOf = turns.get(keyOf(sheet, round, piece))!;
  const rest = restOf(piece);
  const into = piece.into
    .map((it) => ({
      it: inOrder(it, sheet, round + 1, turns),
      turn: it === rest ? beyondAll : turnOf.get(toFraction(sizeAcross(it, piece.direction)))!,
    }))
    .sort(
      (a, b) =>
        byNumber(a.turn, b.turn) || isLeft(a.it) - isLeft(b.it) || byText(a.it.likeness, b.it.likeness),
    )
    .map(({ it }) => it);
  return { ...piece, into: into as [Parted, ...Parted[]] }; // as many as before
}

const beyondAll = Number.POSITIVE_INFINITY;

function isLeft({ kind }: Parted): number {
  return kind === 'left over' ? 1 : 0;
}

function byNumber(a: number, b: number): number {
  return a < b ? -1 : a > b ? 1 : 0;
}

function byText(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
