import type { CutTree, Layout } from '../model/index.ts';
import type { Grid } from './grid.ts';
import type { Job } from './job.ts';
import { lineInside, openingOf, sharesOf } from './search/cuttable.ts';
import type { FilledSheet } from './search/search.ts';
import { alongOf, crossOf, type Node, Shape } from './search/tree.ts';

/**
 * Turns the search's trees into cut trees. Here cells lose the kerf that was added to them: a piece of n cells
 * measures n − kerf in life.
 */
export function* toLayouts(job: Job, grid: Grid, sheets: readonly FilledSheet[]): Generator<void, Layout[]> {
  const merged = new Map<string, Layout>();
  for (const { kind, root, kindOf, times } of sheets) {
    const tree = sheetTree(root, { job, grid, sheet: kind, kindOf });
    const key = `${kind} ${spelled(tree)}`;
    const same = merged.get(key);
    merged.set(key, { sheet: kind, tree, times: times + (same?.times ?? 0) });
    yield;
  }
  return [...merged.values()];
}

interface Scene {
  readonly job: Job;
  readonly grid: Grid;
  readonly sheet: number;
  readonly kindOf: Int32Array;
}

function sheetTree(root: Node, scene: Scene): CutTree {
  const { length, width } = scene.job.sheets[scene.sheet]!;
  const opening = openingOf(root, { ...scene.job.sheets[scene.sheet]! }, scene.job.rules);
  if (opening === undefined) throw new Error('the search gave a sheet that can not be cut');
  const shape = root.shape === Shape.part ? Shape.row : root.shape;
  const kids = root.shape === Shape.part ? [root] : root.kids;
  const [long, high] = shape === Shape.row ? [length, width] : [width, length];
  const low = crossOf(root, shape);
  const across = shape === Shape.row ? Shape.column : Shape.row;
  switch (opening) {
    case 'rest first':
      return cutOff(across, low, high, scene, line(kids, shape, long, low, scene));
    case 'end first': {
      const used = alongOf(root, shape);
      return cutOff(
        shape,
        used,
        long,
        scene,
        cutOff(across, low, high, scene, line(kids, shape, used, low, scene)),
      );
    }
    case 'each alone':
      return line(kids, shape, long, high, scene);
  }
}

/** Cuts kid after kid off a piece `long` cells along and `high` across; what remains at the end is left over. */
function line(kids: readonly Node[], shape: Shape, long: number, high: number, scene: Scene): CutTree {
  const sorted = likeBesideLike(kids, shape, scene);
  const end = sorted.reduce((rest, kid) => rest - alongOf(kid, shape), long);
  const shares = sharesOf({ kids: sorted, shape, end, cross: high }, scene.job.rules) ?? [];
  const widened = sorted.map((kid, i) => ({ kid, share: shares[i] ?? 0 }));
  // What is shaved comes last: cut off the end of the line it takes no cut of its own.
  const inOrder = [
    ...widened.filter(({ share }) => share === 0),
    ...widened.filter(({ share }) => share > 0),
  ];
  const build = (i: number, rest: number): CutTree => {
    const { kid, share } = inOrder[i]!;
    const size = alongOf(kid, shape) + share;
    const piece = inside(kid, shape, high, share, scene);
    if (i < inOrder.length - 1) {
      return { kind: cutOf(shape), at: life(size, scene), near: piece, far: build(i + 1, rest - size) };
    }
    return cutOff(shape, size, rest, scene, piece);
  };
  return build(0, long);
}

/** A kid in a strip that is as long as the kid and its share together, and `high` across. */
function inside(kid: Node, shape: Shape, high: number, share: number, scene: Scene): CutTree {
  const across = shape === Shape.row ? Shape.column : Shape.row;
  const size = alongOf(kid, shape);
  if (kid.shape === Shape.part) {
    const part: CutTree = { kind: 'part', part: scene.kindOf[kid.part]!, turned: kid.turned };
    return cutOff(shape, size, size + share, scene, cutOff(across, crossOf(kid, shape), high, scene, part));
  }
  const { cross } = lineInside(kid, shape, high, share);
  return cutOff(shape, cross, size + share, scene, line(kid.kids, kid.shape, high, cross, scene));
}

/** Takes off what lies behind the first `size` of `whole` cells, if anything does. */
function cutOff(shape: Shape, size: number, whole: number, scene: Scene, near: CutTree): CutTree {
  const gap = whole - size;
  if (gap === 0) return near;
  const far: CutTree | undefined = gap > scene.job.rules.kerf ? { kind: 'left over' } : undefined;
  return { kind: cutOf(shape), at: life(size, scene), near, far };
}

/** A row's kids are parted by crosscuts, a column's by rips. */
function cutOf(shape: Shape): 'rip' | 'crosscut' {
  return shape === Shape.row ? 'crosscut' : 'rip';
}

function life(cells: number, { grid, job }: Scene) {
  return grid.toLength(cells - job.rules.kerf);
}

/** Equal strips side by side, so that one setting serves them all; the wider first. */
function likeBesideLike(kids: readonly Node[], shape: Shape, scene: Scene): Node[] {
  return keyedInOrder(kids, shape, scene).map(({ kid }) => kid);
}

/** Each with its key, which is spelled once: spelled anew at each level, deep trees would take forever. */
function keyedInOrder(
  kids: readonly Node[],
  shape: Shape,
  scene: Scene,
): readonly { readonly kid: Node; readonly key: string }[] {
  const keyed = kids.map((kid) => ({ kid, along: alongOf(kid, shape), key: nodeKey(kid, scene) }));
  return keyed.sort((a, b) => b.along - a.along || (a.key < b.key ? -1 : a.key > b.key ? 1 : 0));
}

function nodeKey(node: Node, scene: Scene): string {
  if (node.shape === Shape.part) return `${scene.kindOf[node.part]}${node.turned ? 't' : ''}`;
  const keys = keyedInOrder(node.kids, node.shape, scene).map(({ key }) => key);
  return `${node.shape === Shape.row ? '-' : '|'}(${keys.join(' ')})`;
}

/** Two trees that are cut alike are spelled alike. */
export function spelled(tree: CutTree): string {
  switch (tree.kind) {
    case 'part':
      return `${tree.part}${tree.turned ? 't' : ''}`;
    case 'left over':
      return '_';
    default: {
      const far = tree.far === undefined ? '' : spelled(tree.far);
      const at = `${tree.at.numerator}/${tree.at.denominator}`;
      return `${tree.kind === 'rip' ? 'r' : 'c'}${at}(${spelled(tree.near)},${far})`;
    }
  }
}
