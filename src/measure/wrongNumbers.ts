import { mixedText } from './mixedNumber.ts';
import {
  amount,
  fraction as F,
  hyphen as H,
  slash as L,
  mark,
  oneOver,
  readAmount,
  space as S,
  vulgar,
} from './notation.ts';
import { add, divide } from './rational.ts';
import { type Fault, type Match, type Rule, rule } from './refusal.ts';
import { footMarks } from './units.ts';

/** The ways in which people write numbers and we don't read them. */

const raised = '⁰¹²³⁴⁵⁶⁷⁸⁹';
const lowered = '₀₁₂₃₄₅₆₇₈₉';
const notWithin = `(?<![\\d.]|${L})`;
const slashed = `\\d+${L}\\d+`;

// `٣`, `³⁄₈`, `⅟₈`, `Ⅻ`, `②`
const otherDigits = rule(
  'M16',
  `(?:(?![0-9])\\p{Nd})+|[${raised}]+${L}[${lowered}\\d]+|${oneOver}[${lowered}]+|[\\p{Nl}\\u2460-\\u24ff]+`,
  ({ text }) => ({ instead: [inPlainDigits(text)] }),
);

// `0x1F`, `0b101`, `0o17`
const notInTens = rule('M15', '(?<![\\d.])(?:0[xX][\\da-fA-F]+|0[bB][01]+|0[oO][0-7]+)', (match) => ({
  instead: [match.with(`${BigInt(match.text.slice(match.start, match.end).toLowerCase())}`)],
}));

// `1e3`, `2^3`, `2**3`, `2³`
const exponent = rule(
  'M14',
  `(?<number>\\d+\\.?\\d*|\\.\\d+)` +
    `(?:[eE](?<power>[-+\\u2212]?\\d+)|${S}*(?:\\^|\\*\\*)${S}*[-\\u2212]?\\d*|[${raised}]+)`,
  (match) => ({ instead: [match.with(writtenOut(match.groups.number ?? '', match.groups.power))] }),
);

// `2·5`, `2٫5`
const otherPoint = rule('M08', '\\d*[·٫‚]\\d+', (match) => ({
  instead: [match.with(match.text.slice(match.start, match.end).replace(/[·٫‚]/u, '.'))],
}));

// `12 500`, `12'500` (but not `1'100"`), `12_500`, `1.234.567`; with decimals too
const thousands = rule(
  'M09',
  `${notWithin}(?:\\d{1,3}(?:${S}\\d{3})+|\\d{1,3}(?:[${footMarks}]\\d{3})+(?!${S}*(?:${mark}|[iI]))` +
    `|\\d+(?:_\\d+)+|\\d{1,3}(?:\\.\\d{3}){2,})(?!\\d|${L})(?:\\.\\d+)?`,
  (match) => {
    const digits = match.text.slice(match.start, match.end);
    const points = digits.split('.').length - 1;
    return { instead: [match.with(digits.replace(points > 1 ? /\./gu : /[^\d.]/gu, ''))] };
  },
);

// `1/0`
const byZero = rule('M13', `(?:\\d+${L}|${oneOver})0+(?![\\d.])`);

// `3 / 8`
const spacedSlash = rule(
  'M22',
  `(?<top>\\d+)(?:${S}+${L}${S}*|${L}${S}+)(?<bottom>\\d+)`,
  ({ groups: { top, bottom }, ...match }) => {
    const isAll = match.text.trim() === match.text.slice(match.start, match.end);
    return { instead: [match.with(`${top}/${bottom}`)], ...(isAll && { sum: `${top} / ${bottom}` }) };
  },
);

// `2.5 3/8`
const decimalsAndFraction = rule(
  'M12',
  `(?<first>\\d*\\.\\d+)(?:${S}*|${H})(?<second>${slashed}|${vulgar}|${oneOver}\\d+)`,
  added,
);

// `2.5/8`, `3/8.5`
const decimalsInFraction = rule(
  'M12',
  `(?<top>\\d*\\.\\d+)${L}(?<bottom>\\d+(?:\\.\\d+)?|\\.\\d+)|\\d+${L}\\d*\\.\\d+`,
  (match) => {
    const [above, below] = [readAmount(match.groups.top ?? ''), readAmount(match.groups.bottom ?? '')];
    // A point below the line is more likely a slip than a division.
    if (above === undefined || below === undefined || below.denominator !== 1n) return {};
    return { instead: [match.with(mixedText(divide(above, below)))] };
  },
);

