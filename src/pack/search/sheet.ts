import { isStrict, type Job, Lie, liesOf } from '../job.ts';
import { canBeCut } from './cuttable.ts';
import { addAcross, addAcrossGroup, addKid, copyFollowing, leaf, type Node, Shape } from './tree.ts';

/** A sheet being filled. */
export interface OpenSheet {
  readonly kind: number;
  root: Node | null;
  /** Cells covered by parts. */
  filled: number;
}

/** The parts one by one: part `i` is a copy of kind `kindOf[i]`. */
export interface Copies {
  readonly kindOf: Int32Array;
  readonly length: Int32Array;
  readonly width: Int32Array;
  readonly area: Float64Array;
}

/**
 * How places are compared; the lower the better. `wasted` is what the part leaves empty beside itself or its
 * base, `strip` what lies behind it up to the end (drawn at `consider`).
 */
export const Score = {
  /** The smaller of mismatch and rest, then the larger. */
  shorterRest: 0,
  wasted: 1,
  /** Mismatch, then rest. */
  mismatch: 2,
  /** The smaller of wasted and strip. */
  smallerWaste: 3,
  /** Rest, then mismatch. */
  rest: 4,
  allWaste: 5,
  wasteTwice: 6,
  /** The smaller of wasted and strip, and an eighth of both. */
  mixedWaste: 7,
} as const;
export type Score = (typeof Score)[keyof typeof Score];
export const scoreCount = 8;

/**
 * Finds and takes the best place for a part. All nodes of a tree are tried: a part can be laid beside or
 * across any of them, which covers a new row, a new column, appending and wrapping. What a node may grow to
 * comes from above: a row hands each kid its own slack along, and all of its height across.
 *
 *     ├────────────── most width of the row ───────────────┤
 *     ┌──────────┬────────────────┬───────────┬─ ─ ─ ─ ─ ─ ┐
 *     │  kid     │      kid       │    kid    │   slack    ┊   a kid may widen by the slack,
 *     └──────────┴────────────────┴───────────┴─ ─ ─ ─ ─ ─ ┘   whichever kid it is
 */
export class Placer {
  private readonly job: Job;
  private readonly copies: Copies;
  private readonly strict: boolean;

  // What is being placed, and the best place so far.
  private width = 0;
  private height = 0;
  private area = 0;
  private turned = false;
  private score: Score = Score.shorterRest;
  private best: number = Number.POSITIVE_INFINITY;
  private bestNode: Node | null = null;
  private bestGroup = 0;
  private bestTurned = false;
  private bestSheet: OpenSheet | null = null;
  private sheet: OpenSheet | null = null;
  /** Percent of places that are skipped, and the row of throws that decides. */
  private skipped = 0;
  private throws = 1;
  /** Only where rules ask for a check of each place: all places found, for trying them in order. */
  private readonly found: Place[] = [];
  /** What was done since this was made: sheets and kids of lines looked at, and what trying a place by a copy takes. */
  work = 0;

  constructor(job: Job, copies: Copies) {
    this.job = job;
    this.copies = copies;
    this.strict = isStrict(job.rules);
  }

  /** Skips `percent` of all places from now on; `seed` picks which. */
  skip(percent: number, seed: number): void {
    this.skipped = Math.floor((percent * 0x10000) / 100);
    this.throws = seed | 1;
  }

  /** Lays the part in its best place on any of the sheets. @returns  false if it has none */
  bestFit(part: number, sheets: readonly OpenSheet[], score: Score): boolean {
    this.begin(score);
    for (let i = 0; i < sheets.length; i++) this.look(part, sheets[i]!);
    return this.take(part);
  }

  /** Lays the part in its best place on the first sheet that has one. */
  firstFit(part: number, sheets: readonly OpenSheet[], score: Score): boolean {
    this.begin(score);
    for (let i = 0; i < sheets.length; i++) {
      this.look(part, sheets[i]!);
      if (this.take(part)) return true;
    }
    return false;
  }

  private begin(score: Score): void {
    this.score = score;
    this.best = Number.POSITIVE_INFINITY;
    this.bestSheet = null;
    this.found.length = 0;
  }

  private look(part: number, sheet: OpenSheet): void {
    const { copies, job } = this;
    this.work++;
    const kind = job.sheets[sheet.kind]!;
    const area = copies.area[part]!;
    if (sheet.filled + area > kind.length * kind.width) return;
    const lies = liesOf(job, copies.kindOf[part]!, sheet.kind);
    const length = copies.length[part]!;
    const width = copies.width[part]!;
    this.sheet = sheet;
    if ((lies & Lie.straight) !== 0) this.lookLying(length, width, false, kind.length, kind.width);
    // A square lies the same both ways, but only one of them may be right for its grain.
    const isTurnNew = length !== width || (lies & Lie.straight) === 0;
    if ((lies & Lie.turned) !== 0 && isTurnNew) {
      this.lookLying(width, length, true, kind.length, kind.width);
    }
  }

