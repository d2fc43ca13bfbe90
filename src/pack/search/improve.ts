import { areaOf, isStrict, type Job } from '../job.ts';
import type { Pace } from '../pace.ts';
import { canBeCut } from './cuttable.ts';
import type { Filling } from './filling.ts';
import { keysOf, orderKeys } from './orders.ts';
import { type Dice, drawPatience } from './random.ts';
import { type Copies, type OpenSheet, Placer, type Score, scoreCount } from './sheet.ts';
import { collectParts, copyWithout, type Node, Shape } from './tree.ts';

/**
 * Ruin and recreate with annealing: tries to fit all parts onto a given set of sheets. Its cost is the area
 * of the parts left out. A step empties a few sheets in part, puts what came out and what was left out back
 * onto those sheets only, and keeps the result if no more than a drawn loss was made.
 *
 * @source  the scheme: G. Schrimpf et al., Record breaking optimization results using the ruin and recreate
 *          principle, J. Comput. Phys. 159 (2000); from memory
 */
export class Squeeze {
  leftOut: number[];
  leftOutArea: number;
  readonly sheets: OpenSheet[];
  /** The state with the least left out so far. */
  closest: Filling;
  private closestArea: number;
  private readonly job: Job;
  private readonly copies: Copies;
  private readonly placer: Placer;
  private readonly strict: boolean;
  private readonly dice: Dice;
  private readonly keys: readonly Float64Array[];
  private readonly isOut: Uint8Array;
  private readonly meanArea: number;
  /** What sorting took so far. */
  private sorted = 0;
  private age = 0;
  private temperature = 0;

  // The step in hand: its sheets and what stood on them before, the parts to lay with their sort keys, how they
  // are laid, and those that found no place.
  private ruined: readonly OpenSheet[] = [];
  private limit = 0;
  private score: Score = 0;
  private firstFit = false;
  private next = 0;
  private left: number[] = [];
  private areaOut = 0;
  private readonly pool: number[] = [];
  private readonly poolKeys: number[] = [];
  private readonly before: { root: Node | null; filled: number }[] = [];

  constructor(
    job: Job,
    copies: Copies,
    sheets: readonly OpenSheet[],
    leftOut: readonly number[],
    dice: Dice,
  ) {
    this.job = job;
    this.copies = copies;
    this.sheets = sheets.map((sheet) => ({ ...sheet }));
    this.leftOut = [...leftOut];
    this.leftOutArea = this.areaOfParts(leftOut);
    this.closest = { sheets, leftOut };
    this.closestArea = this.leftOutArea;
    this.placer = new Placer(job, copies);
    this.strict = isStrict(job.rules);
    this.dice = dice;
    this.keys = orderKeys.map((_, order) => keysOf(copies, order));
    this.isOut = new Uint8Array(copies.area.length);
    this.meanArea = copies.area.reduce((sum, area) => sum + area, 0) / Math.max(1, copies.area.length);
  }

  /** What was done so far, in looks at kids of lines: what the time of the steps goes by. */
  get work(): number {
    return this.placer.work + this.sorted;
  }

  /** A step: begin, recreate until it says that it is done, end. */
  begin(): void {
    this.cool();
    this.ruined = this.pickSheets();
    this.limit = this.leftOutArea + drawPatience(this.dice, this.temperature);
    this.ruin(this.ruined);
    this.beginRecreating();
  }

  end(): void {
    const { ruined, left } = this;
    if (this.areaOut > this.limit || !this.canAllBeCut(ruined)) {
      ruined.forEach((sheet, i) => {
        sheet.root = this.before[i]!.root;
        sheet.filled = this.before[i]!.filled;
      });
      return;
    }
    this.leftOut = left;
    this.leftOutArea = this.areaOfParts(left);
    if (this.leftOutArea < this.closestArea) {
      this.closestArea = this.leftOutArea;
      // Trees are copied before they are changed, so these stay as they are.
      this.closest = { sheets: this.sheets.map((sheet) => ({ ...sheet })), leftOut: left };
    }
  }

  /** What was taken out may leave a sheet that can't be cut within the limits, though nothing was added. */
  private canAllBeCut(sheets: readonly OpenSheet[]): boolean {
    const { rules, sheets: kinds } = this.job;
    return (
      !this.strict || sheets.every(({ root, kind }) => root === null || canBeCut(root, kinds[kind]!, rules))
    );
  }

  private areaOfParts(parts: readonly number[]): number {
    let sum = 0;
    for (const part of parts) sum += this.copies.area[part]!;
    return sum;
  }

  /** The temperature falls from 3 % to 0.1 % of the mean part, then starts again. */
  private cool(): void {
    const phase = this.age++ % cycle;
    if (phase % 64 !== 0) return;
    // A parabola close to the exponential fall 3 → 0.1, in thousandths of the mean area.
    const left = (cycle - phase) / cycle;
    this.temperature = (this.meanArea * (1 + 29 * left * left * left)) / 1000;
  }

  private pickSheets(): OpenSheet[] {
    const { sheets, dice } = this;
    const wanted = Math.min(sheets.length, 1 + dice.below(4));
    const picked: OpenSheet[] = [this.emptierOfTwo()];
    while (picked.length < wanted) {
      const sheet = sheets[dice.below(sheets.length)]!;
      if (!picked.includes(sheet)) picked.push(sheet);
    }
    return picked;
  }

