import type { JobRules } from '../job.ts';

/**
 * A sheet's layout while it is searched for: a tree of rows and columns that take turns. A row's kids lie
 * side by side, a column's above one another; kids are sorted by falling cross size (a row's by height, a
 * column's by width). Nothing free is stored: a node is as small as its kids let it be, and what it could
 * still grow to follows from its parents (see `place.ts`).
 *
 *      row of a part, a column of two parts, a part
 *     ┌────────┬───────┬─────┐ ─┐
 *     │        │       │     │  │
 *     │        ├─────┬─┤     │  │ height: the tallest kid's
 *     │        │     │ ├─────┤  │
 *     └────────┴─────┴─┴─────┘ ─┘
 *     └── width: the sum of the kids' ──┘
 */
export const Shape = { part: 0, row: 1, column: 2 } as const;
export type Shape = (typeof Shape)[keyof typeof Shape];

/** Changed in place by `add…`; whoever wants to keep a tree copies it first. */
export class Node {
  shape: Shape;
  width: number;
  height: number;
  /** Cells covered by parts. */
  filled: number;
  /** Index of the part; −1 for a row or column. */
  part: number;
  turned: boolean;
  kids: Node[];
  parent: Node | null = null;

  constructor(shape: Shape, width: number, height: number, part: number, turned: boolean, kids: Node[]) {
    this.shape = shape;
    this.width = width;
    this.height = height;
    this.filled = width * height;
    this.part = part;
    this.turned = turned;
    this.kids = kids;
  }
}

// Shared by all leaves, and frozen so that none can ever be given a kid by mistake.
const noKids = Object.freeze([]) as unknown as Node[]; // never written to, as the freeze makes sure

export function leaf(part: number, width: number, height: number, turned: boolean): Node {
  return new Node(Shape.part, width, height, part, turned, noKids);
}

/** Size of a kid across the direction in which its parent lines kids up. */
export function crossOf(kid: Node, parent: Shape): number {
  return parent === Shape.row ? kid.height : kid.width;
}

/** Size of a kid in the direction in which its parent lines kids up. */
export function alongOf(kid: Node, parent: Shape): number {
  return parent === Shape.row ? kid.width : kid.height;
}

/** Puts `kid` into a row or column and lets the sizes of all above follow. @returns  the tree's root */
export function addKid(parent: Node, kid: Node, rules: JobRules): Node {
  insertSorted(parent, kid);
  return settle(parent, rules);
}

/**
 * Lays `kid` across `place`, which stands in a row or column or is the root: both become a new node of the
 * other direction where `place` stood.
 *
 *   ┌─────┬───┐         ┌─────┬───┐
 *   │place│   │   →     │ kid │   │
 *   └─────┴───┘         ├─────┤   │
 *                       │place│   │
 *                       └─────┴───┘
 */
export function addAcross(place: Node, shape: Shape, kid: Node, rules: JobRules): Node {
  const { parent } = place;
  const both = new Node(shape, 0, 0, -1, false, [place]);
  place.parent = both;
  both.parent = parent;
  if (parent !== null) parent.kids[parent.kids.indexOf(place)] = both;
  insertSorted(both, kid);
  return settle(both, rules);
}

/**
 * Lays `kid` across the last kids of a row or column, from the `first` of them on: these are its shortest,
 * so nothing is wasted above the others.
 *
 *   ┌───┐                  ┌───┬────────────┐
 *   │   ├─────┐            │   │    kid     │
 *   │   │     ├────┐   →   │   ├─────┬──────┤
 *   │   │     │    │       │   │     ├────┐ │
 *   └───┴─────┴────┘       └───┴─────┴────┴─┘
 */
export function addAcrossGroup(line: Node, first: number, kid: Node, rules: JobRules): Node {
  const group = new Node(line.shape, 0, 0, -1, false, line.kids.splice(first));
  for (const it of group.kids) it.parent = group;
  measure(group, rules);
  const across = line.shape === Shape.row ? Shape.column : Shape.row;
  const both = new Node(across, 0, 0, -1, false, [group]);
  group.parent = both;
  both.parent = line;
  insertSorted(both, kid);
  measure(both, rules);
  insertSorted(line, both);
  return settle(line, rules);
}

