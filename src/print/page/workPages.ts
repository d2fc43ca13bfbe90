import { toDrawnMm } from '../../measure/index.ts';
import type { MaterialPlan, SheetPlan } from '../../model/index.ts';
import { blockOf } from './block.ts';
import { cuttingList } from './cuttingList.ts';
import type { Flow } from './flow.ts';
import { line } from './mark.ts';
import { type PageOf, pageBreaks, type Unit, type Way } from './pageBreaks.ts';
import { guttersOf } from './picture.ts';
import type { Sizes } from './sizes.ts';

/**
 * The cutting lists, and each distinct layout once: its picture to scale with its steps, as many on a page
 * as read well. The lists stand together before the pictures, unless each with its own material saves a page.
 */
export function workPages(flow: Flow, sizes: Sizes, plans: readonly MaterialPlan[]): void {
  const ofMaterials = plans.map((plan) => ({
    lists: listsOf(flow, sizes, plan),
    pictures: picturesOf(flow, sizes, plan),
  }));
  const listsFirst = [
    ...ofMaterials.flatMap(({ lists }) => lists),
    ...ofMaterials.flatMap(({ pictures }) => pictures),
  ];
  const byMaterial = ofMaterials.flatMap(({ lists, pictures }) => [...lists, ...pictures]);
  const [first, second] = [listsFirst, byMaterial].map((units) => ({
    units,
    pages: pageBreaks(units, flow.room(), flow.fullMm),
  }));
  if (first === undefined || second === undefined) return;
  const { units, pages } = first.pages.length <= second.pages.length ? first : second;
  drawPages(flow, units, pages);
}

interface DrawnUnit extends Unit {
  readonly bookmark: string | undefined;
  /** Set apart from what stands above it by a line. */
  readonly isApart: boolean;
  readonly ways: readonly (Way & { readonly draw: () => void })[];
}

function drawPages(flow: Flow, units: readonly DrawnUnit[], pages: readonly PageOf[]): void {
  let next = 0;
  for (const [number, page] of pages.entries()) {
    if (number > 0) flow.open('cutting list, continued');
    for (const [index, chosen] of page.entries()) {
      const unit = units[next++];
      const way = unit?.ways[chosen];
      if (unit === undefined || way === undefined) continue;
      if (index > 0) {
        if (unit.isApart) partition(flow, unit.gapMm);
        flow.down(unit.gapMm);
      }
      if (unit.bookmark !== undefined) flow.bookmark(unit.bookmark);
      if (way.scale !== undefined) flow.drawnAt(way.scale);
      way.draw();
    }
  }
}

/** Parts two pictures, so that each keeps its steps. */
function partition(flow: Flow, gapMm: number): void {
  const { left, right } = flow.column;
  const y = flow.y() + gapMm / 2 - 0.5;
  flow.add([line('page rule', { x: left, y }, { x: right, y })]);
}

function listsOf(flow: Flow, sizes: Sizes, plan: MaterialPlan): readonly DrawnUnit[] {
  return cuttingList(flow, sizes, plan).map(
    ({ heightMm, isFirst, atTopMm, draw }): DrawnUnit => ({
      gapMm: isFirst ? 3 : 0,
      atTopMm,
      isApart: false,
      bookmark: isFirst ? `Cutting list: ${plan.demand.material.name}` : undefined,
      ways: [{ scale: undefined, heightMm, loss: 0, draw }],
    }),
  );
}

function picturesOf(flow: Flow, sizes: Sizes, plan: MaterialPlan): readonly DrawnUnit[] {
  return plan.sheets.map(
    (sheet, index): DrawnUnit => ({
      gapMm: 7,
      atTopMm: 0,
      isApart: true,
      bookmark: index === 0 ? plan.demand.material.name : undefined,
      ways: waysOf(flow, sizes, plan, sheet),
    }),
  );
}

const scales = [1, 2, 3, 4, 5, 6, 8, 10, 12, 15, 20, 25, 30, 40, 50, 75, 100, 200, 500, 1000];
/** A picture with so many pieces needs all the room there is. */
const crowded = 120;
/** So much coarser than it could be, no picture is drawn for the sake of the others. */
const coarsest = 2;
const mostMoreLetters = 2;

/** The largest picture that leaves room for its steps, and smaller ones that cost few of the words in it. */
function waysOf(flow: Flow, sizes: Sizes, plan: MaterialPlan, sheet: SheetPlan): DrawnUnit['ways'] {
  const own = ownScale(flow, sizes, sheet);
  const first = blockOf(flow, sizes, plan, sheet, own);
  const ways = [{ ...first, loss: 0 }];
  if (sheet.pieces.length > crowded && first.heightMm <= flow.fullMm) return ways;
  for (const scale of scales) {
    if (scale <= own || scale > own * coarsest) continue;
    const block = blockOf(flow, sizes, plan, sheet, scale);
    const moreLetters = Math.max(0, block.letters - first.letters);
    if (moreLetters > mostMoreLetters) continue;
    ways.push({ ...block, loss: scale / own - 1 + moreLetters * 0.25 });
  }
  return ways;
}

/** The largest scale at which the sheet leaves room for its marks and for steps. */
function ownScale(flow: Flow, sizes: Sizes, plan: SheetPlan): number {
  const { left, right } = guttersOf(flow.face, sizes, plan);
  const width = flow.width - left - right;
  const height = flow.fullMm * 0.42;
  const last = scales[scales.length - 1] ?? 1;
  const fits = (scale: number): boolean =>
    toDrawnMm(plan.sheet.length) / scale <= width && toDrawnMm(plan.sheet.width) / scale <= height;
  return scales.find(fits) ?? last;
}
