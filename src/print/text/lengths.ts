import {
  rulesFor,
  type ShownLength,
  showExact,
  showLength,
  showMark,
  showRounded,
  showThickness,
  toFraction,
} from '../../measure/index.ts';
import type { FileUnits, Length, Settings } from '../../model/index.ts';
import { type Look, signsOf } from '../columns/index.ts';

/** How lengths stand in the text: without a unit, which the head of the page tells once. */
export interface Showing {
  readonly unit: FileUnits;
  /** Graduation of the rule that sizes are read on first. */
  readonly step: Length;
  /** What is marked, set or checked with a rule: with its signed error where no rule has the mark. */
  readonly brief: (length: Length) => string;
  /** Without the error, for the margin of a picture; the steps below it tell. */
  readonly short: (length: Length) => string;
  /** A size to know: `3 × 1 1/2`, `58.37 × 20.13` */
  readonly pair: (length: Length, width: Length) => string;
  /** A size to check with a rule: `58.5 scant (-0.13) × 20 full (+0.13)` */
  readonly markedPair: (length: Length, width: Length) => string;
  /** Of a material or a cut: exact, with its unit, and the other in square brackets where both are asked for. */
  readonly thickness: (length: Length) => string;
  /** With the unit, and the other unit in square brackets where both are asked for. */
  readonly full: (length: Length) => string;
  /** The other unit alone, where both are asked for. */
  readonly otherPair: ((length: Length, width: Length) => string) | undefined;
  readonly otherUnit: FileUnits;
  /** What marks are read on, the rule used first comes first: `1/16 in`, `1/32 in`. */
  readonly rules: readonly string[];
  /** For a length known only as rounded; `error` is the true one less it. */
  readonly rounded: (length: Length, error: Length) => string;
}

export function showingOf(
  { units, firstUnit, ruler }: Pick<Settings, 'units' | 'firstUnit' | 'ruler'>,
  look: Look,
): Showing {
  const unit = units.value === 'both' ? firstUnit : units.value;
  const otherUnit = unit === 'in' ? 'mm' : 'in';
  const style = { units: unit, firstUnit: unit, ruler: ruler.value } as const;
  const other = { ...style, units: otherUnit } as const;
  const { times } = signsOf(look);
  const pairIn = (of: typeof style | typeof other) => {
    const shown = remembered((length) => whole(showLength(length, of).compact));
    return (length: Length, width: Length) => `${shown(length)}\u00a0${times}\u00a0${shown(width)}`;
  };
  return {
    unit,
    step: rulesFor(unit, ruler.value)[0],
    otherUnit,
    brief: (length) => whole(showMark(length, style).compact),
    short: (length) => withoutError(showMark(length, style)),
    pair: pairIn(style),
    markedPair: (length, width) =>
      `${whole(showMark(length, style).compact)}\u00a0${times}\u00a0${whole(showMark(width, style).compact)}`,
    rules: rulesFor(unit, ruler.value).map((step) => whole(showExact(step, unit))),
    otherPair: units.value === 'both' ? pairIn(other) : undefined,
    full: (length) => whole(showLength(length, { ...style, units: units.value, firstUnit }).text),
    thickness: (length) => {
      const [first, second] = [showThickness(length, unit), showThickness(length, otherUnit)];
      return whole(units.value === 'both' && first !== second ? `${first} [${second}]` : first);
    },
    rounded: (length, error) => whole(showRounded(length, error, style).compact),
  };
}

/** The same few sizes come up again and again, in every list of a large batch. */
function remembered(show: (length: Length) => string): (length: Length) => string {
  const known = new Map<string, string>();
  return (length) => {
    const key = toFraction(length);
    const before = known.get(key);
    if (before !== undefined) return before;
    const shown = show(length);
    known.set(key, shown);
    return shown;
  };
}

/** A number and its unit are never parted at the end of a line. */
function whole(shown: string): string {
  return shown.replaceAll(' ', '\u00a0');
}

function withoutError({ compactParts }: ShownLength): string {
  return compactParts
    .filter(({ kind, text }) => kind !== 'word' || !text.startsWith(' ('))
    .map(({ text }) => text)
    .join('');
}
