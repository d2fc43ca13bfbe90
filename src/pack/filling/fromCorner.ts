import type { CutTree } from '../../model/index.ts';
import type { Grid } from '../grid.ts';
import type { JobRules } from '../job.ts';
import type { Lying } from '../patterns/pattern.ts';
import { isGapHeld } from '../search/tree.ts';
import type { Piece } from './fewBlocks.ts';
import type { Way } from './leftovers.ts';

/** A piece in whole cells, and what was done to it. */
interface PieceInHand extends Piece {
  readonly rounds: number;
  readonly last: Way | undefined;
  readonly done: readonly Way[];
}

/**
 * Part after part into the corner of what is left, as one would without a plan: each is cut free with both its cuts,
 * if the limits allow these, and both pieces that come off are gone on with.
 *
 *   ┌────┬─────────┐
 *   │    │         │      the first cut always goes the one way, or always the other; and parts lie the one way where
 *   ├────┤         │      they can, or the other: the best of these
 *   │part│         │
 *   └────┴─────────┘
 */
export function fromCorner(
  piece: PieceInHand,
  ways: readonly Lying[],
  rules: JobRules,
  most: number,
): { readonly count: number; readonly tree: (grid: Grid, part: number) => CutTree } | undefined {
  const [first] = ways;
  const shortest = first === undefined ? 0 : Math.min(first.width, first.height);
  if (Math.max(piece.length, piece.width) > mostInLine * shortest) return undefined;
  const orders = ways.length > 1 ? [ways, [...ways].reverse()] : [ways];
  const tries = orders.flatMap((order) =>
    (['crosscut', 'rip'] as const).map((first) => {
      const corner = new Corner(order, first, rules, most);
      return { corner, root: corner.fill(piece) };
    }),
  );
  const { corner, root } = tries.reduce((a, b) => (b.corner.count > a.corner.count ? b : a));
  if (root === undefined) return undefined;
  return { count: corner.count, tree: (grid, part) => drawn(root, grid, part, rules) };
}

/** Each nests in the one before. */
const mostInLine = 1500;

/** Cells in place of lengths, since most tries are not drawn. */
type Cut =
  | { readonly kind: 'part'; readonly turned: boolean }
  | {
      readonly kind: Way;
      readonly at: number;
      readonly near: Cut | undefined;
      readonly far: Cut | undefined;
      readonly isFarLost: boolean;
    };

class Corner {
  count = 0;
  private readonly ways: readonly Lying[];
  private readonly first: Way;
  private readonly rules: JobRules;
  private readonly most: number;

  constructor(ways: readonly Lying[], first: Way, rules: JobRules, most: number) {
    this.ways = ways;
    this.first = first;
    this.rules = rules;
    this.most = most;
  }

  /** @returns  undefined where the piece is left as it is */
  fill(piece: PieceInHand): Cut | undefined {
    if (this.count >= this.most) return undefined;
    const second = other(this.first);
    for (const way of this.ways) {
      const whole = this.cutOff(piece, this.first, way);
      const near = whole && this.cutOff(whole.near, second, way);
      if (whole === undefined || near === undefined) continue;
      this.count++;
      const part: Cut = { kind: 'part', turned: way.turned };
      const corner = this.parted(near, second, part);
      return this.parted(whole, this.first, corner);
    }
    return undefined;
  }

  private parted({ at, far, isCut }: CutOff, kind: Way, near: Cut): Cut {
    if (!isCut) return near;
    return { kind, at, near, far: far && this.fill(far), isFarLost: far === undefined };
  }

  /** What a part needs of the piece that way, and what comes off; undefined where the limits forbid it. */
  private cutOff(piece: PieceInHand, kind: Way, way: Lying): CutOff | undefined {
    const { rules } = this;
    const side = kind === 'crosscut' ? 'length' : 'width';
    const at = kind === 'crosscut' ? way.width : way.height;
    const rest = piece[side] - at;
    if (rest < 0 || !isGapHeld(rest, rules)) return undefined;
    if (rest === 0) return { at, near: piece, far: undefined, isCut: false };
    const rounds = kind === piece.last ? piece.rounds : piece.rounds + 1;
    const cut = (kind === 'crosscut' ? piece.width : piece.length) - rules.kerf;
    if (rounds > rules.rounds || cut > rules.longestCut || piece.done.includes(kind)) return undefined;
    const after = { ...piece, rounds, last: kind };
    const far = rest > rules.kerf ? { ...after, [side]: rest } : undefined;
    return { at, near: { ...after, [side]: at }, far, isCut: true };
  }
}

interface CutOff {
  readonly at: number;
  readonly near: PieceInHand;
  readonly far: PieceInHand | undefined;
  readonly isCut: boolean;
}

function other(way: Way): Way {
  return way === 'rip' ? 'crosscut' : 'rip';
}

function drawn(cut: Cut | undefined, grid: Grid, part: number, rules: JobRules): CutTree {
  if (cut === undefined) return { kind: 'left over' };
  if (cut.kind === 'part') return { kind: 'part', part, turned: cut.turned };
  const { kind, at, near, far, isFarLost } = cut;
  return {
    kind,
    at: grid.toLength(at - rules.kerf),
    near: drawn(near, grid, part, rules),
    far: isFarLost ? undefined : drawn(far, grid, part, rules),
  };
}
