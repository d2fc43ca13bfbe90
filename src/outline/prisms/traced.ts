import { compareRationals } from '../../measure/index.ts';
import type { Arc, Curve, Loop, Outline, Point, Segment } from '../../model/index.ts';
import { arcRound, sweepsOver } from '../arc.ts';
import { bendsOf } from '../flatten.ts';
import { lineTo, reversedSegment } from '../loop.ts';
import { isSame, less, square } from '../vector.ts';

/**
 * Two outlines that lie against each other along a curve, as traced from one master, in whose place both get
 * the same straight edges: what they share there is nothing, however coarse the edges are.
 *
 *        ╭───╮               ●───●
 *       ╱ one ╲      →      ╱     ╲
 *      │───────│           ●───────●       the other lies outside
 */
export function tracedAlike(
  a: Outline | undefined,
  b: Outline | undefined,
): readonly [Outline | undefined, Outline | undefined] {
  if (a === undefined || b === undefined || a === b) return [a, b];
  const [one, other] = [splitAtEnds(a, b), splitAtEnds(b, a)];
  const back = new Set(curvedOf(other).map((it) => keyOf(reversedSegment(it))));
  const met = new Set(
    curvedOf(one)
      .map(keyOf)
      .filter((key) => back.has(key)),
  );
  if (met.size === 0) return [a, b];
  const isMet = (it: Segment) => it.kind !== 'line' && met.has(keyOf(it));
  return [
    replaced(one, (it) => (isMet(it) ? edgesFor(it) : [it])),
    replaced(other, (it) => {
      const turned = reversedSegment(it);
      return isMet(turned) ? edgesFor(turned).map(reversedSegment).reverse() : [it];
    }),
  ];
}

type Curved = Arc | Curve;

function isCurved(it: Segment): it is Curved {
  return it.kind !== 'line';
}

function curvedOf({ rim, holes }: Outline): readonly Curved[] {
  return [rim, ...holes].flat().filter(isCurved);
}

function replaced(outline: Outline, by: (it: Segment) => Loop): Outline {
  return { ...outline, rim: outline.rim.flatMap(by), holes: outline.holes.map((it) => it.flatMap(by)) };
}

function edgesFor(it: Segment): Loop {
  const points = [it.from, ...bendsOf(it), it.to];
  return points.slice(1).map((to, i) => lineTo(points[i]!, to)); // one before each
}

/** The outline with its arcs parted where arcs of the other, on the same circle, begin or end. */
function splitAtEnds(outline: Outline, other: Outline): Outline {
  const arcs = curvedOf(other).filter((it) => it.kind === 'arc');
  if (arcs.length === 0) return outline;
  return replaced(outline, (it) =>
    it.kind === 'arc'
      ? arcs.filter((arc) => isOnCircleOf(it, arc)).reduce<readonly Arc[]>(parted, [it])
      : [it],
  );
}

function parted(pieces: readonly Arc[], { from, to }: Arc): readonly Arc[] {
  return [from, to].reduce((all, at) => all.flatMap((it) => partedAt(it, at)), pieces);
}

function partedAt(arc: Arc, at: Point): readonly Arc[] {
  const { from, to, centre, turn, radius } = arc;
  if (isSame(at, from) || isSame(at, to) || !sweepsOver(arc, less(at, centre))) return [arc];
  return [arcRound(from, at, centre, turn, radius), arcRound(at, to, centre, turn, radius)];
}

export function isOnCircleOf(a: Arc, b: Arc): boolean {
  return (
    isSame(a.centre, b.centre) &&
    compareRationals(square(less(a.from, a.centre)), square(less(b.from, b.centre))) === 0
  );
}

function keyOf(it: Segment): string {
  if (it.kind === 'line') return 'line';
  const points = it.kind === 'arc' ? [it.from, it.centre, it.to] : [it.from, it.leaving, it.arriving, it.to];
  const place = points.map(({ x, y }) => `${x.numerator}/${x.denominator},${y.numerator}/${y.denominator}`);
  return [it.kind, it.kind === 'arc' ? it.turn : '', ...place].join(' ');
}
