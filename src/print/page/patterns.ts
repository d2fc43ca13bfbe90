import { type Area, lines, type Mark, type Point } from './mark.ts';

/**
 * Hatching of a rectangle at 45°, clipped to it. `rising` runs from the left bottom to the right top.
 *
 *   rising ╱╱╱   falling ╲╲╲
 */
export function hatch(
  role: 'keep hatch' | 'scrap hatch' | 'trim hatch',
  area: Area,
  spacingMm: number,
  way: 'rising' | 'falling',
): readonly Mark[] {
  const width = area.right - area.left;
  const height = area.bottom - area.top;
  const step = spacingMm * Math.SQRT2;
  const ends: [Point, Point][] = [];
  // `offset` is where a line at 45° meets the left edge, counted down from the top.
  for (let offset = step; offset < width + height; offset += step) {
    const enter = { x: Math.max(0, offset - height), y: Math.min(offset, height) };
    const leave = { x: Math.min(offset, width), y: Math.max(0, offset - width) };
    const place = ({ x, y }: Point): Point => ({
      x: way === 'rising' ? area.left + x : area.right - x,
      y: area.top + y,
    });
    ends.push([place(enter), place(leave)]);
  }
  return lines(role, ends);
}

/**
 * Our mark for the grain: three staggered fibres that run with it.
 *
 *   ────────
 *      ──────────
 *    ───────
 */
export function grainMark(centre: Point, lengthMm: number, way: 'across' | 'up'): readonly Mark[] {
  const half = lengthMm / 2;
  const fibres: readonly (readonly [number, number, number])[] = [
    [-half, half * 0.45, -1.1],
    [-half * 0.55, half, 0],
    [-half * 0.85, half * 0.6, 1.1],
  ];
  return lines(
    'grain',
    fibres.map(([from, to, beside]) => [along(centre, from, beside, way), along(centre, to, beside, way)]),
  );
}

/**
 * Our mark for flutes: two tubes seen from above, rounded at their ends, that run with them.
 *
 *   ╭────────╮
 *   ╰────────╯
 *   ╭────────╮
 *   ╰────────╯
 */
export function flutesMark(centre: Point, lengthMm: number, way: 'across' | 'up'): readonly Mark[] {
  return [tube(centre, lengthMm, -0.95, way), tube(centre, lengthMm, 0.95, way)];
}

function tube(centre: Point, lengthMm: number, beside: number, way: 'across' | 'up'): Mark {
  const radius = 0.75;
  const straight = lengthMm / 2 - radius;
  const corner = (index: number): Point => {
    const isFarEnd = index < 9;
    const angle = (isFarEnd ? -Math.PI / 2 : Math.PI / 2) + ((index % 9) * Math.PI) / 8;
    const onward = (isFarEnd ? straight : -straight) + radius * Math.cos(angle);
    return along(centre, onward, beside + radius * Math.sin(angle), way);
  };
  const rest = Array.from({ length: 17 }, (_, index) => corner(index + 1));
  return { kind: 'stroke', role: 'flutes', paths: [{ points: [corner(0), ...rest], closed: true }] };
}

function along(centre: Point, onward: number, beside: number, way: 'across' | 'up'): Point {
  return way === 'across'
    ? { x: centre.x + onward, y: centre.y + beside }
    : { x: centre.x + beside, y: centre.y - onward };
}
