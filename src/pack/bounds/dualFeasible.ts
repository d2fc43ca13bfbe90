import { type Job, type JobSheet, Lie, liesOf } from '../job.ts';
import { leastSheets } from './area.ts';
import { leastCost } from './leastCost.ts';
import { type Bound, betterOf } from './lowerBound.ts';

/**
 * A dual feasible function: whole numbers for sizes 0 … `whole`, such that sizes which fit side by side
 * in any piece have values that fit in the value of that piece. (All below are superadditive, so this holds
 * for every piece and not for the whole sheet alone.) Scaling the parts' sides by one such function along
 * and another across gives parts that still fit, hence an area argument on the scaled sizes.
 *
 * @source  families as surveyed by F. Clautiaux, C. Alves, J. Valério de Carvalho, A survey of dual-feasible
 *          and superadditive functions, Annals of OR 179 (2010); pairs of them in two dimensions: S. Fekete,
 *          J. Schepers, A general framework for bounds for higher-dimensional orthogonal packing problems,
 *          Math. Methods of OR 60 (2004). From memory; superadditivity is tested
 */
export type Scale = (size: number) => number;

/** Sizes up to `margin` count nothing, those within it of the whole count as the whole. */
export function rounding(whole: number, margin: number): Scale {
  return (size) => (size < margin ? 0 : size > whole - margin ? whole : size);
}

/** How many `step`s go into a size; what is larger than half gets what the rest of the whole leaves. */
export function counting(whole: number, step: number): Scale {
  const most = Math.floor(whole / step);
  return (size) => {
    if (2 * size < whole) return 2 * Math.floor(size / step);
    if (2 * size === whole) return most;
    return 2 * (most - Math.floor((whole - size) / step));
  };
}

/** Sizes in units of whole / (parts + 1), rounded down except where they are exact; then stretched. */
export function stretching(whole: number, parts: number): Scale {
  return (size) => {
    const units = (parts + 1) * size;
    return units % whole === 0 ? size * parts : Math.floor(units / whole) * whole;
  };
}

/** Sizes in units of whole / parts, rounded down also where they are exact. */
export function shrinking(whole: number, parts: number): Scale {
  const below = (size: number) => Math.max(0, Math.ceil((parts * size) / whole) - 1);
  return (size) => {
    if (2 * size < whole) return 2 * below(size);
    if (2 * size === whole) return parts - 1;
    return 2 * (parts - 1) - 2 * below(whole - size);
  };
}

/** The best bound over all pairs of scales. Yields after every few milliseconds of work. */
export function* dualFeasibleBound(job: Job, counts: readonly number[]): Generator<void, Bound> {
  const parts = counts.flatMap((count, kind): Wanted[] =>
    count > 0 ? [{ ...job.kinds[kind]!, count, ways: waysAnywhere(job, kind) }] : [],
  );
  const whole = {
    length: Math.max(...job.sheets.map((sheet) => sheet.length)),
    width: Math.max(...job.sheets.map((sheet) => sheet.width)),
  };
  const maySwap = parts.some(({ ways }) => ways !== Lie.straight);
  const lengths = parts.map(({ length }) => length);
  const widths = parts.map(({ width }) => width);
  const both = [...lengths, ...widths];
  const most = Math.min(mostScales, Math.floor(Math.sqrt(mostSums / Math.max(1, parts.length))));
  const along = scalesFor(whole.length, maySwap ? both : lengths, most);
  const across = scalesFor(whole.width, maySwap ? both : widths, most);
  const isSquare = job.sheets.every((sheet) => sheet.length === sheet.width);
  const readings: Reading[] = !maySwap
    ? [straight]
    : isSquare && parts.every(({ ways }) => ways === (Lie.straight | Lie.turned))
      ? [doubled]
      : isSquare
        ? [least, doubled]
        : [least];
  let best: Bound = { sheets: 0, cost: 0, argument };
  for (const reading of readings) {
    const pair = yield* bestPair(parts, whole, along, across, reading);
    if (pair === undefined) continue;
    const [f, g] = pair;
    const areaOfSizes = (length: number, width: number) =>
      length > whole.length || width > whole.width ? 0n : BigInt(f(length)) * BigInt(g(width));
    const total = parts.reduce(
      (sum, part) => sum + reading.exact(part, areaOfSizes) * BigInt(part.count),
      0n,
    );
    const held = ({ length, width }: JobSheet) => reading.twice * areaOfSizes(length, width);
    const sheets = leastSheets(job.sheets, total, held);
    best = betterOf(best, { sheets, cost: leastCost(job.sheets, total, held), argument });
  }
  return best;
}

const argument = 'their sides, scaled so that what fits still fits, take more';

interface Wanted {
  readonly length: number;
  readonly width: number;
  readonly count: number;
  readonly ways: number;
}

/** How a part is counted that may lie in one way, in the other, or in both. */
interface Reading {
  /** Times the sheets' area that all parts may take. */
  readonly twice: bigint;
  readonly exact: (part: Wanted, areaOf: (length: number, width: number) => bigint) => bigint;
}

/** No part may turn. */
const straight: Reading = {
  twice: 1n,
  exact: ({ length, width }, areaOf) => areaOf(length, width),
};

