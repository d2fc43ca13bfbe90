import { describe, expect, it } from 'vitest';
import { checkUp } from '../../../src/checkUp.ts';
import { inches, millimetres, rational, referenceTable, toFraction } from '../../../src/measure/index.ts';
import type { Batch, Length } from '../../../src/model/index.ts';
import { runToEnd } from '../../../src/pipeline.ts';
import {
  printTables,
  referenceSheet,
  type TwinWishes,
  twinOf,
  twinSheet,
} from '../../../src/print/tables/index.ts';
import { fractionTable } from '../../measure/fractionTable.ts';
import { read } from '../../mend/units/converting.ts';

const mm = (numerator: number, denominator = 1): Length =>
  millimetres(rational(BigInt(numerator), BigInt(denominator)));
const inch = (numerator: number, denominator = 1): Length =>
  inches(rational(BigInt(numerator), BigInt(denominator)));

describe('the table for the wall', () => {
  it('has every sixty-fourth of an inch as the table of fractions has it', () => {
    const { rows } = referenceTable({ step: inch(1, 64), upTo: inch(1), ruler: [], halves: 'half up' });
    expect(rows.map(({ onRule, exact, decimal }) => [onRule, exact, decimal])).toEqual(
      fractionTable.map((it) => [it.inches, it.mm, it.decimalInches]),
    );
  });

  // Source: NIST SP 811, B.7.1. At one decimal the ties of n/64 in are 1/4 and 3/4: 6.35 and 19.05 mm.
  it('differs in nothing but the ties where halves go to the even digit', () => {
    const [up, even] = (['half up', 'half even'] as const).map((halves) =>
      referenceTable({ step: inch(1, 64), upTo: inch(1), ruler: [], halves }).rows.map(
        ({ nearest }) => nearest,
      ),
    );
    const differing = up?.flatMap((it, at) =>
      it === even?.[at] ? [] : [[fractionTable[at]?.inches, it, even?.[at]]],
    );
    expect(differing).toEqual([['3/4', '19.1', '19.0']]);
  });

  it('has as many digits as its rule, and names the rounding rule in the heading', () => {
    const table = referenceTable({ step: mm(1, 2), upTo: mm(3), ruler: [inch(1, 32)], halves: 'half up' });
    expect(table.rows.map(({ onRule }) => onRule)).toEqual(['0.5', '1.0', '1.5', '2.0', '2.5', '3.0']);
    const text = printTables(referenceSheet(table), { width: 80, ascii: false });
    expect(text).toContain('to 1/32 in, half up');
  });
});

const kit = `cardwright: kit
units: mm
grid: { square: 60 }
materials: { board: { thickness: 2 }, foam: { thickness: 5 } }
sheets: { board: [{ size: A3 }], foam: [{ size: A3 }] }
tiles:
  step:
    parts:
      base: { of: board, size: [60, 60] }
      body: { of: foam, size: [60, 20.04], lies: yes }
      leaf: { of: board, size: [3, 3], by eye: 4 }
    build: { up: [base, body], flush: back }
`;

function batchOf(text: string): Batch {
  const { value } = read({ 'kit.yaml': text }, ['kit.yaml']);
  const batch = value && runToEnd(checkUp(value, {})).value?.batch;
  if (batch === undefined) throw new Error('the kit is sound');
  return batch;
}

const usual: TwinWishes = {
  origin: 'corner',
  up: 'z',
  axes: 'right-handed',
  clearance: { left: mm(1), right: mm(2), front: mm(3), back: mm(4), bottom: mm(0), top: mm(1, 2) },
  step: mm(1, 10),
  units: 'mm',
};

describe('the twin', () => {
  // Worked out by hand: the body is 20.04 mm deep and lies flush with the back of a 60 mm tile, on 2 mm of board.
  it.each([
    [{}, '0 999/25 2', '60 60 7'],
    [{ axes: 'left-handed' }, '0 0 2', '60 501/25 7'],
    [{ up: 'y' }, '0 2 0', '60 7 501/25'],
    [{ up: 'y', axes: 'left-handed' }, '0 2 999/25', '60 7 60'],
    [{ origin: 'centre' }, '-30 249/25 2', '30 30 7'],
    [{ origin: 'centre', axes: 'left-handed' }, '-30 -30 2', '30 -249/25 7'],
  ] as const)('places a part by the axes that are asked for: %j', (wishes, low, high) => {
    const [tile] = twinOf(batchOf(kit), { ...usual, ...wishes }).tiles;
    const body = tile?.pieces.find(({ name }) => name === 'body');
    expect(body?.exact.low.map(toFraction).join(' ')).toBe(low);
    expect(body?.exact.high.map(toFraction).join(' ')).toBe(high);
  });

  it('rounds faces, so that what touches still touches', () => {
    const [tile] = twinOf(batchOf(kit), { ...usual, step: mm(1) }).tiles;
    const [base, body] = tile?.pieces ?? [];
    expect(base?.rounded.high[2]).toEqual(body?.rounded.low[2]);
    expect(body?.rounded.low.map(toFraction)).toEqual(['0', '40', '2']);
  });

  it('takes the clearance off the envelope, each side its own, and lists what is glued on by eye', () => {
    const [tile] = twinOf(batchOf(kit), usual).tiles;
    expect(tile?.envelope.high.map(toFraction)).toEqual(['60', '60', '7']);
    expect(tile?.printable.low.map(toFraction)).toEqual(['1', '3', '0']);
    expect(tile?.printable.high.map(toFraction)).toEqual(['58', '56', '13/2']);
    expect(tile?.loose).toMatchObject([{ part: 'leaf', count: 4 }]);
    const look = { width: 80, ascii: false };
    const text = printTables(twinSheet(twinOf(batchOf(kit), usual), 'Steps', look), look);
    expect(text).toContain('x to the right, y to the back, z up');
    expect(text).toContain('by eye: 4 of leaf, 3 × 3 × 2');
    expect(text.split('\n').every((line) => line.length <= 80)).toBe(true);
  });
});
