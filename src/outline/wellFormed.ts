import type { Loop, OutlineFacet, OutlineFault, Point } from '../model/index.ts';
import { hullOf, isNear, meetings, pairsOf } from './crossing.ts';
import { fault, showPoint } from './fault.ts';
import { lineTo, pointsOf } from './loop.ts';
import { sideOf } from './vector.ts';

/** The pieces of a loop that meet anywhere but where one goes over into the next, from 0, and where. */
export interface SelfCrossing {
  readonly first: number;
  readonly second: number;
  readonly at: Point;
}

export function selfCrossingOf(loop: Loop): SelfCrossing | undefined {
  let found: SelfCrossing | undefined;
  for (const [first, second] of pairsOf(loop.map(hullOf))) {
    if (found !== undefined && (first > found.first || (first === found.first && second > found.second)))
      continue;
    const shared = sharedEnds(loop, first, second);
    const points = meetings(loop[first]!, loop[second]!); // both within
    const at = points.find((it) => !shared.some((end) => isNear(end, it)));
    if (at !== undefined) found = { first, second, at };
  }
  return found;
}

function sharedEnds(loop: Loop, first: number, second: number): readonly Point[] {
  const [one, other] = [loop[first]!, loop[second]!]; // both within
  return [
    ...(second === first + 1 ? [one.to] : []),
    ...(first === 0 && second === loop.length - 1 ? [other.to] : []),
  ];
}

/** What is wrong with a loop that was put together from what somebody wrote. */
export function loopFaults(loop: Loop, facet: OutlineFacet): readonly OutlineFault[] {
  if (isAllOnOneLine(loop)) return [fault('T09', facet, () => ({}))];
  const crossing = selfCrossingOf(loop);
  if (crossing === undefined) return [];
  const { first, second, at } = crossing;
  return [
    fault('T08', facet, (show) => ({ near: showPoint(at, show), first: first + 1, second: second + 1 })),
  ];
}

function isAllOnOneLine(loop: Loop): boolean {
  const points = pointsOf(loop);
  const [first] = points;
  const second = points.find((it) => first !== undefined && !isNear(it, first));
  if (first === undefined || second === undefined) return true;
  const { from, to } = lineTo(first, second);
  return loop.every(({ kind }) => kind === 'line') && points.every((it) => sideOf(from, to, it) === 0);
}

/** Points that lie where the one before them does. */
export function coincident(
  points: readonly Point[],
  facetOf: (i: number) => OutlineFacet,
): readonly OutlineFault[] {
  return points.flatMap((it, i) => {
    const before = (i + points.length - 1) % points.length;
    if (before === i || !isNear(it, points[before]!)) return [];
    const [number, other] = i === 0 ? [points.length, 1] : [i + 1, before + 1];
    return [fault('T05', facetOf(number - 1), (show) => ({ point: showPoint(it, show), number, other }))];
  });
}
