import {
  inches,
  rational,
  type ShownLength,
  type ShownPart,
  showLength,
  showRounded,
} from '../../measure/index.ts';
import type { FileUnits, Length, RoundedDiagonal, Settings } from '../../model/index.ts';

/** How lengths are written on the page. The page says their unit once, the figures stand without it. */
export interface Sizes {
  /** In a picture: rounded ones with their word or sign, the error is in the list. */
  readonly brief: (length: Length) => string;
  /** `3 × 1 1⁄2` */
  readonly pair: (length: Length, width: Length) => string;
  /** In words and lists: with the second unit where both are asked for, rounded ones with their error. */
  readonly full: (length: Length) => string;
  /** Thickness and kerf: too small for the marks of most rules, so to 1/64 in. */
  readonly fine: (length: Length) => string;
  readonly diagonal: (diagonal: RoundedDiagonal) => string;
  readonly unit: 'inches' | 'mm';
  /** `inches [mm]`, for the head of a list with `full` sizes. */
  readonly units: string;
}

export function sizesOf({ firstUnit, ruler, units }: Settings): Sizes {
  const unit: FileUnits = units.value === 'both' ? firstUnit : units.value;
  const first = { units: unit, firstUnit: unit, ruler: ruler.value };
  const all = { units: units.value, firstUnit, ruler: ruler.value };
  const brief = (length: Length): string => withoutError(showLength(length, first));
  const name = unit === 'in' ? 'inches' : 'mm';
  return {
    brief,
    pair: (length, width) => `${brief(length)}\u00a0×\u00a0${brief(width)}`,
    full: (length) => set(showLength(length, all).compactParts),
    fine: (length) => withoutError(showLength(length, { ...first, ruler: [...ruler.value, sixtyFourth] })),
    diagonal: ({ length, error }) => set(showRounded(length, error, first).compactParts),
    unit: name,
    units: units.value !== 'both' ? name : unit === 'in' ? 'inches [mm]' : 'mm [inches]',
  };
}

const sixtyFourth: Length = inches(rational(1n, 64n));

function withoutError({ compactParts }: ShownLength): string {
  return set(compactParts.filter(({ kind, text }) => kind !== 'word' || !text.startsWith(' (')));
}

function set(parts: readonly ShownPart[]): string {
  return parts
    .map((part) => (part.kind === 'mixed' ? builtUp(part) : part.text.replace('-', '\u2212')))
    .join('');
}

/** U+2044 makes the font build the fraction up; a thin space keeps the whole number apart from it. */
function builtUp({ text }: ShownPart): string {
  return text.replace('-', '\u2212').replace(' ', '\u2009').replace('/', '\u2044');
}
