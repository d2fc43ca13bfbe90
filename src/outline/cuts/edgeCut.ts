import {
  add,
  ceiling,
  compare,
  compareRationals,
  divide,
  floor,
  inches,
  isZero,
  millimetres,
  minus,
  oneMm,
  opposite,
  rational,
  scaled,
  subtract,
  sum,
  toInches,
  zero,
} from '../../measure/index.ts';
import type {
  BoxSide,
  Drawn,
  Length,
  Outline,
  OutlineFacet,
  Rational,
  WallInFlat,
} from '../../model/index.ts';
import { boxOf } from '../box.ts';
import { takenOut } from '../combine.ts';
import { aboveZero, drawn, fault, undrawn } from '../fault.ts';
import { shiftBy } from '../loop.ts';
import { type ArchSize, arched } from '../makers/arched.ts';
import { rectangle } from '../makers/rectangle.ts';
import { laid } from '../makers/turned.ts';
import { point } from '../vector.ts';
import {
  type AlongEdge,
  boxForPlacing,
  edgeRoom,
  frameOf,
  keptFlat,
  onTheEdge,
  type Repeat,
  startsAlong,
} from './place.ts';

interface OnEdge {
  readonly edge: BoxSide;
  readonly along: AlongEdge;
  readonly repeat: Repeat | undefined;
  readonly on?: WallInFlat | undefined;
}

/** `{ notch: { size: [along, deep] }, edge: top, right: 0 }` */
export interface Notch extends OnEdge {
  readonly kind: 'notch';
  readonly size: readonly [along: Length, deep: Length];
}

/** `{ arch: { width: 3/4, sides: 1/8, rise: 3/8 }, edge: bottom }`: open at its edge. */
export interface Arch extends OnEdge {
  readonly kind: 'arch';
  readonly size: ArchSize;
  readonly sides: Length;
}

export function notched(part: Outline, cut: Notch): Drawn {
  const [along, deep] = cut.size;
  const faults = aboveZero(
    ['length of the notch', along, ['notch', 'size', 0]],
    ['depth of the notch', deep, ['notch', 'size', 1]],
  );
  if (faults.length > 0) return undrawn(...faults);
  // It begins as far outside the edge as it is deep, so that nothing of the edge is left standing.
  const shape = rectangle(along, sum(deep, deep));
  return cutIn(part, cut, shape, deep, along, ['notch', 'size']);
}

export function archCut(part: Outline, cut: Arch): Drawn {
  const alone = arched(cut.size, cut.sides);
  if (alone.value === undefined) return undrawn(...withArch(alone).faults);
  const { right, top } = boxOf(alone.value);
  const shape = arched(cut.size, sum(cut.sides, top.hi));
  return cutIn(part, cut, shape, top.hi, right.hi, ['arch']);
}

/** What `arched` calls its own is here the cut's. */
function withArch({ value, faults }: Drawn): Drawn {
  return { value, faults: faults.map((it) => ({ ...it, facet: ['arch', ...it.facet.slice(1)] })) };
}

/** @param shape  drawn along the edge and inward, and begun as far outside the edge as it is deep */
function cutIn(
  part: Outline,
  cut: Notch | Arch,
  shape: Drawn,
  deep: Length,
  size: Length,
  facet: OutlineFacet,
): Drawn {
  if (shape.value === undefined) return undrawn(...shape.faults);
  const box = boxForPlacing(part, cut.on);
  const { low, high, depth } = edgeRoom(cut.edge, box);
  const fits = onTheEdge(cut.kind, cut.edge, size, minus(high, low), cut.along, cut.repeat, facet);
  const starts = startsAlong(cut.kind, size, low, high, cut.along, cut.repeat);
  if (fits.faults.length > 0 || starts.value === undefined) return undrawn(...fits.faults, ...starts.faults);
  if (compare(deep, depth) >= 0) {
    return undrawn(
      fault('T20', facet, (show) => ({ cut: cut.kind, deep: show(deep, 'up'), has: show(depth, 'near') })),
    );
  }
  const flat = keptFlat(cut.kind, cut.on, starts.value, size, facet);
  if (flat.faults.length > 0) return undrawn(...flat.faults);
  const cutShape = shape.value;
  let left = part;
  let takes = false;
  const frame = frameOf(cut.edge, box);
  for (const start of starts.value) {
    const away = (shallower: Length): Outline => {
      const inPlace = laid(cutShape, shiftBy(point(start, opposite(sum(deep, shallower)))));
      return laid({ ...inPlace, marks: [] }, frame);
    };
    const { left: pieces, takesAny } = takenOut(left, away(zero));
    const [first, ...others] = pieces;
    takes ||= takesAny;
    if (first === undefined || others.length > 0) {
      const whole = left;
      const least = leastThatSevers(deep, (by) => takenOut(whole, away(by)).left.length !== 1);
      return undrawn(
        fault('T13', facet, (show) => ({
          cut: cut.kind,
          pieces: others.length + 1,
          deep: show(deep, 'near'),
          least: least && show(least, 'near'),
        })),
      );
    }
    left = first;
  }
  return drawn(left, takes ? [] : [fault('T19', facet, () => ({ cut: cut.kind }))]);
}

/**
 * From which depth on a cut severs its part, by halving; undefined where any does.
 *
 * @param severs  whether it does where it is so much less deep
 */
function leastThatSevers(deep: Length, severs: (shallower: Length) => boolean): Length | undefined {
  const share = (steps: bigint): Length => scaled(deep, rational(steps, finest));
  let [severing, whole] = [0n, finest];
  if (severs(share(finest - 1n))) return undefined;
  while (whole - severing > 1n) {
    const middle = (whole + severing) >> 1n;
    if (severs(share(middle))) severing = middle;
    else whole = middle;
  }
  // What lies as near as a hair counts as touching, so that the measure itself may lie a little higher.
  const [low, high] = [minus(deep, share(whole)), sum(minus(deep, share(severing)), near)];
  // The measure that somebody stated it follows from, in whichever unit that is the simpler.
  const inMm = simplestWithin(low, high);
  const inInches = simplestWithin(toInches(low), toInches(high));
  return inMm.denominator <= inInches.denominator ? millimetres(inMm) : inches(inInches);
}

/** Parts of a depth, and of a millimetre: less than anybody can mean. */
const finest = 2n ** 20n;
const near = scaled(oneMm, rational(1n, 1000n));

/**
 * The fraction with the least denominator above `low` and up to `high`: of measures that somebody stated, themselves.
 *
 * @source continued fractions, from memory
 */
function simplestWithin(low: Rational, high: Rational): Rational {
  const whole = floor(high);
  if (compareRationals(rational(whole), low) > 0) return rational(whole);
  // Both have the same whole part; what is left turned over has its ends changed, so that `high` is left out.
  const turned = (it: Rational): Rational => divide(rational(1n), subtract(it, rational(whole)));
  const rest = simplestFrom(turned(high), isZero(subtract(low, rational(whole))) ? undefined : turned(low));
  return add(rational(whole), divide(rational(1n), rest));
}

/** The same from `low` on and below `high`; undefined: without an end. */
function simplestFrom(low: Rational, high: Rational | undefined): Rational {
  const whole = ceiling(low);
  if (high === undefined || compareRationals(rational(whole), high) < 0) return rational(whole);
  const below = rational(whole - 1n);
  const turned = (it: Rational): Rational => divide(rational(1n), subtract(it, below));
  return add(below, divide(rational(1n), simplestWithin(turned(high), turned(low))));
}
