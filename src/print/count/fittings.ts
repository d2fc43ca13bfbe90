import { packsFor, priceFor } from '../../measure/index.ts';
import type { Batch, FittingDemand, Price } from '../../model/index.ts';

/** What is missing of a fitting, in whole packs. */
export interface FittingToBuy {
  readonly fitting: FittingDemand;
  /** So many are missing. */
  readonly missing: number;
  readonly packs: number;
  /** Of the last pack, so many are not needed. */
  readonly leftOver: number;
  /** Of all packs; undefined where the fitting has no price. */
  readonly cost: Price | undefined;
}

/** What has to be bought of fittings, beside what lies in the drawer. */
export function fittingsToBuy({ fittings = [] }: Pick<Batch, 'fittings'>): readonly FittingToBuy[] {
  return fittings.flatMap((fitting): readonly FittingToBuy[] => {
    const { count, atHand, pack } = fitting;
    const missing = Math.max(0, count - (atHand?.count ?? 0));
    if (missing === 0) return [];
    const packs = packsFor(fitting, missing);
    const leftOver = packs * pack - missing;
    return [{ fitting, missing, packs, leftOver, cost: priceFor(fitting, missing) }];
  });
}

/** What takes a fitting, and how many of it in all: a tile by its letters, a loose part by its name. */
export function takersOf(
  { uses, spares }: FittingDemand,
  { tiles }: Pick<Batch, 'tiles'>,
): readonly { readonly name: string; readonly count: number }[] {
  const letters = new Map(tiles.map((tile) => [tile.name, tile.letters]));
  const counts = new Map<string, number>();
  for (const { tile, part, count } of uses) {
    const name = tile === undefined ? (part ?? 'the session') : (letters.get(tile) ?? tile);
    counts.set(name, (counts.get(name) ?? 0) + count);
  }
  if (spares > 0) counts.set('spares', spares);
  return [...counts].map(([name, count]) => ({ name, count }));
}
