import { equal } from '../../measure/index.ts';
import type { Layout, MaterialLayouts, SheetKind } from '../../model/index.ts';
import { spelled } from '../emit.ts';
import { moneyOf } from '../prices.ts';

/**
 * The same layouts, with sheets that are alike bought in the packs that cost least together: seven sheets may be a
 * pack of five and two alone, or two packs.
 */
export function rebought({
  demand,
  layouts,
}: Pick<MaterialLayouts, 'demand' | 'layouts'>): readonly Layout[] {
  const { sheets } = demand;
  const units = moneyOf(sheets)?.units;
  if (units === undefined) return layouts;
  let now: readonly Layout[] = layouts;
  for (const [kind, sheet] of sheets.entries()) {
    const alike = sheets.flatMap((it, i) => (!it.isOffcut && isAlike(it, sheet) ? [i] : []));
    if (alike[0] !== kind || alike.length < 2) continue;
    const wanted = now.reduce((sum, it) => sum + (alike.includes(it.sheet) ? it.times : 0), 0);
    const offers = alike.map((i) => offerOf(sheets[i]!, units));
    const packs = cheapestPacks(offers, wanted);
    if (packs !== undefined)
      now = dealt(
        now,
        alike,
        offers.map(({ pack }, i) => pack * packs[i]!),
      );
  }
  return now;
}

/** True where no layout can tell them apart. */
function isAlike(a: SheetKind, b: SheetKind): boolean {
  const sides = ['left', 'right', 'bottom', 'top'] as const;
  return (
    equal(a.length, b.length) &&
    equal(a.width, b.width) &&
    sides.every((side) => equal(a.trim[side], b.trim[side])) &&
    a.grain === b.grain &&
    a.flutes === b.flutes &&
    a.trueEdges === b.trueEdges
  );
}

interface Offer {
  readonly pack: number;
  /** Of one pack, in whole units. */
  readonly cost: number;
  readonly available: number;
}

function offerOf({ price, pack = 1, available }: SheetKind, units: bigint): Offer {
  const cost = price === undefined ? 0 : Number((price.amount.numerator * units) / price.amount.denominator);
  return {
    pack,
    cost,
    available: available === 'as needed' ? Number.POSITIVE_INFINITY : Math.floor(available / pack),
  };
}

/**
 * How many packs of each offer hold `wanted` sheets and cost least; undefined where there are too few, or too many
 * to reckon with. Offer by offer: what `m` sheets cost if the offers so far are all there is.
 *
 *   least[i][m] = the least, over n packs of offer i, of  n × cost + least[i − 1][m − n × pack]
 */
function cheapestPacks(offers: readonly Offer[], wanted: number): readonly number[] | undefined {
  if (wanted === 0 || wanted > mostReckoned) return undefined;
  let least: readonly number[] = Array.from({ length: wanted + 1 }, (_, m) =>
    m === 0 ? 0 : Number.POSITIVE_INFINITY,
  );
  const chosen = offers.map(({ pack, cost, available }): Int32Array => {
    const packs = new Int32Array(wanted + 1);
    least = least.map((before, m) => {
      let best = before;
      const most = Math.min(available, Math.ceil(m / pack));
      for (let n = 1; n <= most; n++) {
        const spent = n * cost + least[Math.max(0, m - n * pack)]!;
        if (spent < best) [best, packs[m]] = [spent, n];
      }
      return best;
    });
    return packs;
  });
  if (!Number.isFinite(least[wanted])) return undefined;
  const packs = offers.map(() => 0);
  let rest = wanted;
  for (let i = offers.length - 1; i >= 0; i--) {
    packs[i] = chosen[i]![rest]!;
    rest = Math.max(0, rest - packs[i]! * offers[i]!.pack);
  }
  return packs;
}

/** Deals the sheets of alike kinds out anew, `room` of each kind, in the order of the layouts. */
function dealt(
  layouts: readonly Layout[],
  alike: readonly number[],
  room: readonly number[],
): readonly Layout[] {
  const left = [...room];
  // The last packs of the largest kind stay open, if any do.
  const order = alike.map((_, i) => i).sort((a, b) => room[a]! - room[b]! || a - b);
  const all = layouts.flatMap((layout): readonly Layout[] => {
    if (!alike.includes(layout.sheet)) return [layout];
    let times = layout.times;
    return order.flatMap((i) => {
      const taken = Math.min(times, left[i]!);
      times -= taken;
      left[i]! -= taken;
      return taken === 0 ? [] : [{ ...layout, sheet: alike[i]!, times: taken }];
    });
  });
  const merged = new Map<string, Layout>();
  for (const layout of all) {
    const key = `${layout.sheet} ${spelled(layout.tree)}`;
    merged.set(key, { ...layout, times: layout.times + (merged.get(key)?.times ?? 0) });
  }
  return [...merged.values()];
}

/** Sheets of one kind; beyond that the packs stay as the search chose them. */
const mostReckoned = 2000;
