import { type Area, areaOfPoints, type Point } from './mark.ts';

/** So many columns are looked at: words need no more. */
const columns = 24;
/** Words are wider than high: room beside counts so much more than room above. */
const mostFlat = 0.35;

/**
 * The roomiest upright rectangle within a shape, for words; undefined where it has none.
 *
 *      ╲
 *      │ ╲          from column to column, as low as the highest bottom and as high as the lowest top
 *      ├───┐╲
 *      │   │  ╲
 *      └───┴────╲
 */
export function roomiest(loops: readonly (readonly Point[])[]): Area | undefined {
  const [first, ...others] = loops.flat();
  if (first === undefined) return undefined;
  const { left, right } = areaOfPoints([first, ...others]);
  const wide = (right - left) / columns;
  const spans = Array.from({ length: columns + 1 }, (_, i) =>
    tallest(loops, left + (i + 0.001) * wide * 0.998),
  );
  let best: { readonly area: Area; readonly worth: number } | undefined;
  for (let from = 0; from < columns; from++) {
    let [top, bottom] = [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY];
    for (let to = from; to <= columns; to++) {
      const span = spans[to];
      if (span === undefined) break;
      [top, bottom] = [Math.max(top, span.top), Math.min(bottom, span.bottom)];
      if (bottom <= top) break;
      const across = (to - from) * wide;
      const worth = Math.min(across * mostFlat, bottom - top) * across;
      if (best === undefined || worth > best.worth) {
        best = { area: { left: left + from * wide, right: left + to * wide, top, bottom }, worth };
      }
    }
  }
  return best === undefined || best.worth <= 0 ? undefined : best.area;
}

interface Span {
  readonly top: number;
  readonly bottom: number;
}

/** The tallest run of material on an upright line. */
function tallest(loops: readonly (readonly Point[])[], x: number): Span | undefined {
  const crossings: number[] = [];
  for (const loop of loops) {
    for (const [i, from] of loop.entries()) {
      const to = loop[(i + 1) % loop.length] ?? from;
      if (from.x < x === to.x < x) continue;
      crossings.push(from.y + ((x - from.x) / (to.x - from.x)) * (to.y - from.y));
    }
  }
  crossings.sort((a, b) => a - b);
  let best: Span | undefined;
  for (let i = 0; i + 1 < crossings.length; i += 2) {
    const span = { top: crossings[i] ?? 0, bottom: crossings[i + 1] ?? 0 };
    if (best === undefined || span.bottom - span.top > best.bottom - best.top) best = span;
  }
  return best;
}
