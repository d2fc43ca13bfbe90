import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { starterKit } from '../../src/cli/starterKit.ts';
import { inches, rational, showExact } from '../../src/measure/index.ts';
import type { Batch } from '../../src/model/index.ts';
import { batchOf } from './check.ts';

const paths = [
  'examples/drawer.yaml',
  'shared/card-and-foam.yaml',
  'specs/hillside.yaml',
  'specs/tram-stop.yaml',
  'examples/vineyard.yaml',
  'examples/tram-stop.yaml',
];
const files = Object.fromEntries(
  paths.map((path) => [path, readFileSync(new URL(`../../${path}`, import.meta.url), 'utf8')]),
);

function demo(path: string): Batch {
  // Under the name that the checks give to their file, which lies beside the folders.
  const text = (files[path] ?? '').replaceAll('../', '');
  return batchOf(text, { ...files, 'drawer.yaml': files['examples/drawer.yaml'] ?? '' });
}

function sizeOf(batch: Batch, label: string, unit: 'in' | 'mm'): string {
  for (const { parts } of batch.materials) {
    for (const { length, width, members } of parts) {
      if (members.some((it) => it.label === label))
        return `${showExact(length, unit)} x ${showExact(width, unit)}`;
    }
  }
  return 'nothing';
}

describe('the demos', () => {
  it.each(['specs/hillside.yaml', 'examples/vineyard.yaml'])('%s has the materials of a vineyard', (path) => {
    const materials = demo(path).materials.map(({ material }) => material.name);
    expect([...materials].sort()).toEqual(['foam', 'greyboard', 'packet card', 'twinwall']);
  });

  it('the vineyard has at least five different tiles, one of them a retaining wall', () => {
    const names = demo('specs/hillside.yaml').tiles.map(({ name }) => name);
    expect(names.length).toBeGreaterThanOrEqual(5);
    expect(names).toContain('retaining wall');
  });

  // Computed by hand: 3 - 2 x 1/16 = 2 7/8; 3 - 1/2 = 2 1/2; 3/4 - 3/16 - 1/16 = 1/2; 3 - 2 x 1/2 = 2; 6 x 3 flags of
  // 1 in. A mitred wall is as long outside as the square.
  it('the vineyard closes', () => {
    const batch = demo('specs/hillside.yaml');
    expect(sizeOf(batch, 'RW board', 'in')).toBe('3 in x 2 7/8 in');
    expect(sizeOf(batch, 'CI kerb', 'in')).toBe('2 1/2 in x 1/2 in');
    expect(sizeOf(batch, 'CI wall', 'in')).toBe('3 in x 1/2 in');
    expect(sizeOf(batch, 'CI water', 'in')).toBe('2 in x 2 in');
    const flags = batch.materials.flatMap(({ parts }) => parts.flatMap(({ members }) => members));
    expect(flags.find(({ part }) => part === 'flagstone')?.count).toBe(18);
  });

  // Computed by hand: 60 - 1.5 = 58.5; 60 - 2 x 14 - 2 x 1.5 - 2 x 1 = 27; 24 - 2 x 1.5 = 21, 16 - 2 x 1.5 = 13.
  it('the tram stop closes', () => {
    const batch = demo('examples/tram-stop.yaml');
    expect(sizeOf(batch, 'PLAT board', 'mm')).toBe('120 mm x 58.5 mm');
    expect(sizeOf(batch, 'RA middle', 'mm')).toBe('60 mm x 27 mm');
    expect(sizeOf(batch, 'PLAN soil', 'mm')).toBe('21 mm x 13 mm');
  });
});

describe('the starter kit', () => {
  const batch = batchOf(starterKit);

  it('cuts as it stands, from its own sheets', () => {
    expect(batch.materials.map(({ material, sheets }) => [material.name, sheets.length])).toEqual([
      ['mount board', 1],
      ['stripwood card', 1],
    ]);
    expect(batch.tiles.map(({ name, count }) => [name, count])).toEqual([['jetty', 1]]);
  });

  it('shows a sum that closes: 3 - 2 x 1/16 = 2 7/8', () => {
    expect(sizeOf(batch, 'JE cross', 'in')).toBe('2 7/8 in x 3/4 in');
    const planks = batch.materials[1]?.parts[0];
    expect(planks?.width).toEqual(inches(rational(3n, 8n)));
    expect(planks?.count).toBe(8);
  });
});
