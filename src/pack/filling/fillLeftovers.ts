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
import { fillingFlaws } from '../verifyFilling.ts';
import { isWorthKeeping } from '../worthKeeping.ts';
import { allotted, type Place, type Variant } from './allotting.ts';
import { bestFilling, type Filling, noMoreThan } from './bestFilling.ts';
import { fillerFaults } from './fillerFaults.ts';
import { cutUp, keyOf, type Leftover, leftoversOf } from './leftovers.ts';
import { mostAsked, type Run, shared } from './sharing.ts';
import { mostPieces, type Work, workFor } from './solving.ts';

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
  const flaws = [...unsound, ...fillingFlaws(before, filled)].map(({ what }) => what);
  if (flaws.length > 0) throw new Error(`filled layouts of "${name}" fail their check: ${flaws.join('; ')}`);
  return { value: filled, diagnostics: faults };
}

function* filledWith(fillers: readonly PartKind[], plain: MaterialLayouts): Generator<void, MaterialLayouts> {
  const work = workFor();
  let { demand, layouts } = plain;
  const fitted: Fitted[] = [];
  for (const filler of fillers) {
    const part = demand.parts.length;
    const filling = yield* filledWithOne(filler, part, { demand, layouts, work });
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

interface Filled {
  readonly layouts: readonly Layout[];
  readonly most: number;
  /** Some leftover takes fewer than may go into it, since no more pieces are filled in. */
  readonly isCutShort: boolean;
}

function* filledWithOne(
  filler: PartKind,
  part: number,
  scene: { readonly demand: MaterialDemand; readonly layouts: readonly Layout[]; readonly work: Work },
): Generator<void, Filled> {
  const { demand, layouts, work } = scene;
  const known = new Map<string, Filling>();
  const places: Place[] = [];
  const asked = mostAsked(filler);
  const before = work.pieces;
  let room = before;
  let all = 0;
  let isCutShort = false;
  for (const { layout, leftover, times, it, sheet } of bareLeftovers(demand, layouts, asked)) {
    const key = `${sheet.grain} ${sheet.flutes} ${keyOf(it)}`;
    const filling = known.get(key) ?? (yield* bestFilling(filler, part, it, { demand, sheet, work }));
    known.set(key, filling);
    all += filling.most * times;
    const own = filling.count > room ? noMoreThan(room, filling) : filling;
    isCutShort ||= own.count < filling.count || (filling.isCutShort && filling.count < filling.most);
    room -= own.count;
    work.pieces = room;
    if (own.most > 0) places.push({ layout, leftover, times, filling: own });
    yield;
  }
  // What was set aside for a place may not be asked for: what is taken is counted by the caller.
  work.pieces = before;
  return { layouts: withFillings(layouts, allotted(places, asked)), most: Math.min(all, asked), isCutShort };
}

interface Bare {
  readonly layout: number;
  readonly leftover: number;
  readonly times: number;
  readonly it: Leftover;
  readonly sheet: SheetKind;
}

/** Where no more are asked for than fit, the smallest are filled first, so that the largest stay in one piece. */
function bareLeftovers(demand: MaterialDemand, layouts: readonly Layout[], asked: number): readonly Bare[] {
  const found = layouts.flatMap(({ sheet: index, tree, times }, layout) => {
    const sheet = sheetOf(demand, index);
    return leftoversOf(tree, usable(sheet), demand.rules).flatMap((it, leftover): readonly Bare[] =>
      isWorthKeeping(it, demand.rules) ? [] : [{ layout, leftover, times, it, sheet }],
    );
  });
  const area = ({ it }: Bare) => multiply(it.length, it.width);
  return Number.isFinite(asked)
    ? found.sort((a, b) => compareRationals(area(a), area(b)) || a.layout - b.layout)
    : found;
}

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
