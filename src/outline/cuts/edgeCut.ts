import { compare, minus, opposite, sum } from '../../measure/index.ts';
import type { BoxSide, Drawn, Length, Outline, OutlineFacet, WallInFlat } from '../../model/index.ts';
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
  let left = part;
  let takes = false;
  const frame = frameOf(cut.edge, box);
  for (const start of starts.value) {
    const inPlace = laid(shape.value, shiftBy(point(start, opposite(deep))));
    const away = laid({ ...inPlace, marks: [] }, frame);
    const { left: pieces, takesAny } = takenOut(left, away);
    const [first, ...others] = pieces;
    takes ||= takesAny;
    if (first === undefined || others.length > 0) {
      return undrawn(fault('T13', facet, () => ({ cut: cut.kind, pieces: others.length + 1 })));
    }
    left = first;
  }
  return drawn(left, takes ? [] : [fault('T19', facet, () => ({ cut: cut.kind }))]);
}
