import { describe, expect, it } from 'vitest';
import { millimetres, rational, toFraction } from '../../src/measure/index.ts';
import type { Bore, Length } from '../../src/model/index.ts';
import { boreWords } from '../../src/print/boreWords.ts';

const mm = (it: number): Length => millimetres(rational(BigInt(it)));
const style = { brief: toFraction, full: (it: Length) => `${toFraction(it)} mm`, clean: (it: string) => it };
const size = { fitting: 'magnet', diameter: mm(6), deep: mm(2) };
const face = (which: 'good' | 'other', x: number, y: number, deep: Length | undefined = size.deep): Bore => ({
  ...size,
  deep,
  into: { kind: 'face', face: which, at: { x: mm(x), y: mm(y) } },
});
const edge = (side: 'left' | 'right' | 'bottom' | 'top', along: number, up = 5): Bore => ({
  ...size,
  into: { kind: 'edge', side, along: mm(along), up: mm(up) },
});

// Expected: what a person would write down of the same holes.
describe('where to bore', () => {
  it('says of each face how deep and where', () => {
    expect(boreWords([face('good', 10, 20), face('good', 30, 20), face('other', 10, 20)], style)).toEqual([
      'Bore for magnet, 6 mm wide, 2 mm deep, from the good side: at 10 along, 20 up; at 30 along, 20 up.',
      'Bore for magnet, 6 mm wide, 2 mm deep, from the other side: at 10 along, 20 up.',
    ]);
    expect(boreWords([{ ...face('good', 10, 20), deep: undefined }], style)).toEqual([
      'The hole for magnet, 6 mm wide, right through: at 10 along, 20 up.',
    ]);
  });

  it('puts edges together that are bored at the same places, in the order of the rule', () => {
    const all = [edge('right', 50), edge('right', 10), edge('left', 10), edge('left', 50), edge('top', 30)];
    expect(boreWords(all, style)).toEqual([
      'Bore for magnet, 6 mm wide, 2 mm deep, 5 from the other side: into the left and right edges, 10 and 50 up each; into the top edge, 30 along it.',
    ]);
    expect(boreWords([edge('left', 10), edge('left', 10, 8)], style)).toHaveLength(2);
    expect(boreWords([], style)).toEqual([]);
  });
});