/** Each part in whichever of its ways counts less. */
const least: Reading = {
  twice: 1n,
  exact: ({ length, width, ways }, areaOf) => {
    const [area, turned] = [areaOf(length, width), areaOf(width, length)];
    if (ways === Lie.straight) return area;
    return ways === Lie.turned || turned < area ? turned : area;
  },
};

/**
 * On square sheets: a layout and its mirror image along the diagonal take twice the sheets, and hold each part
 * once as it is and once turned, however it lay.
 */
const doubled: Reading = {
  twice: 2n,
  exact: ({ length, width }, areaOf) => areaOf(length, width) + areaOf(width, length),
};

/** The pair of scales with the largest sum, by doubles; what is claimed is worked out in whole numbers. */
function* bestPair(
  parts: readonly Wanted[],
  whole: { readonly length: number; readonly width: number },
  along: readonly Scale[],
  across: readonly Scale[],
  reading: Reading,
): Generator<void, readonly [Scale, Scale] | undefined> {
  const lengths = Float64Array.from(parts, ({ length }) => length);
  const widths = Float64Array.from(parts, ({ width }) => width);
  const counts = Float64Array.from(parts, ({ count }) => count);
  const once = new Float64Array(parts.length).fill(1);
  // Along, each entry is also multiplied by the part's count.
  const lengthAlong = along.map((scale) => scaled(lengths, scale, whole.length, counts));
  const widthAlong = along.map((scale) => scaled(widths, scale, whole.length, counts));
  const lengthAcross = across.map((scale) => scaled(lengths, scale, whole.width, once));
  const widthAcross = across.map((scale) => scaled(widths, scale, whole.width, once));
  const ways = Uint8Array.from(parts, (part) => part.ways);
  let best = 0;
  let pair: readonly [Scale, Scale] | undefined;
  let sums = 0;
  for (let a = 0; a < along.length; a++) {
    // Doubled sums are the same for a pair and its mirror image.
    for (let b = reading === doubled ? a : 0; b < across.length; b++) {
      const areas = [lengthAlong[a]!, widthAcross[b]!, widthAlong[a]!, lengthAcross[b]!] as const;
      const sum =
        reading === straight
          ? sumOfProducts(areas[0], areas[1])
          : reading === doubled
            ? sumOfProducts(areas[0], areas[1]) + sumOfProducts(areas[2], areas[3])
            : sumOfLeast(areas, ways);
      if (sum > best + 1e-9) {
        best = sum;
        pair = [along[a]!, across[b]!];
      }
      sums += parts.length;
      if (sums > sumsBetweenYields) {
        sums = 0;
        yield;
      }
    }
  }
  return pair;
}

function scaled(sizes: Float64Array, scale: Scale, whole: number, times: Float64Array): Float64Array {
  const all = scale(whole);
  const values = new Float64Array(sizes.length);
  for (let i = 0; i < sizes.length; i++) {
    if (sizes[i]! <= whole) values[i] = (scale(sizes[i]!) / all) * times[i]!;
  }
  return values;
}

function sumOfProducts(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i]! * b[i]!;
  return sum;
}

function sumOfLeast(
  [a, b, c, d]: readonly [Float64Array, Float64Array, Float64Array, Float64Array],
  ways: Uint8Array,
): number {
  let sum = 0;
  for (let i = 0; i < ways.length; i++) {
    const area = a[i]! * b[i]!;
    const turned = c[i]! * d[i]!;
    if (ways[i] === Lie.straight) sum += area;
    else sum += ways[i] === Lie.turned || turned < area ? turned : area;
  }
  return sum;
}

function waysAnywhere(job: Job, kind: number): number {
  let ways = 0;
  for (let sheet = 0; sheet < job.sheets.length; sheet++) ways |= liesOf(job, kind, sheet);
  return ways;
}

/** More scales than this along one axis cost more time than they gain. */
const mostScales = 160;
/** Parts times pairs of scales. */
const mostSums = 10_000_000;
const sumsBetweenYields = 500_000;

function scalesFor(whole: number, sizes: readonly number[], most: number): Scale[] {
  const distinct = [...new Set(sizes.filter((size) => size <= whole))].sort((a, b) => a - b);
  const margins = new Set<number>([1]);
  for (const size of distinct) {
    if (2 * size <= whole) margins.add(size);
    if (2 * (whole - size + 1) <= whole) margins.add(whole - size + 1);
  }
  const steps = new Set<number>();
  for (const size of distinct) {
    if (2 * size <= whole) steps.add(size);
    const rest = whole - size + 1;
    if (2 * rest <= whole) steps.add(rest);
  }
  const scales = [
    ...[...margins].map((margin) => rounding(whole, margin)),
    ...[...steps].map((step) => counting(whole, step)),
  ];
  for (let parts = 2; parts <= 12; parts++) scales.push(shrinking(whole, parts));
  for (let parts = 1; parts <= 12; parts++) scales.push(stretching(whole, parts));
  const useful = scales.filter((scale) => scale(whole) > 0);
  if (useful.length <= most) return useful;
  const every = useful.length / most;
  return Array.from({ length: most }, (_, i) => useful[Math.floor(i * every)]!);
}