  private emptierOfTwo(): OpenSheet {
    const a = this.sheets[this.dice.below(this.sheets.length)]!;
    const b = this.sheets[this.dice.below(this.sheets.length)]!;
    const fill = ({ kind, filled }: OpenSheet) => filled / areaOf(this.job.sheets[kind]!);
    return fill(a) <= fill(b) ? a : b;
  }

  /** Takes about sixteen parts out of the sheets; they become the pool, with what was left out before. */
  private ruin(ruined: readonly OpenSheet[]): void {
    const { pool, dice, isOut, before } = this;
    pool.length = 0;
    before.length = 0;
    const each = Math.max(1, Math.floor(16 / ruined.length));
    for (let i = 0; i < ruined.length; i++) {
      const sheet = ruined[i]!;
      before.push({ root: sheet.root, filled: sheet.filled });
      if (sheet.root === null) continue;
      const from = pool.length;
      const throwOf = dice.below(100);
      if (i === 0 && throwOf < 25) collectParts(sheet.root, pool);
      else if (throwOf >= 80) collectParts(this.someSubtree(sheet.root), pool);
      else this.pickParts(sheet.root, 1 + dice.below(each * 2 - 1));
      let area = 0;
      for (let at = from; at < pool.length; at++) {
        isOut[pool[at]!] = 1;
        area += this.copies.area[pool[at]!]!;
      }
      sheet.root = copyWithout(sheet.root, isOut, this.job.rules);
      sheet.filled -= area;
      for (let at = from; at < pool.length; at++) isOut[pool[at]!] = 0;
    }
    for (let i = 0; i < this.leftOut.length; i++) pool.push(this.leftOut[i]!);
  }

  /** Moves `count` random parts of a tree to the end of the pool. */
  private pickParts(root: Node, count: number): void {
    const { pool, dice } = this;
    const from = pool.length;
    collectParts(root, pool);
    const there = pool.length - from;
    const wanted = Math.min(count, there);
    for (let i = 0; i < wanted; i++) {
      const other = from + i + dice.below(there - i);
      const part = pool[other]!;
      pool[other] = pool[from + i]!;
      pool[from + i] = part;
    }
    pool.length = from + wanted;
  }

  /** A row or column below the root, or a part; the root only if it is a part. */
  private someSubtree(root: Node): Node {
    let node = root;
    while (node.shape !== Shape.part) {
      node = node.kids[this.dice.below(node.kids.length)]!;
      if (this.dice.chance(40)) break;
    }
    return node;
  }

  private beginRecreating(): void {
    const { dice } = this;
    this.sortPool();
    this.score = dice.below(scoreCount) as Score; // the scores are numbered from 0
    this.firstFit = dice.chance(30);
    this.placer.skip(2, dice.below(0x10000));
    this.next = 0;
    this.left = [];
    this.areaOut = 0;
  }

  /**
   * Lays the pool's parts one by one, and gives the step up as soon as too much is left out.
   *
   * @returns  false where a pause is due and there is more to do
   */
  recreate(pace: Pace): boolean {
    const { placer, pool, ruined, score, left } = this;
    while (this.next < pool.length) {
      const before = placer.work;
      const part = pool[this.next++]!;
      const isLaid = this.firstFit
        ? placer.firstFit(part, ruined, score)
        : placer.bestFit(part, ruined, score);
      if (!isLaid) {
        this.areaOut += this.copies.area[part]!;
        if (this.areaOut > this.limit) return true;
        left.push(part);
      }
      if (pace.isDue(placer.work - before)) return false;
    }
    return true;
  }

  /** By area half of the time, else by one of the other orders; with noise of ±15 %. */
  private sortPool(): void {
    const { pool, poolKeys, dice } = this;
    const keys = this.keys[dice.chance(50) ? 0 : dice.below(this.keys.length)]!;
    this.sorted += pool.length > mostInserted ? workOfSorting * pool.length : pool.length;
    poolKeys.length = pool.length;
    for (let i = 0; i < pool.length; i++) poolKeys[i] = keys[pool[i]!]! * (85 + dice.below(31));
    if (pool.length > mostInserted) {
      const order = [...pool.keys()].sort((a, b) => poolKeys[b]! - poolKeys[a]! || a - b);
      const parts = order.map((at) => pool[at]!);
      for (let i = 0; i < parts.length; i++) pool[i] = parts[i]!;
      return;
    }
    for (let i = 1; i < pool.length; i++) {
      const [part, key] = [pool[i]!, poolKeys[i]!];
      let j = i;
      while (j > 0 && poolKeys[j - 1]! < key) {
        poolKeys[j] = poolKeys[j - 1]!;
        pool[j] = pool[j - 1]!;
        j--;
      }
      poolKeys[j] = key;
      pool[j] = part;
    }
  }
}

/** Few parts are sorted in place, many in a list of their own. */
const mostInserted = 100;
const workOfSorting = 8;
/** Steps from hot to cold. */
const cycle = 1 << 14;
