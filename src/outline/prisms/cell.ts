import { absolute, add, divide, multiply, rational, subtract } from '../../measure/index.ts';
import { type Block, type ByWay, type Point, type Rational, type Way, ways } from '../../model/index.ts';
import { point, signOf } from '../vector.ts';
import { hullOf } from './hull.ts';

export type Corner = ByWay<Rational>;

/** A solid that is bounded by planes and hollow nowhere, by its faces; it always takes up some space. */
export interface Cell {
  readonly faces: readonly (readonly Corner[])[];
}

/** What lies on one side of a plane: normal · place ≤ most. */
export interface Side {
  readonly normal: Corner;
  readonly most: Rational;
}

export function cellOfBlock({ low, high }: Block): Cell {
  const faces = ways.flatMap((way) => {
    const [one = way, other = way] = ways.filter((it) => it !== way);
    const around = [
      [low, low],
      [high, low],
      [high, high],
      [low, high],
    ] as const;
    return [low, high].map((end) =>
      around.map(([a, b]): Corner => ({ ...low, [way]: end[way], [one]: a[one], [other]: b[other] })),
    );
  });
  return { faces };
}

/**
 * What of a cell lies within all of the planes; undefined where that is nothing, or only a face, an edge or a corner.
 *
 *      ┌────────╱┐
 *      │ stays ╱ │
 *      └──────╱──┘
 */
export function cutDown(cell: Cell, sides: readonly Side[]): Cell | undefined {
  let left: Cell | undefined = cell;
  for (const side of sides) {
    if (left === undefined) return undefined;
    left = cutBy(left, side);
  }
  return left;
}

function cutBy(cell: Cell, { normal, most }: Side): Cell | undefined {
  // Of what takes up space some is left exactly where some corner lies within.
  const over = new Map<Corner, Rational>();
  for (const corner of cell.faces.flat()) {
    if (!over.has(corner)) over.set(corner, subtract(times(normal, corner), most));
  }
  const signs = [...over.values()].map(signOf);
  if (!signs.includes(1)) return cell;
  if (!signs.includes(-1)) return undefined;
  const onPlane: Corner[] = [];
  const overAt = (corner: Corner) => over.get(corner) ?? rational(0n);
  const faces = cell.faces
    .map((face) => faceWithin(face, overAt, onPlane))
    .filter(({ length }) => length > 2);
  const cap = roundOf(onPlane, normal);
  return { faces: cap.length > 2 ? [...faces, cap] : faces };
}

function faceWithin(
  face: readonly Corner[],
  overAt: (corner: Corner) => Rational,
  onPlane: Corner[],
): readonly Corner[] {
  return face.flatMap((from, i) => {
    const to = face[(i + 1) % face.length]!; // within
    const [here, there] = [overAt(from), overAt(to)];
    const [sign, next] = [signOf(here), signOf(there)];
    if (sign === 0) onPlane.push(from);
    const kept = sign <= 0 ? [from] : [];
    if (sign * next >= 0) return kept;
    const share = divide(here, subtract(here, there));
    const met = byWay((way) => add(from[way], multiply(share, subtract(to[way], from[way]))));
    onPlane.push(met);
    return [...kept, met];
  });
}

/** The corners of a face in order, once each. */
function roundOf(corners: readonly Corner[], normal: Corner): readonly Corner[] {
  const way = ways.find((it) => signOf(normal[it]) !== 0) ?? 'up';
  const [right = way, up = way] = ways.filter((it) => it !== way);
  const cornerAt = new Map<Point, Corner>();
  for (const it of corners) cornerAt.set(point(it[right], it[up]), it);
  return hullOf([...cornerAt.keys()]).flatMap((it) => cornerAt.get(it) ?? []);
}

/** The box round a cell. */
export function boxOfCell({ faces }: Cell): { readonly low: Corner; readonly high: Corner } {
  const corners = faces.flat();
  const ends = (sign: 1 | -1) =>
    byWay((way) => corners.map((it) => it[way]).reduce((a, b) => (signOf(subtract(b, a)) === sign ? b : a)));
  return { low: ends(-1), high: ends(1) };
}

/** How much space it takes up: pyramids from one of its corners to its faces. */
export function volumeOf({ faces }: Cell): Rational {
  const [apex] = faces[0] ?? [];
  if (apex === undefined) return rational(0n);
  return faces.reduce((all, face) => {
    const height = less(face[0] ?? apex, apex);
    return add(all, absolute(divide(times(twiceArea(face), height), rational(6n))));
  }, rational(0n));
}

/** No less than all of its faces, and less than twice as much: each by what is seen of it along the three ways. */
export function surfaceOf({ faces }: Cell): Rational {
  return faces.reduce((all, face) => {
    const area = twiceArea(face);
    return ways.reduce((sum, way) => add(sum, divide(absolute(area[way]), rational(2n))), all);
  }, rational(0n));
}

/** A vector square to a face, as long as twice its area. */
function twiceArea(face: readonly Corner[]): Corner {
  const [first] = face;
  return face.reduce(
    (all, corner, i) => {
      const next = face[i + 1];
      if (first === undefined || next === undefined) return all;
      const it = crossed(less(corner, first), less(next, first));
      return byWay((way) => add(all[way], it[way]));
    },
    byWay(() => rational(0n)),
  );
}

function crossed(a: Corner, b: Corner): Corner {
  const at = (one: Way, other: Way) => subtract(multiply(a[one], b[other]), multiply(a[other], b[one]));
  return { across: at('along', 'up'), along: at('up', 'across'), up: at('across', 'along') };
}

function less(a: Corner, b: Corner): Corner {
  return byWay((way) => subtract(a[way], b[way]));
}

function times(a: Corner, b: Corner): Rational {
  return ways.reduce((sum, way) => add(sum, multiply(a[way], b[way])), rational(0n));
}

function byWay<T>(give: (way: Way) => T): ByWay<T> {
  return { across: give('across'), along: give('along'), up: give('up') };
}
