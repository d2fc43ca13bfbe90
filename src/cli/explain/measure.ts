import type { measureCodes } from '../../model/catalogue/measure.ts';
import type { Example, ExplainPage } from '../explainPage.ts';

/** One measure converted: no file is needed to show what is wrong with it. */
function converted(...words: readonly string[]): Example {
  return { files: {}, run: ['convert', ...words] };
}

function page(why: string, failing: string, mended: string): ExplainPage {
  return { why, failing: converted(failing), mended: converted(mended) };
}

/** A page for each code of `measure/`; the type holds it complete. */
export const measurePages: Readonly<Record<keyof typeof measureCodes, ExplainPage>> = {
  M01: page(
    'Where a measure is wanted nothing is written. Write a number and its unit; the unit may be left out where ' +
      'the file states its units.',
    '',
    '60 mm',
  ),
  M02: page(
    'A measure begins with a number, and a name always begins with a letter, so that nothing can be read two ' +
      'ways. Here stands something that begins with neither a digit, nor a point, nor a fraction sign.',
    'about 3 in',
    '3 in',
  ),
  M03: page(
    'The word behind the number is not one of the units of length: in, ft, thou, mm, cm, m, micron. They may be ' +
      'written in any case, short or in full, singular or plural, with a full stop or without; inches and feet ' +
      'also with their marks.',
    '3 inchs',
    '3 inches',
  ),
  M04: page(
    'In one country a mil is a thousandth of an inch, in another it is short for a millimetre: the two differ ' +
      'by a factor of nearly forty. Write thou, or mm.',
    '30 mil',
    '30 thou',
  ),
  M05: page(
    'A measure has one unit. Only feet and inches go together, feet first. To add lengths of two units in a ' +
      'spec, write a sum in round brackets.',
    '2 in 3 mm',
    '2 in',
  ),
  M06: page(
    'A mixed number is a whole number and a fraction below 1. A fraction of 1 or more behind a whole number is ' +
      'most often a slip of a digit, so it is not worked out silently. A fraction such as 19/16 that stands ' +
      'alone is fine.',
    '1 7/4',
    '2 3/4',
  ),
  M07: page(
    'A hyphen without spaces between a whole number and a fraction joins them: 2-3/8 is two and three eighths. ' +
      'A dash with spaces around it, a longer dash, or a hyphen between other things could just as well be a ' +
      'minus. Write 2 3/8, or, in a file, the difference in round brackets.',
    '2 - 3/8',
    '2 3/8',
  ),
  M08: page(
    'Decimals follow a point. A comma separates the members of a list, and to many readers it sets thousands ' +
      'apart, so it is never read as a point.',
    '2,5 mm',
    '2.5 mm',
  ),
  M09: page(
    'The digits of a number stand together, without spaces, commas, points, apostrophes or underscores between ' +
      'the thousands: each of these means something else somewhere.',
    '12 500 mm',
    '12500 mm',
  ),
  M10: page(
    'Two numbers stand side by side, and the second is not a fraction. Perhaps a slash, a point or a unit is ' +
      'missing, or two measures were meant.',
    '2 3 in',
    '2/3 in',
  ),
  M11: page(
    'A measure holds one fraction. Two of them side by side might be meant as a sum, so they are not added ' +
      'silently.',
    '1/2 3/4 in',
    '1 1/4 in',
  ),
  M12: page(
    'A measure is written either with decimals or with a fraction. The mixture is most often a slip.',
    '2.5 3/8 in',
    '2 7/8 in',
  ),
  M13: page(
    'The number below the line of a fraction is zero. Nothing can be divided by zero.',
    '1/0 in',
    '1/10 in',
  ),
  M14: page(
    'Powers and powers of ten are not read: no size that is cut at a table needs them, and a stray letter could ' +
      'turn a millimetre into a kilometre. Write the number out in full.',
    '1e3 mm',
    '1000 mm',
  ),
  M15: page(
    'Numbers are written in tens, with the digits 0 to 9. What begins with 0x, 0b or 0o is a way of writing ' +
      'numbers for machines.',
    '0x1F mm',
    '31 mm',
  ),
  M16: page(
    'Only the digits 0 to 9 are read, besides the fraction signs such as \u215c. Digits of other scripts, full-width, ' +
      'raised and lowered digits and numerals look alike on one screen and not on the next.',
    '\uff12 3/8 in',
    '2 3/8 in',
  ),
  M17: page('A length is wanted here, and this is an area or a volume.', '3 sq in', '3 in'),
  M18: page(
    'A measure may have 30 digits and 200 characters. With 30 digits a length of 100 m could be given far below ' +
      'the size of an atom; more of them are a slip.',
    '1234567890123456789012345678901 mm',
    '1234567 mm',
  ),
  M19: page(
    'Behind feet, the inches are below 12; twelve of them are one foot more. So a slip of the pen is found.',
    `2' 15"`,
    `3' 3"`,
  ),
  M20: page(
    'The number behind the feet has no unit. It might be inches, or the foot mark might be a stray one.',
    `3' 4`,
    `3' 4"`,
  ),
  M21: page(
    'A slash needs digits on both sides, a point needs digits behind it, and the sign \u215f needs digits behind ' +
      'it too.',
    '3/ in',
    '3/8 in',
  ),
  M22: page(
    'A fraction is written without spaces around its slash. A slash with spaces divides one thing by another, ' +
      'which in a file is done in round brackets.',
    '3 / 8 in',
    '3/8 in',
  ),
  M23: page(
    'One measure is wanted here, and this is a sum, or several measures. In a spec a sum stands in round ' +
      'brackets, and several measures stand in a list.',
    '2 in + 1 in',
    '3 in',
  ),
  M24: page(
    'The beginning would be read as a measure, but something stands behind it or in it that is no part of one. ' +
      'Characters that cannot be seen are shown by their numbers, such as U+200B.',
    '3 in (wide)',
    '3 in',
  ),
  M25: page(
    'Where inches follow feet, the feet are a whole number. Half a foot is six inches: write these.',
    `1.5 ft 3 in`,
    `1 ft 9 in`,
  ),
  M26: page(
    'Below zero a measure has one plain minus in front, close to the number. A plus is never needed; a dash is ' +
      'not a minus.',
    '+3 in',
    '3 in',
  ),
  M27: {
    why:
      'A number without a unit is converted both ways on the screen. A program that reads the JSON form cannot ' +
      'choose between two answers, so there the unit has to be said: in the measure, or with --from.',
    failing: converted('2 3/8', '--json'),
    mended: converted('2 3/8', '--json', '--from', 'in'),
  },
};
