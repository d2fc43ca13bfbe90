import type { CutTree } from '../../model/index.ts';
import type { Filling } from './bestFilling.ts';

/** A leftover of a layout, and what it can take. */
export interface Place {
  readonly layout: number;
  /** Its number among the layout's leftovers. */
  readonly leftover: number;
  readonly times: number;
  readonly filling: Filling;
}

/** Sheets of one layout whose leftovers are cut up alike. */
export interface Variant {
  readonly times: number;
  /** By the number of the leftover. */
  readonly fillings: ReadonlyMap<number, CutTree>;
}

/**
 * Says which leftovers take how many, in their order. Where no more are asked for than fit, a few sheets are cut
 * another way than the others of their layout.
 *
 *   5 sheets, 3 fit on each, 13 are asked for   →   2 on each, and 1 more on 3 of them
 *
 * @returns  by layout; those that nothing goes into are left out
 */
export function allotted(places: readonly Place[], asked: number): ReadonlyMap<number, readonly Variant[]> {
  const variants = new Map<number, readonly Variant[]>();
  let left = asked;
  const open: { readonly place: Place; readonly taken: number }[] = [];
  for (const place of places) {
    const { filling, times, layout } = place;
    const wanted = Math.min(filling.count, Math.floor(left / times));
    const cut = filling.cutFor(wanted);
    const taken = cut?.count ?? 0;
    left -= taken * times;
    const fillings = new Map(variants.get(layout)?.[0]?.fillings);
    if (cut !== undefined) fillings.set(place.leftover, cut.tree);
    variants.set(layout, [{ times, fillings }]);
    if (taken < filling.count) open.push({ place, taken });
  }
  for (const { place, taken } of open) {
    const before = variants.get(place.layout) ?? [];
    const { after, more } = moreOnSome(before, place, taken, left);
    variants.set(place.layout, after);
    left -= more;
  }
  return variants;
}

/** What is asked for beyond what all sheets of a layout can have goes onto some of them. */
function moreOnSome(
  before: readonly Variant[],
  { filling, leftover }: Place,
  taken: number,
  asked: number,
): { readonly after: readonly Variant[]; readonly more: number } {
  let more = 0;
  const after = before.flatMap((variant): readonly Variant[] => {
    const gain = filling.count - taken;
    const full = Math.min(variant.times, Math.floor((asked - more) / gain));
    const over = full < variant.times ? (asked - more - full * gain) % gain : 0;
    const parted = [
      { times: full, count: filling.count },
      { times: over > 0 ? 1 : 0, count: taken + over },
    ].flatMap(({ times, count }): readonly Variant[] => {
      const cut = times === 0 ? undefined : filling.cutFor(count);
      if (cut === undefined || cut.count <= taken) return [];
      more += times * (cut.count - taken);
      return [{ times, fillings: new Map([...variant.fillings, [leftover, cut.tree]]) }];
    });
    const rest = parted.reduce((times, it) => times - it.times, variant.times);
    return rest === 0 ? parted : [...parted, { ...variant, times: rest }];
  });
  return { after, more };
}
