import {
  compareRationals,
  divide,
  larger,
  minus,
  multiply,
  rational,
  smaller,
  subtract,
  sum,
} from '../../measure/index.ts';
import type { Arc, Curve, Length, Line, Outline, Point, Rational, Segment } from '../../model/index.ts';
import { arcRound, sweepsOver } from '../arc.ts';
import { exactly, productOf } from '../enclosure.ts';
import { reversedSegment, shiftBy } from '../loop.ts';
import { lengthOf } from '../perimeter.ts';
import { between, cross, dot, isSame, less, signOf, square } from '../vector.ts';
import { type Body, shapesOf } from './body.ts';
import { looksTo, slantOf } from './looks.ts';
import { outlineIn, planeAcross, type Shaped } from './prism.ts';
import { isSlope, seamArea } from './seam.ts';
import type { Touch } from './touch.ts';
import { isLike, partedAlike } from './traced.ts';
import { isPierced } from './zones.ts';

/**
 * Where edges that slope or bend lie against each other: straight ones side by side, arcs round one centre, a
 * curve against the same curve, no further apart than a glue line.
 *
 *      ╭────╮
 *      │ a ╱╱ b │       one goes up where the other goes down
 *      └──╱╱────┘
 *
 * @param a,b     seen in outline along the same way
 * @param bodies  what they belong to: all of it is where they meet
 */
export function slopesMet(
  a: Shaped,
  b: Shaped,
  bodies: readonly [Body, Body],
  glueLine: Length,
): readonly Touch[] {
  const way = a.stance.thickness;
  const plane = planeAcross(way);
  const [from, to] = [
    larger(a.block.low[way], b.block.low[way]),
    smaller(a.block.high[way], b.block.high[way]),
  ];
  const others = bodies.flatMap(shapesOf).filter((it) => it !== a && it !== b);
  const pierced = [a, b].filter(isPierced);
  const near: Near = { glueLine, slip: sum(a.outline.within, b.outline.within) };
  const [one, other] = partedAlike(outlineIn(a, plane), outlineIn(b, plane)).map(slopesOf);
  return (one ?? []).flatMap((edge) =>
    (other ?? []).flatMap((against): readonly Touch[] => {
      const met = metOf(edge, reversedSegment(against), near);
      if (met === undefined) return [];
      const { way: looks, end } = looksTo(met, plane);
      const slant = slantOf(met, plane);
      const touch = {
        way: looks,
        higher: higherFor(end),
        slant: slant && { way: slant.way, higher: higherFor(slant.end) },
      };
      if (others.length + pierced.length === 0) {
        const thick = exactly(minus(to, from));
        return [{ ...touch, isSure: true, area: () => productOf(lengthOf(met), thick) }];
      }
      const area = seamArea(met, plane, { way, from, to }, others, pierced);
      if (area.hi.numerator === 0n) return [];
      return [{ ...touch, isSure: area.lo.numerator > 0n, area: () => area }];
    }),
  );
}

function higherFor(end: 'low' | 'high'): Touch['higher'] {
  return end === 'high' ? 'second' : 'first';
}

/** How near edges that lie against each other are, and how far points of them may be off where they should be. */
interface Near {
  readonly glueLine: Length;
  readonly slip: Length;
}

function slopesOf({ rim, holes }: Outline): readonly Segment[] {
  return [rim, ...holes].flat().filter(isSlope);
}

/** What an edge has along another, which is travelled the same way and lies to its right, if at all apart. */
function metOf(edge: Segment, along: Segment, near: Near): Segment | undefined {
  if (edge.kind === 'line' && along.kind === 'line') return lineAlong(edge, along, near);
  if (near.slip.numerator > 0n && isLike(edge, along, near.slip)) return edge;
  if (edge.kind === 'arc' && along.kind === 'arc') return arcAlong(edge, along, near.glueLine);
  if (edge.kind === 'curve' && along.kind === 'curve') return curveAlong(edge, along, near.glueLine);
  return undefined;
}

function lineAlong(edge: Line, along: Line, near: Near): Segment | undefined {
  const [way, other] = [less(edge.to, edge.from), less(along.to, along.from)];
  if (signOf(dot(way, other)) < 0) return undefined;
  if (near.slip.numerator === 0n && signOf(cross(way, other)) !== 0) return undefined;
  const shareAt = (at: Point) => divide(dot(way, less(at, edge.from)), square(way));
  const ends = [shareAt(along.from), shareAt(along.to)] as const;
  const [from, to] = ends.map(withinEnds) as [Rational, Rational]; // two of two
  if (compareRationals(from, to) >= 0) return undefined;
  const met = { from: between(edge.from, edge.to, from), to: between(edge.from, edge.to, to) };
  // The other edge at the two ends of what they have along each other.
  const [first, run] = [ends[0], subtract(ends[1], ends[0])];
  const there = [from, to].map((share) => between(along.from, along.to, divide(subtract(share, first), run)));
  if (!there.every((at) => isBeside(edge, way, at, near))) return undefined;
  return { kind: 'line', ...met };
}

/** On the line or to the right of it, no further off than a glue line. */
function isBeside(edge: Line, way: Point, at: Point, { glueLine, slip }: Near): boolean {
  const off = cross(way, less(at, edge.from)); // as many times as far off as the edge is long, to the left
  const most = signOf(off) > 0 ? slip : sum(glueLine, slip);
  return compareRationals(multiply(off, off), multiply(multiply(most, most), square(way))) <= 0;
}

/** Between 0 and 1. */
function withinEnds(share: Rational): Rational {
  if (signOf(share) < 0) return rational(0n);
  return share.numerator > share.denominator ? rational(1n) : share;
}

function arcAlong(edge: Arc, along: Arc, glueLine: Length): Segment | undefined {
  if (edge.turn !== along.turn || !isNear(edge.centre, along.centre, glueLine)) return undefined;
  const there = movedTo(along, edge.centre);
  const radius = (it: Arc) => square(less(it.from, it.centre));
  if (compareRationals(radius(edge), radius(there)) !== 0) return undefined;
  const [from] = [edge.from, there.from].filter(
    (at) => isOn(edge, at) && isOn(there, at) && !isSame(at, edge.to) && !isSame(at, there.to),
  );
  const [to] = [edge.to, there.to].filter(
    (at) => isOn(edge, at) && isOn(there, at) && !isSame(at, edge.from) && !isSame(at, there.from),
  );
  if (from === undefined || to === undefined || isSame(from, to)) return undefined;
  return arcRound(from, to, edge.centre, edge.turn, edge.radius);
}

function isOn(arc: Arc, at: Point): boolean {
  return isSame(at, arc.from) || isSame(at, arc.to) || sweepsOver(arc, less(at, arc.centre));
}

function curveAlong(edge: Curve, along: Curve, glueLine: Length): Segment | undefined {
  const step = less(along.from, edge.from);
  const keeps = (['leaving', 'arriving', 'to'] as const).every((it) =>
    isSame(less(along[it], edge[it]), step),
  );
  return keeps && isNear(edge.from, along.from, glueLine) ? edge : undefined;
}

function isNear(a: Point, b: Point, most: Length): boolean {
  return compareRationals(square(less(a, b)), multiply(most, most)) <= 0;
}

function movedTo(arc: Arc, centre: Point): Arc {
  const step = less(centre, arc.centre);
  const moved = (at: Point) => shiftBy(step).move(at);
  return { ...arc, from: moved(arc.from), to: moved(arc.to), centre };
}
