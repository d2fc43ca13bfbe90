import type { NonEmpty } from '../../model/index.ts';
import type { Area, Path, Point, Stroke } from '../page/index.ts';

/** What of a stroke lies within a window. */
export function clipped(stroke: Stroke, window: Area): readonly Stroke[] {
  const [first, ...rest] = stroke.paths.flatMap((it) => clippedPath(it, window));
  return first === undefined ? [] : [{ ...stroke, paths: [first, ...rest] }];
}

/** True where any of it lies in the area, its edge counted in. */
export function touches({ paths }: Stroke, area: Area): boolean {
  return paths.some((path) => sidesOf(path).some(([from, to]) => within(from, to, area) !== undefined));
}

function clippedPath(path: Path, window: Area): readonly Path[] {
  if (path.points.every((it) => isIn(it, window))) return [path];
  const chains: Point[][] = [];
  for (const [from, to] of sidesOf(path)) {
    const share = within(from, to, window);
    if (share === undefined) continue;
    const [enter, leave] = [between(from, to, share.enter), between(from, to, share.leave)];
    const open = chains.at(-1);
    if (open !== undefined && share.enter === 0 && open.at(-1) === from) open.push(leave);
    else chains.push([enter, leave]);
  }
  return chains.map((points) => ({ points: points as unknown as NonEmpty<Point>, closed: false })); // two at least
}

function sidesOf({ points, closed }: Path): readonly (readonly [Point, Point])[] {
  return points.flatMap((from, i): readonly (readonly [Point, Point])[] => {
    const to = points[i + 1] ?? (closed ? points[0] : undefined);
    return to === undefined ? [] : [[from, to]];
  });
}

function isIn({ x, y }: Point, { left, right, top, bottom }: Area): boolean {
  return x >= left && x <= right && y >= top && y <= bottom;
}

/** The ends themselves where nothing is cut off, so that what goes on is known by its end. */
function between(from: Point, to: Point, share: number): Point {
  if (share === 0) return from;
  if (share === 1) return to;
  return { x: from.x + (to.x - from.x) * share, y: from.y + (to.y - from.y) * share };
}

/**
 * From which share of the way to which a line is within; undefined where it passes by.
 *
 * @source Liang and Barsky, "A new concept and method for line clipping", ACM Transactions on Graphics 3 (1984);
 *         from memory
 */
function within(
  from: Point,
  to: Point,
  area: Area,
): { readonly enter: number; readonly leave: number } | undefined {
  const [dx, dy] = [to.x - from.x, to.y - from.y];
  let [enter, leave] = [0, 1];
  const sides = [
    [-dx, from.x - area.left],
    [dx, area.right - from.x],
    [-dy, from.y - area.top],
    [dy, area.bottom - from.y],
  ] as const;
  for (const [towards, room] of sides) {
    if (towards === 0) {
      if (room < 0) return undefined;
    } else if (towards < 0) enter = Math.max(enter, room / towards);
    else leave = Math.min(leave, room / towards);
  }
  return enter > leave ? undefined : { enter, leave };
}
