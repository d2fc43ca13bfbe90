import type { Diagnostic, FileUnits, Length, Place, Rational } from '../model/index.ts';
import { hyphen, mostCharacters, parse, slash, toLength } from './notation.ts';
import { negate } from './rational.ts';
import { refuse } from './refusing.ts';
import { footMarks, inchMarks, unitOf } from './units.ts';

/**
 * What a text says as a measure. `start` and `end` of a refusal are UTF-16 offsets of the faulty characters
 * within the text.
 */
export type Reading =
  /** A unit was written. */
  | { readonly kind: 'length'; readonly length: Length }
  /** No unit: the file that holds the text decides. */
  | { readonly kind: 'bare'; readonly number: Rational }
  | {
      readonly kind: 'refused';
      readonly start: number;
      readonly end: number;
      readonly toDiagnostic: (place: Place) => Diagnostic;
    };

/**
 * Reads one measure, exactly. Spaces around it do not count. A measure below zero is read; where it is
 * allowed is the caller's to say.
 *
 * @errors M01 to M26, one for each text
 */
export function readMeasure(text: string): Reading {
  const measure = parse(text);
  if (measure === undefined) return { kind: 'refused', ...refuse(text) };
  if (measure.unit !== undefined) return { kind: 'length', length: toLength(measure) };
  return { kind: 'bare', number: measure.negative ? negate(measure.amount) : measure.amount };
}

/** The family of the unit that is written in a measure; undefined for one without, and for what is none. */
export function unitWrittenIn(text: string): FileUnits | undefined {
  return parse(text)?.unit?.family;
}

/**
 * The length of the longest piece of `text` from `from` on that is written as one measure, so that it can be
 * taken out of a sum in one go; 0 if there is none. A piece that `readMeasure` will refuse (`1 7/4`, `2,5`,
 * `2-3`) is taken whole, so that the refusal can say why. A sign in front is the sum's, not the measure's.
 *
 *   2 - 3/8 → 1      2-3/8 → 5      2 3/8 in - 1 → 8      2 x 3/4 in → 1      4 down to 1/8 → 1
 */
export function measurePrefix(text: string, from: number): number {
  const rest = text.slice(from, from + 2 * mostCharacters);
  let end = match(numberStart, rest, 0) === undefined ? 0 : (match(clump, rest, 0) ?? 0);
  while (end > 0) {
    const next = match(gap, rest, end) ?? end;
    const further =
      match(numberStart, rest, next) !== undefined ? match(clump, rest, next) : unitEnd(rest, next);
    if (further === undefined) break;
    end = further;
  }
  return end;
}

const numeric = '[\\p{N}]';
const gap = /\s*/uy;
// A digit of any script or a fraction sign, or a point with one behind it.
const numberStart = new RegExp(`\\.?${numeric}`, 'uy');
// Digits, marks and letters that touch each other; points, commas, slashes, hyphens and dashes between them.
const clump = new RegExp(
  `(?:${numeric}|[.,_^]${numeric}|\\.(?=\\p{L})|(?<=\\p{L})\\.|(?<=\\d)\\.(?![.\\p{N}])` +
    `|(?:${slash}|${hyphen}|[\\u2013\\u2014\\u2212])(?=\\.?${numeric})` +
    `|[${footMarks}${inchMarks}]|\\p{L})+`,
  'uy',
);
const word = /(?<word>\p{L}+)\.?(?:[\u00b2\u00b3]|\^[23])?/uy;
const marks = new RegExp(`[${footMarks}${inchMarks}]+`, 'uy');

/** Where a unit that stands at `at` ends; units that are refused with a reason of their own count too. */
function unitEnd(text: string, at: number): number | undefined {
  const marked = match(marks, text, at);
  if (marked !== undefined) return marked;
  word.lastIndex = at;
  const found = word.exec(text);
  const written = found?.groups?.word;
  if (written === undefined || !(unitOf(written) !== undefined || refusedUnits.test(written)))
    return undefined;
  return word.lastIndex;
}

const refusedUnits = /^(?:mils?|sq|cu|yds?|yards?|dm|km|nm|pt|pts|picas?)$/iu;

/** Where a sticky pattern that matches at `at` ends. */
function match(pattern: RegExp, text: string, at: number): number | undefined {
  pattern.lastIndex = at;
  return pattern.test(text) ? pattern.lastIndex : undefined;
}