// `1/2 3/4`, `⅜⅜`, `3/8-1/16`
const twoFractions = rule('M11', `(?<first>${F})(?:${S}*|${H})(?<second>${F})`, (match) => ({
  ...added(match),
  sum: match.with(`${match.groups.first} + ${match.groups.second}`),
}));

// `1/2/3`
const twoLines = rule('M11', `${F}(?:${L}\\d+)+`);

// `1 7/4`, `1-7/4`, `2⅟1`
const improper = rule(
  'M06',
  `${notWithin}(?<first>\\d+)(?:(?:${S}+|${H})(?<slashed>${slashed})|(?:${S}*|${H})(?<sign>${oneOver}1(?!\\d)))`,
  (match) => {
    const [first, second] = amountsOf(match.groups.first, match.groups.slashed ?? match.groups.sign);
    if (first === undefined || second === undefined || second.numerator < second.denominator)
      return undefined;
    return { instead: [match.with(mixedText(add(first, second)))] };
  },
);

// `2 3`, `3/8 2`
const sideBySide = rule(
  'M10',
  `${notWithin}(?:(?:\\d*\\.\\d+|${F})${S}+(?:${amount})|\\d+${S}+(?:\\d*\\.\\d+|\\d+))(?!\\d|\\.\\d|${S}*${L})`,
);

// `2.`, `3/`, `2⅟`
const unfinished = rule('M21', `\\d+\\.(?!\\d)|(?:\\d+)?${L}(?!\\d)|${oneOver}(?!\\d)`, (match) => {
  const number = match.text.slice(match.start, match.end);
  return { instead: number.endsWith('.') ? [match.with(number.slice(0, -1))] : [] };
});

export const numberRules: { readonly [kind in 'ofOtherScripts' | 'ofPlainDigits']: readonly Rule[] } = {
  ofOtherScripts: [otherDigits],
  ofPlainDigits: [
    notInTens,
    exponent,
    comma,
    otherPoint,
    thousands,
    byZero,
    spacedSlash,
    decimalsAndFraction,
    decimalsInFraction,
    twoFractions,
    twoLines,
    improper,
    sideBySide,
    unfinished,
  ],
};

/** A comma may set thousands apart or stand for the point: where both are possible, both are offered. */
function comma(text: string): Fault | undefined {
  const found = /(?:\d[\d.]*)?(?:,\d[\d.]*)+/u.exec(text);
  if (found === null) return undefined;
  const [written] = found;
  const [start, end] = [found.index, found.index + written.length];
  const replaced = (other: string): string => text.slice(0, start) + other + text.slice(end);

  const asPoint = replaced(written.replaceAll('.', '').replace(',', '.'));
  const asNothing = replaced(written.replaceAll(',', ''));
  if (/^[1-9]\d{0,2},\d{3}$/u.test(written)) {
    return { code: 'M08', start, end, instead: [asPoint, asNothing] };
  }
  if (/^[1-9]\d{0,2}(?:,\d{3})+(?:\.\d+)?$/u.test(written)) {
    return { code: 'M09', start, end, instead: [asNothing] };
  }
  return { code: 'M08', start, end, instead: [asPoint] };
}

function added(match: Match): Partial<Fault> {
  const [first, second] = amountsOf(match.groups.first, match.groups.second);
  return { instead: first && second ? [match.with(mixedText(add(first, second)))] : [] };
}

function amountsOf(...texts: readonly (string | undefined)[]): readonly ReturnType<typeof readAmount>[] {
  return texts.map((it) => readAmount(it ?? ''));
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
  return text
    .replace(new RegExp(`(?<=\\d)(?=[${raised}]+${L})`, 'gu'), ' ')
    .replace(/[⁰¹²³⁴-⁹]/gu, (it) => `${raised.indexOf(it)}`)
    .replace(/[₀-₉]/gu, (it) => `${lowered.indexOf(it)}`)
    .replace(/(?![0-9])\p{Nd}/gu, (it) => `${digitValue(it)}`)
    .replace('\u066b', '.');
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
