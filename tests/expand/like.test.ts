import { describe, expect, it } from 'vitest';
import { showExact } from '../../src/measure/index.ts';
import type { Batch } from '../../src/model/index.ts';
import { batchOf, expandText } from './check.ts';

const kit = `cardwright: kit
units: in
grid: { square: 3 }
materials: { card: { thickness: 1/16, grain: yes }, foam: { thickness: 1/2 } }
`;

/** Every part of a batch: tile, part, material, sizes as cut, rule, count in one tile. */
function partsOf(batch: Batch): readonly string[] {
  return batch.materials
    .flatMap(({ material, parts }) =>
      parts.flatMap((kind) =>
        kind.members.map(({ tile, part, each }) => {
          const size = `${showExact(kind.length, 'in')} x ${showExact(kind.width, 'in')}`;
          return `${tile}: ${each} ${part} of ${material.name}, ${size}, grain ${kind.grain}`;
        }),
      ),
    )
    .sort();
}

describe('a part that is like another', () => {
  it('finds that one among the shared ones: a loose part is no pattern, and it is told what to do', () => {
    const { diagnostics } = expandText(`cardwright: session
units: in
materials: { card: { thickness: 1/16 } }
loose:
  peg: { of: card, size: [1, 1] }
  pin: { like: peg, count: 3 }
`);
    expect(diagnostics.map(({ code, hints }) => [code, ...hints])).toEqual([
      ['E21', 'put "peg" under parts: and take it up under loose: with peg: { like: peg }'],
    ]);
  });

  it('takes what it leaves unsaid, and its sums are worked out for its own tile', () => {
    const batch =
      batchOf(`${kit}parts: { skin: { of: card, size: [tile across, rise], grain: length, count: 2 } }
lengths: { rise: 1 }
tiles:
  one: { parts: { skin: { like: skin } } }
  two: { squares: [2, 1], lengths: { rise: 2 }, parts: { skin: { like: skin, count: 3 }, back: { like: skin, grain: none } } }
`);
    expect(partsOf(batch)).toEqual([
      'one: 2 skin of card, 3 in x 1 in, grain length',
      'two: 3 back of card, 6 in x 2 in, grain any',
      'two: 3 skin of card, 6 in x 2 in, grain length',
    ]);
  });

  it('takes its own tile’s part before a shared one of that name', () => {
    const batch = batchOf(`${kit}parts: { a: { of: foam, size: [1, 1] } }
tiles: { t: { parts: { a: { of: card, size: [2, 2] }, b: { like: a } } } }
`);
    expect(partsOf(batch)).toEqual([
      't: 1 a of card, 2 in x 2 in, grain any',
      't: 1 b of card, 2 in x 2 in, grain any',
    ]);
  });

  it('takes the label along only with the name', () => {
    const batch = batchOf(`${kit}parts: { turf: { of: card, size: [1, 1], label: top card } }
tiles: { terrace: { parts: { turf: { like: turf }, back: { like: turf } } } }
`);
    const labels = batch.materials.flatMap(({ parts }) => parts.flatMap(({ members }) => members));
    expect(labels.map(({ label }) => label)).toEqual(['TE back', 'TE top card']);
  });
});

describe('a tile that is like another', () => {
  const wall = `tiles:
  wall:
    squares: [2, 1]
    height: 2
    note: solid
    lengths: { rise: 1, half: (rise / 2) }
    parts:
      face: { of: card, size: [tile across, rise], grain: length, count: 2 }
      cap: { of: foam, size: [half, half] }
`;

  it('merges lengths and parts by name, parts by key, and works its sums out anew', () => {
    const batch = batchOf(
      `${kit}${wall}  low wall:
    like: wall
    lengths: { rise: 3/4 }
    parts: { face: { count: 1 }, cap: none, sole: { of: foam, size: [tile height, half] } }
make: { low wall: 1 }
`.replace('cardwright: kit', 'cardwright: session'),
    );
    expect(partsOf(batch)).toEqual([
      'low wall: 1 face of card, 6 in x 3/4 in, grain length',
      'low wall: 1 sole of foam, 2 in x 3/8 in, grain any',
    ]);
    expect(batch.tiles.map(({ label, note }) => [label, note])).toEqual([['low wall', 'solid']]);
  });

  it('replaces the ground whole, whichever way it is said', () => {
    const batch = batchOf(`${kit}${wall}  patch: { like: wall, footprint: [4, 1], parts: { cap: none } }
`);
    const across = batch.tiles.map(({ footprint }) => footprint && showExact(footprint.across, 'in'));
    expect(across).toEqual(['6 in', '4 in']);
  });

  it('is cut alike where it changes nothing: its parts join the kinds of the first', () => {
    const kinds = (text: string) =>
      batchOf(`${kit}${text}`).materials.flatMap(({ parts }) =>
        parts.map(({ length, width, grain }) => ({ length, width, grain })),
      );
    expect(kinds(`${wall}  same: { like: wall }\n`)).toEqual(kinds(wall));
  });

  it('may be like a variant', () => {
    const batch = batchOf(`${kit}${wall}  b: { like: wall, lengths: { rise: 2 } }
  c: { like: b, parts: { face: none } }
`);
    expect(partsOf(batch)).toContain('c: 1 cap of foam, 1 in x 1 in, grain any');
  });

  it('may come from another file, whose own names its sums keep', () => {
    const batch = batchOf(
      `cardwright: session
units: mm
uses: [kit.yaml]
tiles: { mine: { like: wall, parts: { cap: { size: [10, base] } } } }
lengths: { base: 5 }
`,
      { 'kit.yaml': `${kit}${wall}` },
    );
    expect(partsOf(batch)).toEqual([
      'mine: 1 cap of foam, 50/127 in x 25/127 in, grain any',
      'mine: 2 face of card, 6 in x 1 in, grain length',
    ]);
  });
});
