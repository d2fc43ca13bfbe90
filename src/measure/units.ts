import type { FileUnits, Rational } from '../model/index.ts';
import { mmPerInch } from './length.ts';
import { multiply, rational } from './rational.ts';

/** A unit of length that may be written after a number. */
export interface Unit {
  readonly name: 'in' | 'ft' | 'thou' | 'mm' | 'cm' | 'm' | 'micron';
  /** Exact. */
  readonly inMm: Rational;
  /** Which of the two rules it is read on. */
  readonly family: FileUnits;
}

const inch: Unit = { name: 'in', inMm: mmPerInch, family: 'in' };
// Source: UCUM: [ft_i] = 12 [in_i], [mil_i] (a thou) = 1e-3 [in_i].
const foot: Unit = { name: 'ft', inMm: multiply(mmPerInch, rational(12n)), family: 'in' };
const thou: Unit = { name: 'thou', inMm: multiply(mmPerInch, rational(1n, 1000n)), family: 'in' };
const millimetre: Unit = { name: 'mm', inMm: rational(1n), family: 'mm' };
const centimetre: Unit = { name: 'cm', inMm: rational(10n), family: 'mm' };
const metre: Unit = { name: 'm', inMm: rational(1000n), family: 'mm' };
const micron: Unit = { name: 'micron', inMm: rational(1n, 1000n), family: 'mm' };

const spelt: readonly (readonly [Unit, string])[] = [
  [inch, 'in ins inch inches'],
  [foot, 'ft foot feet'],
  [thou, 'thou thous'],
  [millimetre, 'mm mms millimetre millimetres millimeter millimeters'],
  [centimetre, 'cm cms centimetre centimetres centimeter centimeters'],
  [metre, 'm metre metres meter meters'],
  // Micro is written with its own sign (U+00B5), with the Greek letter (U+03BC), or with a plain u.
  [micron, 'micron microns µm \u03bcm um micrometre micrometres micrometer micrometers'],
];

const byWord: ReadonlyMap<string, Unit> = new Map(
  spelt.flatMap(([unit, words]) => words.split(' ').map((word): [string, Unit] => [word, unit])),
);

/** Every word that is a unit, in lower case. None of them can be a name in a file. */
export const unitNames: readonly string[] = [...byWord.keys()];

/** The shortest spelling of each unit, for a message that lists them. */
export const shortUnitNames: readonly string[] = spelt.map(([unit]) => unit.name);

/** Feet: prime, typographic single quotes, the apostrophe and its look-alikes. */
export const footMarks = "'\u2032\u2018\u2019\u201b\u02b9\u02bc\u00b4";
/** Inches: double prime, typographic double quotes, the quotation mark and its look-alikes. */
export const inchMarks = '"\u2033\u201c\u201d\u201f\u02ba\u02ee\u02dd';

const footMark = new RegExp(`^[${footMarks}]$`, 'u');
const inchMark = new RegExp(`^(?:[${inchMarks}]|[${footMarks}]{2})$`, 'u');

/** The unit of a word in any case, with a full stop or without, or of a mark. */
export function unitOf(written: string): Unit | undefined {
  if (inchMark.test(written)) return inch;
  if (footMark.test(written)) return foot;
  return byWord.get(written.replace(/\.$/u, '').toLowerCase());
}