  private lookLying(
    width: number,
    height: number,
    turned: boolean,
    sheetWidth: number,
    sheetHeight: number,
  ): void {
    if (width > sheetWidth || height > sheetHeight) return;
    this.width = width;
    this.height = height;
    this.area = width * height;
    this.turned = turned;
    const root = this.sheet!.root;
    if (root === null) {
      const [over, above] = [sheetWidth - width, sheetHeight - height];
      this.weigh(null, whole, Math.min(over, above), Math.max(over, above), over * above, 0);
      return;
    }
    if (root.shape !== Shape.row && root.height <= sheetHeight) {
      this.tryBeside(root, sheetWidth, sheetHeight);
    }
    if (root.shape !== Shape.column && root.width <= sheetWidth) {
      this.tryAbove(root, sheetWidth, sheetHeight);
    }
    if (root.shape === Shape.row) this.visitRow(root, sheetWidth, sheetHeight);
    else if (root.shape === Shape.column) this.visitColumn(root, sheetWidth, sheetHeight);
  }

  /** @param mostWidth  what this row may grow to, no less than the part needs; likewise the height */
  private visitRow(row: Node, mostWidth: number, mostHeight: number): void {
    const slack = mostWidth - row.width;
    const { width, height } = this;
    // Whatever the place within, the row would then cover no more than it may grow to.
    if (row.filled + this.area > mostWidth * mostHeight) return;
    this.work += row.kids.length;
    // At the row's end.
    if (width <= slack && height <= mostHeight) {
      this.consider(row, whole, row.height, height, row.width, width, slack - width);
    }
    const { kids } = row;
    const last = kids.length - 1;
    let group = 0;
    for (let i = last; i >= 0; i--) {
      const kid = kids[i]!;
      const above = mostHeight - kid.height - height;
      if (kid.shape === Shape.part) {
        if (above >= 0 && width <= kid.width + slack) {
          this.consider(kid, whole, kid.width, width, kid.height, height, above);
        }
      } else if (width <= kid.width + slack) this.visitColumn(kid, kid.width + slack, mostHeight);
      // Across this kid and all that are shorter.
      group += kid.width;
      if (i < last && i > 0 && above >= 0 && width <= group + slack) {
        this.consider(row, i, group, width, kid.height, height, above);
      }
    }
  }

  private visitColumn(column: Node, mostWidth: number, mostHeight: number): void {
    const slack = mostHeight - column.height;
    const { width, height } = this;
    if (column.filled + this.area > mostWidth * mostHeight) return;
    this.work += column.kids.length;
    if (height <= slack && width <= mostWidth) {
      this.consider(column, whole, column.width, width, column.height, height, slack - height);
    }
    const { kids } = column;
    const last = kids.length - 1;
    let group = 0;
    for (let i = last; i >= 0; i--) {
      const kid = kids[i]!;
      const beside = mostWidth - kid.width - width;
      if (kid.shape === Shape.part) {
        if (beside >= 0 && height <= kid.height + slack) {
          this.consider(kid, whole, kid.height, height, kid.width, width, beside);
        }
      } else if (height <= kid.height + slack) this.visitRow(kid, mostWidth, kid.height + slack);
      group += kid.height;
      if (i < last && i > 0 && beside >= 0 && height <= group + slack) {
        this.consider(column, i, group, height, kid.width, width, beside);
      }
    }
  }

  /** A root that is no row becomes one with the part beside it. */
  private tryBeside(root: Node, mostWidth: number, mostHeight: number): void {
    const rest = mostWidth - root.width - this.width;
    if (rest < 0 || this.height > mostHeight) return;
    this.consider(root, besideRoot, root.height, this.height, root.width, this.width, rest);
  }

  private tryAbove(root: Node, mostWidth: number, mostHeight: number): void {
    const rest = mostHeight - root.height - this.height;
    if (rest < 0 || this.width > mostWidth) return;
    this.consider(root, aboveRoot, root.width, this.width, root.height, this.height, rest);
  }

