import { add, compareRationals, multiply, negate, rational, subtract } from '../../measure/index.ts';
import { type Block, type Length, type Point, type Rational, type Way, ways } from '../../model/index.ts';
import type { Lean } from '../flatten.ts';
import { isStraight } from '../sharing.ts';
import { type Edge, slabs } from '../slabs.ts';
import { less, point } from '../vector.ts';
import { type Body, shapesOf } from './body.ts';
import {
  boxOfCell,
  type Cell,
  type Corner,
  cellOfBlock,
  cutDown,
  type Side,
  surfaceOf,
  volumeOf,
} from './cell.ts';
import { facetsOf, outlineIn, type Plane, planeAcross, type Shaped } from './prism.ts';
import { isExactPanel, isPierced, type Pierced, type Straight, type Zone, zonesOf } from './zones.ts';

/** True where something is cut into a body that slopes or is folded. */
export function isCutAslant(body: Body): boolean {
  return body.some(isPierced);
}

/** True where no curve takes part in a body, and nothing of it was rounded. */
export function isExactBody(body: Body): boolean {
  return shapesOf(body).every(
    (shape) => isStraight(shape.outline) && (!isPierced(shape) || shape.panels.every(isExactPanel)),
  );
}

/** How far a point of a body may be off where it should be. */
export function offOf(body: Body): Rational {
  return shapesOf(body).reduce<Rational>((all, shape) => {
    const [panel] = isPierced(shape) ? shape.panels : [];
    return add(all, add(shape.outline.within, panel?.outline.within ?? rational(0n)));
  }, rational(0n));
}

/** What two bodies share, in pieces that are hollow nowhere. */
export function* cellsShared(a: Body, b: Body, block: Block, lean: Lean, off: Length): Generator<Cell> {
  const [one, other] = [a, b].map((body) => cellsOf(body, block, lean, off));
  for (const { cell, box } of one ?? []) {
    for (const it of other ?? []) {
      if (!doBoxesMeet(box, it.box)) continue;
      const shared = cutDown(cell, it.sides);
      if (shared !== undefined) yield shared;
    }
  }
}

interface Bounded {
  readonly sides: readonly Side[];
  readonly cell: Cell;
  readonly box: ReturnType<typeof boxOfCell>;
}

/** All of a body that lies within a block. */
function cellsOf(body: Body, block: Block, lean: Lean, off: Length): readonly Bounded[] {
  const room = cellOfBlock(block);
  let found: readonly { readonly sides: readonly Side[]; readonly cell: Cell }[] = [
    { sides: [], cell: room },
  ];
  for (const shape of shapesOf(body)) {
    const pieces = isPierced(shape) ? sidesOfPanels(shape, lean, off) : sidesOfShape(shape, lean, off);
    found = found.flatMap((it) =>
      pieces.flatMap((sides) => {
        const cell = cutDown(it.cell, sides);
        return cell === undefined ? [] : [{ sides: [...it.sides, ...sides], cell }];
      }),
    );
  }
  return found.map((it) => ({ ...it, box: boxOfCell(it.cell) }));
}

function sidesOfShape(shape: Shaped, lean: Lean, off: Length): readonly (readonly Side[])[] {
  const { thickness } = shape.stance;
  const plane = planeAcross(thickness);
  const facets = facetsOf(outlineIn(shape, plane), lean, off);
  return [...slabs([facets])].flatMap(({ from, to, layers }) =>
    layers
      .filter(({ height }) => height.numerator > 0n)
      .map(({ below, above }) => [
        ...between(plane.right, from, to),
        sideAlong(plane, below.left, below.right),
        sideAlong(plane, above.right, above.left),
      ]),
  );
}

/** Each zone of each panel, within the corners of that. */
function sidesOfPanels(shape: Pierced, lean: Lean, off: Length): readonly (readonly Side[])[] {
  const along = shape.stance.thickness;
  const plane = planeAcross(along);
  const { low } = shape.block;
  const datum = point(low[plane.right], low[plane.up]);
  return shape.panels.flatMap((panel) => {
    const corners = panel.seen.map((at) => point(add(at.x, datum.x), add(at.y, datum.y)));
    const around = corners.map((at, i) => sideAlong(plane, at, corners[(i + 1) % corners.length]!)); // within
    const frame = frameOf(panel, plane, along, { datum, low: low[along] });
    return zonesOf(panel, lean, off).map((zone) => [...around, ...sidesOfZone(zone, frame)]);
  });
}

