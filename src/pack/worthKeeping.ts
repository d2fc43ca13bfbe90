import { compare, larger, smaller } from '../measure/index.ts';
import type { CutRules, Length } from '../model/index.ts';

/** True for what is left over and goes into the drawer: it is at least as long and as wide as the rules ask, either way round. */
export function isWorthKeeping(
  { length, width }: { readonly length: Length; readonly width: Length },
  { worthKeeping }: CutRules,
): boolean {
  return (
    worthKeeping !== undefined &&
    compare(larger(length, width), worthKeeping.long) >= 0 &&
    compare(smaller(length, width), worthKeeping.short) >= 0
  );
}
