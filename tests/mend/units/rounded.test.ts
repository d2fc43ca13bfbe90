import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { checkUp } from '../../../src/checkUp.ts';
import { isZero, minus, sum, toDrawnMm, zero } from '../../../src/measure/index.ts';
import { basesOf, driftOf } from '../../../src/mend/units/bases.ts';
import type { Length, Spec } from '../../../src/model/index.ts';
import { runToEnd } from '../../../src/pipeline.ts';
import { anyKit, textOf } from './anyKit.ts';
import { convert, mm, read, verdicts } from './converting.ts';

const wall = (core: string, more = ''): string => `cardwright: kit
units: in
grid: { square: 3 }
materials: { greyboard: { thickness: 1/16${more} }, foam: { thickness: 1/2 } }
sheets: { greyboard: [{ size: [16, 12] }], foam: [{ size: [24, 12] }] }
tiles:
  wall:
    parts:
      face: { of: greyboard, size: [square, 1] }
      core: { of: foam, size: [square, ${core}], lies: yes }
    build: { along: [face, core, face] }
`;

function codes({ diagnostics }: ReturnType<typeof convert>): readonly string[] {
  return diagnostics.filter(({ severity }) => severity === 'error').map(({ code }) => code);
}

describe('a kit rounded to a step', () => {
  // 3 in is 76.2 mm, and 2 7/8 in between two boards of 1/16 in is 73.025 + 2 × 1.5875. Each to its nearest half
  // millimetre is 73 + 3.175 = 76.175 in 76: over. Worked out by hand.
  it('closes where each size rounded by itself would not', () => {
    const { kit, texts } = convert({ 'kit.yaml': wall('2 7/8') }, 'mm', { step: mm(1, 2) });
    const rounding = kit?.changes?.rounded?.rounding;
    expect(rounding?.wouldFall).toEqual(['wall']);
    expect(texts[0]).toContain('square: 76.5');
    expect(texts[0]).toContain('core: { of: foam, size: [square, 73], lies: yes }');
    expect(verdicts(texts[0] ?? '')).toEqual([]);
    // 0.3 of the square, 0.025 of the core, 0.1 of the height of the face: no choice has less.
    expect(rounding?.drift).toEqual(sum(mm(3, 10), mm(25, 1000), mm(1, 10)));
    expect(rounding?.isProved).toBe(true);
  });

  it('says that no choice does, and which step would', () => {
    const ran = convert({ 'kit.yaml': wall('2 7/8') }, 'mm', { step: mm(1) });
    expect(ran.kit).toBeUndefined();
    const [said] = ran.diagnostics.filter(({ code }) => code === 'N06');
    expect(said?.hints.join()).toContain('--round 0.5mm');
  });

  it('leaves to sums what follows from others', () => {
    const { kit, texts } = convert({ 'kit.yaml': wall('(square - 2 x thickness of greyboard)') }, 'mm', {
      step: mm(1),
    });
    expect(texts[0]).toContain('square: 76 }');
    expect(texts[0]).toContain('(square - 2 x thickness of greyboard)');
    expect(kit?.changes?.worse).toEqual([]);
  });

  it('keeps boards, what was measured, sheets and tolerances as the things they are', () => {
    const { texts } = convert({ 'kit.yaml': wall('2 7/8', ', measured: 1.55 mm') }, 'mm', { step: mm(1, 2) });
    expect(texts[0]).toContain('thickness: 1.5875, measured: 1.55 mm');
    expect(texts[0]).toContain('[{ size: [406.4, 304.8] }]');
  });

  it('closes around a board that can be bought', () => {
    const materials = [{ material: 'greyboard', thickness: mm(2), argument: '' }];
    const { texts, kit } = convert({ 'kit.yaml': wall('2 7/8') }, 'mm', { step: mm(1, 2), materials });
    expect(texts[0]).toContain('greyboard: { thickness: 2 }');
    expect(verdicts(texts[0] ?? '')).toEqual([]);
    expect(kit?.changes?.rounded?.rounding.isProved).toBe(true);
    expect(codes(convert({ 'kit.yaml': wall('2 7/8') }, 'mm', { materials }))).toEqual(['N08']);
  });

  it('scales sizes and not boards, and says what no longer closes', () => {
    const text = wall('(square - 2 x thickness of greyboard)');
    const half = { numerator: 1n, denominator: 2n };
    const { texts, diagnostics } = convert({ 'kit.yaml': text }, 'in', { factor: half });
    expect(diagnostics.filter(({ severity }) => severity === 'error')).toEqual([]);
    expect(texts[0]).toContain('square: 1 1/2 }');
    expect(texts[0]).toContain('thickness: 1/16');
    expect(texts[0]).toContain('size: [16, 12]');
    const plain = { 'kit.yaml': wall('2 7/8') };
    expect(codes(convert(plain, 'in', { factor: half }))).toEqual(['N08']);
    const scaled = convert(plain, 'in', { factor: half, boards: 'scaled' });
    expect(codes(scaled)).toEqual([]);
    expect(scaled.texts[0]).toContain('thickness: 1/32');
  });

  it('never gives a kit whose check fails as it did not before', () => {
    const step = fc.constantFrom(mm(1), mm(1, 2), mm(1, 5), mm(1, 10), mm(1, 100));
    let given = 0;
    fc.assert(
      fc.property(anyKit, step, (kit, step) => {
        const text = textOf(kit);
        const ran = convert({ 'kit.yaml': text }, 'mm', { step });
        if (ran.kit === undefined) {
          expect(codes(ran).length).toBeGreaterThan(0);
          return;
        }
        given += 1;
        const before = new Set(verdicts(text));
        expect(verdicts(ran.texts[0] ?? '').filter((it) => !before.has(it))).toEqual([]);
      }),
      { numRuns: 40 },
    );
    expect(given).toBeGreaterThan(10);
  });

  it('has the least drift there is, or there is none: beside all choices tried one by one', () => {
    let [decided, none] = [0, 0];
    fc.assert(
      fc.property(anyKit, fc.constantFrom(mm(1, 2), mm(1)), (kit, step) => {
        const text = textOf({ ...kit, tiles: kit.tiles.slice(0, 1) });
        const exact = convert({ 'kit.yaml': text }, 'mm').texts[0] ?? '';
        const spec = read({ 'kit.yaml': exact }, ['kit.yaml']).value;
        if (spec === undefined) throw new Error('it was read before');
        const bases = basesOf(spec, spec, step, 0);
        if (bases.filter(({ choices }) => choices.length > 1).length > 7) return;
        const best = leastByTrying(spec, bases, new Set(verdicts(text)));
        const ran = convert({ 'kit.yaml': text }, 'mm', { step });
        const rounding = ran.kit?.changes?.rounded?.rounding;
        if (best === undefined) {
          expect(ran.kit).toBeUndefined();
          none += 1;
          return;
        }
        expect(rounding?.isProved).toBe(true);
        const sizes = rounding?.sizes ?? [];
        const drift = sizes.map((it, at) => driftOf(it, bases[at]!.worth)).reduce((a, b) => sum(a, b), zero);
        expect(isZero(minus(drift, best))).toBe(true);
        decided += 1;
      }),
      { numRuns: 25 },
    );
    expect(decided).toBeGreaterThan(5);
    expect(none).toBeGreaterThan(0);
  });
});