/** How x and y of a panel's outline follow from a place in the tile: the sum of its three ways, so much of each. */
interface Frame {
  readonly x: Linear;
  readonly y: Linear;
}

interface Linear {
  readonly of: Corner;
  readonly start: Rational;
}

const none: Corner = { across: rational(0n), along: rational(0n), up: rational(0n) };

function frameOf(
  { at, onward }: Pierced['panels'][number],
  { right, up }: Plane,
  along: Way,
  { datum, low }: { readonly datum: Point; readonly low: Length },
): Frame {
  const start = negate(add(multiply(add(at.x, datum.x), onward.x), multiply(add(at.y, datum.y), onward.y)));
  return {
    x: { of: { ...none, [right]: onward.x, [up]: onward.y }, start },
    y: { of: { ...none, [along]: rational(1n) }, start: negate(low) },
  };
}

function sidesOfZone({ from, to, below, above }: Zone, { x, y }: Frame): readonly Side[] {
  return [
    ...(from === undefined ? [] : [upTo(opposite(x), negate(from))]),
    ...(to === undefined ? [] : [upTo(x, to)]),
    // y − rise · x has to be at least the one's start, at most the other's.
    upTo(opposite(off(y, x, below)), negate(below.start)),
    upTo(off(y, x, above), above.start),
  ];
}

function off(y: Linear, x: Linear, { rise }: Straight): Linear {
  const less = (a: Rational, b: Rational) => subtract(a, multiply(rise, b));
  return {
    of: {
      across: less(y.of.across, x.of.across),
      along: less(y.of.along, x.of.along),
      up: less(y.of.up, x.of.up),
    },
    start: less(y.start, x.start),
  };
}

function opposite({ of, start }: Linear): Linear {
  return {
    of: { across: negate(of.across), along: negate(of.along), up: negate(of.up) },
    start: negate(start),
  };
}

function upTo({ of, start }: Linear, most: Rational): Side {
  return { normal: of, most: subtract(most, start) };
}

function between(way: Way, from: Rational, to: Rational): readonly Side[] {
  return [
    { normal: { ...none, [way]: rational(-1n) }, most: negate(from) },
    { normal: { ...none, [way]: rational(1n) }, most: to },
  ];
}

/** What lies to the left of an edge that is seen in a plane. */
function sideAlong({ right, up }: Plane, from: Edge['left'], to: Edge['left']): Side {
  const { x, y } = less(to, from);
  // To the right of travel lies (y, −x).
  const normal = { ...none, [right]: y, [up]: negate(x) };
  return { normal, most: subtract(multiply(y, from.x), multiply(x, from.y)) };
}

type Box = ReturnType<typeof boxOfCell>;

function doBoxesMeet(a: Box, b: Box): boolean {
  return ways.every(
    (way) => compareRationals(a.low[way], b.high[way]) < 0 && compareRationals(b.low[way], a.high[way]) < 0,
  );
}

/** True where cells take up more than a border as wide as their points may be off. */
export function isMoreThan(off: Rational, cells: Iterable<Cell>): boolean {
  let [volume, surface] = [rational(0n), rational(0n)];
  for (const cell of cells) {
    if (off.numerator === 0n) return true;
    volume = add(volume, volumeOf(cell));
    surface = add(surface, surfaceOf(cell));
  }
  return compareRationals(volume, multiply(off, surface)) > 0;
}

/** The boxes round what hangs together of some cells. */
export function boxesRound(cells: readonly Cell[]): readonly Box[] {
  const found: Box[] = [];
  for (const cell of cells) {
    let box = boxOfCell(cell);
    for (
      let i = found.findIndex((it) => doTouch(it, box));
      i >= 0;
      i = found.findIndex((it) => doTouch(it, box))
    ) {
      box = roundBoth(found[i]!, box); // just found
      found.splice(i, 1);
    }
    found.push(box);
  }
  return found;
}

function doTouch(a: Box, b: Box): boolean {
  return ways.every(
    (way) => compareRationals(a.low[way], b.high[way]) <= 0 && compareRationals(b.low[way], a.high[way]) <= 0,
  );
}

function roundBoth(a: Box, b: Box): Box {
  const [low, high] = [{ ...a.low }, { ...a.high }];
  for (const way of ways) {
    if (compareRationals(b.low[way], low[way]) < 0) low[way] = b.low[way];
    if (compareRationals(b.high[way], high[way]) > 0) high[way] = b.high[way];
  }
  return { low, high };
}
