import type { measureCodes } from '../model/catalogue/measure.ts';
import { type Diagnostic, diagnose, type Place } from '../model/index.ts';
import { nearest } from '../model/nearest.ts';
import { mixedText } from './mixedNumber.ts';
import * as notation from './notation.ts';
import { add, divide, multiply, rational, whole } from './rational.ts';
import { footMarks, inchMarks, shortUnitNames, unitNames, unitOf } from './units.ts';

/**
 * Why a text is no measure. The rules below are tried in turn, the telling ones first; the last one takes
 * whatever is left, so that there always is an answer.
 */
export interface Refusal {
  readonly start: number;
  readonly end: number;
  readonly toDiagnostic: (place: Place) => Diagnostic;
}

/** @param text one that `notation.parse` gave up on */
export function refuse(text: string): Refusal {
  for (const rule of rules) {
    const fault = rule(text);
    if (fault !== undefined) return toRefusal(text, fault);
  }
  return toRefusal(text, strayCharacters(text));
}

type FaultCode = Exclude<keyof typeof measureCodes, 'M27'>;

interface Fault {
  readonly code: FaultCode;
  readonly start: number;
  readonly end: number;
  /** What the message calls it; the faulty characters where absent. */
  readonly found?: string;
  /** Guesses at what was meant, likeliest first; those that would not be read are dropped. */
  readonly instead?: readonly string[];
  /** The sum it may have been meant to be, without its brackets. */
  readonly sum?: string;
}

type Rule = (text: string) => Fault | undefined;

function toRefusal(text: string, fault: Fault): Refusal {
  const found = fault.found ?? shown(text.slice(fault.start, fault.end));
  const instead = (fault.instead ?? []).map(shown).filter((it) => notation.parse(it) !== undefined);
  const sum = fault.sum === undefined ? undefined : `(${shown(fault.sum)})`;
  return {
    start: fault.start,
    end: fault.end,
    toDiagnostic: (place) => diagnose(fault.code, place, { found, instead: [...new Set(instead)], sum }),
  };
}

/** Spaces of any kind as one, characters that can't be seen by their number. */
function shown(text: string): string {
  return text
    .replace(/\s+/gu, (it) => (it.includes('\ufeff') ? 'U+FEFF' : ' '))
    .replace(
      /[\p{C}\p{M}]/gu,
      (it) => `U+${(it.codePointAt(0) ?? 0).toString(16).toUpperCase().padStart(4, '0')}`,
    )
    .trim();
}

const {
  space: S,
  hyphen: H,
  slash: L,
  fraction: F,
  vulgar: V,
  oneOver,
  mark: MARK,
  unitWord: WORD,
} = notation;
const N = `(?:${notation.amount})`;
const UNIT = `(?:${MARK}|${WORD})`;
const DASH = '[-\\u2010-\\u2015\\u2212]';

interface Match {
  readonly text: string;
  readonly start: number;
  readonly end: number;
  readonly groups: Readonly<Record<string, string | undefined>>;
  /** The whole text with the faulty characters replaced. */
  readonly with: (other: string) => string;
}

/** The rule of one code: where its pattern is found (its group `fault` is what is wrong), and what was meant. */
function rule(
  code: FaultCode,
  pattern: string,
  meant: (match: Match) => Partial<Fault> | undefined = () => ({}),
): Rule {
  const expression = new RegExp(pattern, 'dgu');
  return (text) => {
    for (const found of text.matchAll(expression)) {
      const [start, end] = found.indices?.groups?.fault ?? [found.index, found.index + found[0].length];
      const replace = (other: string): string => text.slice(0, start) + other + text.slice(end);
      const fault = meant({ text, start, end, groups: found.groups ?? {}, with: replace });
      if (fault !== undefined) return { code, start, end, ...fault };
    }
    return undefined;
  };
}

