import { describe, expect, it } from 'vitest';
import { expand } from '../../src/expand/index.ts';
import type { Overrides, Spec } from '../../src/model/index.ts';
import { batchOf, expandText, specOf } from './check.ts';

const kit = `cardwright: kit
units: in
grid: { square: 3 }
materials: { card: { thickness: 1/16 } }
tiles:
  wall: { parts: { face: { of: card, size: [3, 2], count: 2 } } }
  hut: { parts: { roof: { of: card, size: [3, 3] } } }
`;
const files = { 'kit.yaml': kit };
const session = 'cardwright: session\nunits: in\nuses: [kit.yaml]\n';
const make = (...counts: readonly [string, number][]): Overrides => ({
  make: counts.map(([tile, count]) => ({ tile, count, argument: `--make ${tile}=${count}` })),
});

function countsOf(text: string, others: Readonly<Record<string, string>> = {}, overrides: Overrides = {}) {
  return batchOf(text, others, overrides).tiles.map(({ name, count }) => `${count} ${name}`);
}

describe('what is made', () => {
  it('is one of each tile of a kit alone', () => {
    expect(countsOf(kit)).toEqual(['1 wall', '1 hut']);
  });

  it('is what the session says', () => {
    expect(countsOf(`${session}make: { hut: 2, wall: 0 }\n`, files)).toEqual(['2 hut']);
  });

  it('is what the command line says, and nothing else; the last word on a tile counts', () => {
    const asked = make(['wall', 2], ['wall', 3]);
    expect(countsOf(`${session}make: { hut: 2 }\n`, files, asked)).toEqual(['3 wall']);
    expect(countsOf(kit, {}, asked)).toEqual(['3 wall']);
  });

  it('is one of each tile seen where a session asks for nothing itself', () => {
    expect(countsOf(session, files)).toEqual(['1 wall', '1 hut']);
  });

  it('is the loose parts alone where there are only these', () => {
    const batch = batchOf(`${session}loose: { post: { of: card, size: [1, 1], count: 12 } }\n`, files);
    expect(batch.tiles).toEqual([]);
    expect(batch.materials[0]?.parts.map(({ count }) => count)).toEqual([12]);
  });

  it('adds up over several sessions, beside which a kit asks for nothing', () => {
    const one = specOf(`${session}make: { hut: 2 }\n`, files).files[0];
    const [used] = one.uses;
    if (used === undefined) throw new Error('the session uses a kit');
    const two = { ...specOf('cardwright: session\nmake: { hut: 1, wall: 4 }\n').files[0], uses: [used] };
    const spec: Spec = { files: [used, one, two] };
    const { value } = expand(spec, {});
    expect(value?.tiles.map(({ name, count }) => `${count} ${name}`)).toEqual(['3 hut', '4 wall']);
  });

  it('is not doubled by naming a file twice', () => {
    const [file] = specOf(`${session}make: { hut: 2 }\n`, files).files;
    expect(expand({ files: [file, file] }, {}).value?.tiles).toMatchObject([{ name: 'hut', count: 2 }]);
  });

  it('names the argument that asks for an unknown tile', () => {
    const { diagnostics } = expandText(kit, {}, make(['wal', 2]));
    expect(diagnostics).toMatchObject([
      {
        code: 'E22',
        place: { kind: 'argument', argument: '--make wal=2' },
        message: 'unknown tile "wal"; did you mean "wall"?',
        hints: ["--make 'wall=2'", 'known here: wall, hut'],
      },
    ]);
  });

  it('names the argument that leaves nothing to make', () => {
    const { diagnostics } = expandText(kit, {}, make(['wall', 0]));
    expect(diagnostics).toMatchObject([
      {
        code: 'E35',
        place: { kind: 'argument', argument: '--make wall=0' },
        hints: ['a count above 0, or leave --make out'],
      },
    ]);
  });

  it('changes no label: letters are given to all tiles at hand', () => {
    const walls = kit.replace('hut:', 'wattle fence:').replace('wall:', 'wicker fence:');
    const labels = (overrides: Overrides) =>
      batchOf(walls, {}, overrides).materials.flatMap(({ parts }) =>
        parts.flatMap(({ members }) => members.map(({ label }) => label)),
      );
    expect(labels({})).toEqual(['WAF roof', 'WIF face']);
    expect(labels(make(['wicker fence', 1]))).toEqual(['WIF face']);
  });

  it('multiplies what one tile needs', () => {
    const [kind] = batchOf(kit, {}, make(['wall', 100_000])).materials[0]?.parts ?? [];
    expect(kind).toMatchObject({ count: 200_000, members: [{ each: 2, count: 200_000, label: 'WA face' }] });
  });
});
