import { divide, millimetres, rational, toDrawnMm } from '../../measure/index.ts';
import type { Length, Rational } from '../../model/index.ts';
import { type Mark, moved, type Page } from '../page/index.ts';

/** What bars measure on paper that should measure 100 mm: across the page and up it. */
export interface Bars {
  readonly across: Length;
  readonly up: Length;
}

export const barLength: Length = millimetres(rational(100n));
export const trueBars: Bars = { across: barLength, up: barLength };

/** What lengths on the page are multiplied by; the last step before drawing, so in floats. */
export interface Factors {
  readonly across: number;
  readonly up: number;
}

/** Where a bar comes out at 99.2 mm, all is drawn 100/99.2 as long, and then comes out right. */
export function factorsOf({ across, up }: Bars): Factors {
  return { across: factor(across), up: factor(up) };
}

function factor(bar: Length): number {
  const exact: Rational = divide(barLength, bar);
  return toDrawnMm(millimetres(exact)); // a bare number, to be shown like any
}

/** A page whose lengths are true, as it goes to a printer that is off: stretched from its left top corner. */
export function stretched(page: Page, factors: Factors): Page {
  const { across, up } = factors;
  return {
    ...page,
    widthMm: page.widthMm * across,
    heightMm: page.heightMm * up,
    marks: stretchedMarks(page.marks, factors),
  };
}

export function stretchedMarks(marks: readonly Mark[], { across, up }: Factors): readonly Mark[] {
  return across === 1 && up === 1 ? marks : moved(marks, ({ x, y }) => ({ x: x * across, y: y * up }));
}
