import {
  add,
  ceiling,
  compareRationals,
  divide,
  equal,
  multiply,
  nearestHalfUp,
  rational,
  subtract,
  toFraction,
} from '../../measure/index.ts';
import type { Enclosure, Fault, TileFit } from '../../model/index.ts';
import { describeLength, lengthOrNull } from './length.ts';

/** How one tile stands, and all that is wrong with it; null for a tile without a build. */
export function describeFit(fit: TileFit | undefined) {
  if (fit === undefined) return null;
  const { build, extent, faults, marks, contacts, faces, glueing, unchecked, turns, rack, wander } = fit;
  return {
    footprint: {
      across: describeLength(build.footprint.across),
      along: describeLength(build.footprint.along),
    },
    height: lengthOrNull(build.height?.value),
    slack: describeLength(build.slack),
    lip: describeLength(build.lip),
    extent: {
      across: describeLength(extent.across),
      along: describeLength(extent.along),
      up: describeLength(extent.up),
    },
    faults: faults.map(describeFault),
    parts: build.parts.map(({ name, part, clads, material, block, facing, isTurnedOver }) => ({
      name,
      part,
      clads: clads ?? null,
      material,
      facing,
      turnedOver: isTurnedOver,
      low: [block.low.across, block.low.along, block.low.up].map(toFraction),
      high: [block.high.across, block.high.along, block.high.up].map(toFraction),
    })),
    marks: marks.map(({ part, size, exact, mark, scale, isChosen }) => ({
      part,
      size,
      exact: describeLength(exact),
      mark: describeLength(mark),
      scale: describeLength(scale),
      chosen: isChosen,
    })),
    contacts: contacts.map(({ part, other, way, slant, area }) => ({
      part: part.name,
      other: other.name,
      way,
      slant: slant === undefined ? null : { way: slant.way, sameSide: slant.isSame },
      ...describeArea(area),
    })),
    faces: faces.map(({ material, side, area }) => ({ material, side, ...describeArea(area) })),
    gluing: glueing.map(({ what, onto, afterDrying }) => ({ what, onto: [...onto], afterDrying })),
    unchecked: [...unchecked],
    turns: turns.map(({ turned, mirrored }) => ({ turned, mirrored })),
    rack: rack ?? null,
    fittings: (build.fittings ?? []).map(({ fitting, side, middle, diameter, deep, pole }) => ({
      fitting,
      side,
      middle: [middle.across, middle.along, middle.up].map(toFraction),
      diameter: describeLength(diameter),
      deep: describeLength(deep),
      pole: pole ?? null,
    })),
    thinnestWall: lengthOrNull(fit.thinnestWall),
    takenWhole: build.parts.flatMap(({ name, isTakenWhole, isWall }) =>
      isTakenWhole === true && isWall !== true ? [name] : [],
    ),
    wander: wander.map(({ way, least, most, room }) => ({
      way,
      least: describeLength(least),
      most: describeLength(most),
      room: describeLength(room),
    })),
  };
}

/** What a curve or a slope takes part in has no rational area: the nearest short figure, and what it is off at most. */
function describeArea({ lo, hi }: Enclosure) {
  if (equal(lo, hi)) return { areaMm2: toFraction(lo), areaOffMm2: '0' };
  const parts = rational(10_000n);
  const near = divide(rational(nearestHalfUp(multiply(add(lo, hi), divide(parts, rational(2n))))), parts);
  const most = [subtract(hi, near), subtract(near, lo)].reduce((a, b) =>
    compareRationals(a, b) >= 0 ? a : b,
  );
  return {
    areaMm2: toFraction(near),
    areaOffMm2: toFraction(divide(rational(ceiling(multiply(most, parts))), parts)),
  };
}

/** Each sort of fault has its own figures; what doesn't apply is null. */
function describeFault(fault: Fault) {
  const amount = amountOf(fault);
  return {
    kind: fault.kind,
    parts: partsIn(fault),
    way: 'way' in fault ? fault.way : null,
    side: 'side' in fault ? (fault.side ?? null) : null,
    extent: lengthOrNull('extent' in fault ? fault.extent : undefined),
    room: lengthOrNull('room' in fault ? fault.room : undefined),
    amount: lengthOrNull(amount),
    right:
      fault.kind === 'does not close'
        ? fault.right.map(({ parts, now, right }) => ({
            parts: parts.map(({ part, size }) => ({ part, size })),
            now: describeLength(now),
            right: describeLength(right),
          }))
        : [],
  };
}

function amountOf(fault: Fault) {
  switch (fault.kind) {
    case 'sticks out':
      return fault.by;
    case 'overlaps':
      return fault.shared[fault.way];
    case 'level is off':
      return fault.found;
    case 'does not fit the rack':
      return fault.needs;
    case 'thin wall':
      return fault.wall;
    default:
      return undefined;
  }
}

/** The parts that a fault names. */
export function partsIn(fault: Fault): string[] {
  if (fault.kind === 'does not close') return [...new Set(fault.sum.map(({ name }) => name))];
  if (fault.kind === 'does not close as marked') return fault.marked.map(({ part }) => part);
  const other = 'other' in fault && 'part' in fault && fault.other !== undefined ? [fault.other.name] : [];
  return 'part' in fault ? [fault.part.name, ...other] : [];
}
