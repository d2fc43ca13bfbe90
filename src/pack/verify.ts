import { add, compare, equal, isPositive, minus, multiply, sum, toFraction, zero } from '../measure/index.ts';
import type {
  CostProof,
  CutTree,
  Length,
  MaterialLayouts,
  PartKind,
  Price,
  Rational,
  SheetKind,
  Side,
} from '../model/index.ts';
/** What is wrong with a layout. A flaw is never the user's doing: it is a bug of the packer's. */
export interface Flaw {
  /** Index of the layout; undefined for what concerns them all. */
  readonly layout: number | undefined;
  readonly what: string;
}

/**
 * Checks layouts against what was asked, from the exact lengths alone. Nothing here is shared with the
 * packer: rectangles are worked out anew from the cuts.
 */
export function verify(layouts: MaterialLayouts): readonly Flaw[] {
  const run = verifying(layouts);
  for (;;) {
    const next = run.next();
    if (next.done) return next.value;
  }
}

/** The same, with a pause after every few hundred pieces. */
export function* verifying(layouts: MaterialLayouts): Generator<void, readonly Flaw[]> {
  const flaws: Flaw[] = [];
  const placed = layouts.demand.parts.map(() => 0);
  const used = layouts.demand.sheets.map(() => 0);
  for (const [layout, { sheet: sheetIndex, tree, times }] of layouts.layouts.entries()) {
    const say = (what: string) => flaws.push({ layout, what });
    const sheet = layouts.demand.sheets[sheetIndex];
    if (sheet === undefined) {
      say(`there is no sheet ${sheetIndex}`);
      continue;
    }
    if (!Number.isSafeInteger(times) || times < 1) {
      say(`it is cut ${times} times`);
      continue;
    }
    used[sheetIndex]! += times;
    const length = minus(sheet.length, sum(sheet.trim.left, sheet.trim.right));
    const width = minus(sheet.width, sum(sheet.trim.bottom, sheet.trim.top));
    if (!isPositive(length) || !isPositive(width)) {
      say('the trim leaves nothing of the sheet');
      continue;
    }
    const { longestCut } = layouts.demand.rules;
    if (longestCut !== undefined && !isTrimShort(sheet, longestCut, length, width)) {
      say(`the trim takes a cut longer than ${toFraction(longestCut)}`);
    }
    const taken = new Taking(layouts, sheet, say);
    yield* taken.apart(tree, { length, width });
    taken.counts.forEach((count, part) => {
      placed[part]! += count * times;
    });
    if (taken.counts.every((count) => count === 0)) say('it holds no part');
    if (!equal(taken.area, multiply(length, width)))
      say('parts, leftovers and kerf do not add up to the sheet');
  }
  flaws.push(...countFlaws(layouts, placed, used), ...claimFlaws(layouts, used));
  return flaws;
}

/** Takes one sheet apart, cut by cut. */
class Taking {
  readonly counts: number[];
  /** All that was accounted for: parts, leftovers, material lost to the tool. */
  area: Rational = zero;
  private readonly layouts: MaterialLayouts;
  private readonly sheet: SheetKind;
  private readonly say: (what: string) => void;

  constructor(layouts: MaterialLayouts, sheet: SheetKind, say: (what: string) => void) {
    this.layouts = layouts;
    this.sheet = sheet;
    this.say = say;
    this.counts = layouts.demand.parts.map(() => 0);
  }

  *apart(root: CutTree, whole: Piece): Generator<void, void> {
    // A list in place of recursion: a long row of small parts nests as deep as it has parts.
    const inHand: InHand[] = [{ tree: root, piece: whole, rounds: 0, last: undefined, done: [] }];
    let pieces = 0;
    for (let next = inHand.pop(); next !== undefined; next = inHand.pop()) {
      if (++pieces % piecesBetweenYields === 0) yield;
      const { tree, piece } = next;
      switch (tree.kind) {
        case 'part':
          this.part(tree.part, tree.turned, piece);
          break;
        case 'left over':
          this.area = add(this.area, multiply(piece.length, piece.width));
          break;
        default:
          this.cut(tree, next, inHand);
      }
    }
  }

