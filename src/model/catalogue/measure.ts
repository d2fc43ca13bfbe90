import { type Entry, entry } from './entry.ts';

/** What a measure's fault says of itself. */
interface Found {
  /** The faulty characters as the user wrote them. */
  readonly found: string;
  /** Measures that would be read, likeliest first. */
  readonly instead: readonly string[];
  /** The sum that may have been meant, in its brackets. */
  readonly sum?: string | undefined;
}

/** An error whose hint lists what could have been meant, or else says what would do. */
function fault(title: string, say: (found: string) => string, otherwise: string): Entry<Found> {
  return entry<Found>({
    severity: 'error',
    title,
    say: ({ found }) => say(found),
    hint: ({ instead, sum }) => {
      const ways = sum === undefined ? instead : [...instead, `${sum} in a file`];
      return ways.length === 0 ? otherwise : ways.join(', or ');
    },
  });
}

/** The codes of `measure/`. A code is never reused or renumbered. */
export const measureCodes = {
  M01: fault(
    'no measure',
    () => 'a measure is missing',
    'a number, with its unit if there is need, such as 2 3/8 in or 60 mm',
  ),
  M02: fault(
    'not a measure',
    (found) => `"${found}" is not a measure; a measure begins with a number`,
    'a number, with its unit if there is need, such as 2 3/8 in or 60 mm',
  ),
  M03: fault(
    'unknown unit',
    (found) => `"${found}" is not a unit of length known here`,
    'one of in, ft, thou, mm, cm, m, micron',
  ),
  M04: fault(
    'mil is not clear',
    (found) => `"${found}" is a thousandth of an inch to some and a millimetre to others`,
    'thou or mm',
  ),
  M05: fault(
    'two units',
    (found) => `"${found}" gives one measure two units`,
    'one unit; only feet and inches go together, as in 1\' 2 1/2"',
  ),
  M06: fault(
    'fraction too large for a mixed number',
    (found) => `"${found}" has a fraction of 1 or more behind a whole number`,
    'a whole number and a fraction below 1',
  ),
  M07: fault(
    'a minus, or a mixed number',
    (found) => `"${found}" has a dash that could join or subtract`,
    'a hyphen without spaces joins a whole number and a fraction; a difference stands in round brackets',
  ),
  M08: fault(
    'comma in a number',
    (found) => `"${found}" does not have a plain point before its decimals`,
    'a point, as in 2.5',
  ),
  M09: fault(
    'thousands set apart',
    (found) => `"${found}" sets its thousands apart`,
    'the digits without anything between them, as in 12500',
  ),
  M10: fault(
    'two numbers side by side',
    (found) => `"${found}" is two numbers side by side`,
    'one number; a fraction has a slash, as in 3/4 or 2 3/4',
  ),
  M11: fault(
    'two fractions',
    (found) => `"${found}" is two fractions in one measure`,
    'one fraction; a sum stands in round brackets, as in (3/8 + 7/8), in a file',
  ),
  M12: fault(
    'decimals and a fraction',
    (found) => `"${found}" has both decimals and a fraction`,
    'either decimals or a fraction',
  ),
  M13: fault(
    'division by zero in a fraction',
    (found) => `"${found}" divides by zero`,
    'a fraction with a whole number above zero below its line, as in 1/2',
  ),
  M14: fault(
    'exponent',
    (found) => `"${found}" has an exponent`,
    'the number written out in full, as in 1000 or 0.001',
  ),
  M15: fault(
    'not in tens',
    (found) => `"${found}" is not written in tens`,
    'the number in plain digits, as in 31',
  ),
  M16: fault(
    'other digits than 0 to 9',
    (found) => `"${found}" is not written with the digits 0 to 9`,
    'the digits 0 to 9, as in 2 3/8',
  ),
  M17: fault(
    'area or volume',
    (found) => `"${found}" is an area or a volume; a length is wanted`,
    'a length, such as 3 in',
  ),
  M18: fault(
    'measure too long',
    (found) => `a measure of ${found} is longer than any that is read`,
    'at most 30 digits and 200 characters',
  ),
  M19: fault(
    'a foot or more of inches',
    (found) => `"${found}" behind feet is a foot or more`,
    'inches below 12',
  ),
  M20: fault(
    'number without a unit behind feet',
    (found) => `"${found}" behind feet has no unit of its own`,
    'an inch mark behind the inches, as in 3\' 4"',
  ),
  M21: fault(
    'unfinished number',
    (found) => `"${found}" is an unfinished number`,
    'digits on both sides of a slash, and behind a point',
  ),
  M22: fault(
    'spaces around a slash',
    (found) => `"${found}" has spaces around its slash`,
    'no spaces in a fraction, as in 3/8',
  ),
  M23: fault(
    'more than one measure',
    (found) => `"${found}" is a sum, or more than one measure`,
    'one measure; in a file a sum stands in round brackets',
  ),
  M24: fault(
    'stray character',
    (found) => `"${found}" can't be read as part of a measure`,
    'a number and its unit, nothing else',
  ),
  M25: fault(
    'broken feet before inches',
    (found) => `"${found}" is not a whole number of feet, and inches follow`,
    'whole feet before inches, as in 1\' 9"',
  ),
  M26: fault(
    'not a plain sign',
    (found) => `"${found}" is not a plain minus in front of a number`,
    'nothing, or a minus close to the number, as in -3/8',
  ),
  M27: entry({
    severity: 'error',
    title: 'no unit where one is needed',
    say: ({ found }: { found: string }) => `"${found}" has no unit, and nothing says which is meant`,
    hint: ({ found }) => `${found} in, or ${found} mm, or --from in, or --from mm`,
  }),
} as const;
