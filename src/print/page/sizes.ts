import {
  compare,
  finestInch,
  inches,
  isMultiple,
  millimetres,
  rational,
  rulesFor,
  type ShownLength,
  type ShownPart,
  showLength,
  showMark,
  showRounded,
  toDrawnMm,
  whole,
} from '../../measure/index.ts';
import type { FileUnits, Length, NonEmpty, RoundedDiagonal, Settings } from '../../model/index.ts';

/** How lengths are written on the page. The page says their unit once, the figures stand without it. */
export interface Sizes {
  /** A mark in a picture: rounded ones with their word, the error stands in the step. */
  readonly brief: (length: Length) => string;
  /** A mark in words: rounded ones with their signed error. */
  readonly mark: (length: Length) => string;
  /** `3 × 1 1⁄2` */
  readonly pair: (length: Length, width: Length) => string;
  /** In words and lists: with the second unit where both are asked for, rounded ones with their error. */
  readonly full: (length: Length) => string;
  /** Thickness and kerf: too small for the marks of most rules, so to 1/64 in. */
  readonly fine: (length: Length) => string;
  readonly diagonal: (diagonal: RoundedDiagonal) => string;
  readonly unit: 'inches' | 'mm';
  /** Graduation of the rule that sizes are read on first. */
  readonly step: Length;
  /** The reader's rules, one for each unit, the one used first comes first. */
  readonly rules: NonEmpty<Rule>;
  /** `inches [mm]`, for the head of a list with `full` sizes. */
  readonly units: string;
}

/** A rule that the reader lays on the sheet. */
export interface Rule {
  readonly unit: 'in' | 'mm';
  readonly unitMm: number;
  /** Steps that its ticks may be apart, ascending, each in the next a whole number of times. */
  readonly graduationsMm: readonly number[];
}

export function sizesOf({ firstUnit, ruler, units }: Settings): Sizes {
  const unit: FileUnits = units.value === 'both' ? firstUnit : units.value;
  const first = { units: unit, firstUnit: unit, ruler: ruler.value };
  const all = { units: units.value, firstUnit, ruler: ruler.value };
  const brief = remembered((length) => withoutError(showMark(length, first)));
  const size = remembered((length) => withoutError(showLength(length, first)));
  const name = unit === 'in' ? 'inches' : 'mm';
  return {
    brief,
    mark: remembered((length) => set(showMark(length, first).compactParts).replaceAll(' ', '\u00a0')),
    pair: (length, width) => `${size(length)}\u00a0×\u00a0${size(width)}`,
    full: remembered((length) => set(showLength(length, all).compactParts)),
    fine: remembered((length) =>
      withoutError(showLength(length, { ...first, ruler: [...ruler.value, finestInch] })),
    ),
    diagonal: ({ length, error }) => set(showRounded(length, error, first).compactParts),
    unit: name,
    step: rulesFor(unit, ruler.value)[0],
    rules: rulesOf(ruler.value),
    units: units.value !== 'both' ? name : unit === 'in' ? 'inches [mm]' : 'mm [inches]',
  };
}

/** An evening has few lengths, and each is written at many places. */
function remembered(show: (length: Length) => string): (length: Length) => string {
  const known = new Map<string, string>();
  return (length) => {
    const name = `${length.numerator}/${length.denominator}`;
    const before = known.get(name);
    if (before !== undefined) return before;
    const shown = show(length);
    known.set(name, shown);
    return shown;
  };
}

function rulesOf(graduations: NonEmpty<Length>): NonEmpty<Rule> {
  const [first, ...others] = graduations;
  const unit = unitOf(first);
  const second = others.find((it) => unitOf(it) !== unit);
  const ofUnit = graduations.filter((it) => unitOf(it) === unit);
  const ofOther = graduations.filter((it) => unitOf(it) !== unit);
  const rule = ruleOf(unit, ofUnit);
  return second === undefined ? [rule] : [rule, ruleOf(unitOf(second), ofOther)];
}

function unitOf(graduation: Length): 'in' | 'mm' {
  return isMultiple(millimetres(whole(1)), graduation) ? 'mm' : 'in';
}

const steps = {
  in: [
    ...[64, 32, 16, 8, 4, 2].map((parts) => [1, parts] as const),
    ...[1, 2, 6, 12, 36].map((it) => [it, 1] as const),
  ],
  mm: [[1, 2] as const, ...[1, 5, 10, 50, 100, 500, 1000].map((it) => [it, 1] as const)],
};

/** The finest graduation of a rule, and the round steps that are multiples of it. */
function ruleOf(unit: 'in' | 'mm', graduations: readonly Length[]): Rule {
  const toLength = unit === 'in' ? inches : millimetres;
  const round = steps[unit].map(([count, parts]) => toLength(rational(BigInt(count), BigInt(parts))));
  const finest = graduations.reduce((a, b) => (compare(a, b) < 0 ? a : b));
  const coarser = round.filter((it) => compare(it, finest) > 0 && isMultiple(it, finest));
  return {
    unit,
    unitMm: unit === 'in' ? 25.4 : 10,
    graduationsMm: [finest, ...coarser].map(toDrawnMm),
  };
}

function withoutError({ compactParts }: ShownLength): string {
  return set(compactParts.filter(({ kind, text }) => kind !== 'word' || !text.startsWith(' (')));
}

function set(parts: readonly ShownPart[]): string {
  return parts
    .map(({ kind, text }) => (kind === 'mixed' ? builtUp(text) : withFractions(text).replace('-', '\u2212')))
    .join('');
}

/** Fractions in running text, as errors and messages have them; no dates. */
const fraction = /(?<![\d/])(?:\d+ )?\d+\/\d+(?![\d/])/gu;

export function withFractions(text: string): string {
  return text.replace(fraction, builtUp);
}

/** U+2044 makes the font build the fraction up; a thin space keeps the whole number apart from it. */
function builtUp(text: string): string {
  return text.replace('-', '\u2212').replace(' ', '\u2009').replace('/', '\u2044');
}
