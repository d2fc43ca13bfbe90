import { nearest } from '../model/index.ts';
import { mixedText } from './mixedNumber.ts';
import {
  amount,
  anyDash,
  fraction as F,
  hyphen as H,
  mark,
  oneOver,
  readAmount,
  space as S,
  unitWord,
  vulgar,
} from './notation.ts';
import { add, multiply, rational, whole } from './rational.ts';
import { type Fault, type Match, type Rule, rule, shown } from './refusal.ts';
import { footMarks, inchMarks, shortUnitNames, unitNames, unitOf } from './units.ts';

/** What is wrong with units, and with what stands between two measures. */

const N = `(?:${amount})`;
const UNIT = `(?:${mark}|${unitWord})`;
const inches = `(?:${S}*|${H})(?<inches>${N})${S}*(?<inch>${UNIT})`;

// `3 in²`, `3 in^2`, `3 in2`
const raised = rule(
  'M17',
  `(?<unit>${UNIT})(?<power>${S}*[²³]|${S}*\\^${S}*[23]|[23](?=${S}*$))`,
  ({ groups: { unit = '', power = '' }, ...match }) => {
    if (unitOf(unit) === undefined || (/^\d$/u.test(power) && !/\p{L}$/u.test(unit))) return undefined;
    return { instead: [match.with(unit)] };
  },
);

// `3 sq in`, `3 square inches`
const squareOf = rule(
  'M17',
  `(?<!\\p{L})(?:[sS][qQ][uU][aA][rR][eE]|[sS][qQ]\\.?|[cC][uU][bB][iI][cC]|[cC][uU]\\.?)${S}*(?<unit>${UNIT})`,
  ({ groups: { unit = '' }, ...match }) =>
    unitOf(unit) === undefined ? undefined : { instead: [match.with(unit)] },
);

const mil = rule('M04', '(?<!\\p{L})[mM][iI][lL][sS]?(?!\\p{L})', (match) => ({
  instead: [match.with('thou'), match.with('mm')],
}));

// `1.5' 3"`
const brokenFeet = rule('M25', `(?<feet>${N})${S}*(?<foot>${UNIT})${inches}`, (match) => {
  const { feet = '', foot, inches, inch } = match.groups;
  if (!isFeetAndInches(foot, inch) || /^\d+$/u.test(feet)) return undefined;
  return { end: match.start + feet.length, instead: [feetAndInches(match, feet, inches ?? '')] };
});

// `2' 15"`
const tooManyInches = rule('M19', `(?<feet>\\d+)${S}*(?<foot>${UNIT})${inches}`, (match) => {
  const { feet = '', foot = '', inches = '', inch } = match.groups;
  const above = readAmount(inches);
  if (!isFeetAndInches(foot, inch) || above === undefined || above.numerator < 12n * above.denominator) {
    return undefined;
  }
  const start = match.text.indexOf(inches, match.start + feet.length + foot.length);
  return { start, instead: [feetAndInches(match, feet, inches)] };
});

// `3' 4`
const inchesWithoutUnit = rule(
  'M20',
  `^${S}*[-\\u2212]?\\d+${S}*(?<foot>${UNIT})(?:${S}*|${H})(?<fault>${N})(?=${S}*$)`,
  ({ text, groups: { foot = '' } }) => {
    if (unitOf(foot)?.name !== 'ft') return undefined;
    return { instead: [text.trimEnd() + (/\p{L}/u.test(foot) ? ' in' : '"')] };
  },
);

// `2 in x 3 in`, `2 + 3`, `3 ft and 2 in`, `2:3`
const severalMeasures = rule(
  'M23',
  `(?<!\\p{L})(?<fault>[xX×*·÷+:]|to|and|by)(?!\\p{L})(?=${S}*[\\d.(])`,
  ({ text, start, end }) => {
    const sign = text.slice(start, end);
    const [before, behind] = [text.slice(0, start).trim(), text.slice(end).trim()];
    const found = shown(text);
    if (/^\p{L}{2,}$/u.test(sign)) return { found, instead: [`${before} ${behind}`] };
    return { found, ...(sign !== ':' && { sum: `${before} ${sign} ${behind}` }) };
  },
);

