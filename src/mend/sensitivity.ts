import { expand } from '../expand/index.ts';
import { judge, missesOf, unmetBy } from '../fit/index.ts';
import {
  compare,
  divide,
  equal,
  isNegative,
  isPositive,
  isZero,
  larger,
  millimetres,
  minus,
  opposite,
  rational,
  scaled,
  smaller,
  subtract,
  sum,
  toFraction,
} from '../measure/index.ts';
import { type Batch, type Diagnostic, isError, type Length } from '../model/index.ts';
import { type NewFault, newFaults, type PartChange, partChanges } from './changes.ts';
import type { Run } from './mend.ts';

/** Between which thicknesses of one material every tile that closes now still does, and what else hangs on it. */
export interface Sensitivity {
  readonly material: string;
  readonly now: Length;
  /** The most it may measure, and the tiles that stop closing first beyond it; undefined: no tile ever does. */
  readonly most: Limit | undefined;
  readonly least: Limit | undefined;
  /** Parts that are cut otherwise where it is thicker or thinner. */
  readonly cutOtherwise: readonly PartChange[];
  readonly trials: readonly Trial[];
}

export interface Limit {
  readonly thickness: Length;
  readonly tiles: readonly string[];
}

/** What goes wrong with another thickness, though every tile closes that does now. */
export interface Trial {
  readonly thickness: Length;
  readonly faults: readonly NewFault[];
  /** Sums and places that can't be worked out with it. */
  readonly errors: readonly Diagnostic[];
}

/**
 * How far each material may be off before a tile stops closing. Sums change in proportion to a thickness as
 * long as nothing is rounded, so one more run with a little more of it tells how each of them goes. What else hangs
 * on it, sizes that follow and verdicts, is seen by trying: a tenth more and a tenth less, or as far as all closes.
 */
export function sensitivities(batch: Batch, run: Run): readonly Sensitivity[] {
  const sound = run.fits.filter(({ faults }) => faults.every(({ kind }) => kind !== 'does not close'));
  // What can't be worked out anyhow hangs on no thickness.
  const known = new Set(expand(run.spec, run.overrides).diagnostics.map(({ message }) => message));
  return batch.materials.map(({ material }) => {
    const { name, thickness: now } = material;
    const nudge = millimetres(rational(1n, 1000n));
    const after = new Map(
      (expandedWith(name, sum(now, nudge), run).value?.builds ?? []).map((build) => [
        build.tile,
        missesOf(build),
      ]),
    );

    let [most, least]: [Limit | undefined, Limit | undefined] = [undefined, undefined];
    for (const { build } of sound) {
      const misses = missesOf(build);
      const then = after.get(build.tile);
      if (then === undefined || then.length !== misses.length) continue;
      for (const [index, miss] of misses.entries()) {
        const slope = divide(subtract(then[index] ?? miss, miss), nudge);
        if (isZero(slope)) continue;
        // Over where nothing is missing any more, short where the slack is used up.
        const ends = [opposite(miss), minus(opposite(miss), build.slack)].map((it) =>
          millimetres(divide(it, slope)),
        );
        const [up, down] = isNegative(slope) ? [ends[1], ends[0]] : [ends[0], ends[1]];
        if (up !== undefined) most = tighter(most, { thickness: sum(now, up), tiles: [build.tile] }, smaller);
        // No board is as thin as nothing.
        if (down !== undefined && isPositive(sum(now, down)))
          least = tighter(least, { thickness: sum(now, down), tiles: [build.tile] }, larger);
      }
    }
    const tried = tryOut(name, now, { most, least }, { batch, known }, run);
    return { material: name, now, most, least, ...tried };
  });
}

/** Tries how it is a tenth thicker and a tenth thinner, or as far as every tile still closes. */
function tryOut(
  material: string,
  now: Length,
  { most, least }: Pick<Sensitivity, 'most' | 'least'>,
  { batch, known }: { readonly batch: Batch; readonly known: ReadonlySet<string> },
  run: Run,
): Pick<Sensitivity, 'cutOtherwise' | 'trials'> {
  const [thick, thin] = [rational(11n, 10n), rational(9n, 10n)].map((share) => scaled(now, share)) as [
    Length,
    Length,
  ]; // two of two
  const runs = new Map([thick, thin].map((it) => [toFraction(it), expandedWith(material, it, run)]));
  const cut = [...runs.values()].map(({ value }) => (value === undefined ? [] : partChanges(batch, value)));
  const within = [
    least === undefined ? thin : larger(thin, least.thickness),
    most === undefined ? thick : smaller(thick, most.thickness),
  ].filter((it) => !equal(it, now));
  const trials = within.map((thickness): Trial => {
    const { value, diagnostics } = runs.get(toFraction(thickness)) ?? expandedWith(material, thickness, run);
    const builds = value?.builds ?? [];
    const unmet = unmetBy(builds);
    const fits = builds.map((build) => judge(build, run.bench, unmet.get(build.tile)));
    const errors = diagnostics.filter((it) => isError(it) && !known.has(it.message));
    return { thickness, faults: newFaults(run.fits, fits), errors };
  });
  return { cutOtherwise: together(cut.flat()), trials };
}

function expandedWith(material: string, thickness: Length, { spec, overrides }: Run) {
  const thicknesses = [...(overrides.thicknesses ?? []), { material, thickness, argument: '' }];
  return expand(spec, { ...overrides, thicknesses });
}

/** Each part once, with all that changes of it. */
function together(changes: readonly PartChange[]): readonly PartChange[] {
  const parts = new Map<string, PartChange>();
  for (const it of changes) {
    const key = `${it.tile ?? ''}\n${it.part}`;
    const what = new Set([...(parts.get(key)?.what ?? []), ...it.what]);
    parts.set(key, { ...it, what: [...what] });
  }
  return [...parts.values()];
}

function tighter(known: Limit | undefined, next: Limit, choose: (a: Length, b: Length) => Length): Limit {
  if (known === undefined) return next;
  const order = compare(known.thickness, next.thickness);
  if (order === 0) {
    return { ...known, tiles: [...new Set([...known.tiles, ...next.tiles])] };
  }
  return choose(known.thickness, next.thickness) === known.thickness ? known : next;
}
