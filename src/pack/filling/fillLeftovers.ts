import { compareRationals, multiply } from '../../measure/index.ts';
import type {
  CutTree,
  Fitted,
  Layout,
  MaterialDemand,
  MaterialLayouts,
  Outcome,
  PartKind,
  SearchProgress,
  SheetKind,
} from '../../model/index.ts';
import { usable } from '../pose.ts';
import { saidOf } from '../progress.ts';
import { withProgress } from '../search/search.ts';
import { verifying } from '../verify.ts';
import { checkingFilling } from '../verifyFilling.ts';
import { isWorthKeeping } from '../worthKeeping.ts';
import { allotted, type Place, type Variant } from './allotting.ts';
import { type Attempt, firstFilling, noMoreThan } from './bestFilling.ts';
import { fillerFaults } from './fillerFaults.ts';
import { cutUp, keyOf, type Leftover, leftoversOf } from './leftovers.ts';
import { mostAsked, type Run, shared } from './sharing.ts';
import { mostPieces, Work } from './solving.ts';

/**
 * Fills what the layouts leave over with parts that are made as often as they fit. Layouts are decided before:
 * no sheet is taken for a filler, no part moves for one, and what is worth keeping stays whole.
 *
 *   ┌──────┬──────┬───┐        ┌──────┬──────┬─┬─┐
 *   │ part │ part │   │        │ part │ part ├─┼─┤
 *   ├──────┴──────┤   │   →    ├──────┴──────┼─┼─┤
 *   │    keep 1   │   │        │    keep 1   ├─┼─┤
 *   └─────────────┴───┘        └─────────────┴─┴─┘
 *
 * Fillers come one after the other, in the order in which they are listed: each in what those before it leave.
 * Sheets that are cut alike stay so, but where no more of a filler are asked for than some of them hold.
 *
 * @returns  the layouts with the fillers that fit among their parts; those that were not to be filled stay out
 */
export function* fillLeftovers(plain: MaterialLayouts): Generator<SearchProgress, Outcome<MaterialLayouts>> {
  const { fillers = [], ...demand } = plain.demand;
  if (fillers.length === 0) return { value: plain, diagnostics: [] };
  const { faults, sound } = fillerFaults(plain.demand);
  const say = () => ({ step: plain.steps, sheets: 0, bound: plain.bound.sheets });
  const name = demand.material.name;
  const before: MaterialLayouts = { ...plain, demand };
  const filled = yield* saidOf(name, withProgress(filledWith(sound, before), say));
  const unsound = yield* saidOf(name, withProgress(verifying(filled), say));
  const unlike = yield* saidOf(name, withProgress(checkingFilling(before, filled), say));
  const flaws = [...unsound, ...unlike].map(({ what }) => what);
  if (flaws.length > 0) throw new Error(`filled layouts of "${name}" fail their check: ${flaws.join('; ')}`);
  return { value: filled, diagnostics: faults };
}

function* filledWith(fillers: readonly PartKind[], plain: MaterialLayouts): Generator<void, MaterialLayouts> {
  const work = new Work(plain.steps);
  let { demand, layouts } = plain;
  const fitted: Fitted[] = [];
  for (const [i, filler] of fillers.entries()) {
    const part = demand.parts.length;
    const shareOfWork = work.left / (fillers.length - i);
    const filling = yield* filledWithOne(filler, part, { demand, layouts, work, shareOfWork });
    const runs = runsOf(filling.layouts, part);
    work.pieces = runs.reduce((left, { each }) => Math.max(0, left - each), work.pieces);
    const kind = shared(filler, runs);
    const { most, isCutShort } = filling;
    const isEnough = kind.count === mostAsked(filler);
    const isStopped = isCutShort && kind.count < most;
    fitted.push({ kind, most, isEnough, ...(isStopped ? { stoppedAt: mostPieces } : {}) });
    if (kind.count === 0) continue;
    const [first, ...others] = demand.parts;
    demand = { ...demand, parts: [first, ...others, kind] };
    layouts = filling.layouts;
  }
  return { ...plain, demand, layouts, fitted };
}

interface Scene {
  readonly demand: MaterialDemand;
  readonly layouts: readonly Layout[];
  readonly work: Work;
  /** What this filler may take of it. */
  readonly shareOfWork: number;
}

interface Filled {
  readonly layouts: readonly Layout[];
  readonly most: number;
  /** Some leftover takes fewer than may go into it, since no more pieces are filled in. */
  readonly isCutShort: boolean;
}

/**
 * What is found at once is found first, in as many leftovers as may be of use. Where that is less than is asked for,
 * more is looked for, the least work first, as long as there is some left, and in more of the leftovers.
 */
function* filledWithOne(filler: PartKind, part: number, scene: Scene): Generator<void, Filled> {
  const { demand, layouts, work, shareOfWork } = scene;
  const asked = mostAsked(filler);
  const bare = yield* bareLeftovers(demand, layouts, asked, work);
  const known = new Map<string, Attempt>();
  const leastLeft = work.left - shareOfWork;
  let inUse = 0;
  let isShort = false;
  for (;;) {
    const first = yield* firstFound({ filler, part, asked, demand, work }, bare, inUse, known);
    isShort ||= first.count < asked;
    if (isShort) yield* moreFound(known, work, leastLeft);
    const { places, most, isCutShort } = yield* placesIn(bare.slice(0, first.inUse), known, work.pieces);
    const { variants, isEnough } = yield* allotted(places, asked);
    if (isEnough || (isShort && first.inUse === bare.length)) {
      return { layouts: withFillings(layouts, variants), most: Math.min(most, asked), isCutShort };
    }
    isShort = true;
    inUse = first.inUse;
  }
}

