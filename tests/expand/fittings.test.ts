import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Batch } from '../../src/model/index.ts';
import { batchOf, check, expandText } from './check.ts';

const kit = `cardwright: session
units: in
grid: { square: 3 }
materials: { card: { thickness: 1/16 } }
sheets: { card: [{ size: [16, 12] }] }
fittings:
  disc magnet: { diameter: 6 mm, depth: 2 mm, poles: yes, pack: 50, price: 4.20 EUR, label: magnet }
  skewer: {}
  glue stick: { pack: (2 x 5) }
tiles:
  floor:
    numbers: { corners: 4 }
    parts:
      top: { of: card, size: [3, 3] }
      post: { of: card, size: [1, 1/4], count: 2, takes: { skewer: 1 } }
    takes: { disc magnet: (corners) }
  plain floor: { like: floor, numbers: { corners: 6 }, takes: { skewer: 5 } }
  bare floor: { like: floor, takes: { disc magnet: none }, parts: { post: { takes: none } } }
loose: { gate: { of: card, size: [1, 1], count: 3, takes: { skewer: 2 } } }
`;

function counts({ fittings = [] }: Batch): Readonly<Record<string, number>> {
  return Object.fromEntries(fittings.map(({ name, count }) => [name, count]));
}

describe('what is not cut from a sheet', () => {
  // Source: computed by hand from the text above.
  it('is counted by tile, part, loose part and session', () => {
    const text = `${kit}make: { floor: 3, plain floor: 1, bare floor: 2 }\ntakes: { glue stick: 2 }\n`;
    const batch = batchOf(text);
    expect(counts(batch)).toEqual({
      'disc magnet': 3 * 4 + 6,
      skewer: 3 * 2 + (2 + 5) + 3 * 2,
      'glue stick': 2,
    });
    const [magnet] = batch.fittings ?? [];
    expect(magnet).toMatchObject({ label: 'magnet', pack: 50, hasPoles: true, spares: 0, atHand: undefined });
    expect(magnet?.diameter).toMatchObject({ numerator: 6n, denominator: 1n });
    expect(magnet?.uses).toEqual([
      { tile: 'floor', part: undefined, each: 4, count: 12 },
      { tile: 'plain floor', part: undefined, each: 6, count: 6 },
    ]);
  });

  it('has spares over all that is taken: a number once, a share rounded up', () => {
    const text = `${kit}make: { floor: 3 }\nspares: { disc magnet: 2, skewer: 10% }\n`;
    expect(counts(batchOf(text))).toEqual({ 'disc magnet': 14, skewer: 12 + 2 });
  });

  it('parts over the evenings as the tiles do, what is taken once on the first', () => {
    const tiles = fc.record({
      floor: fc.integer({ min: 0, max: 9 }),
      'plain floor': fc.integer({ min: 0, max: 9 }),
    });
    fc.assert(
      fc.property(tiles, tiles, (first, second) => {
        const make = (it: typeof first): string =>
          `{ floor: ${it.floor}, plain floor: ${it['plain floor']} }`;
        const all = {
          floor: first.floor + second.floor,
          'plain floor': first['plain floor'] + second['plain floor'],
        };
        const text = `${kit}make: ${make(all)}
takes: { glue stick: 2 }
spares: { disc magnet: 2 }
evenings: [{ make: ${make(first)} }, { make: rest }]
`;
        const onEvening = (name: string) => counts(batchOf(text, {}, { evening: { name, argument: name } }));
        const [one, two] = [onEvening('1'), onEvening('2')];
        for (const [name, count] of Object.entries(counts(batchOf(text)))) {
          expect((one[name] ?? 0) + (two[name] ?? 0)).toBe(count);
        }
        expect(two['glue stick']).toBeUndefined();
      }),
      { numRuns: 40 },
    );
  });

  it('lies in the drawer, where that is counted', () => {
    const drawer = 'cardwright: drawer\nfittings: { skewer: 7, glue stick: { count: 1, where: tin } }\n';
    const text = `${kit}make: { floor: 1 }\ntakes: { glue stick: 1 }\ndrawer: drawer.yaml\n`;
    const atHand = (batch: Batch) => batch.fittings?.map((it) => [it.name, it.atHand]);
    expect(atHand(batchOf(text, { 'drawer.yaml': drawer }))).toEqual([
      ['disc magnet', { count: 0, where: undefined }],
      ['skewer', { count: 7, where: undefined }],
      ['glue stick', { count: 1, where: 'tin' }],
    ]);
    const silent = batchOf(text, { 'drawer.yaml': 'cardwright: drawer\n' });
    expect(silent.fittings?.every((it) => it.atHand === undefined)).toBe(true);
  });

  it('in the drawer may be of other kits; what looks misspelt is told (E87)', () => {
    const drawer = 'cardwright: drawer\nfittings: { skewers: 7, door hinge: 2 }\n';
    const { diagnostics } = expandText(`${kit}make: { floor: 1 }\ndrawer: drawer.yaml\n`, {
      'drawer.yaml': drawer,
    });
    expect(diagnostics.map(({ code, message }) => [code, message])).toEqual([
      [
        'E87',
        'no file knows the fitting "skewers"; did you mean "skewer"?; what the drawer lists of it is not used',
      ],
    ]);
  });
});

describe('faults of fittings', () => {
  it('are told where they stand: what nobody describes (E86), what is no count, no size', () => {
    check(`
fittings:
  skewer: { diameter: -3 mm, pack: 0 }
#                     ^^^^^ error E12: comes to -15/127 in; it has to be above zero
#                                  ^ error E15: fittings in a pack go from 1 to 1 000 000, not 0
takes: { skewers: 2, skewer: 1/2 }
#        ^^^^^^^ error E86: no fitting is called "skewers"; did you mean "skewer"?
#                            ^^^ error E14: fittings come in whole numbers, not 1/2
`);
  });
});