const rules: readonly Rule[] = [
  (text) => (/^\s*$/u.test(text) ? { code: 'M01', start: 0, end: text.length } : undefined),
  tooLong,

  rule('M16', `(?:(?![0-9])\\p{Nd})+|[⁰¹²³⁴-⁹]+${L}[₀-₉\\d]+|${oneOver}[₀-₉]+|[\\p{Nl}①-⓿]+`, ({ text }) => ({
    instead: [inPlainDigits(text)],
  })),
  rule('M23', `^${S}*(?<fault>\\(.*)`, ({ text }) => ({ found: shown(text) })),
  rule('M26', `^${S}*(?<fault>[+‐-―]|${DASH}${S}+|[-+\\u2212]{2,})(?=[\\d.]|${V}|${oneOver})`, (match) => {
    const size = match.text.slice(match.end);
    const sign = match.text.slice(match.start, match.end).trim();
    return {
      found: sign,
      instead: sign === '+' ? [size] : sign.length > 1 ? [size, `-${size}`] : [`-${size}`],
    };
  }),
  rule('M21', `^${S}*[-\\u2212]?(?<fault>${L}|${oneOver}(?!\\d)|\\.(?!\\d)|[-\\u2212]$)`),
  rule('M02', `^${S}*[-\\u2212]?(?<fault>(?![\\d.]|${V}|${oneOver}|${S}).*)`),

  rule('M15', `(?<![\\d.])(?<fault>0[xX][\\da-fA-F]+|0[bB][01]+|0[oO][0-7]+)`, (match) => ({
    instead: [match.with(`${BigInt(match.text.slice(match.start, match.end).toLowerCase())}`)],
  })),
  areaOrVolume,
  rule(
    'M14',
    `(?<fault>(?<number>\\d+\\.?\\d*|\\.\\d+)(?:[eE](?<power>[-+\\u2212]?\\d+)|${S}*(?:\\^|\\*\\*)${S}*[-\\u2212]?\\d*|[⁰¹²³⁴-⁹]+))`,
    (match) => ({ instead: [match.with(writtenOut(match.groups.number ?? '', match.groups.power))] }),
  ),
  comma,
  rule('M08', `\\d*[·٫‚]\\d+`, (match) => ({
    instead: [match.with(match.text.slice(match.start, match.end).replace(/[·٫‚]/u, '.'))],
  })),
  rule(
    'M09',
    `(?<![\\d.]|${L})(?:\\d{1,3}(?:${S}\\d{3})+|\\d{1,3}(?:[${footMarks}]\\d{3})+(?!${S}*(?:${MARK}|[iI]))|\\d+(?:_\\d+)+|\\d{1,3}(?:\\.\\d{3}){2,})(?!\\d|${L})(?:\\.\\d+)?`,
    (match) => {
      const digits = match.text.slice(match.start, match.end);
      const points = digits.split('.').length - 1;
      return { instead: [match.with(digits.replace(points > 1 ? /\./gu : /[^\d.]/gu, ''))] };
    },
  ),
  rule('M13', `(?:\\d+${L}|${oneOver})0+(?![\\d.])`),
  rule('M22', `(?<top>\\d+)(?:${S}+${L}${S}*|${L}${S}+)(?<bottom>\\d+)`, (match) => {
    const { top, bottom } = match.groups;
    const isAll = match.text.trim() === match.text.slice(match.start, match.end);
    return { instead: [match.with(`${top}/${bottom}`)], ...(isAll && { sum: `${top} / ${bottom}` }) };
  }),
  rule('M12', `(?<first>\\d*\\.\\d+)(?:${S}*|${H})(?<second>\\d+${L}\\d+|${V}|${oneOver}\\d+)`, added),
  rule('M12', `(?<top>\\d*\\.\\d+|\\d+)${L}(?<bottom>\\d*\\.\\d+|\\d+)`, (match) => {
    const [top, bottom] = [match.groups.top ?? '', match.groups.bottom ?? ''];
    if (!top.includes('.') && !bottom.includes('.')) return undefined;
    const [above, below] = [notation.readAmount(top), notation.readAmount(bottom)];
    // A point below the line is more likely a slip than a division.
    if (bottom.includes('.') || above === undefined || below?.numerator === 0n || below === undefined)
      return {};
    return { instead: [match.with(mixedText(divide(above, below)))] };
  }),
  rule('M11', `(?<first>${F})(?:${S}*|${H})(?<second>${F})`, (match) => ({
    ...added(match),
    sum: match.with(`${match.groups.first} + ${match.groups.second}`),
  })),
  rule('M11', `${F}(?:${L}\\d+)+`),
  rule('M06', `(?<![\\d.]|${L})(?<first>\\d+)(?:${S}+|${H})(?<second>\\d+${L}\\d+)`, improper),
  rule('M06', `(?<![\\d.]|${L})(?<first>\\d+)(?:${S}*|${H})(?<second>${oneOver}1(?!\\d))`, improper),

  rule('M04', '(?<!\\p{L})[mM][iI][lL][sS]?(?!\\p{L})', (match) => ({
    instead: [match.with('thou'), match.with('mm')],
  })),
  rule(
    'M25',
    `(?<feet>${N})${S}*(?<foot>${UNIT})(?:${S}*|${H})(?<inches>${N})${S}*(?<inch>${UNIT})`,
    (match) => {
      const { feet = '', foot, inches, inch } = match.groups;
      if (!isFeetAndInches(foot, inch) || /^\d+$/u.test(feet)) return undefined;
      const end = match.start + feet.length;
      return { end, instead: [feetAndInches(match, feet, inches ?? '')] };
    },
  ),
  rule(
    'M19',
    `(?<feet>\\d+)${S}*(?<foot>${UNIT})(?:${S}*|${H})(?<inches>${N})${S}*(?<inch>${UNIT})`,
    (match) => {
      const { feet = '', foot, inches = '', inch = '' } = match.groups;
      const above = notation.readAmount(inches);
      if (!isFeetAndInches(foot, inch) || above === undefined || above.numerator < 12n * above.denominator) {
        return undefined;
      }
      const start = match.text.indexOf(inches, match.start + feet.length + (foot?.length ?? 0));
      return { start, instead: [feetAndInches(match, feet, inches)] };
    },
  ),
  rule('M20', `^${S}*[-\\u2212]?\\d+${S}*(?<foot>${UNIT})(?:${S}*|${H})(?<fault>${N})(?=${S}*$)`, (match) => {
    if (unitOf(match.groups.foot ?? '')?.name !== 'ft') return undefined;
    const isMark = new RegExp(`^${MARK}$`, 'u').test(match.groups.foot ?? '');
    return { instead: [match.text.trimEnd() + (isMark ? '"' : ' in')] };
  }),
  dash,
  rule(
    'M23',
    `(?<!\\p{L})(?<fault>[xX×*·÷+:]|to|and|by)(?!\\p{L})(?=${S}*[\\d.(])`,
    ({ text, start, end }) => {
      const sign = text.slice(start, end);
      const [before, behind] = [text.slice(0, start).trim(), text.slice(end).trim()];
      if (/\p{L}/u.test(sign) && !/[xX]/u.test(sign))
        return { found: shown(text), instead: [`${before} ${behind}`] };
      return { found: shown(text), ...(sign !== ':' && { sum: `${before} ${sign} ${behind}` }) };
    },
  ),
  rule('M05', `(?<first>${UNIT})(?<between>${S}*(?:${N})?${S}*)(?<second>${UNIT})`, (match) => {
    const { first = '', between = '', second = '' } = match.groups;
    if (unitOf(first) === undefined || unitOf(second) === undefined) return undefined;
    const found = shown(match.text);
    if (between.trim() === '') return { found, instead: [match.with(first), match.with(second)] };
    const cut = match.start + first.length;
    return { found, sum: `${match.text.slice(0, cut)} + ${match.text.slice(cut)}` };
  }),
  rule(
    'M10',
    `(?<![\\d.]|${L})(?:(?:\\d*\\.\\d+|${F})${S}+${N}|\\d+${S}+(?:\\d*\\.\\d+|\\d+))(?!\\d|\\.\\d|${S}*${L})`,
  ),
  unknownUnit,
  rule('M21', `\\d+\\.(?!\\d)|(?:\\d+)?${L}(?!\\d)|${oneOver}(?!\\d)`, (match) => {
    const number = match.text.slice(match.start, match.end);
    return { instead: number.endsWith('.') ? [match.with(number.slice(0, -1))] : [] };
  }),
];

