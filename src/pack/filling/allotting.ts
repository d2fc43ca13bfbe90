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
 * @returns  by layout; those that nothing goes into are left out. And whether that is all that are asked for
 */
export function* allotted(
  places: readonly Place[],
  asked: number,
): Generator<
  void,
  { readonly variants: ReadonlyMap<number, readonly Variant[]>; readonly isEnough: boolean }
> {
  const variants = new Map<number, readonly Variant[]>();
  let left = asked;
  const open: { readonly place: Place; readonly taken: number }[] = [];
  for (const place of places) {
    const { filling, times, layout } = place;
    const wanted = Math.min(filling.count, Math.floor(left / times));
    const cut = yield* filling.cutFor(wanted);
    const taken = cut?.count ?? 0;
    left -= taken * times;
    const fillings = new Map(variants.get(layout)?.[0]?.fillings);
    if (cut !== undefined) fillings.set(place.leftover, cut.tree);
    variants.set(layout, [{ times, fillings }]);
    if (taken < filling.count) open.push({ place, taken });
  }
  for (const { place, taken } of open) {
    const before = variants.get(place.layout) ?? [];
    const some = yield* moreOnSome(before, place, taken, left);
    variants.set(place.layout, some.after);
    left = some.left;
  }
  return { variants, isEnough: left === 0 };
}

/** What is asked for beyond what all sheets of a layout can have goes onto some of them. */
function* moreOnSome(
  before: readonly Variant[],
  { filling, leftover }: Place,
  taken: number,
  asked: number,
): Generator<void, { readonly after: readonly Variant[]; readonly left: number }> {
  const after: Variant[] = [];
  const gain = filling.count - taken;
  let left = asked;
  for (const variant of before) {
    const full = Math.min(variant.times, Math.floor(left / gain));
    const over = full < variant.times ? (left - full * gain) % gain : 0;
    let rest = variant.times;
    for (const [times, count] of [
      [full, filling.count],
      [over > 0 ? 1 : 0, taken + over],
    ] as const) {
      const cut = times === 0 ? undefined : yield* filling.cutFor(count);
      if (cut === undefined || cut.count <= taken) continue;
      left -= times * (cut.count - taken);
      rest -= times;
      after.push({ times, fillings: new Map([...variant.fillings, [leftover, cut.tree]]) });
    }
    if (rest > 0) after.push({ ...variant, times: rest });
  }
  return { after, left };
}
