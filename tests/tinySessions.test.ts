import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { checkUp } from '../src/checkUp.ts';
import type { MaterialLayouts, Rational } from '../src/model/index.ts';
import { pipeline, runToEnd } from '../src/pipeline.ts';
import { readSpec } from '../src/spec/index.ts';
import { type TinyMaterial, textOf, tinySession, truthOf } from './tinySession.ts';

// Reference: every way of cutting there is (`tinySession.ts`, `pack/exhaustive.ts`), by the rules as they are
// written down in `specs/LANGUAGE.md`; it shares nothing with the packer.

const runs = 120;
const steps = 400;

describe('what a session claims, against every way of cutting there is', () => {
  it('is true: what can be made, of the fewest sheets, and of the least cost', () => {
    const seen = { judged: 0, fewest: 0, cheapest: 0, missed: 0 };
    fc.assert(
      fc.property(tinySession, (session) => {
        const bytes = new TextEncoder().encode(textOf(session, steps));
        const { value: spec } = readSpec([{ path: 'tiny.yaml', bytes }], () => ({
          kind: 'missing',
          reason: '',
        }));
        const { value: made, diagnostics } = runToEnd(pipeline(spec!, {}));
        const isPacking = ({ code }: { readonly code: string }) => code.startsWith('P');
        const faults = diagnostics.filter(isPacking);
        expect(diagnostics.filter(({ code }) => /^[SEM]/.test(code))).toEqual([]);
        // A check says beforehand what a cut would say.
        const checked = runToEnd(checkUp(spec!, {})).diagnostics.filter(isPacking);
        expect(checked.map(({ code }) => code)).toEqual(faults.map(({ code }) => code));
        for (const material of session.materials) {
          const layouts = made!.layouts.find(({ demand }) => demand.material.name === material.name)!;
          judge(material, layouts, seen);
        }
      }),
      { numRuns: runs },
    );
    // Most sessions can be made, are packed as well as can be, and said to be so.
    expect(seen.judged).toBeGreaterThan(runs / 2);
    expect(seen.fewest).toBeGreaterThan(seen.judged / 2);
    expect(seen.cheapest).toBeGreaterThan(0);
    expect(seen.missed).toBeLessThanOrEqual(runs / 40);
  });
});

function judge(
  material: TinyMaterial,
  { demand, layouts, unplaced, bound, proof }: MaterialLayouts,
  seen: { judged: number; fewest: number; cheapest: number; missed: number },
): void {
  const { impossible, fewest, least } = truthOf(material);
  const missing = unplaced.reduce((sum, { count }) => sum + count, 0);
  expect(missing).toBeGreaterThanOrEqual(impossible);
  if (!Number.isFinite(fewest)) expect(missing).toBeGreaterThan(impossible);
  if (missing > 0) {
    expect(proof).toEqual({ kind: 'none' });
    if (Number.isFinite(fewest) && missing > impossible) seen.missed++;
    return;
  }
  seen.judged++;
  let [bought, spent] = [0, 0];
  for (const { sheet, times } of layouts) {
    const { isOffcut, price } = demand.sheets[sheet]!;
    if (isOffcut) continue;
    bought += times;
    if (price !== undefined) spent += times * toNumber(price.amount);
  }
  expect(bound.sheets).toBeLessThanOrEqual(fewest);
  expect(bought).toBeGreaterThanOrEqual(fewest);
  if (proof.kind === 'fewest') {
    expect(bought).toBe(fewest);
    seen.fewest++;
  }
  if (proof.kind === 'within') expect(bought - proof.sheets).toBeLessThanOrEqual(fewest);
  if (least === undefined) {
    expect(bound.cost).toBeUndefined();
    if (bought > fewest) seen.missed++;
    return;
  }
  expect(spent).toBeGreaterThanOrEqual(least);
  expect(toNumber(bound.cost!.amount)).toBeLessThanOrEqual(least);
  const claim = proof.kind === 'none' ? undefined : proof.cost;
  if (claim?.kind === 'cheapest') {
    expect(spent).toBe(least);
    seen.cheapest++;
  }
  if (claim?.kind === 'dearer') expect(spent - toNumber(claim.by.amount)).toBeLessThanOrEqual(least);
  if (spent > least) seen.missed++;
}

/** Prices here are whole. */
function toNumber({ numerator, denominator }: Rational): number {
  return Number(numerator) / Number(denominator);
}