function tooLong(text: string): Fault | undefined {
  const digits = notation.countDigits(text);
  const found = digits > notation.mostDigits ? `${digits} digits` : `${text.length} characters`;
  if (digits <= notation.mostDigits && text.length <= notation.mostCharacters) return undefined;
  return { code: 'M18', start: 0, end: text.length, found };
}

/** `3 in²`, `3 in^2`, `3 in2`, `3 sq in`, `3 square inches`. */
function areaOrVolume(text: string): Fault | undefined {
  const raised = rule(
    'M17',
    `(?<unit>${UNIT})(?<power>${S}*[²³]|${S}*\\^${S}*[23]|[23](?=${S}*$))`,
    ({ groups: { unit = '', power = '' }, ...match }) => {
      if (unitOf(unit) === undefined || (/\d/u.test(power) && power.length === 1 && !/\p{L}$/u.test(unit))) {
        return undefined;
      }
      return { instead: [match.with(unit)] };
    },
  );
  const inWords = rule(
    'M17',
    `(?<!\\p{L})(?<kind>[sS][qQ][uU][aA][rR][eE]|[sS][qQ]\\.?|[cC][uU][bB][iI][cC]|[cC][uU]\\.?)${S}*(?<unit>${UNIT})`,
    ({ groups: { unit = '' }, ...match }) =>
      unitOf(unit) === undefined ? undefined : { instead: [match.with(unit)] },
  );
  return raised(text) ?? inWords(text);
}

