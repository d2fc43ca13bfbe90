import {
  compare,
  isMultiple,
  isNegative,
  isPositive,
  isZero,
  minus,
  opposite,
  roundToStep,
  sum,
} from '../../measure/index.ts';
import type { Length, Spec } from '../../model/index.ts';
import { type Literal, literalsOf } from '../../spec/index.ts';
import { worthOf } from './exact.ts';
import { ownUnitOf, sortOf } from './sorts.ts';

/** A size that is written, and not worked out: what rounding is about. */
export interface Base {
  readonly literal: Literal;
  readonly worth: Length;
  /** What it may become, least drift first; of two with the same, the larger. */
  readonly choices: readonly Length[];
}

/**
 * The base sizes of the named files. Things are none of them, nor is what names a unit of its own in a file that
 * says its units.
 *
 * @param reach  how many steps further than to its two neighbours a size may go, where boards have changed
 */
export function basesOf(spec: Spec, step: Length, reach: number): readonly Base[] {
  return spec.files.flatMap((file) =>
    literalsOf(file, spec).literals.flatMap((literal): readonly Base[] => {
      const worth = worthOf(literal, file);
      const keepsUnit = ownUnitOf(literal) !== undefined && file.units !== undefined;
      if (worth === undefined || isZero(worth) || sortOf(literal) !== 'size' || keepsUnit) return [];
      return [{ literal, worth, choices: choicesOf(worth, step, goesFar(literal) ? reach : 0) }];
    }),
  );
}

/** Points of a drawing and cuts in a part follow from nothing that a board could change. */
function goesFar({ keys }: Literal): boolean {
  return !keys.some((key) => key === 'masters' || key === 'outline' || key === 'cuts' || key === 'marks');
}

function choicesOf(worth: Length, step: Length, reach: number): readonly Length[] {
  const found: Length[] = [];
  const [down, up] = [roundToStep(worth, step, 'down'), roundToStep(worth, step, 'up')];
  found.push(...(isMultiple(worth, step) ? [up] : [up, down]));
  for (let [low, high, count] = [down, up, 0]; count < reach; count++) {
    [low, high] = [minus(low, step), sum(high, step)];
    found.push(high, low);
  }
  // What is something must not become nothing, nor turn about.
  const allowed = found.filter((it) => (isPositive(worth) ? isPositive(it) : isNegative(it)));
  return allowed.sort((a, b) => compare(driftOf(a, worth), driftOf(b, worth)) || compare(b, a));
}

/** How far a size goes from what it exactly is, either way. */
export function driftOf(choice: Length, worth: Length): Length {
  const drift = minus(choice, worth);
  return isNegative(drift) ? opposite(drift) : drift;
}
