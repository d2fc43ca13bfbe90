import { standsAsCut } from '../fit/index.ts';
import { compare, isPositive, minus, sum, times, zero } from '../measure/index.ts';
import type { Batch, Build, Fault, Length } from '../model/index.ts';

type Unclosed = Extract<Fault, { kind: 'does not close' }>;

/** Pieces of a material at hand that fill what a stack of thicknesses is short of. */
export interface Shims {
  readonly kind: 'shims';
  readonly pieces: readonly {
    readonly material: string;
    readonly count: number;
    readonly thickness: Length;
  }[];
}

/** A layer that, cut from another material, makes the stack right. */
export interface OtherLayer {
  readonly kind: 'other layer';
  readonly part: string;
  readonly material: string;
  readonly thickness: Length;
}

/** More pieces than this make no shim. */
const mostPieces = 4;

/**
 * What mends a sum that only thicknesses make: shims, fewest pieces first and then nearest to full, or the
 * layers that could be cut from another material at hand.
 */
export function shimsFor(fault: Unclosed, build: Build, batch: Batch): readonly (Shims | OtherLayer)[] {
  const missing = minus(fault.room, fault.extent);
  const materials = [
    ...new Map(
      [...batch.materials.map(({ material }) => material), ...(batch.atHand ?? [])].map((material) => [
        material.name,
        material.thickness,
      ]),
    ),
  ].map(([name, thickness]) => ({ name, thickness }));
  const found = isPositive(missing) ? bestShims(missing, fault.slack, materials) : undefined;
  return [...(found === undefined ? [] : [found]), ...otherLayers(fault, build, missing, materials)];
}

type AtHand = readonly { readonly name: string; readonly thickness: Length }[];

function bestShims(missing: Length, slack: Length, materials: AtHand): Shims | undefined {
  let best:
    | { readonly counts: readonly number[]; readonly pieces: number; readonly total: Length }
    | undefined;
  const fill = (from: number, counts: readonly number[], pieces: number, total: Length): void => {
    if (compare(total, missing) > 0) return;
    const fits = pieces > 0 && compare(sum(total, slack), missing) >= 0;
    const isBetter =
      best === undefined ||
      pieces < best.pieces ||
      (pieces === best.pieces && compare(total, best.total) > 0);
    if (fits && isBetter) best = { counts, pieces, total };
    if (pieces === mostPieces) return;
    for (let index = from; index < materials.length; index++) {
      const thickness = materials[index]?.thickness ?? zero;
      const more = counts.map((count, at) => (at === index ? count + 1 : count));
      fill(index, more, pieces + 1, sum(total, thickness));
    }
  };
  fill(
    0,
    materials.map(() => 0),
    0,
    zero,
  );
  if (best === undefined) return undefined;
  const { counts } = best as { readonly counts: readonly number[] };
  return {
    kind: 'shims',
    pieces: materials.flatMap(({ name, thickness }, index) => {
      const count = counts[index] ?? 0;
      return count === 0 ? [] : [{ material: name, count, thickness }];
    }),
  };
}

function otherLayers(
  fault: Unclosed,
  build: Build,
  missing: Length,
  materials: AtHand,
): readonly OtherLayer[] {
  const layers = new Map<string, { readonly thickness: Length; count: number }>();
  for (const { name, count } of fault.sum) {
    const piece = build.parts.find(
      (it) => it.part === name && it.stance.thickness === fault.way && standsAsCut(it),
    );
    if (piece === undefined) continue;
    const known = layers.get(name);
    if (known === undefined) layers.set(name, { thickness: piece.size.thickness, count });
    else known.count += count;
  }
  return [...layers].flatMap(([part, { thickness, count }]) =>
    materials.flatMap(({ name, thickness: other }): readonly OtherLayer[] => {
      const change = times(minus(other, thickness), count);
      const isRight = compare(change, missing) <= 0 && compare(sum(change, fault.slack), missing) >= 0;
      return isRight ? [{ kind: 'other layer', part, material: name, thickness: other }] : [];
    }),
  );
}
