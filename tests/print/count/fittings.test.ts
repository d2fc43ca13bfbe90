import { parse } from 'csv-parse/sync';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fittingsToBuy, printCountCsv } from '../../../src/print/count/index.ts';
import { printCount } from '../../../src/print/text/index.ts';
import { batchOf } from '../../expand/check.ts';

const session = `cardwright: session
units: in
materials: { card: { thickness: 1/16 } }
sheets: { card: [{ size: [16, 12] }] }
fittings:
  disc magnet: { diameter: 6 mm, depth: 2 mm, pack: 10, price: 4.20 EUR }
  'skewer, "blunt"': { price: 0.15 EUR }
  glue stick: {}
tiles:
  floor:
    footprint: none
    parts: { post: { of: card, size: [1, 1/4], count: 2, takes: { 'skewer, "blunt"': 1 } } }
    takes: { disc magnet: 4 }
make: { floor: 6 }
takes: { glue stick: 2 }
spares: { disc magnet: 5% }
drawer: drawer.yaml
`;
const drawer = `cardwright: drawer
fittings: { disc magnet: { count: 7, where: tin box }, 'skewer, "blunt"': 12 }
`;
const batch = batchOf(session, { 'drawer.yaml': drawer });

describe('fittings in the list', () => {
  it('have rows of their own in the CSV, as another program reads it', () => {
    // Source: RFC 4180, as csv-parse reads it with nothing relaxed.
    const rows: Record<string, string>[] = parse(printCountCsv(batch), {
      columns: true,
      record_delimiter: '\r\n',
    });
    const of = (name: string) =>
      rows
        .filter(({ fitting }) => fitting === name)
        .map(({ tile, part, each, spares, count }) => [tile, part, each, spares, count]);
    expect(of('disc magnet')).toEqual([
      ['floor', '', '4', '0', '24'],
      ['', '', '0', '2', '2'],
    ]);
    expect(of('skewer, "blunt"')).toEqual([['floor', 'post', '2', '0', '12']]);
    expect(of('glue stick')).toEqual([['', '', '2', '0', '2']]);
    expect(rows.filter(({ fitting }) => fitting === '').map(({ part, count }) => [part, count])).toEqual([
      ['post', '12'],
    ]);
  });

  it('stand with their tile, and in all with what takes them, what is at hand and what is missing', () => {
    const text = printCount(batch, { width: 80, ascii: true });
    expect(text).toMatch(/^disc magnet +fitting +4 +24$/m);
    expect(text).toContain('fittings: 40\n');
    expect(text).toMatch(/^ +26 +disc magnet, 6 mm wide, 2 mm deep +24 x FL, 2 x spares +7 +tin box$/m);
    // Source: computed: 26 - 7 = 19 magnets are missing, which are 2 packs of 10 with 1 over; 12 skewers are there.
    expect(text).toMatch(/^disc magnet +2 packs of 10 +8\.40 EUR +1 left over$/m);
    expect(text).toMatch(/^glue stick +2$/m);
    expect(text).not.toMatch(/^skewer, "blunt" +\d/m);
    expect(text).toMatch(/^in all 8\.40 EUR$/m);
  });

  it('are bought in as few packs as will do', () => {
    const numbers = fc.record({
      count: fc.integer({ min: 1, max: 500 }),
      there: fc.nat(500),
      pack: fc.integer({ min: 1, max: 60 }),
    });
    fc.assert(
      fc.property(numbers, ({ count, there, pack }) => {
        const [magnet] = batch.fittings ?? [];
        if (magnet === undefined) throw new Error('it takes magnets');
        const fitting = { ...magnet, count, pack, atHand: { count: there, where: undefined } };
        const [bought] = fittingsToBuy({ fittings: [fitting] });
        const packs = bought?.packs ?? 0;
        expect(there + packs * pack).toBeGreaterThanOrEqual(count);
        if (packs > 0) expect(there + (packs - 1) * pack).toBeLessThan(count);
        expect(bought?.leftOver ?? 0).toBe(packs === 0 ? 0 : there + packs * pack - count);
      }),
    );
  });
});
