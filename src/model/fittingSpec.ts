import type { Placed, Span } from './source.ts';
import type { Expression, Price } from './spec.ts';

/** A thing that is not cut from a sheet, as a file describes it: a magnet, a skewer, a stick of glue. */
export interface FittingSpec {
  readonly at: Span;
  readonly diameter: Expression | undefined;
  readonly depth: Expression | undefined;
  /** It has two poles, so that it matters which way it looks. */
  readonly poles: Placed<boolean> | undefined;
  /** How many are sold together; one where nothing is said. */
  readonly pack: Expression | undefined;
  /** Of a pack. */
  readonly price: Placed<Price> | undefined;
  readonly label: Placed<string> | undefined;
  readonly note: Placed<string> | undefined;
}

/** How many of a fitting lie in the drawer. */
export interface FittingsAtHandSpec {
  readonly at: Span;
  readonly count: Expression | undefined;
  readonly where: Placed<string> | undefined;
  readonly note: Placed<string> | undefined;
}
