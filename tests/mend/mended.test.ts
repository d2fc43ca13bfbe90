import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { checkUp } from '../../src/checkUp.ts';
import type { Diagnostic } from '../../src/model/index.ts';
import { runToEnd } from '../../src/pipeline.ts';
import { readSpec } from '../../src/spec/index.ts';

function saidOf(text: string): readonly Diagnostic[] {
  const file = { path: 'it.yaml', bytes: new TextEncoder().encode(text) };
  const { value, diagnostics } = readSpec([file], () => ({ kind: 'missing', reason: 'there is none' }));
  if (value === undefined) return diagnostics;
  return [...diagnostics, ...runToEnd(checkUp(value, {})).diagnostics];
}

const unclosed = (said: readonly Diagnostic[]) => said.filter(({ code }) => code === 'F01');

interface Layer {
  readonly kind: 'lies' | 'stands' | 'gap';
  /** Hundredths of a millimetre in the row's direction, where it is cut. */
  readonly size: number;
  readonly material: 0 | 1;
  readonly isNamed: boolean;
}

const layer: fc.Arbitrary<Layer> = fc.record({
  kind: fc.constantFrom('lies', 'stands', 'stands', 'gap'),
  size: fc.integer({ min: 100, max: 2000 }),
  material: fc.constantFrom(0, 1),
  isNamed: fc.boolean(),
});

interface Kit {
  readonly layers: readonly Layer[];
  readonly thick: readonly [number, number];
  /** Which of the sizes is off, and by how many hundredths. */
  readonly broken: number;
  readonly by: number;
  readonly way: 'across' | 'along';
  readonly unit: 'in' | 'mm';
}

const kits: fc.Arbitrary<Kit> = fc.record({
  layers: fc.array(layer, { minLength: 1, maxLength: 6 }),
  thick: fc.tuple(fc.integer({ min: 50, max: 600 }), fc.integer({ min: 50, max: 600 })),
  broken: fc.nat(5),
  by: fc.integer({ min: -90, max: 900 }).filter((it) => it < -50 || it > 0),
  way: fc.constantFrom('across', 'along'),
  unit: fc.constantFrom('in', 'mm'),
});

/** A tile whose one row would fill its footprint if one size were not off. */
function textOf({ layers, thick, broken, by, way, unit }: Kit): string {
  const hundredths = (it: number) => `${it / 100} mm`;
  const sizeOf = (it: Layer) => (it.kind === 'stands' ? thick[it.material] : it.size);
  const total = layers.reduce((all, it) => all + sizeOf(it), 0);
  const cut = layers.map((it, index) => ({ ...it, index })).filter(({ kind }) => kind !== 'stands');
  const off = cut.length === 0 ? undefined : cut[broken % cut.length];
  const written = (it: Layer, index: number) => hundredths(it.size + (off?.index === index ? by : 0));
  const lengths = layers.flatMap((it, index) =>
    it.kind === 'lies' && it.isNamed ? [`  size-${index}: ${written(it, index)}`] : [],
  );
  const parts = layers.flatMap((it, index) => {
    const material = `board ${it.material === 0 ? 'a' : 'b'}`;
    if (it.kind === 'gap') return [];
    if (it.kind === 'stands') return [`      p${index}: { of: ${material}, size: [60 mm, 10 mm] }`];
    const size = it.isNamed ? `size-${index}` : written(it, index);
    const pair = way === 'along' ? `[60 mm, ${size}]` : `[${size}, 60 mm]`;
    return [`      p${index}: { of: ${material}, size: ${pair}, lies: yes }`];
  });
  const members = layers.map((it, index) => (it.kind === 'gap' ? `gap ${written(it, index)}` : `p${index}`));
  const footprint = way === 'along' ? `[60 mm, ${hundredths(total)}]` : `[${hundredths(total)}, 60 mm]`;
  return `cardwright: kit
units: ${unit}
grid: { square: 60 mm, slack: 0.4 mm }
${lengths.length === 0 ? '' : `lengths:\n${lengths.join('\n')}\n`}materials:
  board a: { thickness: ${hundredths(thick[0])} }
  board b: { thickness: ${hundredths(thick[1])} }
sheets: { board a: [{ size: [2 m, 2 m] }], board b: [{ size: [2 m, 2 m] }] }
tiles:
  tile:
    footprint: ${footprint}
    parts:
      bed: { of: board a, size: ${footprint} }
${parts.join('\n')}
    build: { up: [bed, { ${way}: [${members.join(', ')}] }] }
print: { ruler: [0.01 mm] }
`;
}

describe('a mended build', () => {
  it('always closes', () => {
    let mended = 0;
    fc.assert(
      fc.property(kits, (kit) => {
        const text = textOf(kit);
        const before = unclosed(saidOf(text));
        const fix = before.find((it) => it.fix !== undefined)?.fix;
        if (fix === undefined) return;
        mended++;
        const after = text.slice(0, fix.span.start) + fix.text + text.slice(fix.span.end);
        const said = saidOf(after);
        expect(unclosed(said).length, after).toBeLessThan(before.length);
        expect(said.filter(({ code }) => !code.startsWith('F')).map(({ message }) => message)).toEqual([]);
      }),
      { numRuns: 60 },
    );
    expect(mended).toBeGreaterThan(6);
  });

  it('is offered wherever one size alone is free', () => {
    fc.assert(
      fc.property(kits, (kit) => {
        const free = kit.layers.filter(({ kind }) => kind !== 'stands');
        fc.pre(free.length === 1);
        const before = unclosed(saidOf(textOf(kit)));
        if (before.length === 0) return;
        expect(
          before.some(({ fix }) => fix !== undefined),
          textOf(kit),
        ).toBe(true);
      }),
      { numRuns: 25 },
    );
  });
});