  private cut(
    tree: Extract<CutTree, { kind: 'rip' | 'crosscut' }>,
    { piece: { length, width }, rounds: before, last, done }: InHand,
    inHand: InHand[],
  ): void {
    const { kerf, leastStrip, longestCut, rounds } = this.layouts.demand.rules;
    const round = tree.kind === last ? before : before + 1;
    const isRip = tree.kind === 'rip';
    const [size, cutLength] = isRip ? [width, length] : [length, width];
    const rest = minus(size, tree.at);
    const piece = (it: Length): Piece => (isRip ? { length, width: it } : { length: it, width });
    if (!isPositive(tree.at)) this.say(`a ${tree.kind} at ${toFraction(tree.at)} cuts nothing off`);
    if (!isPositive(rest)) {
      this.say(`a ${tree.kind} at ${toFraction(tree.at)} lies outside a piece of ${toFraction(size)}`);
      return;
    }
    if (longestCut !== undefined && compare(cutLength, longestCut) > 0) {
      this.say(
        `a ${tree.kind} is ${toFraction(cutLength)} long, the longest may be ${toFraction(longestCut)}`,
      );
    }
    if (compare(tree.at, leastStrip) < 0) {
      this.say(`a strip of ${toFraction(tree.at)} is cut off, the least is ${toFraction(leastStrip)}`);
    }
    if (rounds !== undefined && round > rounds) {
      this.say(`a ${tree.kind} is of round ${round}, the rounds may be ${rounds}`);
    }
    if (done.includes(tree.kind)) this.say(`a ${tree.kind} goes through what was shaved by one`);
    const far = minus(rest, kerf);
    const lost = compare(rest, kerf) < 0 ? rest : kerf;
    this.area = add(this.area, multiply(lost, cutLength));
    // Where no strip is too narrow, one more cut may take off whatever one cut has left.
    const isShaved = isPositive(leastStrip) && !isPositive(far);
    const after = { rounds: round, last: tree.kind, done: isShaved ? [...done, tree.kind] : done };
    inHand.push({ ...after, tree: tree.near, piece: piece(tree.at) });
    if (isPositive(far)) {
      if (compare(far, leastStrip) < 0) {
        this.say(`a strip of ${toFraction(far)} remains, the least is ${toFraction(leastStrip)}`);
      }
      if (tree.far === undefined) this.say(`what lies behind a ${tree.kind} is missing`);
      else inHand.push({ ...after, tree: tree.far, piece: piece(far) });
    } else if (tree.far !== undefined)
      this.say(`nothing is left behind a ${tree.kind}, yet something is there`);
  }

  private part(index: number, turned: boolean, { length, width }: Piece): void {
    this.area = add(this.area, multiply(length, width));
    const part = this.layouts.demand.parts[index];
    if (part === undefined) {
      this.say(`there is no part ${index}`);
      return;
    }
    this.counts[index]!++;
    const [along, across] = turned ? [part.width, part.length] : [part.length, part.width];
    if (!equal(along, length) || !equal(across, width)) {
      this.say(`"${part.members[0].label}" lies in a piece of another size`);
    }
    if (!runsRight(part, part.grain, this.sheet.grain, turned)) {
      this.say(`"${part.members[0].label}" lies against the grain`);
    }
    if (!runsRight(part, part.flutes, this.sheet.flutes, turned)) {
      this.say(`"${part.members[0].label}" lies against the flutes`);
    }
  }
}

const piecesBetweenYields = 300;

type Way = 'rip' | 'crosscut';

interface InHand {
  /** What is to become of the piece. */
  readonly tree: CutTree;
  readonly piece: Piece;
  /** Rounds of cuts it took so far, and which way the last one went. */
  readonly rounds: number;
  readonly last: Way | undefined;
  /** The ways in which it, or a piece it was cut from, was shaved: it must not be cut that way again. */
  readonly done: readonly Way[];
}

/** Either the two short edges come off first, or the two long ones; the others then lack what came off. */
function isTrimShort(
  { length, width, trim }: SheetKind,
  most: Length,
  leftLong: Length,
  leftWide: Length,
): boolean {
  const tooLong = (edges: readonly Length[], size: Length) =>
    edges.some((edge) => isPositive(edge)) && compare(size, most) > 0;
  const [ends, sides] = [
    [trim.left, trim.right],
    [trim.bottom, trim.top],
  ];
  const endsFirst = !tooLong(ends, width) && !tooLong(sides, leftLong);
  const sidesFirst = !tooLong(sides, length) && !tooLong(ends, leftWide);
  return endsFirst || sidesFirst;
}

