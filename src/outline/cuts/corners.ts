import { add, compare, millimetres, subtract, sum, zero } from '../../measure/index.ts';
import type {
  BoxSide,
  Corner,
  Drawn,
  Length,
  Line,
  Outline,
  OutlineFault,
  Point,
  Segment,
} from '../../model/index.ts';
import { arcRound } from '../arc.ts';
import type { HeldBox } from '../box.ts';
import { aboveZero, drawn, fault, undrawn } from '../fault.ts';
import { lineTo } from '../loop.ts';
import { isSame, less, plus, point, shrunk, stretched } from '../vector.ts';
import { boxForPlacing } from './place.ts';

/** `{ round: { top left: 1/4 } }`, `{ clip: 1/4 }`: corners of the outline's box, each its own or all alike. */
export interface Corners {
  readonly kind: 'round' | 'clip';
  readonly corners: Length | ReadonlyMap<Corner, Length>;
}

const all: readonly Corner[] = ['bottom left', 'bottom right', 'top right', 'top left'];

/** A corner to be taken off: where the rim comes in, and the place of its line before it. */
interface Found {
  readonly corner: Corner;
  readonly size: Length;
  readonly index: number;
}

//   A square corner of the box, P, taken off by as much along both its edges; C is the middle of the arc:
//
//        B ●───            round: the quarter of a circle from A to B
//       ╱  C│              clip: the straight line
//      ●────┘ P
//      A
export function cornered(part: Outline, { kind, corners }: Corners): Drawn {
  const isForAll = 'numerator' in corners;
  const asked = isForAll ? all.map((it): [Corner, Length] => [it, corners]) : [...corners];
  const facetOf = (corner: Corner) => (isForAll ? [kind] : [kind, corner]);
  const sizes = asked.flatMap(([corner, size]) =>
    aboveZero([kind === 'round' ? 'radius' : 'clip', size, facetOf(corner)]),
  );
  const [first] = sizes;
  if (first !== undefined) return undrawn(...(isForAll ? [first] : sizes));

  const box = boxForPlacing(part);
  const found = asked.flatMap(([corner, size]): Found[] => {
    const index = cornerIn(part, cornerPoint(corner, box));
    return index === undefined ? [] : [{ corner, size, index }];
  });
  const missing = asked.filter(([corner]) => !found.some((it) => it.corner === corner));
  if (isForAll ? found.length === 0 : missing.length > 0) {
    return undrawn(
      ...(isForAll
        ? [fault('T11', [kind], () => ({ corner: 'any' }))]
        : missing.map(([corner]) => fault('T11', facetOf(corner), () => ({ corner })))),
    );
  }
  const tight = withoutRoom(part, found, kind);
  return tight.length > 0 ? undrawn(...tight) : drawn({ ...part, rim: takenOff(part, found, kind) });
}

function cornerPoint(corner: Corner, { left, right, bottom, top }: HeldBox): Point {
  return point(corner.endsWith('left') ? left : right, corner.startsWith('top') ? top : bottom);
}

/** The place of the line that begins there, if the rim has a square corner there. */
function cornerIn({ rim }: Outline, at: Point): number | undefined {
  const index = rim.findIndex((it) => isSame(it.from, at));
  const [before, after] = [rim.at(index - 1), rim[index]];
  if (before?.kind !== 'line' || after?.kind !== 'line') return undefined;
  const isLevel = (it: Line) => subtract(it.from.y, it.to.y).numerator === 0n;
  const isUpright = (it: Line) => subtract(it.from.x, it.to.x).numerator === 0n;
  const isSquare = (isLevel(before) && isUpright(after)) || (isUpright(before) && isLevel(after));
  return isSquare ? index : undefined;
}

function withoutRoom(
  { rim }: Outline,
  found: readonly Found[],
  kind: Corners['kind'],
): readonly OutlineFault[] {
  return rim.flatMap((it, i) => {
    const here = found.filter(({ index }) => index === i || index === (i + 1) % rim.length);
    const needs = sum(...here.map(({ size }) => size));
    const has = lengthOfLevel(it);
    if (here.length === 0 || compare(needs, has) <= 0) return [];
    const side = sideOfCorners(
      here.map(({ corner }) => corner),
      it,
    );
    return [fault('T10', [kind], (show) => ({ side, needs: show(needs), has: show(has) }))];
  });
}

/** Of a line that is level or upright. */
function lengthOfLevel({ from, to }: Segment): Length {
  const { x, y } = less(to, from);
  const length = add(x, y);
  return millimetres(length.numerator < 0n ? subtract(zero, length) : length);
}

function sideOfCorners(corners: readonly Corner[], { from, to }: Segment): BoxSide {
  const [corner = 'top left'] = corners;
  const isLevel = subtract(from.y, to.y).numerator === 0n;
  if (isLevel) return corner.startsWith('top') ? 'top' : 'bottom';
  return corner.endsWith('left') ? 'left' : 'right';
}

function takenOff({ rim }: Outline, found: readonly Found[], kind: Corners['kind']): readonly Segment[] {
  const sizeAt = (index: number) => found.find((it) => it.index === index)?.size;
  return rim.flatMap((it, i): readonly Segment[] => {
    const [before, after] = [sizeAt(i), sizeAt((i + 1) % rim.length)];
    if (before === undefined && after === undefined) return [it];
    const way = shrunk(less(it.to, it.from), lengthOfLevel(it));
    const from = before === undefined ? it.from : plus(it.from, stretched(way, before));
    const to = after === undefined ? it.to : less(it.to, stretched(way, after));
    const line: readonly Segment[] = isSame(from, to) ? [] : [lineTo(from, to)];
    if (after === undefined) return line;
    const next = rim[(i + 1) % rim.length]!; // the corner's other edge
    const nextWay = shrunk(less(next.to, next.from), lengthOfLevel(next));
    const end = plus(next.from, stretched(nextWay, after));
    const centre = less(plus(to, end), it.to);
    return [...line, kind === 'clip' ? lineTo(to, end) : arcRound(to, end, centre, 'left', after)];
  });
}
