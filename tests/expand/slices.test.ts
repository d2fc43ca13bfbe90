import { describe, expect, it } from 'vitest';
import { slicesOf } from '../../src/expand/index.ts';
import { millimetres, rational, toFraction } from '../../src/measure/index.ts';
import { batchOf, check } from './check.ts';

const mm = (over: number) => millimetres(rational(BigInt(over), 8n));

/** A wire through a block, layer after layer: in eighths of a millimetre, and in whole numbers alone. */
function sliced(thick: number, layer: number, kerf: number): { layers: number; left: number } {
  let [layers, left] = [0, thick];
  while (left >= layer) {
    layers++;
    left -= layer;
    // The wire takes what there is, where that is less than it is wide.
    left = Math.max(0, left - kerf);
  }
  return { layers, left };
}

describe('a block', () => {
  it('gives as many layers as a wire takes off it, one after the other', () => {
    // Source: computed, layer by layer, for every block, layer and kerf up to these.
    for (let thick = 1; thick <= 60; thick++) {
      for (let layer = 1; layer <= 24; layer++) {
        for (let kerf = 0; kerf <= 6; kerf++) {
          const { layers, left } = slicesOf(mm(thick), mm(layer), mm(kerf));
          const found = { layers, left: toFraction(left) };
          const expected = sliced(thick, layer, kerf);
          // Of a block thinner than its layer nothing is sliced off, so nothing but the block is left.
          if (expected.layers === 0) expect(layers).toBe(0);
          else expect(found).toEqual({ layers: expected.layers, left: toFraction(mm(expected.left)) });
        }
      }
    }
  });

  const foam = (sheet: string, material = 'kerf: 1/32') => `
cardwright: session
units: in
materials: { foam: { thickness: 1/2, ${material} } }
sheets: { foam: [${sheet}] }
loose: { fill: { of: foam, size: [6, 6] } }
`;
  const sheetOf = (text: string) => batchOf(text).materials[0]!.sheets[0]!;

  it('is bought whole, and its layers are its sheets', () => {
    // Source: computed. 3 × 1/2 and two cuts of 1/32 go into 2 in; the third cut leaves 13/32.
    const sheet = sheetOf(foam('{ size: [24, 12], thick: 2, count: 2, price: 6.80 EUR }'));
    expect([sheet.available, sheet.pack, sheet.block?.layers]).toEqual([6, 3, 3]);
    expect(toFraction(sheet.block!.left)).toBe(toFraction(millimetres(rational(13n * 127n, 160n))));
    const packed = sheetOf(foam('{ size: [24, 12], thick: 2, pack: 2, price: 6.80 EUR }'));
    expect([packed.available, packed.pack]).toEqual(['as needed', 6]);
  });

  it('gives four layers of a quarter where nothing is lost, and one where it is as thick as its layer', () => {
    expect(sheetOf(foam('{ size: [24, 12], thick: 2 }', 'kerf: 0')).block?.layers).toBe(4);
    const one = sheetOf(foam('{ size: [24, 12], thick: 1/2 }'));
    expect([one.pack, one.block?.layers, toFraction(one.block!.left)]).toEqual([undefined, 1, '0']);
  });

  it('goes by the kerf that is said most particularly', () => {
    const text = `${foam('{ size: [24, 12], thick: 2 }')}cutting: { only: { foam: { kerf: 1/4 } } }\n`;
    expect(sheetOf(text).block?.layers).toBe(3);
    expect(sheetOf(text.replace('kerf: 1/4', 'kerf: 3/8')).block?.layers).toBe(2);
  });

  it('is refused where it is thinner than a layer', () => {
    check(`
cardwright: session
units: in
materials: { foam: { thickness: 1/2 } }
sheets: { foam: [{ size: [24, 12], thick: 3/8 }] }
#                                         ^^^ error P11: the block is 3/8 in thick, and a layer of "foam" 1/2 in
loose: { fill: { of: foam, size: [6, 6] } }
`);
  });
});