/** A comma may set thousands apart or stand for the point: where both are possible, both are offered. */
function comma(text: string): Fault | undefined {
  const found = /(?:\d[\d.]*)?(?:,\d[\d.]*)+/u.exec(text);
  if (found === null) return undefined;
  const [written] = found;
  const [start, end] = [found.index, found.index + written.length];
  const replaced = (other: string): string => text.slice(0, start) + other + text.slice(end);

  const asPoint = replaced(written.replaceAll('.', '').replace(',', '.'));
  const asNothing = replaced(written.replaceAll(',', ''));
  if (/^[1-9]\d{0,2}(?:,\d{3})+$/u.test(written) && written.split(',').length === 2) {
    return { code: 'M08', start, end, instead: [asPoint, asNothing] };
  }
  if (/^[1-9]\d{0,2}(?:,\d{3})+(?:\.\d+)?$/u.test(written)) {
    return { code: 'M09', start, end, instead: [asNothing] };
  }
  return { code: 'M08', start, end, instead: [asPoint] };
}

/**
 * A dash that is not the hyphen of a mixed number or of feet and inches. In front of all it would be the
 * sign, which has rules of its own.
 */
function dash(text: string): Fault | undefined {
  const before = `(?<=[\\d.\\p{L}]|${V}|[${footMarks}${inchMarks}]|${S})`;
  const after = `(?=${S}*[\\d.]|${S}*${V}|${S}*${oneOver})`;
  const spaced = `${S}+${DASH}${S}*|${DASH}${S}+`;
  const find = rule(
    'M07',
    `${before}(?:${spaced}|[\\u2012-\\u2015\\u2212]|(?<=\\d|${V})${H}(?!${F})|(?<=\\p{L})${H}(?=${N}${S}*$))${after}`,
    (match) => {
      if (text.slice(0, match.start).trim() === '') return undefined;
      const [near, far] = [text.slice(0, match.start), text.slice(match.end)];
      const padding = match.text.slice(match.start, match.end);
      const start = match.start + padding.search(new RegExp(DASH, 'u'));
      return {
        start,
        end: start + 1,
        found: shown(text),
        instead: [`${near} ${far}`],
        sum: `${near} - ${far}`,
      };
    },
  );
  return find(text);
}

/** Units of length that we know of and don't read, and what they would be. */
const otherUnits: readonly (readonly [RegExp, bigint, string])[] = [
  [/^y(?:ar)?ds?\.?$/iu, 3n, 'ft'],
  [/^(?:dm|decimet(?:re|er)s?)\.?$/iu, 10n, 'cm'],
  [/^(?:km|kilomet(?:re|er)s?)\.?$/iu, 1000n, 'm'],
];

function unknownUnit(text: string): Fault | undefined {
  const find = rule('M03', `(?<number>${N})${S}*(?<fault>${WORD})`, (match) => {
    const { number = '', fault = '' } = match.groups;
    if (unitOf(fault) !== undefined) return undefined;
    const amount = notation.readAmount(number);
    const other = otherUnits.find(([name]) => name.test(fault));
    if (other !== undefined && amount !== undefined) {
      const sign = /^\s*[-\u2212]/u.test(text) ? '-' : '';
      return { instead: [`${sign}${mixedText(multiply(amount, rational(other[1])))} ${other[2]}`] };
    }
    const meant = fault.length < 2 ? undefined : nearest(fault, [...unitNames, ...shortUnitNames]);
    return { instead: meant === undefined ? [] : [match.with(meant)] };
  });
  return find(text);
}

