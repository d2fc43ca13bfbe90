import {
  absolute,
  compare,
  isMultiple,
  isNegative,
  isPositive,
  isZero,
  minus,
  roundToStep,
  sum,
} from '../../measure/index.ts';
import type { Length, Span, Spec } from '../../model/index.ts';
import { type Literal, literalsOf } from '../../spec/index.ts';
import { worthOf } from './exact.ts';
import { ownUnitOf, sortOf } from './sorts.ts';

/** A size that is written, and not worked out: what rounding is about. */
export interface Base {
  readonly literal: Literal;
  /** Where it stands in the file that was read, which its user has before him. */
  readonly asRead: Span;
  readonly worth: Length;
  /** What it may become, least drift first; of two with the same, the larger. */
  readonly choices: readonly Length[];
}

/**
 * The base sizes of the named files. Things are none of them, nor is what names a unit of its own in a file that
 * says its units.
 *
 * @param read   the files as they were read, before they were written in the unit wanted
 * @param reach  how many steps further than to its two neighbours a size may go, where boards have changed
 */
export function basesOf(spec: Spec, read: Spec, step: Length, reach: number): readonly Base[] {
  return spec.files.flatMap((file, index) => {
    const { literals } = literalsOf(file, spec);
    const asRead = spansAsRead(literals, read, index);
    return literals.flatMap((literal): readonly Base[] => {
      const worth = worthOf(literal, file);
      const keepsUnit = ownUnitOf(literal) !== undefined && file.units !== undefined;
      if (worth === undefined || isZero(worth) || sortOf(literal) !== 'size' || keepsUnit) return [];
      const choices = choicesOf(worth, step, goesFar(literal) ? reach : 0);
      return [{ literal, asRead: asRead.get(literal) ?? literal.span, worth, choices }];
    });
  });
}

/**
 * Writing a file in the other unit changes its measures one by one and adds keys that were not there, so the second
 * of `levels` is the second of `levels` in both.
 */
function spansAsRead(literals: readonly Literal[], read: Spec, index: number): ReadonlyMap<Literal, Span> {
  const file = read.files[index];
  const known = new Map<string, Span[]>();
  for (const { keys, span } of file === undefined ? [] : literalsOf(file, read).literals) {
    const key = keys.join(' ');
    known.set(key, [...(known.get(key) ?? []), span]);
  }
  const found = new Map<Literal, Span>();
  for (const literal of literals) {
    const span = known.get(literal.keys.join(' '))?.shift();
    if (span !== undefined) found.set(literal, span);
  }
  return found;
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
  return absolute(minus(choice, worth));
}
