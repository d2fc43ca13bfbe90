import { compare, larger, minus, smaller, sum } from '../measure/index.ts';
import type { SharedBlank, SheetKind } from '../model/index.ts';

/** True where some way round a blank lies within what a sheet has when its trim is off. */
export function isHeld(
  { length, width }: Pick<SharedBlank, 'length' | 'width'>,
  { trim, ...sheet }: SheetKind,
): boolean {
  const [long, wide] = [
    minus(sheet.length, sum(trim.left, trim.right)),
    minus(sheet.width, sum(trim.bottom, trim.top)),
  ];
  return (
    compare(larger(length, width), larger(long, wide)) <= 0 &&
    compare(smaller(length, width), smaller(long, wide)) <= 0
  );
}
