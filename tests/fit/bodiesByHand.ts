import initManifold from 'manifold-3d';
import { minus, sum, toDrawnMm, zero } from '../../src/measure/index.ts';
import {
  type Block,
  type ByWay,
  type Length,
  type Outline,
  type Profile,
  type Rational,
  type Stance,
  type StandingPart,
  type Way,
  ways,
} from '../../src/model/index.ts';
import { flattened, planeAcross, polygon } from '../../src/outline/index.ts';
import { here, mm } from './byHand.ts';

/** Pieces set down by hand, bevelled, sloping and bent; and the same as an independent solid kernel sees them. */

export function blockAt(low: readonly Length[], size: readonly Length[]): Block {
  const by = (give: (i: number) => Length): ByWay<Length> => ({
    across: give(0),
    along: give(1),
    up: give(2),
  });
  return { low: by((i) => low[i]!), high: by((i) => sum(low[i]!, size[i]!)) }; // three of three
}

export function spanIn({ low, high }: Block, way: Way): Length {
  return minus(high[way], low[way]);
}

export const lying: Stance = { length: 'across', width: 'along', thickness: 'up' };
export const seenFromFront: Stance = { length: 'across', width: 'up', thickness: 'along' };
export const seenFromSide: Stance = { length: 'along', width: 'up', thickness: 'across' };

export function piece(
  name: string,
  block: Block,
  stance: Stance,
  more: Partial<StandingPart> = {},
): StandingPart {
  const span = (way: Way) => spanIn(block, way);
  return {
    kind: 'part',
    name,
    part: name,
    clads: undefined,
    at: here,
    material: 'board',
    size: { length: span(stance.length), width: span(stance.width), thickness: span(stance.thickness) },
    stance,
    facing: 'front',
    isTurnedOver: false,
    block,
    overhangs: [],
    grain: undefined,
    flutes: undefined,
    isFloor: true,
    accepted: [],
    ...more,
  };
}

export function drawn(points: readonly (readonly [Length, Length])[]): Outline {
  const { value } = polygon(points.map(([x, y]) => ({ x, y })));
  if (value === undefined) throw new Error('no polygon');
  return value;
}

/** Four mitred walls of one thickness round a box, the long faces outward. */
export function mitredWalls(
  { across, along, up }: ByWay<Length>,
  t: Length,
  more: Partial<Record<'front' | 'back' | 'left' | 'right', Partial<StandingPart>>> = {},
): readonly StandingPart[] {
  const [x, y] = [minus(across, t), minus(along, t)];
  const wall = (name: keyof typeof more, low: readonly Length[], size: readonly Length[], outline: Outline) =>
    piece(name, blockAt(low, size), name === 'front' || name === 'back' ? seenFromFront : seenFromSide, {
      profile: { along: 'up', outline },
      bevels: (['left', 'right'] as const).map((side) => ({
        side,
        longFace: 'good',
        back: { lo: t, hi: t },
        thickness: t,
      })),
      ...more[name],
    });
  return [
    wall(
      'front',
      [zero, zero, zero],
      [across, t, up],
      drawn([
        [zero, zero],
        [across, zero],
        [x, t],
        [t, t],
      ]),
    ),
    wall(
      'back',
      [zero, y, zero],
      [across, t, up],
      drawn([
        [t, zero],
        [x, zero],
        [across, t],
        [zero, t],
      ]),
    ),
    wall(
      'left',
      [zero, zero, zero],
      [t, along, up],
      drawn([
        [zero, zero],
        [t, t],
        [t, y],
        [zero, along],
      ]),
    ),
    wall(
      'right',
      [x, zero, zero],
      [t, along, up],
      drawn([
        [zero, t],
        [t, zero],
        [t, along],
        [zero, y],
      ]),
    ),
  ];
}

type Kernel = Awaited<ReturnType<typeof initManifold>>;
export type Solid = InstanceType<Kernel['Manifold']>;

export const float = (value: Rational): number => toDrawnMm(value as Length); // of whatever unit; only its float is looked at
/** Far nearer to the curves than the verdicts look. */
const fine = mm(1, 2000);

/** manifold-3d 3.5.4, in binary floats. */
export async function kernelOfSolids() {
  const kernel = await initManifold();
  kernel.setup();
  const pulled = (outline: Outline, thick: number): Solid =>
    new kernel.CrossSection(
      flattened(outline, 'along', fine).map((loop) =>
        loop.map((at): [number, number] => [float(at.x), float(at.y)]),
      ),
      'Positive',
    ).extrude(thick);
  const stood = (solid: Solid, block: Block, by: Stance): Solid => {
    const columns = [by.length, by.width, by.thickness].map((way) => ways.map((it) => (it === way ? 1 : 0)));
    const [a, b, c] = columns as [number[], number[], number[]]; // three of three
    const low = ways.map((way) => float(block.low[way]));
    return solid.transform([...a, 0, ...b, 0, ...c, 0, ...low, 1] as never); // sixteen numbers, column by column
  };
  const seen = (block: Block, stance: Stance, outline: Outline): Solid =>
    stood(pulled(outline, float(spanIn(block, stance.thickness))), block, stance);
  const ofProfile = (block: Block, { along, outline }: Profile): Solid => {
    const { right, up } = planeAcross(along);
    return seen(block, { length: right, width: up, thickness: along }, outline);
  };
  /** What a piece takes up; `isFlat`: its outline counts, too. */
  const solid = ({ block, stance, outline, profile }: StandingPart, isFlat = true): Solid => {
    const [x, y, z] = ways.map((way) => float(spanIn(block, way))) as [number, number, number]; // three of three
    const cube = kernel.Manifold.cube([x, y, z]).translate(ways.map((way) => float(block.low[way])) as never);
    const face = outline === undefined || !isFlat ? cube : seen(block, stance, outline);
    return profile === undefined ? face : face.intersect(ofProfile(block, profile));
  };
  return { solid };
}