/** Every choice of every size, each checked as a whole; the least drift with which nothing new is wrong. */
function leastByTrying(
  spec: Spec,
  bases: ReturnType<typeof basesOf>,
  before: ReadonlySet<string>,
): Length | undefined {
  let least: Length | undefined;
  const wholes = bases.reduce((all, { choices }) => all * choices.length, 1);
  for (let number = 0; number < wholes; number++) {
    let rest = number;
    let drift = zero;
    const instead = bases.map(({ literal, worth, choices }) => {
      const size = choices[rest % choices.length] ?? worth;
      rest = Math.floor(rest / choices.length);
      drift = sum(drift, driftOf(size, worth));
      return { at: literal.at, value: size };
    });
    if (least !== undefined && minus(drift, least).numerator >= 0n) continue;
    const { diagnostics } = runToEnd(checkUp(spec, { instead }));
    const isNew = diagnostics
      .filter(({ severity }) => severity !== 'note')
      .some(({ code, message }) => !before.has(`${code} ${/"[^"]*"/u.exec(message)?.[0] ?? ''}`));
    if (!isNew) least = drift;
  }
  return least;
}

const drawn = (outline: string) => `cardwright: kit
units: in
materials: { greyboard: { thickness: 1/16 } }
sheets: { greyboard: [{ size: [16, 12] }] }
tiles:
  gate: { footprint: none, parts: { face: { of: greyboard, outline: ${outline} } } }
`;

// Computed: 1 in is 25.4 mm, next to 25.5, and its half 12.7, next to 12.5; but 25.5 is not twice 12.5.
describe('half a circle', () => {
  const half = (outline: string) => {
    const { kit, texts, diagnostics } = convert({ 'kit.yaml': drawn(outline) }, 'mm', { step: mm(1, 2) });
    expect(diagnostics.filter(({ severity }) => severity !== 'note')).toEqual([]);
    return { text: texts[0] ?? '', arcs: kit?.changes?.rounded?.rounding.halfCircles };
  };

  it('stays one: its ends are rounded with its rise or radius', () => {
    for (const key of ['rise', 'radius']) {
      const { text, arcs } = half(
        `{ path: [[0, 0], [3, 0], { arc: [3, 1], ${key}: 1/2, swells: right }, [0, 1]] }`,
      );
      // What is level above it stays level.
      expect(text).toContain(`[76, 0], { arc: [76, 25], ${key}: 12.5, swells: right }, [0, 25]] }`);
      expect(arcs).toEqual({ count: 1, bent: [], wouldBend: 1 });
    }
    const { text, arcs } = half('{ arched: { width: 1, sides: 1, rise: 1/2 } }');
    expect(text).toContain('{ width: 25, sides: 25.5, rise: 12.5 }');
    expect(arcs).toEqual({ count: 1, bent: [], wouldBend: 1 });
  });

  it('is not asked of an arc that is less than that', () => {
    const { text, arcs } = half('{ arched: { width: 1, sides: 1, rise: 1/4 } }');
    expect(text).toContain('{ width: 25.5, sides: 25.5, rise: 6.5 }');
    expect(arcs).toEqual({ count: 0, bent: [], wouldBend: 0 });
  });

  it('is told where it lies aslant, with how much its chord is off', () => {
    // 3, 4, 5: from 3 across and 0 up to 0 across and 4 up. 76 and 101.5 make 126.8000... over twice 63.5.
    const { arcs } = half('{ path: [[0, 0], [3, 0], { arc: [0, 4], rise: 2 1/2, swells: right }] }');
    expect(arcs?.count).toBe(1);
    const [bent] = arcs?.bent ?? [];
    expect(toDrawnMm(bent!.off)).toBeCloseTo(Math.hypot(76, 101.5) - 127, 6);
  });
});
