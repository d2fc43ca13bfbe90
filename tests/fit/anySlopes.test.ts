import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { expand } from '../../src/expand/index.ts';
import { judge } from '../../src/fit/index.ts';
import type { TileFit } from '../../src/model/index.ts';
import { specOf } from '../expand/check.ts';
import { float } from './bodiesByHand.ts';

/** Slopes and curves whose lengths are hardly ever rational: what was rounded on the way raises no false alarm. */
function fitOf(text: string): TileFit | string {
  const { value, diagnostics } = expand(specOf(text), {});
  if (diagnostics.length > 0) return diagnostics.map(({ code, message }) => `${code} ${message}`).join('\n');
  const [build] = value!.builds;
  return judge(build!, { ruler: value!.settings.ruler.value, wander: undefined });
}

const opening = (t: string) => `cardwright: kit
units: mm
grid: { square: 60, slack: 0.2, lip: 0.2 }
print: { ruler: 0.1 }
materials: { card: { thickness: ${t} }, foam: { thickness: 10 }, paper: { thickness: 1/2 } }
sheets: { card: [{ size: [800, 800] }], foam: [{ size: [800, 800] }], paper: [{ size: [800, 800] }] }
`;

const faultsOf = ({ faults }: TileFit) =>
  faults.map((it) => `${it.kind} ${'part' in it ? it.part.name : ''}`);

describe('slopes at random', () => {
  const slopes = fc.record({
    run: fc.integer({ min: 20, max: 200 }),
    rise: fc.integer({ min: 2, max: 60 }),
    thick: fc.constantFrom('1', '1.5', '3/2', '2.03', '3'),
    to: fc.constantFrom('back', 'front', 'left', 'right'),
    ends: fc.constantFrom('plumb', 'square'),
  });
  it('lie on the cheeks beneath them, share no space with them and present their levels', () => {
    fc.assert(
      fc.property(slopes, ({ run, rise, thick, to, ends }) => {
        const isAlong = to === 'back' || to === 'front';
        const footprint = isAlong ? `60, ${run}` : `${run}, 60`;
        const sides = isAlong ? ['left', 'right'] : ['front', 'back'];
        const fit = fitOf(`${opening(thick)}
tiles:
  ramp:
    footprint: [${footprint}]
    parts:
      slab:  { of: card, size: [${footprint}] }
      deck:  { of: card, size: [${isAlong ? '60, rest' : 'rest, 60'}] }
      cheek: { of: foam, size: [rest, rest] }
    build: { up: [slab, { part: deck, slope: { to: ${to}, rise: ${rise}, ends: ${ends} }, length: across, up to: 0.1 }] }
    added:
      - { part: cheek, under: deck, flush: ${sides[0]}, up to: 0.1 }
      - { part: cheek, under: deck, flush: ${sides[1]}, up to: 0.1 }
`);
        if (typeof fit === 'string') throw new Error(fit);
        expect(faultsOf(fit)).toEqual([]);
        const deckOn = fit.contacts.filter(
          ({ part, other }) => [part.part, other.part].sort().join(' ') === 'cheek deck',
        );
        // Computed: Pythagoras; square ends shorten the underside by t · rise / length at each of them.
        const long = Math.hypot(run, rise);
        const t = thick === '3/2' ? 1.5 : Number(thick);
        const under = ends === 'plumb' ? long : long - (t * rise) / run;
        expect(deckOn.length).toBeGreaterThanOrEqual(2);
        const covered = deckOn.reduce((all, { area }) => all + float(area.lo), 0);
        expect(Math.abs(covered / (20 * under) - 1)).toBeLessThan(0.01);
      }),
      { numRuns: 25 },
    );
  });
});

describe('skins at random', () => {
  const curves = fc.record({
    heights: fc.array(fc.integer({ min: 4, max: 20 }), { minLength: 3, maxLength: 5 }),
  });
  it('lie on their cheeks all along, and share no space with them', () => {
    fc.assert(
      fc.property(curves, ({ heights }) => {
        const points = heights.map((y, i) => `[${(60 * i) / (heights.length - 1)}, ${y}]`).join(', ');
        const fit = fitOf(`${opening('2')}
tiles:
  hump:
    parts:
      slab:  { of: card, size: [60, 60] }
      cheek: { of: foam, outline: { through: [${points}], ends: flat } }
      skin:  { of: paper, size: [rest, rest] }
    build: { up: [slab] }
    added:
      - { part: cheek, against: top of slab, thickness: across, flush: left }
      - { part: cheek, against: top of slab, thickness: across, flush: right }
      - { part: skin, over: [cheek 1, cheek 2], up to: 0.1 }
`);
        if (typeof fit === 'string') throw new Error(fit);
        expect(faultsOf(fit)).toEqual([]);
        const on = fit.contacts.filter(
          ({ part, other }) => [part.part, other.part].sort().join(' ') === 'cheek skin',
        );
        expect(new Set(on.flatMap(({ part, other }) => [part.name, other.name])).size).toBe(3);
      }),
      { numRuns: 12 },
    );
  });
});