interface Wanted {
  readonly filler: PartKind;
  readonly part: number;
  readonly asked: number;
  readonly demand: MaterialDemand;
  readonly work: Work;
}

/** @returns  how many leftovers are of use: all, or so many that as many as asked for go in; and how many do */
function* firstFound(
  { filler, part, asked, demand, work }: Wanted,
  bare: readonly Bare[],
  from: number,
  known: Map<string, Attempt>,
): Generator<void, { readonly inUse: number; readonly count: number }> {
  const room = work.pieces;
  let count = 0;
  let pieces = 0;
  let inUse = 0;
  for (const { key, it, sheet, times } of bare) {
    // Twice as many as were not enough, each time round.
    if (count >= asked && inUse > 2 * from) break;
    if (!known.has(key)) {
      work.pieces = Math.max(0, room - pieces);
      known.set(key, yield* firstFilling({ kind: filler, part, leftover: it, demand, sheet, work }));
      if (work.isDue(workOfLeftover)) yield;
    }
    const { filling } = known.get(key)!;
    pieces += filling.count;
    count += filling.count * times;
    inUse++;
  }
  work.pieces = room;
  return { inUse, count };
}

/** Of one that has to be looked at, in additions. */
const workOfLeftover = 50_000;

/** The same results whatever the order, but it goes further so. */
function* moreFound(known: Map<string, Attempt>, work: Work, leastLeft: number): Generator<void, void> {
  const open = [...known].flatMap(([key, { search }]) => (search === undefined ? [] : [{ key, ...search }]));
  for (const { key, work: needed, run } of open.sort((a, b) => a.work - b.work)) {
    if (work.left - needed < leastLeft) return;
    work.left -= needed;
    known.set(key, { filling: yield* run(), search: undefined });
    yield;
  }
}

/** Filled one after the other, as long as there is room for more pieces. */
function* placesIn(
  bare: readonly Bare[],
  known: ReadonlyMap<string, Attempt>,
  most: number,
): Generator<
  void,
  { readonly places: readonly Place[]; readonly most: number; readonly isCutShort: boolean }
> {
  const places: Place[] = [];
  let room = most;
  let all = 0;
  let isCutShort = false;
  for (const { layout, leftover, times, key } of bare) {
    const { filling } = known.get(key)!;
    all += filling.most * times;
    const own = filling.count > room ? yield* noMoreThan(room, filling) : filling;
    isCutShort ||= own.count < filling.count || (filling.isCutShort && filling.count < filling.most);
    room -= own.count;
    if (own.count > 0) places.push({ layout, leftover, times, filling: own });
  }
  return { places, most: all, isCutShort };
}

interface Bare {
  readonly layout: number;
  readonly leftover: number;
  readonly times: number;
  readonly it: Leftover;
  readonly sheet: SheetKind;
  /** Equal for those that may be filled alike. */
  readonly key: string;
}

/** Where no more are asked for than fit, the smallest are filled first, so that the largest stay in one piece. */
function* bareLeftovers(
  demand: MaterialDemand,
  layouts: readonly Layout[],
  asked: number,
  work: Work,
): Generator<void, readonly Bare[]> {
  const found: Bare[] = [];
  for (const [layout, { sheet: index, tree, times }] of layouts.entries()) {
    const sheet = sheetOf(demand, index);
    const own = leftoversOf(tree, usable(sheet), demand.rules);
    for (const [leftover, it] of own.entries()) {
      if (work.isDue(workOfListed)) yield;
      if (isWorthKeeping(it, demand.rules)) continue;
      const key = `${sheet.grain} ${sheet.flutes} ${keyOf(it)}`;
      found.push({ layout, leftover, times, it, sheet, key });
    }
  }
  const area = ({ it }: Bare) => multiply(it.length, it.width);
  return Number.isFinite(asked)
    ? found.sort((a, b) => compareRationals(area(a), area(b)) || a.layout - b.layout)
    : found;
}

const workOfListed = 2000;

function sheetOf({ sheets }: MaterialDemand, index: number): SheetKind {
  const sheet = sheets[index];
  if (sheet === undefined) throw new Error(`a layout names sheet ${index}, which the demand lacks`);
  return sheet;
}

/** Layouts cut up in more than one way come apart, each with as many sheets as are cut so. */
function withFillings(
  layouts: readonly Layout[],
  variants: ReadonlyMap<number, readonly Variant[]>,
): readonly Layout[] {
  return layouts.flatMap((layout, i) =>
    (variants.get(i) ?? [{ times: layout.times, fillings: new Map() }]).map(
      ({ times, fillings }): Layout => ({ ...layout, times, tree: cutUp(layout.tree, fillings) }),
    ),
  );
}

/** So many in a row on each of so many sheets, layout by layout. */
function runsOf(layouts: readonly Layout[], part: number): readonly Run[] {
  return layouts.flatMap(({ tree, times }) => {
    const each = timesIn(tree, part);
    return each === 0 ? [] : [{ each, times }];
  });
}

function timesIn(tree: CutTree, part: number): number {
  const inHand = [tree];
  let count = 0;
  for (let it = inHand.pop(); it !== undefined; it = inHand.pop()) {
    if (it.kind === 'part') count += it.part === part ? 1 : 0;
    else if (it.kind !== 'left over') inHand.push(it.near, ...(it.far === undefined ? [] : [it.far]));
  }
  return count;
}