/** What stands behind the longest beginning that would be read. */
function strayCharacters(text: string): Fault {
  for (let end = text.length - 1; end > 0; end--) {
    const beginning = text.slice(0, end);
    if (notation.parse(beginning) === undefined) continue;
    const start = end + (/^\s*/u.exec(text.slice(end))?.[0].length ?? 0);
    const spaced = `${beginning} ${text.slice(start).replace(new RegExp(`^${DASH}`, 'u'), '')}`;
    const instead = notation.parse(spaced) === undefined ? beginning : spaced;
    return { code: 'M24', start, end: text.trimEnd().length, instead: [instead] };
  }
  const start = text.length - text.trimStart().length;
  return { code: 'M24', start, end: Math.max(text.trimEnd().length, start + 1) };
}

function added(match: Match): Partial<Fault> {
  const [first, second] = [match.groups.first, match.groups.second].map((it) =>
    notation.readAmount(it ?? ''),
  );
  return { instead: first && second ? [match.with(mixedText(add(first, second)))] : [] };
}

function improper(match: Match): Partial<Fault> | undefined {
  const [first, second] = [match.groups.first, match.groups.second].map((it) =>
    notation.readAmount(it ?? ''),
  );
  if (first === undefined || second === undefined || second.numerator < second.denominator) return undefined;
  return { instead: [match.with(mixedText(add(first, second)))] };
}

function isFeetAndInches(foot: string | undefined, inch: string | undefined): boolean {
  return unitOf(foot ?? '')?.name === 'ft' && unitOf(inch ?? '')?.name === 'in';
}

/** The same length with whole feet and less than a foot of inches, in the place of what was written. */
function feetAndInches(match: Match, feet: string, inches: string): string {
  const [above, below] = [notation.readAmount(feet), notation.readAmount(inches)];
  if (above === undefined || below === undefined) return '';
  const all = add(multiply(above, whole(12)), below);
  const wholeFeet = all.numerator / (12n * all.denominator);
  const rest = add(all, rational(-12n * wholeFeet));
  return match.with(`${wholeFeet}' ${mixedText(rest)}"`);
}

/** `1e3` as `1000`; nothing for a power that is too far out to be a slip. */
function writtenOut(number: string, power: string | undefined): string {
  const places = Number((power ?? '').replace('\u2212', '-'));
  if (power === undefined || power === '' || Math.abs(places) > 12) return '';
  const [before = '', after = ''] = number.split('.');
  const digits = `${'0'.repeat(12)}${before}${after}${'0'.repeat(12)}`;
  const point = 12 + before.length + places;
  const text = `${digits.slice(0, point)}.${digits.slice(point)}`;
  return text.replace(/^0+(?=\d)/u, '').replace(/\.?0+$/u, '');
}

/** Digits of other scripts, raised and lowered digits as 0 to 9; a raised fraction stands off its whole number. */
function inPlainDigits(text: string): string {
  const raised = '⁰¹²³⁴⁵⁶⁷⁸⁹';
  const lowered = '₀₁₂₃₄₅₆₇₈₉';
  return text
    .replace(new RegExp(`(?<=\\d)(?=[${raised}]+${L})`, 'gu'), ' ')
    .replace(/[⁰¹²³⁴-⁹]/gu, (it) => `${raised.indexOf(it)}`)
    .replace(/[₀-₉]/gu, (it) => `${lowered.indexOf(it)}`)
    .replace(/(?![0-9])\p{Nd}/gu, (it) => `${digitValue(it)}`);
}

/** Decimal digits stand in tens in Unicode, each ten beginning with its zero. */
function digitValue(digit: string): number {
  const code = digit.codePointAt(0) ?? 0;
  // The mathematical digits are five tens in a row from U+1D7CE on.
  if (code >= 0x1d7ce && code <= 0x1d7ff) return (code - 0x1d7ce) % 10;
  let zero = code;
  while (code - zero < 9 && /\p{Nd}/u.test(String.fromCodePoint(zero - 1))) zero--;
  return code - zero;
}
