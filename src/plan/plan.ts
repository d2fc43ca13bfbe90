import type {
  Layout,
  MaterialLayouts,
  MaterialPlan,
  Settings,
  SheetKind,
  SheetPlan,
} from '../model/index.ts';
import { arranged } from './arranged.ts';
import { deal } from './deal.ts';
import { oneByOne } from './oneByOne.ts';
import { orderOfWork, widthsByPicture } from './orderOfWork.ts';
import { partedSheet } from './parting.ts';
import { laidDown } from './pieces.ts';
import { type KeepNames, keepNames, planSheet } from './sheet.ts';
import { squaredSheet } from './squareUp.ts';
import { together } from './together.ts';

/**
 * Turns layouts into a person's work: who gets which label, what is squared, marked, cut and kept.
 *
 *   layouts ─partedSheet→ what each cut gives ─arranged→ few settings do for all ─laidDown→ where it lies
 *           ─deal→ who gets which label ─together→ tiles side by side
 *           ─planSheet→ steps beside each picture ─orderOfWork→ the order over all
 *
 * @param labelsAtHand  labels that no leftover may be given
 */
export function* plan(
  layouts: readonly MaterialLayouts[],
  settings: Settings,
  labelsAtHand: readonly string[] = [],
): Generator<undefined, readonly MaterialPlan[]> {
  const keeps = keepNames(labelsAtHand);
  const step = settings.ruler.value[0];
  const plans: MaterialPlan[] = [];
  for (const material of layouts) plans.push(yield* planMaterial(material, { keeps, step }));
  return plans;
}

interface Beside {
  readonly keeps: KeepNames;
  /** Graduation of the rule that is used first. */
  readonly step: Settings['ruler']['value'][0];
}

function* planMaterial(
  material: MaterialLayouts,
  { keeps, step }: Beside,
): Generator<undefined, MaterialPlan> {
  const { demand } = material;
  const asLaid = yield* oneByOne(material.layouts, (layout) => partedOf(layout, material));
  const { sheets: parted, widths } = yield* arranged(asLaid);
  const cut = yield* oneByOne(material.layouts, (layout, i) => ({
    layout,
    sheet: sheetOf(layout, material),
    ...laidDown(parted[i]!, demand.rules.kerf),
  }));
  const { dealt, left } = yield* deal(
    demand.parts,
    cut.map(({ layout, slots }) => ({ slots, times: layout.times })),
  );
  const gathered = yield* together(
    demand.parts,
    cut.map(({ root, slots }, i) => ({ root, slots, dealt: dealt[i]! })),
  );

  const sheets: SheetPlan[] = [];
  let first = 1;
  for (const [i, { root, sheet }] of cut.entries()) {
    for (const { times, members } of gathered[i]!) {
      sheets.push(planSheet({ demand, sheet, root, members, first, times, step, keeps }));
      first += times;
      yield;
    }
  }
  const byPicture = widthsByPicture(sheets);
  yield;
  return {
    demand,
    sheets,
    unplaced: left,
    bound: material.bound,
    proof: material.proof,
    steps: material.steps,
    ...(material.fitted === undefined ? {} : { fitted: material.fitted }),
    // An order that spares nothing is none: then the pictures' own steps are followed.
    order: yield* orderOfWork(sheets, widths.length < byPicture.length ? widths : byPicture),
    settingsByPicture: byPicture.length,
  };
}

function partedOf(layout: Layout, material: MaterialLayouts) {
  return partedSheet(layout.tree, squaredSheet(sheetOf(layout, material)), material.demand.rules.kerf);
}

function sheetOf(layout: Layout, { demand }: MaterialLayouts): SheetKind {
  const sheet = demand.sheets[layout.sheet];
  if (sheet === undefined) throw new Error(`a layout names sheet ${layout.sheet}, which the demand lacks`);
  return sheet;
}
