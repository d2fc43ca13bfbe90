import type { Length, PlannedPiece } from '../../model/index.ts';
import { ticksMm } from './datum.ts';
import type { Frame } from './frame.ts';
import { type Area, circle, line, type Mark, type Point } from './mark.ts';
import { emptyRoom, filed, inflated, overlap, type Room } from './room.ts';
import { placeIn, stackOf } from './rowsInside.ts';
import type { Sizes } from './sizes.ts';
import { areaOf, type Typeface, widthOf, wordsAround } from './type.ts';

/** What a letter in the picture stands for. */
export interface Keyed {
  readonly key: string;
  readonly label: string;
  readonly size: string;
  readonly count: number;
  /** False where not even a leader found its way to any of them. */
  readonly isShown: boolean;
}

/**
 * Letters for pieces without room for words: one letter for all that are alike.
 *
 * @param beside  the same room, without what the lines of shapes take: where a letter stands if it can
 */
export function keyPieces(
  face: Typeface,
  sizes: Sizes,
  pieces: readonly PlannedPiece[],
  kerf: Length,
  frame: Frame,
  room: Room,
  beside: Room,
  pointers: Pointers,
): { readonly marks: readonly Mark[]; readonly keyed: readonly Keyed[] } {
  const alike = new Map<string, PlannedPiece[]>();
  for (const piece of pieces) {
    const name = `${piece.member.label}\n${sizes.pair(piece.box.length, piece.box.width)}`;
    const before = alike.get(name);
    if (before === undefined) alike.set(name, [piece]);
    else before.push(piece);
  }
  const groups = [...alike].map(([name, group], index) => {
    const [label = '', size = ''] = name.split('\n');
    return { group, keyed: { key: letterOf(index), label, size, count: group.length } };
  });
  const marks: Mark[] = [];
  // All letters that stand in their piece come first, so that no leader is drawn where one is yet to stand.
  const outside = groups.map(({ group, keyed: { key } }) => {
    const letter = stackOf(face, [{ role: 'key', text: key }], false);
    return group.filter((piece) => {
      const within = inflated(frame.area(piece.box), 0.6);
      const written =
        (piece.member.drawn && placeIn(beside, within, letter)) ?? placeIn(room, within, letter);
      for (const it of written ?? []) room.take(areaOf(it));
      marks.push(...(written ?? []));
      return written === undefined;
    });
  });
  for (const [index, { keyed }] of groups.entries()) {
    for (const one of clustersOf(outside[index] ?? [], frame, frame.size(kerf))) {
      marks.push(...pointers.to('key', keyed.key, one));
    }
  }
  const shown = new Set(marks.flatMap((mark) => (mark.kind === 'words' ? [mark.text] : [])));
  return { marks, keyed: groups.map(({ keyed }) => ({ ...keyed, isShown: shown.has(keyed.key) })) };
}

/** `a` … `z`, `aa` … */
function letterOf(index: number): string {
  const letter = String.fromCharCode(97 + (index % 26));
  return index < 26 ? letter : `${letterOf(Math.floor(index / 26) - 1)}${letter}`;
}

/** Pieces that lie side by side, no farther apart than a kerf: they share a leader. */
function clustersOf(
  pieces: readonly PlannedPiece[],
  frame: Frame,
  kerfMm: number,
): readonly (readonly Area[])[] {
  const areas = pieces.map(({ box }) => frame.area(box));
  const near = filed(areas);
  const seen = new Set<Area>();
  const clusters: (readonly Area[])[] = [];
  for (const area of areas) {
    if (seen.has(area)) continue;
    seen.add(area);
    const cluster = [area];
    for (const member of cluster) {
      const reach = inflated(member, kerfMm + 0.05);
      for (const other of near(reach)) {
        if (seen.has(other) || !overlap(reach, other)) continue;
        seen.add(other);
        cluster.push(other);
      }
    }
    clusters.push(cluster);
  }
  return clusters;
}

