import { toFraction } from '../measure/index.ts';
import type { DrawnMark, FoldAngle, Loop, Outline, Point, Segment } from '../model/index.ts';
import { mirrored, onDatum, turned } from './makers/turned.ts';

/** The same text for the same outline, wherever it lies and wherever its loops were begun; marks included. */
export function outlineKey(outline: Outline): string {
  const { rim, holes, marks } = onDatum(outline);
  const inside = holes.map(loopKey).sort();
  return [loopKey(rim), ...inside, ...marks.map(markKey).sort()].join('\n');
}

/**
 * True where an outline differs from its mirror image, however that is turned end for end: then left and right
 * hands are two parts, and neither may be flipped for the other.
 */
export function tellsHands(outline: Outline): boolean {
  const own = outlineKey(outline);
  const other = mirrored(outline);
  return outlineKey(other) !== own && outlineKey(turned(other, 180)) !== own;
}

/** Begun with the segment that has the smallest text. */
function loopKey(loop: Loop): string {
  const texts = loop.map(segmentKey);
  // A loop is at each of its points once, so no two texts are the same.
  const [smallest = ''] = [...texts].sort();
  const start = texts.indexOf(smallest);
  return [...texts.slice(start), ...texts.slice(0, start)].join(' ');
}

function segmentKey(it: Segment): string {
  switch (it.kind) {
    case 'line':
      return `line ${at(it.from)}`;
    case 'arc':
      return `arc ${at(it.from)} ${it.turn} ${at(it.centre)}`;
    case 'curve':
      return `curve ${at(it.from)} ${at(it.leaving)} ${at(it.arriving)}`;
  }
}

function markKey(it: DrawnMark): string {
  if (it.kind === 'cross') return `cross ${at(it.at)} ${it.bore === undefined ? '' : toFraction(it.bore)}`;
  const ends = [at(it.from), at(it.to)].sort().join(' ');
  return it.kind === 'fold' ? `fold ${it.by} ${it.way} ${angleKey(it.angle)} ${ends}` : `${it.kind} ${ends}`;
}

function angleKey(angle: FoldAngle): string {
  return angle.kind === 'degrees'
    ? toFraction(angle.degrees)
    : `${toFraction(angle.rise)} in ${toFraction(angle.run)}`;
}

function at({ x, y }: Point): string {
  return `${toFraction(x)},${toFraction(y)}`;
}
