import { blanksFor, ownBlanks } from '../../blank/index.ts';
import { add, isPositive, minus, multiply, rational, subtract, sum, whole } from '../../measure/index.ts';
import type {
  Batch,
  Length,
  MaterialDemand,
  MaterialLayouts,
  Pause,
  Rational,
  SheetKind,
} from '../../model/index.ts';
import { pack } from '../../pack/index.ts';

/** As many as what is at hand allows, and how good that is known to be. */
export interface AsMany {
  readonly count: number;
  /** No way of cutting gives more than this; the same as `count` where that is proved. */
  readonly most: number;
  /** The material that sets the bound. */
  readonly material: string | undefined;
  /** Or the fitting of which there are no more. */
  readonly fitting: string | undefined;
  /** The materials that it is cut from: of these nothing is bought. */
  readonly materials: ReadonlySet<string>;
}

/**
 * Finds as many of something as can be cut from what is at hand: the drawer, offcuts, and sheets of which so
 * many are told. Each count that is tried is laid out; the bound is that of the areas, lowered where the bounds
 * of the packer show that a count would need more sheets than there are.
 *
 * @param batchOf  the batch with so many of it
 */
export function* asManyAsAtHand(batchOf: (count: number) => Batch | undefined): Generator<Pause, AsMany> {
  const [none, one] = [batchOf(0), batchOf(1)];
  const wanting = materialsThatGrow(none, one);
  let most: Bound = boundOfAreas(batchOf, wanting, fittingsThatGrow(none, one));
  const holds = function* (count: number): Generator<Pause, boolean> {
    const batch = batchOf(count);
    if (batch === undefined) return false;
    for (const demand of batch.materials.filter(({ material }) => wanting.has(material.name))) {
      const found = yield* placedAtHand(demand, batch);
      if (found.isProved && count - 1 < most.count)
        most = { count: count - 1, material: demand.material.name };
      if (!found.isPlaced) return false;
    }
    return true;
  };
  let [low, high] = [0, most.count];
  while (low < high) {
    const middle = Math.ceil((low + high) / 2);
    if (yield* holds(middle)) low = middle;
    else high = middle - 1;
  }
  const { material, fitting } = most;
  return { count: low, most: Math.max(low, most.count), material, fitting, materials: wanting };
}

interface Bound {
  readonly count: number;
  readonly material: string | undefined;
  readonly fitting?: string | undefined;
}

/** By name, those that a drawer counts. */
function fittingsThatGrow(none: Batch | undefined, one: Batch | undefined): ReadonlySet<string> {
  const before = new Map((none?.fittings ?? []).map(({ name, count }) => [name, count]));
  return new Set(
    (one?.fittings ?? []).flatMap(({ name, count, atHand }) =>
      atHand !== undefined && count > (before.get(name) ?? 0) ? [name] : [],
    ),
  );
}

function materialsThatGrow(none: Batch | undefined, one: Batch | undefined): ReadonlySet<string> {
  const counts = (batch: Batch | undefined): ReadonlyMap<string, number> =>
    new Map(
      (batch?.materials ?? []).map(({ material, parts }) => [
        material.name,
        parts.reduce((all, { count }) => all + count, 0),
      ]),
    );
  const [before, after] = [counts(none), counts(one)];
  return new Set([...after].flatMap(([name, count]) => (count > (before.get(name) ?? 0) ? [name] : [])));
}

/**
 * So many at most, since their areas, with all that is asked for besides, have to go into the area at hand, and no
 * fitting is bought.
 */
function boundOfAreas(
  batchOf: (count: number) => Batch | undefined,
  wanting: ReadonlySet<string>,
  fittings: ReadonlySet<string>,
): Bound {
  const short = (count: number): Omit<Bound, 'count'> | undefined => {
    const batch = batchOf(count);
    const lacking = batch?.fittings?.find(
      (it) => fittings.has(it.name) && it.count > (it.atHand?.count ?? 0),
    );
    if (lacking !== undefined) return { material: undefined, fitting: lacking.name };
    const demand = batch?.materials.find((it) => wanting.has(it.material.name) && isTooMuch(it));
    return demand && { material: demand.material.name };
  };
  let [fits, over] = [0, 1];
  while (over < mostOfAnything && short(over) === undefined) [fits, over] = [over, over * 2];
  while (over - fits > 1) {
    const middle = (fits + over) >> 1;
    if (short(middle) === undefined) fits = middle;
    else over = middle;
  }
  return { count: fits, ...(short(over) ?? { material: undefined }) };
}