  /**
   * Weighs a place: the part (p) comes to lie behind `base` in some direction.
   *
   *          ┌──────────┬────────┐ ┐
   *          │          │    p   │ │ partCross    the mismatch is baseCross − partCross
   *   base → │          ├────────┤ ┘
   *  Cross   │          │ wasted │              ┊
   *          └──────────┴────────┘─ ─ ─ ─ ─ ─ ─ ┘
   *           baseAlong  partAlong     rest
   */
  private consider(
    node: Node,
    group: number,
    baseCross: number,
    partCross: number,
    baseAlong: number,
    partAlong: number,
    rest: number,
  ): void {
    const over = baseCross - partCross;
    const mismatch = over < 0 ? -over : over;
    const wasted = over < 0 ? mismatch * baseAlong : mismatch * partAlong;
    const cross = over < 0 ? partCross : baseCross;
    this.weigh(node, group, mismatch, rest, wasted, rest * cross);
  }

  private weigh(
    node: Node | null,
    group: number,
    mismatch: number,
    rest: number,
    wasted: number,
    strip: number,
  ): void {
    if (this.skipped > 0) {
      this.throws = (Math.imul(this.throws, 1103515245) + 12345) | 0;
      if (((this.throws >>> 8) & 0xffff) < this.skipped) return;
    }
    const value = worth(this.score, mismatch, rest, wasted, strip);
    if (this.strict) {
      this.found.push({ value, node, group, turned: this.turned, sheet: this.sheet! });
      return;
    }
    if (value < this.best) {
      this.best = value;
      this.bestNode = node;
      this.bestGroup = group;
      this.bestTurned = this.turned;
      this.bestSheet = this.sheet;
    }
  }

  private take(part: number): boolean {
    if (this.strict) return this.takeFirstCuttable(part);
    const sheet = this.bestSheet;
    if (sheet === null) return false;
    sheet.root = this.lay(part, this.bestTurned, this.bestNode, this.bestGroup);
    sheet.filled += this.copies.area[part]!;
    return true;
  }

  /** With limits on strips and cuts: the best place whose whole sheet can still be cut. */
  private takeFirstCuttable(part: number): boolean {
    const places = this.found.map((place, order) => ({ place, order }));
    places.sort((a, b) => a.place.value - b.place.value || a.order - b.order);
    for (const { place } of places.slice(0, mostTried)) {
      const { sheet } = place;
      let node = place.node;
      if (sheet.root !== null && node !== null) {
        const { follower, count } = copyFollowing(sheet.root, node);
        node = follower;
        this.work += workOfCopy * count;
      }
      const root = this.lay(part, place.turned, node, place.group);
      if (!canBeCut(root, this.job.sheets[sheet.kind]!, this.job.rules)) continue;
      sheet.root = root;
      sheet.filled += this.copies.area[part]!;
      this.found.length = 0;
      return true;
    }
    this.found.length = 0;
    return false;
  }

  private lay(part: number, turned: boolean, node: Node | null, group: number): Node {
    const { rules } = this.job;
    const length = this.copies.length[part]!;
    const width = this.copies.width[part]!;
    const kid = turned ? leaf(part, width, length, true) : leaf(part, length, width, false);
    if (node === null) return kid;
    if (group === besideRoot) return addAcross(node, Shape.row, kid, rules);
    if (group === aboveRoot) return addAcross(node, Shape.column, kid, rules);
    if (group > 0) return addAcrossGroup(node, group, kid, rules);
    if (node.shape !== Shape.part) return addKid(node, kid, rules);
    const across = node.parent!.shape === Shape.row ? Shape.column : Shape.row;
    return addAcross(node, across, kid, rules);
  }
}

function worth(score: Score, mismatch: number, rest: number, wasted: number, strip: number): number {
  switch (score) {
    case Score.shorterRest:
      return mismatch < rest ? mismatch * scale + rest : rest * scale + mismatch;
    case Score.wasted:
      return wasted;
    case Score.mismatch:
      return mismatch * scale + rest;
    case Score.smallerWaste:
      return Math.min(strip, wasted);
    case Score.rest:
      return rest * scale + mismatch;
    case Score.allWaste:
      return wasted + strip;
    case Score.wasteTwice:
      return 2 * wasted + strip;
    case Score.mixedWaste:
      return 8 * Math.min(strip, wasted) + strip + wasted;
  }
}

/** Of the places found so many are tried, the best first. */
const mostTried = 64;
/** Copying and checking a node takes as long as so many looks. */
const workOfCopy = 12;

interface Place {
  readonly value: number;
  readonly node: Node | null;
  readonly group: number;
  readonly turned: boolean;
  readonly sheet: OpenSheet;
}

// In place of the first kid of a group: the node itself, or a new root.
const whole = 0;
const besideRoot = -1;
const aboveRoot = -2;

/** More than any side, so that a first criterion outweighs a second; their sum stays below 2^53. */
const scale = 0x4000000;
