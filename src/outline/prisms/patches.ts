import { compare, sum } from '../../measure/index.ts';
import type { Block, Length, Outline, Segment, Way } from '../../model/index.ts';
import { isShaped, type Prism } from './prism.ts';

/** A piece of a prism's surface that looks one way, to its low or its high end. */
export interface Patch {
  /** How far along that way it lies. */
  readonly at: Length;
  readonly prism: Prism;
  /** What it takes up of the other two ways; undefined: all that the prism's outline does. */
  readonly box: Block | undefined;
}

type End = 'low' | 'high';

/** All that a prism shows squarely that way. */
export function patchesOf(prism: Prism, way: Way, end: End): readonly Patch[] {
  const { block, stance } = prism;
  if (!isShaped(prism)) return [{ at: block[end][way], prism, box: block }];
  if (stance.thickness === way) return [{ at: block[end][way], prism, box: undefined }];
  return squareEdgesOf(prism.outline)
    .filter((edge) => (edge.looks === 'x' ? stance.length : stance.width) === way && edge.end === end)
    .map(({ looks, at, from, to }): Patch => {
      const along = looks === 'x' ? stance.width : stance.length;
      const low = { ...block.low, [along]: sum(block.low[along], from) };
      const high = { ...block.high, [along]: sum(block.low[along], to) };
      return { at: sum(block.low[way], at), prism, box: { low, high } };
    });
}

/** A straight edge along one side of the drawing. */
interface SquareEdge {
  readonly looks: 'x' | 'y';
  readonly end: End;
  readonly at: Length;
  readonly from: Length;
  readonly to: Length;
}

const known = new WeakMap<Outline, readonly SquareEdge[]>();

function squareEdgesOf(outline: Outline): readonly SquareEdge[] {
  const found = known.get(outline) ?? [outline.rim, ...outline.holes].flat().flatMap(squareEdge);
  known.set(outline, found);
  return found;
}

//  The material lies to the left of travel: an edge that goes up looks right, one that goes right looks down.
function squareEdge(it: Segment): readonly SquareEdge[] {
  const { from, to } = it;
  for (const [looks, along] of [
    ['x', 'y'],
    ['y', 'x'],
  ] as const) {
    if (!lies(it, looks)) continue;
    const forth = compare(from[along], to[along]);
    if (forth === 0) return [];
    const isHigh = looks === 'x' ? forth < 0 : forth > 0;
    const [low, high] = forth < 0 ? [from[along], to[along]] : [to[along], from[along]];
    return [{ looks, end: isHigh ? 'high' : 'low', at: from[looks], from: low, to: high }];
  }
  return [];
}

/** True where all of a segment lies at one place that way. */
function lies(it: Segment, axis: 'x' | 'y'): boolean {
  if (it.kind === 'arc') return false;
  const points = it.kind === 'curve' ? [it.leaving, it.arriving, it.to] : [it.to];
  return points.every((at) => compare(at[axis], it.from[axis]) === 0);
}
