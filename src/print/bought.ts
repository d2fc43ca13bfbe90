import { toFraction } from '../measure/index.ts';
import type { SheetKind, SheetPlan } from '../model/index.ts';

/** Sheets that are bought, those that are alike and sold alike together; in the order in which they are cut. */
export function boughtKinds(
  sheets: readonly SheetPlan[],
): readonly { readonly sheet: SheetKind; readonly count: number }[] {
  const kinds = new Map<string, { readonly sheet: SheetKind; count: number }>();
  for (const { sheet, times } of sheets) {
    if (sheet.isOffcut) continue;
    const { length, width, grain, flutes, price, pack, block } = sheet;
    const sold = price === undefined ? '' : `${toFraction(price.amount)} ${price.currency}`;
    const thick = block === undefined ? '' : toFraction(block.thick);
    const key = [toFraction(length), toFraction(width), grain, flutes, sold, pack, thick].join(' ');
    const known = kinds.get(key);
    if (known === undefined) kinds.set(key, { sheet, count: times });
    else known.count += times;
  }
  return [...kinds.values()];
}