/**
 * A copy without the parts that `isOut` marks. Nodes left with one kid vanish, and lines that come to stand
 * in lines of their own direction join them, so gaps join by themselves.
 */
export function copyWithout(node: Node, isOut: Uint8Array, rules: JobRules): Node | null {
  if (node.shape === Shape.part) {
    return isOut[node.part] === 1 ? null : leaf(node.part, node.width, node.height, node.turned);
  }
  const kids: Node[] = [];
  for (const kid of node.kids) {
    const kept = copyWithout(kid, isOut, rules);
    if (kept === null) continue;
    if (kept.shape === node.shape) kids.push(...kept.kids);
    else kids.push(kept);
  }
  if (kids.length === 0) return null;
  if (kids.length === 1) {
    kids[0]!.parent = null;
    return kids[0]!;
  }
  const copy = new Node(node.shape, 0, 0, -1, false, kids);
  sortKids(copy);
  for (const kid of kids) kid.parent = copy;
  measure(copy, rules);
  return copy;
}

/** A copy that keeps each size, also one larger than its kids need, with other numbers for the parts. */
export function copyAsItIs(node: Node, numberOf: (part: number) => number): Node {
  if (node.shape === Shape.part) return leaf(numberOf(node.part), node.width, node.height, node.turned);
  const kids = node.kids.map((kid) => copyAsItIs(kid, numberOf));
  const copied = new Node(node.shape, node.width, node.height, -1, false, kids);
  copied.filled = node.filled;
  for (const kid of kids) kid.parent = copied;
  return copied;
}

/** A copy as it is, the node in it that stands for `followed`, and how many nodes there are. */
export function copyFollowing(root: Node, followed: Node): { root: Node; follower: Node; count: number } {
  let [follower, count]: [Node | undefined, number] = [undefined, 0];
  const copied = (node: Node): Node => {
    count++;
    const kids = node.shape === Shape.part ? noKids : node.kids.map(copied);
    const it = new Node(node.shape, node.width, node.height, node.part, node.turned, kids);
    it.filled = node.filled;
    for (const kid of kids) kid.parent = it;
    if (node === followed) follower = it;
    return it;
  };
  const all = copied(root);
  if (follower === undefined) throw new Error('a node of another tree was followed');
  return { root: all, follower, count };
}

export function collectParts(node: Node, into: number[]): void {
  if (node.shape === Shape.part) into.push(node.part);
  else for (const kid of node.kids) collectParts(kid, into);
}

export function nodeCount(node: Node): number {
  let count = 1;
  for (const kid of node.kids) count += nodeCount(kid);
  return count;
}

/** Brings the sizes and the order of kids up to date from `node` up to the root, which it returns. */
function settle(node: Node, rules: JobRules): Node {
  let it = node;
  for (;;) {
    measure(it, rules);
    const { parent } = it;
    if (parent === null) return it;
    moveToItsPlace(parent, it);
    it = parent;
  }
}

function measure(node: Node, rules: JobRules): void {
  const { kids } = node;
  let width = 0;
  let height = 0;
  let filled = 0;
  for (let i = 0; i < kids.length; i++) filled += kids[i]!.filled;
  node.filled = filled;
  if (node.shape === Shape.row) {
    for (let i = 0; i < kids.length; i++) {
      const kid = kids[i]!;
      width += kid.width;
      if (kid.height > height) height = kid.height;
    }
    if (rules.leastStrip > 0) height = roomyEnough(height, kids, Shape.row, rules);
  } else {
    for (let i = 0; i < kids.length; i++) {
      const kid = kids[i]!;
      height += kid.height;
      if (kid.width > width) width = kid.width;
    }
    if (rules.leastStrip > 0) width = roomyEnough(width, kids, Shape.column, rules);
  }
  node.width = width;
  node.height = height;
}

/**
 * The least cross size, from `cross` up, at which what is cut off beside each kid is nothing, is lost in the
 * kerf, or is wide enough to be held.
 */
