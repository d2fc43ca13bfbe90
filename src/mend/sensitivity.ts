import { expand } from '../expand/index.ts';
import { judge, missesOf } from '../fit/index.ts';
import {
  compare,
  divide,
  isNegative,
  isPositive,
  isZero,
  larger,
  millimetres,
  minus,
  opposite,
  rational,
  smaller,
  subtract,
  sum,
} from '../measure/index.ts';
import type { Batch, Length } from '../model/index.ts';
import type { Run } from './mend.ts';

/** Between which thicknesses of one material every tile that closes now still does. */
export interface Sensitivity {
  readonly material: string;
  readonly now: Length;
  /** The most it may measure, and the tiles that stop closing first beyond it; undefined: no tile ever does. */
  readonly most: Limit | undefined;
  readonly least: Limit | undefined;
}

export interface Limit {
  readonly thickness: Length;
  readonly tiles: readonly string[];
}

/**
 * How far each material may be off before a tile stops closing. Sums change in proportion to a thickness as
 * long as nothing is rounded, so one more run with a little more of it tells how each of them goes.
 */
export function sensitivities(batch: Batch, run: Run): readonly Sensitivity[] {
  const sound = run.fits.filter(({ faults }) => faults.every(({ kind }) => kind !== 'does not close'));
  return batch.materials.map(({ material }) => {
    const { name, thickness: now } = material;
    const nudge = millimetres(rational(1n, 1000n));
    const more = { material: name, thickness: sum(now, nudge), argument: '' };
    const thicknesses = [...(run.overrides.thicknesses ?? []), more];
    const { value } = expand(run.spec, { ...run.overrides, thicknesses });
    const after = new Map(
      (value?.builds ?? []).map((build) => [build.tile, missesOf(judge(build, run.bench).build)]),
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
    return { material: name, now, most, least };
  });
}

function tighter(known: Limit | undefined, next: Limit, choose: (a: Length, b: Length) => Length): Limit {
  if (known === undefined) return next;
  const order = compare(known.thickness, next.thickness);
  if (order === 0) {
    return { ...known, tiles: [...new Set([...known.tiles, ...next.tiles])] };
  }
  return choose(known.thickness, next.thickness) === known.thickness ? known : next;
}
