import {
  compare,
  compareRationals,
  divide,
  larger,
  minus,
  multiply,
  rational,
  smaller,
} from '../../measure/index.ts';
import type { Arc, Curve, Length, Line, Outline, Point, Rational, Segment } from '../../model/index.ts';
import { arcRound, sweepsOver } from '../arc.ts';
import { exactly, productOf } from '../enclosure.ts';
import { reversedSegment, shiftBy } from '../loop.ts';
import { lengthOf } from '../perimeter.ts';
import { between, cross, dot, isSame, less, signOf, square } from '../vector.ts';
import { looksTo } from './looks.ts';
import { outlineIn, type Prism, planeAcross } from './prism.ts';
import type { Touch } from './touch.ts';

/**
 * Where edges that slope or bend lie against each other: straight ones side by side, arcs round one centre, a
 * curve against the same curve, no further apart than a glue line.
 *
 *      ╭────╮
 *      │ a ╱╱ b │       one goes up where the other goes down
 *      └──╱╱────┘
 */
export function slopesMet(
  a: Prism & { readonly outline: Outline },
  b: Prism & { readonly outline: Outline },
  glueLine: Length,
): readonly Touch[] {
  const plane = planeAcross(a.stance.thickness);
  const way = a.stance.thickness;
  const thick = minus(
    smaller(a.block.high[way], b.block.high[way]),
    larger(a.block.low[way], b.block.low[way]),
  );
  const [one, other] = [outlineIn(a, plane), outlineIn(b, plane)].map(slopesOf);
  return (one ?? []).flatMap((edge) =>
    (other ?? []).flatMap((against): readonly Touch[] => {
      const met = metOf(edge, reversedSegment(against), glueLine);
      if (met === undefined) return [];
      const { way: looks, end } = looksTo(met, plane);
      const area = () => productOf(lengthOf(met), exactly(thick));
      return [{ way: looks, higher: end === 'high' ? 'second' : 'first', isSure: true, area }];
    }),
  );
}

function slopesOf({ rim, holes }: Outline): readonly Segment[] {
  return [rim, ...holes].flat().filter(isSlope);
}

function isSlope(it: Segment): boolean {
  if (it.kind !== 'line') return true;
  return compare(it.from.x, it.to.x) !== 0 && compare(it.from.y, it.to.y) !== 0;
}

/** What an edge has along another, which is travelled the same way and lies to its right, if at all apart. */
function metOf(edge: Segment, along: Segment, glueLine: Length): Segment | undefined {
  if (edge.kind === 'line' && along.kind === 'line') return lineAlong(edge, along, glueLine);
  if (edge.kind === 'arc' && along.kind === 'arc') return arcAlong(edge, along, glueLine);
  if (edge.kind === 'curve' && along.kind === 'curve') return curveAlong(edge, along, glueLine);
  return undefined;
}

function lineAlong(edge: Line, along: Line, glueLine: Length): Segment | undefined {
  const [way, other, apart] = [
    less(edge.to, edge.from),
    less(along.to, along.from),
    less(along.from, edge.from),
  ];
  if (signOf(cross(way, other)) !== 0 || signOf(dot(way, other)) < 0) return undefined;
  const off = cross(way, apart);
  const isNear =
    signOf(off) <= 0 &&
    compareRationals(multiply(off, off), multiply(multiply(glueLine, glueLine), square(way))) <= 0;
  if (!isNear) return undefined;
  const shareAt = (at: Point) => divide(dot(way, less(at, edge.from)), square(way));
  const [from, to] = [shareAt(along.from), shareAt(along.to)].map(withinEnds) as [Rational, Rational]; // two of two
  if (compareRationals(from, to) >= 0) return undefined;
  return { kind: 'line', from: between(edge.from, edge.to, from), to: between(edge.from, edge.to, to) };
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