interface Piece {
  readonly length: Length;
  readonly width: Length;
}

/** A part's size `wanted` must lie along that side of the sheet which the grain (or flutes) `runs`. */
function runsRight(
  part: PartKind,
  wanted: Side | 'any',
  runs: Side | 'unknown' | 'none',
  turned: boolean,
): boolean {
  if (wanted === 'any' || runs === 'none') return true;
  if (runs === 'unknown') return false;
  const liesAlongLength: Side = turned ? 'width' : 'length';
  const sideWithGrain =
    runs === 'length' ? liesAlongLength : liesAlongLength === 'length' ? 'width' : 'length';
  return sideWithGrain === wanted && part.count > 0;
}

function countFlaws({ demand, unplaced }: MaterialLayouts, placed: number[], used: number[]): Flaw[] {
  const flaws: Flaw[] = [];
  const say = (what: string) => flaws.push({ layout: undefined, what });
  const left = demand.parts.map(() => 0);
  for (const { part, count } of unplaced) {
    if (demand.parts[part] === undefined) say(`part ${part} is missing, but there is none such`);
    else if (!Number.isSafeInteger(count) || count < 1) say(`part ${part} is missing ${count} times`);
    else left[part]! += count;
  }
  demand.parts.forEach((part, i) => {
    if (placed[i]! + left[i]! !== part.count) {
      say(
        `"${part.members[0].label}" is asked ${part.count} times, placed ${placed[i]} and missing ${left[i]}`,
      );
    }
  });
  demand.sheets.forEach(({ available }, i) => {
    if (available !== 'as needed' && used[i]! > available) {
      say(`sheet ${i} is used ${used[i]} times, there are ${available}`);
    }
  });
  return flaws;
}

/** What is claimed of the cost must follow from the prices and the least cost. */
function costFlaws(
  { sheets }: MaterialLayouts['demand'],
  least: Price | undefined,
  claim: CostProof | undefined,
  used: number[],
): Flaw[] {
  if (claim === undefined) return [];
  const flaw = (what: string) => [{ layout: undefined, what }];
  if (least === undefined) return flaw('something is claimed of the cost, but there is no least one');
  let spent: Rational = zero;
  for (const [i, { isOffcut, price, pack = 1 }] of sheets.entries()) {
    if (isOffcut || used[i] === 0) continue;
    if (price?.currency !== least.currency) return flaw(`sheet ${i} has no price in ${least.currency}`);
    // Packs are opened as long as sheets are wanted; each is paid for whole.
    for (let open = 0; open < used[i]!; open += pack) spent = add(spent, price.amount);
  }
  const by: Rational = claim.kind === 'cheapest' ? zero : claim.by.amount;
  if (!equal(spent, add(least.amount, by))) return flaw('what the sheets cost is not what is claimed');
  return claim.kind === 'dearer' && by.numerator <= 0n ? flaw('dearer is claimed, but by nothing') : [];
}

/** What is claimed must follow from the bound and the count of sheets that were not offcuts. */
function claimFlaws({ demand, bound, proof, unplaced, steps }: MaterialLayouts, used: number[]): Flaw[] {
  const flaws: Flaw[] = [];
  const say = (what: string) => flaws.push({ layout: undefined, what });
  const bought = demand.sheets.reduce((count, { isOffcut }, i) => count + (isOffcut ? 0 : used[i]!), 0);
  if (!Number.isSafeInteger(steps) || steps < 0) say(`it took ${steps} steps`);
  if (unplaced.length > 0) {
    if (proof.kind !== 'none') say('something is claimed of a result that lacks parts');
    return flaws;
  }
  flaws.push(...costFlaws(demand, bound.cost, proof.kind === 'none' ? undefined : proof.cost, used));
  if (bought < bound.sheets) say(`${bought} sheets are fewer than the bound of ${bound.sheets}`);
  const over = bought - bound.sheets;
  if (proof.kind === 'fewest' && over !== 0) say('the fewest possible is claimed, but the bound is lower');
  if (proof.kind === 'within' && proof.sheets !== over) {
    say(`${over} more than the bound is said to be within ${proof.sheets}`);
  }
  if (proof.kind === 'within' && over === 0) say('the bound is reached, but not said to be');
  return flaws;
}
