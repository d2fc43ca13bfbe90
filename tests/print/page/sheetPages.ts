import type { Diagnostic, Made, Outcome } from '../../../src/model/index.ts';
import { type Page, type SheetWishes, sheetsOf } from '../../../src/print/page/index.ts';
import { allPages } from '../drawn.ts';
import { face } from './face.ts';

/** The sheets of a session, all of them. */
export function sheetPages(
  made: Made,
  said: readonly Diagnostic[] = [],
  wishes: SheetWishes = {},
): Outcome<readonly Page[]> {
  const { value, diagnostics } = sheetsOf(made, said, '0.0.0', face, wishes);
  return { value: value === undefined ? undefined : allPages(value()), diagnostics };
}