// `2 in mm`, `2 in 3 mm`, `2" 3'`
const twoUnits = rule(
  'M05',
  `(?<first>${UNIT})(?<between>${S}*(?:${N})?${S}*)(?<second>${UNIT})`,
  ({ groups: { first = '', between = '', second = '' }, ...match }) => {
    if (unitOf(first) === undefined || unitOf(second) === undefined) return undefined;
    const found = shown(match.text);
    if (between.trim() === '') return { found, instead: [match.with(first), match.with(second)] };
    const cut = match.start + first.length;
    return { found, sum: `${match.text.slice(0, cut)} + ${match.text.slice(cut)}` };
  },
);

/** Units of length that we know of and don't read, and what they would be. */
const otherUnits: readonly (readonly [RegExp, bigint, string])[] = [
  [/^y(?:ar)?ds?\.?$/iu, 3n, 'ft'],
  [/^(?:dm|decimet(?:re|er)s?)\.?$/iu, 10n, 'cm'],
  [/^(?:km|kilomet(?:re|er)s?)\.?$/iu, 1000n, 'm'],
];

// `3 inchs`, `2 yd`
const unknownUnit = rule('M03', `(?<number>${N})${S}*(?<fault>${unitWord})`, (match) => {
  const { number = '', fault = '' } = match.groups;
  if (unitOf(fault) !== undefined) return undefined;
  // `3/16ths`, as it is spoken.
  if (/^(?:th|rd|nd)s?$/iu.test(fault)) return { instead: [match.with(' in')] };
  const size = readAmount(number);
  const other = otherUnits.find(([name]) => name.test(fault));
  if (other !== undefined && size !== undefined) {
    const sign = /^\s*[-\u2212]/u.test(match.text) ? '-' : '';
    return { instead: [`${sign}${mixedText(multiply(size, rational(other[1])))} ${other[2]}`] };
  }
  const meant = fault.length < 2 ? undefined : nearest(fault, [...shortUnitNames, ...unitNames]);
  return { instead: meant === undefined ? [] : [match.with(meant)] };
});

export const unitRules: readonly Rule[] = [
  raised,
  squareOf,
  mil,
  brokenFeet,
  tooManyInches,
  inchesWithoutUnit,
  dash,
  severalMeasures,
  twoUnits,
  unknownUnit,
];

/**
 * A dash that is not the hyphen of a mixed number or of feet and inches. In front of all it would be the
 * sign, which has rules of its own.
 */
function dash(text: string): Fault | undefined {
  const before = `(?<=[\\d.\\p{L}]|${vulgar}|[${footMarks}${inchMarks}]|${S})`;
  const after = `(?=${S}*[\\d.]|${S}*${vulgar}|${S}*${oneOver})`;
  const spaced = `${S}+${anyDash}${S}*|${anyDash}${S}+`;
  const find = rule(
    'M07',
    `${before}(?:${spaced}|[\\u2012-\\u2015\\u2212]|(?<=\\d|${vulgar})${H}(?!${F})|(?<=\\p{L})${H}(?=${N}${S}*$))${after}`,
    (match) => {
      if (text.slice(0, match.start).trim() === '') return undefined;
      const [near, far] = [text.slice(0, match.start), text.slice(match.end)];
      const padding = match.text.slice(match.start, match.end);
      const start = match.start + padding.search(new RegExp(anyDash, 'u'));
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

function isFeetAndInches(foot: string | undefined, inch: string | undefined): boolean {
  return unitOf(foot ?? '')?.name === 'ft' && unitOf(inch ?? '')?.name === 'in';
}

/** The same length with whole feet and less than a foot of inches, in the place of what was written. */
function feetAndInches(match: Match, feet: string, inches: string): string {
  const [above, below] = [readAmount(feet), readAmount(inches)];
  if (above === undefined || below === undefined) return '';
  const all = add(multiply(above, whole(12)), below);
  const wholeFeet = all.numerator / (12n * all.denominator);
  const rest = add(all, rational(-12n * wholeFeet));
  return match.with(`${wholeFeet}' ${mixedText(rest)}"`);
}