function isTooMuch(demand: MaterialDemand): boolean {
  const there = areaAtHand(demand.sheets);
  return there !== undefined && isPositive(subtract(areaOfParts(demand), there));
}

const mostOfAnything = 100_000;
const nothing: Rational = rational(0n);

/** Of the parts themselves: a share of a blank can be less than what is left on at its sides, never less than these. */
function areaOfParts({ parts }: MaterialDemand): Rational {
  return parts.reduce((all, { length, width, count, members }) => {
    // Two of an outline may lie head to tail in less than their boxes; half of these is never undercut.
    const isShaped = members.some(({ drawn }) => drawn?.outline !== undefined);
    const area = multiply(multiply(length, width), whole(count));
    return add(all, isShaped ? multiply(area, rational(1n, 2n)) : area);
  }, nothing);
}

/** Without trim; undefined where there is no end of it. */
function areaAtHand(sheets: readonly SheetKind[]): Rational | undefined {
  let all = nothing;
  for (const sheet of sheets.filter(isAtHand)) {
    if (sheet.available === 'as needed') return undefined;
    const { length, width } = squared(sheet);
    all = add(all, multiply(multiply(length, width), whole(sheet.available)));
  }
  return all;
}

function squared({ length, width, trim }: SheetKind): { readonly length: Length; readonly width: Length } {
  return {
    length: minus(length, sum(trim.left, trim.right)),
    width: minus(width, sum(trim.bottom, trim.top)),
  };
}

/** What lies in the drawer, offcuts, and sheets of which there are so many. */
function isAtHand({ isOffcut, available }: SheetKind): boolean {
  return isOffcut || available !== 'as needed';
}

/** The same demand with nothing but what is at hand. */
export function withAtHand(demand: MaterialDemand): MaterialDemand {
  return { ...demand, sheets: demand.sheets.map((it) => (isAtHand(it) ? it : { ...it, available: 0 })) };
}

function* placedAtHand(
  demand: MaterialDemand,
  { settings }: Batch,
): Generator<Pause, { readonly isPlaced: boolean; readonly isProved: boolean }> {
  // The search takes whole sheets for dear, so that it does its best on them.
  const there = demand.sheets.filter(isAtHand).map((it) => (it.isUncut ? { ...it, isOffcut: false } : it));
  if (there.length === 0) return { isPlaced: false, isProved: true };
  const { steps } = settings.effort.value;
  const { first, others } = blanksFor({ ...demand, sheets: there }, settings.ruler.value[0]);
  const ways = [() => first, ...others.map(({ form }) => form)];
  for (const form of ways) {
    const way = form();
    const laid = way && (yield* pack(way, steps)).value;
    if (laid?.unplaced.length === 0) return { isPlaced: true, isProved: false };
  }
  return {
    isPlaced: false,
    isProved: others.length === 0 && (yield* needsMore(ownBlanks(demand), there, steps)),
  };
}

/** Whether the packer's own bound asks for more sheets than there are, had they all the size of the largest. */
function* needsMore(
  demand: MaterialDemand,
  there: readonly SheetKind[],
  steps: number,
): Generator<Pause, boolean> {
  const [large] = [...there].sort((a, b) => (isWithin(b, a) ? -1 : 1));
  if (large === undefined || there.some((it) => !isWithin(it, large) || it.available === 'as needed'))
    return false;
  const asBought: SheetKind = { ...large, isOffcut: false, available: 'as needed', price: undefined };
  const laid: MaterialLayouts | undefined = (yield* pack(
    { ...demand, sheets: [asBought] },
    Math.min(steps, 1),
  )).value;
  const count = there.reduce((all, { available }) => all + (available === 'as needed' ? 0 : available), 0);
  return laid !== undefined && laid.unplaced.length === 0 && laid.bound.sheets > count;
}

/** Whatever fits on one fits on the other, the same way round. */
function isWithin(one: SheetKind, other: SheetKind): boolean {
  const [a, b] = [squared(one), squared(other)];
  return (
    !isPositive(minus(a.length, b.length)) &&
    !isPositive(minus(a.width, b.width)) &&
    one.grain === other.grain &&
    one.flutes === other.flutes
  );
}
