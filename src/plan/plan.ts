import type { Layout, MaterialLayouts, MaterialPlan, Settings, SheetPlan } from '../model/index.ts';
import { deal } from './deal.ts';
import { toPieces } from './pieces.ts';
import { settingsOf } from './settings.ts';
import { type KeepNames, keepNames, planSheet } from './sheet.ts';
import { squaredSheet } from './squareUp.ts';

/**
 * Turns layouts into a person's work: who gets which label, what is squared, marked, cut and kept.
 *
 *   layouts ─deal→ sheets with labels ─toPieces→ what each cut gives ─steps→ the order of the hands
 */
export function plan(layouts: readonly MaterialLayouts[], settings: Settings): readonly MaterialPlan[] {
  const keeps = keepNames();
  const step = settings.ruler.value[0];
  return layouts.map((material) => planMaterial(material, { keeps, step }));
}

interface Beside {
  readonly keeps: KeepNames;
  /** Graduation of the rule that is used first. */
  readonly step: Settings['ruler']['value'][0];
}

function planMaterial(material: MaterialLayouts, { keeps, step }: Beside): MaterialPlan {
  const { demand } = material;
  const cut = material.layouts.map((layout) => ({ layout, ...piecesOf(layout, material) }));
  const { dealt, left } = deal(
    demand.parts,
    cut.map(({ layout, slots }) => ({ slots, times: layout.times })),
  );

  const sheets: SheetPlan[] = [];
  let first = 1;
  for (const [i, { root, sheet }] of cut.entries()) {
    for (const { times, members } of dealt[i]!) {
      sheets.push(planSheet({ demand, sheet, root, members, first, times, step, keeps }));
      first += times;
    }
  }
  return {
    demand,
    sheets,
    unplaced: left,
    bound: material.bound,
    proof: material.proof,
    steps: material.steps,
    settings: settingsOf(sheets),
  };
}

function piecesOf(layout: Layout, { demand }: MaterialLayouts) {
  const sheet = demand.sheets[layout.sheet];
  if (sheet === undefined) throw new Error(`a layout names sheet ${layout.sheet}, which the demand lacks`);
  return { sheet, ...toPieces(layout.tree, squaredSheet(sheet), demand.rules.kerf) };
}