/** Where a leader may end: in the middle piece first, in its middle first. */
function endsIn(cluster: readonly Area[]): readonly Point[] {
  const order = [...cluster].sort((a, b) => a.left - b.left || a.top - b.top);
  const middle = Math.floor(order.length / 2);
  const chosen = [middle, 0, order.length - 1, Math.floor(middle / 2)].flatMap((index) => order[index] ?? []);
  return chosen.flatMap(({ left, right, top, bottom }) =>
    [0.5, 0.25, 0.75, 0.1, 0.9].map((share) =>
      right - left > bottom - top
        ? { x: left + (right - left) * share, y: (top + bottom) / 2 }
        : { x: (left + right) / 2, y: top + (bottom - top) * share },
    ),
  );
}

/** Letters that stand outside the sheet and point into it. */
export interface Pointers {
  /** Nothing where no leader finds its way. */
  readonly to: (role: 'key' | 'strip name', letter: string, cluster: readonly Area[]) => readonly Mark[];
  /** Nothing where a leader would be long, or cross what is kept. */
  readonly closeTo: Pointers['to'];
  /** True where no leader runs. */
  readonly isClear: (area: Area) => boolean;
}

/**
 * @param outer all that the picture may cover
 * @param kept  what is worth keeping of the sheet: led around, if there is a way around
 */
export function pointersIn(
  face: Typeface,
  sizes: Sizes,
  frame: Frame,
  room: Room,
  outer: Area,
  kept: readonly Area[],
): Pointers {
  const taken: Taken = {
    words: room,
    leaders: emptyRoom(),
    belowMm: ticksMm(sizes) + 2.7,
    triesLeft: mostTries,
  };
  const isKept = (area: Area): boolean => kept.some((it) => overlap(it, area));
  const around = (area: Area): boolean => room.isFree(area) && !isKept(area);
  type Find = (isWay: Room['isFree'], mostMm: number) => Leader | undefined;
  const pointing =
    (choose: (find: Find) => Leader | undefined): Pointers['to'] =>
    (role, letter, cluster) => {
      const half = widthOf(face, role, letter) / 2 + 0.4;
      const chosen = choose((isWay, mostMm) => leaderTo(cluster, half, frame, taken, isWay, outer, mostMm));
      if (chosen === undefined) return [];
      const { start, from, end, place } = chosen;
      room.take(place);
      for (const spot of pathOf(from, end)) taken.leaders.take(spot);
      return [
        line('leader', from, end),
        { kind: 'patch', role: 'leader end', points: circle(end, 0.45) },
        wordsAround(face, role, letter, start),
      ];
    };
  return {
    to: pointing((find) => {
      const shortest = find(room.isFree, Number.POSITIVE_INFINITY);
      if (shortest === undefined || everySquare(shortest.from, shortest.end, (it) => !isKept(it)))
        return shortest;
      return find(around, lengthOf(shortest) * mostDetour + 5) ?? shortest;
    }),
    closeTo: pointing((find) => find(around, closeMm)),
    isClear: taken.leaders.isFree,
  };
}

/** No longer than this, a leader is taken in at a glance. */
const closeMm = 14;

/** So much longer a leader may be for not crossing what is kept. */
const mostDetour = 1.4;

/** Where words stand, and where leaders run: these may cross each other, but no words. */
interface Taken {
  readonly words: Room;
  readonly leaders: Room;
  /** How far below the sheet there is nothing but ticks. */
  readonly belowMm: number;
  /** Where thousands of pieces want a letter, most find none: the search ends some time. */
  triesLeft: number;
}

/** Many times what a picture needs that can be read. */
const mostTries = 100_000;

/** A letter outside the sheet, and the line from it to the piece. */
interface Leader {
  /** The middle of the letter, and what it takes. */
  readonly start: Point;
  readonly place: Area;
  readonly from: Point;
  readonly end: Point;
}

function lengthOf({ from, end }: Leader): number {
  return Math.hypot(from.x - end.x, from.y - end.y);
}

