import { type Job, Lie, liesOf } from '../job.ts';
import { leastSheets } from './area.ts';
import type { Bound } from './lowerBound.ts';

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

/** The best bound over all pairs of scales. */
export function dualFeasibleBound(job: Job, counts: readonly number[]): Bound {
  const wanted = counts.flatMap((count, kind) => (count > 0 ? [kind] : []));
  const ways = wanted.map((kind) => waysAnywhere(job, kind));
  const length = Math.max(...job.sheets.map((sheet) => sheet.length));
  const width = Math.max(...job.sheets.map((sheet) => sheet.width));
  const lengths = wanted.map((kind) => job.kinds[kind]!.length);
  const widths = wanted.map((kind) => job.kinds[kind]!.width);
  const maySwap = ways.some((way) => way !== Lie.straight);
  const sizesAlong = maySwap ? [...lengths, ...widths] : lengths;
  const sizesAcross = maySwap ? [...lengths, ...widths] : widths;
  const along = scalesFor(length, sizesAlong);
  const across = scalesFor(width, sizesAcross);
  const isSquare = job.sheets.every((sheet) => sheet.length === sheet.width);

  const tables = (scales: readonly Scale[], whole: number, sizes: readonly number[]) =>
    scales.map((scale) =>
      Float64Array.from(sizes, (size) => (size > whole ? 0 : scale(size) / scale(whole))),
    );
  const alongOfLength = tables(along, length, lengths);
  const alongOfWidth = tables(along, length, widths);
  const acrossOfLength = tables(across, width, lengths);
  const acrossOfWidth = tables(across, width, widths);

  // Doubles find the best pair; the bound itself is then worked out in whole numbers.
  let best = { value: 0, along: 0, across: 0, isDoubled: false };
  const note = (value: number, a: number, b: number, isDoubled: boolean) => {
    if (value > best.value + 1e-9) best = { value, along: a, across: b, isDoubled };
  };
  for (let a = 0; a < along.length; a++) {
    const [lengthHere, widthHere] = [alongOfLength[a]!, alongOfWidth[a]!];
    for (let b = 0; b < across.length; b++) {
      const [lengthThere, widthThere] = [acrossOfLength[b]!, acrossOfWidth[b]!];
      let least = 0;
      let doubled = 0;
      for (let i = 0; i < wanted.length; i++) {
        const count = counts[wanted[i]!]!;
        const straight = lengthHere[i]! * widthThere[i]!;
        const turned = widthHere[i]! * lengthThere[i]!;
        doubled += (straight + turned) * count;
        const way = ways[i]!;
        least +=
          (way === Lie.straight ? straight : way === Lie.turned ? turned : Math.min(straight, turned)) *
          count;
      }
      note(least, a, b, false);
      if (isSquare && maySwap) note(doubled / 2, a, b, true);
    }
  }
  const [f, g] = [along[best.along]!, across[best.across]!];
  const scaledArea = (l: number, w: number) => (l > length || w > width ? 0n : BigInt(f(l)) * BigInt(g(w)));
  let value = 0n;
  wanted.forEach((kind, i) => {
    const part = job.kinds[kind]!;
    const straight = scaledArea(part.length, part.width);
    const turned = scaledArea(part.width, part.length);
    const count = BigInt(counts[kind]!);
    if (best.isDoubled) value += (straight + turned) * count;
    else {
      const way = ways[i]!;
      const each = way === Lie.straight ? straight : way === Lie.turned ? turned : least(straight, turned);
      value += each * count;
    }
  });
  // Doubled: each part lies both ways in twice as many sheets, those of a layout and of its mirror image.
  const twice = best.isDoubled ? 2n : 1n;
  const sheets = leastSheets(job.sheets, value, (sheet) => twice * scaledArea(sheet.length, sheet.width));
  return { sheets, argument: 'their sides, scaled so that what fits still fits, take more' };
}

function least(a: bigint, b: bigint): bigint {
  return a < b ? a : b;
}

function waysAnywhere(job: Job, kind: number): number {
  let ways = 0;
  for (let sheet = 0; sheet < job.sheets.length; sheet++) ways |= liesOf(job, kind, sheet);
  return ways;
}

/** More scales than this along one axis cost more time than they gain. */
const mostScales = 160;

function scalesFor(whole: number, sizes: readonly number[]): Scale[] {
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
  if (useful.length <= mostScales) return useful;
  const every = useful.length / mostScales;
  return Array.from({ length: mostScales }, (_, i) => useful[Math.floor(i * every)]!);
}