function roomyEnough(cross: number, kids: readonly Node[], shape: Shape, rules: JobRules): number {
  let size = cross;
  for (let i = 0; i < kids.length; i++) {
    if (isGapFine(size - crossOf(kids[i]!, shape), rules, shavesIn(kids[i]!))) continue;
    size = crossOf(kids[i]!, shape) + rules.kerf + rules.leastStrip;
    i = -1; // a wider line may break what was fine before
  }
  return size;
}

/**
 * True where `gap` cells (one kerf wider than in life) may come off beside what is not cut that way again,
 * or beside `shaves` of these. What is no wider than the kerf is lost in it.
 */
export function isGapFine(gap: number, rules: JobRules, shaves = 1): boolean {
  return gap <= shaves * rules.kerf || isGapHeld(gap, rules);
}

/** True where `gap` cells may come off beside whatever it is: as nothing, or as a strip that can be held. */
export function isGapHeld(gap: number, { kerf, leastStrip }: JobRules): boolean {
  return gap === 0 || leastStrip === 0 || gap >= kerf + leastStrip;
}

/** True where a kid is not cut in its parent's direction: parts are not, nor are lines of parts as wide as they. */
export function isShavable(kid: Node, parent: Shape): boolean {
  return kid.shape === Shape.part || isLevel(kid.kids, kid.shape, alongOf(kid, parent));
}

/** True where all kids are parts that just reach across their line. */
export function isLevel(kids: readonly Node[], shape: Shape, cross: number): boolean {
  return kids.every((kid) => kid.shape === Shape.part && crossOf(kid, shape) === cross);
}

/** So many times can a piece be shaved along a line, as it is cut up into its kids; a part across it, once. */
function shavesIn({ shape, kids }: Node): number {
  if (shape === Shape.part) return 1;
  let count = 0;
  for (const kid of kids) if (isShavable(kid, shape)) count++;
  return count;
}

function insertSorted(parent: Node, kid: Node): void {
  kid.parent = parent;
  const { kids, shape } = parent;
  const cross = crossOf(kid, shape);
  let i = kids.length;
  kids.push(kid);
  while (i > 0 && crossOf(kids[i - 1]!, shape) < cross) {
    kids[i] = kids[i - 1]!;
    i--;
  }
  kids[i] = kid;
}

/** A kid mostly grows and moves forward; where strips must be held, it may also lose room it no longer needs. */
function moveToItsPlace(parent: Node, kid: Node): void {
  const { kids, shape } = parent;
  const cross = crossOf(kid, shape);
  let i = kids.indexOf(kid);
  while (i > 0 && crossOf(kids[i - 1]!, shape) < cross) {
    kids[i] = kids[i - 1]!;
    i--;
  }
  while (i < kids.length - 1 && crossOf(kids[i + 1]!, shape) > cross) {
    kids[i] = kids[i + 1]!;
    i++;
  }
  kids[i] = kid;
}

function sortKids(node: Node): void {
  const { kids, shape } = node;
  for (let i = 1; i < kids.length; i++) {
    const kid = kids[i]!;
    const cross = crossOf(kid, shape);
    let j = i;
    while (j > 0 && crossOf(kids[j - 1]!, shape) < cross) {
      kids[j] = kids[j - 1]!;
      j--;
    }
    kids[j] = kid;
  }
}

/**
 * A row or column of kids; those of its own direction are taken apart, and one kid alone stands for itself.
 *
 * @param cross  its size across, if it is to be larger than its kids need
 */
export function lineOf(shape: Shape, kids: readonly Node[], rules: JobRules, cross = 0): Node {
  const flat = kids.flatMap((kid) => (kid.shape === shape ? kid.kids : [kid]));
  if (flat.length === 1) {
    flat[0]!.parent = null;
    return flat[0]!;
  }
  const line = new Node(shape, 0, 0, -1, false, flat);
  for (const kid of flat) kid.parent = line;
  sortKids(line);
  measure(line, rules);
  if (shape === Shape.row) line.height = Math.max(line.height, cross);
  else line.width = Math.max(line.width, cross);
  return line;
}
