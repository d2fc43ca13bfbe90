import {
  compareRationals,
  divide,
  larger,
  multiply,
  rational,
  smaller,
  subtract,
} from '../../measure/index.ts';
import type { Length, Panel, Point, Rational, Segment } from '../../model/index.ts';
import type { Lean } from '../flatten.ts';
import { isStraight } from '../sharing.ts';
import { type Edge, heightAt, slabs } from '../slabs.ts';
import { cross, dot, less, middle, plus, signOf } from '../vector.ts';
import { facetsOf, type Prism, type Shaped } from './prism.ts';

/** A prism that is seen along the folds or the slope of its panels, into which something is cut. */
export type Pierced = Shaped & { readonly panels: readonly Panel[] };

export function isPierced<P extends Prism>(prism: P): prism is P & Pierced {
  return prism.panels !== undefined && prism.outline !== undefined;
}

/** True where nothing of a panel was rounded. */
export function isExactPanel({ outline }: Panel): boolean {
  return isStraight(outline);
}

/**
 * A piece of a panel's outline that is hollow nowhere: from one place to another, between two edges. What begins or
 * ends where a fold does goes on as it is there.
 *
 *      ──┬────╮
 *        │    │╲ above
 *      ┄┄│    │ │
 *        │    │╱ below
 *      ──┴────╯
 *       from  to
 */
export interface Zone {
  readonly from: Rational | undefined;
  readonly to: Rational | undefined;
  readonly below: Straight;
  readonly above: Straight;
}

/** y = start + rise · x */
export interface Straight {
  readonly start: Rational;
  readonly rise: Rational;
}

const known = new WeakMap<Panel, Map<string, readonly Zone[]>>();

export function zonesOf(panel: Panel, lean: Lean, off?: Length): readonly Zone[] {
  const key = `${lean} ${off === undefined ? '' : `${off.numerator}/${off.denominator}`}`;
  const zones = known.get(panel) ?? new Map<string, readonly Zone[]>();
  known.set(panel, zones);
  const found = zones.get(key) ?? zonesIn(panel, lean, off);
  zones.set(key, found);
  return found;
}

function zonesIn({ outline, from, to }: Panel, lean: Lean, off?: Length): readonly Zone[] {
  return [...slabs([facetsOf(outline, lean, off)])].flatMap((slab) => {
    const [begin, end] = [larger(slab.from, from), smaller(slab.to, to)];
    if (compareRationals(begin, end) >= 0) return [];
    return slab.layers
      .filter(({ height }) => signOf(height) > 0)
      .flatMap(({ below, above }): readonly Zone[] => {
        const zone = { from: begin, to: end, below: straight(below), above: straight(above) };
        const there = (at: Rational) => ({
          below: level(heightAt(below, at)),
          above: level(heightAt(above, at)),
        });
        return [
          ...(compareRationals(begin, from) > 0 ? [] : [{ from: undefined, to: from, ...there(from) }]),
          zone,
          ...(compareRationals(end, to) < 0 ? [] : [{ from: to, to: undefined, ...there(to) }]),
        ];
      });
  });
}

function straight({ left, right }: Edge): Straight {
  const rise = divide(subtract(right.y, left.y), subtract(right.x, left.x));
  return { start: subtract(left.y, multiply(rise, left.x)), rise };
}

function level(at: Rational): Straight {
  return { start: at, rise: rational(0n) };
}

/** How far a place in the profile lies along a panel: its x in the panel's outline. */
export function alongPanel({ at, onward }: Panel, place: Point): Rational {
  return dot(less(place, at), onward);
}

/** The panel that an edge of the profile bounds, or a piece of such an edge; undefined where none does. */
export function panelAt(
  { panels }: Pierced,
  { from, to }: Pick<Segment, 'from' | 'to'>,
  low: Point,
): Panel | undefined {
  const place = less(middle(from, to), low);
  return panels.find(
    ({ seen }) =>
      seen.every(
        (corner, i) => signOf(cross(less(seen[(i + 1) % seen.length]!, corner), less(place, corner))) >= 0,
      ), // within
  );
}

/** A panel's corners where its part stands. */
export function cornersSeen({ seen }: Panel, low: Point): readonly Point[] {
  return seen.map((corner) => plus(corner, low));
}
