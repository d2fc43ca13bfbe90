import { describe, expect, it } from 'vitest';
import { bareExact } from '../../src/measure/index.ts';
import type { DrawnPart } from '../../src/model/index.ts';
import { pipeline, runToEnd } from '../../src/pipeline.ts';
import { foldedFrom, foldRows, foldWork } from '../../src/print/foldWords.ts';
import { sliceWords } from '../../src/print/sliceWords.ts';
import { batchOf, specOf } from '../expand/check.ts';

const brief = (length: Parameters<typeof bareExact>[0]) => bareExact(length, 'mm');

function drawn(folds: string, more = ''): DrawnPart {
  const { materials } = batchOf(`cardwright: session
units: mm
materials: { board: { thickness: 1.5 } }
sheets: { board: [{ size: A3 }] }
loose: { strip: { of: board, folds: ${folds}${more} } }
`);
  return materials[0]!.parts[0]!.members[0].drawn!;
}
const rows = (folds: string) => foldRows(drawn(folds).outline!, brief);

describe('how a part is folded, in words', () => {
  it('names the side that is worked on, where, and which way it goes', () => {
    expect(rows('{ panels: [12, 30, 12], angles: [90, 90], width: 40 }')).toEqual([
      'Score on the good side, at 10.5 and 37.5 along, down to the last of the paper; fold 90 degrees away from you: the cut opens.',
    ]);
    expect(rows('{ panels: [12, 30], angles: [-22.5], width: 40, by: groove }')).toEqual([
      'Cut a V of 22 1/2 degrees out of the good side, at 12 along at its point, down to the outer paper; fold toward you: it closes.',
    ]);
    expect(rows('{ panels: [12, 30], angles: [{ rise: 1, run: -1 }], width: 40, by: groove }')).toEqual([
      'Cut a V of about 135.0 degrees out of the other side, at 12 along at its point, down to the outer paper; fold away from you: it closes.',
    ]);
    expect(rows('{ panels: [12, 30], angles: [{ rise: 6, run: 8 }], width: 40, by: crease }')).toEqual([
      'Press a crease into the other side, at 11.75 along; fold 3 in 4 (about 36.9 degrees) away from you.',
    ]);
  });

  // Computed: all round a room of 60 x 40 the last wall ends on the inside of the first, 1.5 thick: 40 - 1.5. Whoever holds
  // a rule to that side of the finished room reads 40.
  it('tells of walls all round how long their last is, and how long its side', () => {
    const wallsOf = (walls: string) => {
      const { materials } = batchOf(`cardwright: kit
units: mm
materials: { board: { thickness: 1.5 } }
sheets: { board: [{ size: A3 }] }
tiles:
  kiosk:
    footprint: [60, 40]
    parts: { wall: { of: board, size: [rest, 30] } }
    build: { frame: { ${walls} }, corners: fold }
`);
      return foldedFrom(materials[0]!.parts[0]!.members[0].drawn!.folds!, brief).split(' outside')[0];
    };
    expect(wallsOf('front: wall, right: wall, back: wall, left: wall')).toBe(
      'folds to walls of 60 (front), 40 (right), 60 (back) and 38.5 (left, 40 with the edge of the front)',
    );
    expect(wallsOf('front: wall, right: wall, left: wall')).toBe(
      'folds to walls of 40 (left), 60 (front) and 40 (right)',
    );
  });

  // Computed: outside less the score of 2 x 1.5 at each fold, so the base is 57 x 37 at (10.5, 10.5), its long walls 54.
  it('tells the folds of a tray and of its tabs apart, and that none goes right across', () => {
    expect(rows('{ tray: [60, 40], high: 12, tab: 8 }').map((it) => it.split(', down')[0])).toEqual([
      'Score on the good side, at 10.5 and 67.5 along, only from 10.5 to 47.5',
      'Score on the good side, at 10.5 and 47.5 up, only from 12 to 66',
      'Score on the good side, at 12 and 66 along, only from 0 to 10.5 and from 47.5 to 58',
    ]);
  });

  it('says what it folds to, tabs apart', () => {
    const said = (folds: string) => foldedFrom(drawn(folds).folds!, brief);
    expect(said('{ panels: [12, 30, 12], angles: [90, 90], width: 40, tab: 5 }')).toBe(
      // Three folds that take two thicknesses of 1.5 each.
      'folds to panels of 12, 30 and 12 outside, a tab of 5, together 9 more than the blank, which its folds take',
    );
    expect(said('{ panels: [12, 30], angles: [90], width: 40, by: groove }')).toBe(
      'folds to panels of 12 and 30 outside',
    );
    expect(said('{ tray: [60, 40], high: 12, tab: 8 }')).toBe('folds to a tray of 60 × 40 × 12 outside');
  });

  it('scores before anything is notched, and folds last', () => {
    expect(foldWork(drawn('{ panels: [12, 30], angles: [90], width: 40 }').outline!)).toEqual({
      first: ['score its fold'],
      last: ['fold it last'],
    });
  });
});

describe('how blocks are sliced, in words', () => {
  const words = (count: number, sheet: string): readonly string[] => {
    const text = `cardwright: session
units: mm
materials: { foam: { thickness: 10, kerf: 1 } }
sheets: { foam: [${sheet}] }
loose: { slab: { of: foam, size: [390, 290], count: ${count} } }
`;
    const { value } = runToEnd(pipeline(specOf(text), {}));
    const shown = {
      pair: (a: Parameters<typeof brief>[0], b: Parameters<typeof brief>[0]) => `${brief(a)} × ${brief(b)}`,
      thickness: (it: Parameters<typeof brief>[0]) => `${brief(it)} mm`,
    };
    return value!.plans.flatMap((plan) => sliceWords(plan, shown));
  };

  it('says how many blocks, into how many layers, and what is left of each', () => {
    // Source: computed. 50 − 4 × 10 − 4 × 1 = 6.
    expect(words(6, '{ size: [400, 300], thick: 50 }')).toEqual([
      'Slice 2 blocks of 400 × 300, 50 mm thick, into 4 layers each of 10 mm, a cut taking 1 mm: 6 mm of each is left. ' +
        '6 layers are cut up, 2 left whole.',
    ]);
    expect(words(4, '{ size: [400, 300], thick: 43 }')).toEqual([
      'Slice 1 block of 400 × 300, 43 mm thick, into 4 layers of 10 mm, a cut taking 1 mm.',
    ]);
    expect(words(1, '{ size: [400, 300] }')).toEqual([]);
  });
});
