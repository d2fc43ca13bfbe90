import { describe, expect, it } from 'vitest';
import { namedSize } from '../../src/expand/paper.ts';
import { inches, rational, toFraction } from '../../src/measure/index.ts';
import type { PaperName } from '../../src/model/index.ts';

describe('named sizes are upright: the length is the longer', () => {
  // Source: ISO 216:2007 table of the A series, read from OpenPrinting/cups `cups/pwg-media.c`
  // (iso_a0_841x1189mm and so on).
  it.each<[PaperName, string, string]>([
    ['a0', '841', '1189'],
    ['a1', '594', '841'],
    ['a2', '420', '594'],
    ['a3', '297', '420'],
    ['a4', '210', '297'],
    ['a5', '148', '210'],
  ])('%s is %s x %s mm', (name, width, length) => {
    expect([namedSize(name).width, namedSize(name).length].map(toFraction)).toEqual([width, length]);
  });

  // Source: the same table: na_letter_8.5x11in, na_legal_8.5x14in, na_ledger_11x17in (ANSI/ASME Y14.1 A and B).
  it.each<[PaperName, bigint, bigint]>([
    ['letter', 17n, 22n],
    ['legal', 17n, 28n],
    ['ledger', 22n, 34n],
  ])('%s is %s x %s half inches', (name, width, length) => {
    expect(namedSize(name)).toEqual({
      width: inches(rational(width, 2n)),
      length: inches(rational(length, 2n)),
    });
  });

  // Source: the rule of the A series (ISO 216): halve the longer side, rounded down to a millimetre.
  it('follows the rule of halving', () => {
    const names: readonly PaperName[] = ['a0', 'a1', 'a2', 'a3', 'a4', 'a5'];
    for (const [index, name] of names.slice(1).entries()) {
      const larger = namedSize(names[index] ?? 'a0');
      expect(namedSize(name).length).toEqual(larger.width);
      expect(namedSize(name).width.numerator).toBe(larger.length.numerator / 2n);
    }
  });
});
