import { larger, minus, sum } from '../../measure/index.ts';
import type {
  Drawn,
  Length,
  Loop,
  NonEmpty,
  Outline,
  OutlineFacet,
  Point,
  Segment,
  ShowLength,
  WallInFlat,
} from '../../model/index.ts';
import type { HeldBox } from '../box.ts';
import { standingInLoops } from '../contains.ts';
import { doOverlap, hullOf, meetings } from '../crossing.ts';
import { drawn, fault, undrawn } from '../fault.ts';
import { moved, reversed, shiftBy } from '../loop.ts';
import { half, isSame, less, point, stretched } from '../vector.ts';
import { type AlongEdge, boxForPlacing, keptFlat, type Repeat, startsAlong } from './place.ts';

/** `{ hole: { circle: 1/2 }, left: 1/4, times: 3, every: 1 }`: any outline; its repeats run along the length. */
export interface Hole {
  readonly kind: 'hole';
  readonly outline: Outline;
  readonly place: HolePlace;
  readonly repeat: Repeat | undefined;
  readonly on?: WallInFlat | undefined;
}

/** By its middle, or clear of two sides of the part's box (undefined: in the middle between them). */
export type HolePlace = { readonly centre: Point } | { readonly along: AlongEdge; readonly up: AlongEdge };

export function holed(part: Outline, cut: Hole): Drawn {
  const [box, own] = [boxForPlacing(part, cut.on), boxForPlacing(cut.outline)];
  const [length, width] = [minus(own.right, own.left), minus(own.top, own.bottom)];
  const facet: OutlineFacet = ['hole'];
  const across = startsAlong(
    'hole',
    length,
    ...alongOf(cut.place, box.left, box.right, length, cut.on),
    cut.repeat,
  );
  const up = startsAlong('hole', width, ...upOf(cut.place, box.bottom, box.top, width), undefined);
  const y = up.value?.[0];
  if (across.value === undefined || y === undefined) return undrawn(...across.faults, ...up.faults);
  const flat = keptFlat('hole', cut.on, across.value, length, facet);
  if (flat.faults.length > 0) return undrawn(...flat.faults);
  const around = edgesAround(part);
  const holes: Loop[] = [];
  const times = across.value.length;
  const isCentred = !('centre' in cut.place) && cut.place.along === undefined;
  for (const x of across.value) {
    const hole = moved(cut.outline.rim, shiftBy(less(point(x, y), point(own.left, own.bottom))));
    // Its own repeats lie clear of each other: no pitch is under its size.
    const what = whyNotInside(part, around, hole);
    if (what !== undefined) {
      const reach = [x, sum(x, length), y, sum(y, width)] as const;
      const clear = holes.length;
      // Where all are in the middle together, fewer of them lie elsewhere.
      const most = isCentred || clear === 0 ? undefined : clear;
      const which = times === 1 ? undefined : { number: clear + 1, times, most };
      const at: OutlineFacet = most === undefined ? facet : ['times'];
      return undrawn(fault('T14', at, (show) => ({ what, which, ...reachWords(reach, box, show, cut.on) })));
    }
    holes.push(hole);
  }
  return drawn({
    ...part,
    holes: [...part.holes, ...holes.map(reversed)],
    marks: [...part.marks, ...holes.flatMap(centreOf)],
    within: larger(part.within, cut.outline.within),
  });
}

function reachWords(
  [left, right, bottom, top]: readonly [Length, Length, Length, Length],
  part: HeldBox,
  show: ShowLength,
  on: WallInFlat | undefined,
): { readonly takes: string; readonly part: string } {
  const from = (x: Length): Length => (on === undefined ? x : minus(x, on.low));
  const size = [minus(part.right, part.left), minus(part.top, part.bottom)].map((it) => show(it));
  return {
    takes: `${show(from(left))} to ${show(from(right))} along and ${show(bottom)} to ${show(top)} up`,
    part: size.join(' × '),
  };
}

/** The edges that a hole has to keep clear of, each with its box. */
interface Around {
  readonly rim: readonly Edge[];
  readonly holes: readonly Edge[];
}

interface Edge {
  readonly segment: Segment;
  readonly hull: HeldBox;
}

function edgesAround({ rim, holes }: Outline): Around {
  const edges = (loop: Loop) => loop.map((segment): Edge => ({ segment, hull: hullOf(segment) }));
  return { rim: edges(rim), holes: edges(holes.flat()) };
}

type Along = readonly [low: Length, high: Length, along: AlongEdge];

function alongOf(
  place: HolePlace,
  low: Length,
  high: Length,
  size: Length,
  on: WallInFlat | undefined,
): Along {
  return 'centre' in place
    ? byCentre(on === undefined ? place.centre.x : sum(on.low, place.centre.x), size)
    : [low, high, place.along];
}

function upOf(place: HolePlace, low: Length, high: Length, size: Length): Along {
  return 'centre' in place ? byCentre(place.centre.y, size) : [low, high, place.up];
}

/** The first of them has its middle there; the others go on from it. */
function byCentre(at: Length, size: Length): Along {
  const low = minus(at, stretched({ x: size, y: size }, half).x);
  return [low, low, { end: 'low', clear: minus(low, low) }];
}

function whyNotInside(
  part: Outline,
  around: Around,
  hole: Loop,
): 'outside' | 'over the edge' | 'over another hole' | undefined {
  if (doMeet(around.rim, hole)) return 'over the edge';
  if (doMeet(around.holes, hole)) return 'over another hole';
  const [first] = hole as NonEmpty<Segment>; // a loop has segments
  if (standingInLoops([part.rim], first.from) !== 'inside') return 'outside';
  const isInAnother = part.holes.some(
    (it) =>
      standingInLoops([it], first.from) === 'inside' ||
      standingInLoops([hole], (it as NonEmpty<Segment>)[0].from) === 'inside',
  );
  return isInAnother ? 'over another hole' : undefined;
}

function doMeet(edges: readonly Edge[], hole: Loop): boolean {
  return hole.some((it) => {
    const own = hullOf(it);
    return edges.some(({ segment, hull }) => doOverlap(own, hull) && meetings(it, segment).length > 0);
  });
}

/** The middle of a round hole, where the compass or the punch is set. */
function centreOf(hole: Loop): Outline['marks'] {
  const [first] = hole;
  if (first?.kind !== 'arc') return [];
  const isRound = hole.every((it) => it.kind === 'arc' && isSame(it.centre, first.centre));
  return isRound ? [{ kind: 'cross', at: first.centre }] : [];
}