/** A straight leader to the piece, crossing no words; the shortest there is, and no longer than it may be. */
function leaderTo(
  cluster: readonly Area[],
  half: number,
  { sheet }: Frame,
  taken: Taken,
  isWay: Room['isFree'],
  outer: Area,
  mostMm: number,
): Leader | undefined {
  const within = { ...outer, left: outer.left + half, right: outer.right - half };
  for (const end of endsIn(cluster)) {
    // Wherever it came from, it could not end here.
    if (!taken.words.isFree(squareAbout(end.x, end.y))) continue;
    for (const start of startsAround(end, sheet, taken.belowMm, within)) {
      if (taken.triesLeft-- <= 0) return undefined;
      const place = { left: start.x - half, right: start.x + half, top: start.y - 2, bottom: start.y + 2 };
      if (!isWithin(place, outer) || !taken.words.isFree(place) || !taken.leaders.isFree(place)) continue;
      const from =
        start.y < sheet.top
          ? { x: start.x, y: place.bottom }
          : start.y > sheet.bottom
            ? { x: start.x, y: place.top }
            : { x: place.left, y: start.y };
      const found = { start, place, from, end };
      if (lengthOf(found) > mostMm) break;
      if (everySquare(from, end, isWay)) return found;
    }
  }
  return undefined;
}

/** One side of the sheet, and how far along it the next start lies. */
interface Side {
  readonly isLevel: boolean;
  /** Where it lies: a height on the page, or a distance from the left. */
  readonly at: number;
  readonly apartMm: number;
  next: number;
}

/** Above, below and to the right of the sheet, the nearest first; worked out only as far as they are tried. */
function* startsAround(end: Point, sheet: Area, belowMm: number, within: Area): Generator<Point> {
  const level = (y: number): Side => ({ isLevel: true, at: y, apartMm: Math.abs(y - end.y), next: 0 });
  const right = sheet.right + 5;
  // Along each side they come nearest first as they are: the sides only have to be merged.
  const sides: readonly Side[] = [
    level(sheet.top - 3),
    { isLevel: false, at: right, apartMm: Math.abs(right - end.x), next: 0 },
    level(sheet.bottom + belowMm),
  ];
  for (;;) {
    let nearest: Side | undefined;
    let least = Number.POSITIVE_INFINITY;
    for (const side of sides) {
      const away = awayFrom[side.next];
      if (away === undefined) continue;
      const far = away ** 2 + side.apartMm ** 2;
      if (far >= least) continue;
      nearest = side;
      least = far;
    }
    if (nearest === undefined) return;
    const away = awayFrom[nearest.next++] ?? 0;
    const start = nearest.isLevel ? { x: end.x + away, y: nearest.at } : { x: nearest.at, y: end.y + away };
    if (start.x > within.left && start.x < within.right) yield start;
  }
}

/** How far to the one hand and to the other, in turn. */
const awayFrom: readonly number[] = Array.from({ length: 60 }, (_, step) => step * 1.5).flatMap((away) =>
  away === 0 ? [away] : [-away, away],
);

function isWithin(area: Area, outer: Area): boolean {
  return (
    area.left > outer.left && area.right < outer.right && area.top > outer.top && area.bottom < outer.bottom
  );
}

/** Small squares that touch each other all along a line, its end first, where words are most likely to stand. */
function pathOf(from: Point, to: Point): readonly Area[] {
  const squares: Area[] = [];
  everySquare(from, to, (square) => {
    squares.push(square);
    return true;
  });
  return squares;
}

/** Whether all squares are as is asked; the first that is not ends it. */
function everySquare(from: Point, to: Point, is: (square: Area) => boolean): boolean {
  const steps = Math.max(1, Math.ceil(Math.hypot(to.x - from.x, to.y - from.y) / 0.6));
  for (let step = steps; step >= 1; step--) {
    const share = step / steps;
    const [x, y] = [from.x + (to.x - from.x) * share, from.y + (to.y - from.y) * share];
    if (!is(squareAbout(x, y))) return false;
  }
  return true;
}

function squareAbout(x: number, y: number): Area {
  return { left: x - 0.3, right: x + 0.3, top: y - 0.3, bottom: y + 0.3 };
}
