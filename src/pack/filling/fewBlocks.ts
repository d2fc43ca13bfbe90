import type { JobRules } from '../job.ts';
import type { Lying } from '../patterns/pattern.ts';
import { isGapFine, leaf, lineOf, type Node, Shape } from '../search/tree.ts';

/** A piece in whole cells. */
export interface Piece {
  readonly length: number;
  readonly width: number;
}

/**
 * Cuts a piece up for one kind of part by hand, so to speak: as one block of parts that all lie alike, or cut in two
 * where a few lines of them end, both pieces so again. That is found at once, is seldom far from the best, and takes
 * few settings.
 *
 *   one block      cut once               cut twice
 *   ┌─┬─┬─┬─┐      ┌──┬──┬──┬─┐           ┌──┬──┬──┬─┐
 *   ├─┼─┼─┼─┤      ├──┼──┼──┤ │           ├──┼──┼──┤ │
 *   ├─┼─┼─┼─┤      ├──┼──┼──┼─┤           ├──┴┬─┴─┬┴─┤
 *   ├─┼─┼─┼─┤      ├──┼──┼──┤ │           ├───┼───┼──┤
 *   └─┴─┴─┴─┘      └──┴──┴──┴─┘           └───┴───┴──┘
 *
 * Within limits on strips and cuts it keeps away from most of what they forbid, but whether a tree can be cut has to
 * be looked at.
 */
export class FewBlocks {
  /** Pieces that were looked at. */
  looks = 0;
  private readonly ways: readonly Lying[];
  private readonly rules: JobRules;
  private readonly shaves: Shaves;

  constructor(ways: readonly Lying[], rules: JobRules, shaves: Shaves) {
    this.ways = ways;
    this.rules = rules;
    this.shaves = shaves;
  }

  /** The most parts with so many cuts in two, one within the other. */
  most(piece: Piece, cuts: number): number {
    return this.best(piece.length, piece.width, cuts).count;
  }

  /** @returns  undefined where it gives none */
  tree(piece: Piece, cuts: number): Node | undefined {
    const { count, way, cut } = this.best(piece.length, piece.width, cuts);
    if (count === 0) return undefined;
    if (cut === undefined) return this.block(piece, way!, Shape.row);
    const { shape, at } = cut;
    const [near, far] = partedAt(piece, shape, at);
    const kids = [near, far].flatMap((it) => this.tree(it, cuts - 1) ?? []);
    return lineOf(shape, kids, this.rules);
  }

  /** All lying in one way, with lines going the one way or the other. */
  blocks(piece: Piece): readonly Candidate[] {
    return this.ways.flatMap((way) => {
      const count = this.inBlock(piece.length, piece.width, way);
      if (count === 0) return [];
      return [Shape.row, Shape.column].map((shape) => ({ count, tree: () => this.block(piece, way, shape) }));
    });
  }

  private best(length: number, width: number, cuts: number): Best {
    this.looks++;
    let found: Best = { count: 0, way: undefined, cut: undefined };
    for (const way of this.ways) {
      const count = this.inBlock(length, width, way);
      if (count > found.count) found = { count, way, cut: undefined };
    }
    const [first] = this.ways;
    // What all lies alike is cut in one block.
    if (cuts === 0 || first === undefined || this.ways.length === 1) return found;
    const mostByArea = Math.floor((length * width) / (first.width * first.height));
    for (const shape of [Shape.row, Shape.column] as const) {
      const [along, across] = shape === Shape.row ? [length, width] : [width, length];
      if (!this.mayBeCut(across)) continue;
      for (const way of this.ways) {
        const step = shape === Shape.row ? way.width : way.height;
        const steps = Math.min(mostSteps, Math.floor(along / step));
        for (let k = 1; k <= steps; k++) {
          if (found.count === mostByArea) return found;
          const at = k * step;
          if (!isGapFine(along - at, this.rules)) continue;
          const count =
            shape === Shape.row
              ? this.both(at, width, along - at, width, cuts - 1)
              : this.both(length, at, length, along - at, cuts - 1);
          if (count > found.count) found = { count, way: undefined, cut: { shape, at } };
        }
      }
    }
    return found;
  }

  private both(length: number, width: number, otherLength: number, otherWidth: number, cuts: number): number {
    return this.best(length, width, cuts).count + this.best(otherLength, otherWidth, cuts).count;
  }

  private inBlock(length: number, width: number, way: Lying): number {
    const lines = this.linesIn(length, way.width);
    const each = this.linesIn(width, way.height);
    if (lines === 0 || each === 0) return 0;
    const { kerf, longestCut } = this.rules;
    const isLong = length - kerf > longestCut && width - kerf > longestCut;
    return isLong && (lines > 1 || each > 1) ? 0 : lines * each;
  }

  /** So many go in that what is left behind the last can be held, is lost in the kerf, or is nothing. */
  private linesIn(whole: number, size: number): number {
    let lines = Math.floor(whole / size);
    while (lines > 0 && !isGapFine(whole - lines * size, this.rules, this.shaves === 'each' ? lines : 1))
      lines--;
    return lines;
  }

  private block({ length, width }: Piece, way: Lying, shape: Shape): Node {
    const lines = this.linesIn(length, way.width);
    const each = this.linesIn(width, way.height);
    return shape === Shape.row
      ? blockOf(way, shape, lines, each, this.rules)
      : blockOf(way, shape, each, lines, this.rules);
  }

  private mayBeCut(length: number): boolean {
    return length - this.rules.kerf <= this.rules.longestCut;
  }
}

/** A way of cutting that is drawn up only where it is wanted. */
export interface Candidate {
  readonly count: number;
  readonly tree: () => Node;
}

/** What is too narrow to be held is shaved off the last line, or some of it off each. */
export type Shaves = 'last' | 'each';

interface Best {
  readonly count: number;
  /** A block of this way of lying; or a cut in two. */
  readonly way: Lying | undefined;
  readonly cut: { readonly shape: Shape; readonly at: number } | undefined;
}

/** More lines than these, of one way of lying or of the other, stand on one side of a cut in two or not at all. */
const mostSteps = 16;

function partedAt({ length, width }: Piece, shape: Shape, at: number): readonly [Piece, Piece] {
  return shape === Shape.row
    ? [
        { length: at, width },
        { length: length - at, width },
      ]
    : [
        { length, width: at },
        { length, width: width - at },
      ];
}

/** So many lines of so many parts each. */
function blockOf(way: Lying, shape: Shape, lines: number, each: number, rules: JobRules): Node {
  const across = shape === Shape.row ? Shape.column : Shape.row;
  return lineOf(
    shape,
    Array.from({ length: lines }, () => lineAlong(way, across, each, rules)),
    rules,
  );
}

export function lineAlong(
  { kind, width, height, turned }: Lying,
  shape: Shape,
  count: number,
  rules: JobRules,
): Node {
  return lineOf(
    shape,
    Array.from({ length: count }, () => leaf(kind, width, height, turned)),
    rules,
  );
}
