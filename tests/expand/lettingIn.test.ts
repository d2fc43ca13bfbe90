import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { judge, unmetBy, verdictsSaid } from '../../src/fit/index.ts';
import { toDrawnMm, toFraction } from '../../src/measure/index.ts';
import type { Batch, Bore, PartMember } from '../../src/model/index.ts';
import { batchOf } from './check.ts';

const inMm = `cardwright: kit
units: mm
grid: { square: 60, slack: 0.2, lip: 0.2 }
materials: { card: { thickness: 2 }, foam: { thickness: 10 } }
sheets: { card: [{ size: [400, 400] }], foam: [{ size: [400, 400] }] }
fittings: { magnet: { diameter: 6, depth: 2, clearance: 0.1 } }
`;

function membersOf({ materials }: Batch): readonly PartMember[] {
  return materials.flatMap(({ parts }) => parts.flatMap(({ members }) => members));
}

function boresOf(batch: Batch, part: string): readonly Bore[] {
  return membersOf(batch).find((it) => it.part === part)?.drawn?.bores ?? [];
}

const said = ({ fitting, into, deep }: Bore): string => {
  const place =
    into.kind === 'face'
      ? `${into.face} ${toFraction(into.at.x)} ${toFraction(into.at.y)}`
      : `${into.side} ${toFraction(into.along)} ${toFraction(into.up)}`;
  return `${fitting} ${place} ${deep === undefined ? 'through' : toFraction(deep)}`;
};

// Expected: worked out by hand on the drawing of each tile.
describe('the holes for fittings', () => {
  const slab = (fittings: string) =>
    batchOf(`${inMm}tiles:
  tile:
    parts: { slab: { of: foam, size: [60, 60] } }
    build: { up: [slab] }
    fittings: { magnet: ${fittings} }
`);

  it('are as wide as the fitting and its clearance, each into its edge, seen from outside', () => {
    const bores = boresOf(
      slab('{ into: [front of slab, right of slab, back of slab, left of slab], at: [[10, 4]] }'),
      'slab',
    );
    expect(bores.map(said).sort()).toEqual([
      // From the left of the back is from the right of the drawing; from the left of the left, from its top.
      'magnet bottom 10 4 2',
      'magnet left 50 4 2',
      'magnet right 10 4 2',
      'magnet top 50 4 2',
    ]);
    expect(bores.map(({ diameter }) => toDrawnMm(diameter))).toEqual([6.1, 6.1, 6.1, 6.1]);
  });

  it('come from the side where the good one looks, or from the other', () => {
    expect(boresOf(slab('{ into: top of slab, at: [[10, 20]] }'), 'slab').map(said)).toEqual([
      'magnet good 10 20 2',
    ]);
    expect(boresOf(slab('{ into: bottom of slab, at: [[10, 20]] }'), 'slab').map(said)).toEqual([
      'magnet other 10 20 2',
    ]);
  });

  it('are four in the corners at an inset, or two on the middle of the longer way', () => {
    expect(boresOf(slab('{ into: bottom of slab, inset: 8 }'), 'slab').map(said)).toEqual([
      'magnet other 8 8 2',
      'magnet other 8 52 2',
      'magnet other 52 8 2',
      'magnet other 52 52 2',
    ]);
    expect(boresOf(slab('{ into: front of slab, inset: 8, count: 2 }'), 'slab').map(said)).toEqual([
      'magnet bottom 8 5 2',
      'magnet bottom 52 5 2',
    ]);
  });

  const walled = (fittings: string, face = '') =>
    batchOf(`${inMm}tiles:
  tile:
    parts:
      face: { of: card, size: [60, 10]${face} }
      core: { of: foam, size: [60, 56], lies: yes }
    build: { along: [face, core, face] }
    fittings: { magnet: ${fittings} }
`);

  it('go through one part into the next, and are cut out of the first', () => {
    const batch = walled('{ into: front of face 1, at: [[20, 5]], deep: 4 }');
    expect(boresOf(batch, 'face, bored').map(said)).toEqual(['magnet good 20 5 through']);
    expect(boresOf(batch, 'core').map(said)).toEqual(['magnet bottom 20 5 2']);
    const bored = membersOf(batch).find(({ part }) => part === 'face, bored');
    expect(bored).toMatchObject({ count: 1, label: 'TI face bored', standsAs: 'face' });
    expect(bored?.drawn?.outline?.holes).toHaveLength(1);
    expect(membersOf(batch).find(({ part }) => part === 'face')).toMatchObject({ count: 1 });
    expect(membersOf(batch).find(({ part }) => part === 'face')).not.toHaveProperty('drawn');
  });

  it('make no difference between pieces that are bored alike', () => {
    const batch = walled('{ into: [front of face 1, back of face 2], at: [[20, 5], [40, 5]] }');
    expect(membersOf(batch).filter(({ part }) => part.startsWith('face'))).toMatchObject([
      { part: 'face', count: 2 },
    ]);
  });

  it('are those of its good side in a part that faces about', () => {
    const batch = walled(
      '{ into: [front of face 1, back of face 2], at: [[20, 5]] }',
      ', good side: yes, note: painted',
    );
    const faces = membersOf(batch).filter(({ part }) => part.startsWith('face'));
    // Both look to the front: at the back it is bored from behind, 20 from the left there, so 40 along.
    expect(faces.map(({ drawn }) => (drawn?.bores ?? []).map(said)).sort()).toEqual([
      ['magnet good 20 5 through'],
      ['magnet good 40 5 through'],
    ]);
    expect(faces.map(({ part }) => part).sort()).toEqual(['face, bored 1', 'face, bored 2']);
  });

  it('swap with a part that is its other hand', () => {
    const batch = batchOf(`${inMm}tiles:
  tile:
    parts:
      cheek: { of: card, outline: { polygon: [[0, 0], [60, 0], [60, 20], [0, 10]] }, good side: yes }
      core: { of: foam, size: [60, rest], lies: yes, floor: no }
    build: { across: [{ part: cheek, facing: left }, { up: [{ part: core, length: along }] }, { part: cheek, facing: right }], to: free }
    fittings: { magnet: { into: [left of cheek 1, right of cheek 2], at: [[20, 4]] } }
`);
    const hands = membersOf(batch).filter(({ part }) => part.startsWith('cheek'));
    expect(hands).toHaveLength(2);
    // The left cheek is looked at from the left, where the front is right: 20 from the back. The right one from the right.
    expect(hands.map(({ drawn }) => (drawn?.bores ?? []).map(said)).sort()).toEqual([
      ['magnet good 20 4 through'],
      ['magnet good 20 4 through'],
    ]);
  });
});

type Vector = readonly [number, number, number];
const order = ['across', 'along', 'up'] as const;
type Way = (typeof order)[number];

const cross = ([a, b, c]: Vector, [d, e, f]: Vector): Vector => [b * f - c * e, c * d - a * f, a * e - b * d];
const unit = (way: Way, sign = 1): Vector => order.map((it) => (it === way ? sign : 0)) as unknown as Vector; // three of three

/**
 * Where the drawing of a part without a good side has its right, its top and whoever looks at it, as the language says:
 * the length and the width from the low ends of their ways, but for a quarter turn and what is flipped; and whoever looks
 * at it stands where its right and its top go round against the clock.
 */
function seen(length: Way, width: Way, thickness: Way, flip: string) {
  const isQuarterTurned = length === 'up' || (thickness === 'up' && length === 'along');
  const isEndForEnd = flip === 'length' || flip === 'both';
  const isTopForBottom = (flip === 'width' || flip === 'both') !== isQuarterTurned;
  const right = unit(length, isEndForEnd ? -1 : 1);
  const top = unit(width, isTopForBottom ? -1 : 1);
  return { isEndForEnd, isTopForBottom, looker: cross(right, top) };
}

// Expected: by right, top and their cross product, in whole numbers. A cube of 10 is 10 thick all ways round.
describe('a blind hole in a part without a good side', () => {
  const stances = order.flatMap((thickness) =>
    order.filter((it) => it !== thickness).map((length) => [thickness, length] as const),
  );
  const sidesOf = { across: ['left', 'right'], along: ['front', 'back'], up: ['bottom', 'top'] } as const;
  const flips = ['none', 'length', 'width', 'both'] as const;

  it.each(stances.flatMap(([thickness, length]) => flips.map((flip) => [thickness, length, flip] as const)))(
    'is told from the right side in a row %s, length %s, flip %s',
    (thickness, length, flip) => {
      const width = order.find((it) => it !== thickness && it !== length)!;
      const { isEndForEnd, isTopForBottom, looker } = seen(length, width, thickness, flip);
      const sides = sidesOf[thickness];
      // What only faces about stays where it is, so it is the same for whoever bores it.
      for (const facing of [undefined, ...sides]) {
        for (const [end, side] of sides.entries()) {
          const says = `${flip === 'none' ? '' : `, flip: ${flip}`}${facing === undefined ? '' : `, facing: ${facing}`}`;
          const batch = batchOf(`${inMm}tiles:
  tile:
    footprint: [10, 10]
    parts: { base: { of: foam, size: [10, 10] } }
    build: { up: [{ part: base, thickness: ${thickness}, length: ${length}${says} }] }
    fittings: { magnet: { into: ${side} of base, at: [[2, 3]] } }
`);
          // Seen from outside, 2 from the left and 3 up; of the top and the bottom seen from above.
          const there = { across: 2, along: 2, up: 3 };
          if (thickness === 'up') there.along = 3;
          if (side === 'left') there.along = 10 - 2;
          if (side === 'back') there.across = 10 - 2;
          const x = isEndForEnd ? 10 - there[length] : there[length];
          const y = isTopForBottom ? 10 - there[width] : there[width];
          const isSeen = looker[order.indexOf(thickness)]! > 0 === (end === 1);
          expect([facing, side, boresOf(batch, 'base').map(said)]).toEqual([
            facing,
            side,
            [`magnet ${isSeen ? 'good' : 'other'} ${x} ${y} 2`],
          ]);
        }
      }
    },
  );

  it('goes into the edge as far from the face that is drawn as it truly is', () => {
    const batch = (says: string) =>
      batchOf(`${inMm}tiles:
  tile:
    parts: { base: { of: foam, size: [60, 60] } }
    build: { up: [{ part: base${says} }] }
    fittings: { magnet: { into: front of base, at: [[20, 4]] } }
`);
    // 4 from the table. Upside down, end for end: the face behind the drawing is on top, and 20 is from the right.
    expect(boresOf(batch(''), 'base').map(said)).toEqual(['magnet bottom 20 4 2']);
    expect(boresOf(batch(', flip: length'), 'base').map(said)).toEqual(['magnet bottom 40 6 2']);
    expect(boresOf(batch(', flip: width'), 'base').map(said)).toEqual(['magnet top 20 6 2']);
    // What only faces about stays where it is.
    expect(boresOf(batch(', facing: bottom'), 'base').map(said)).toEqual(['magnet bottom 20 4 2']);
  });
});

const paths = ['shared/card-and-foam.yaml', 'specs/hillside.yaml'];
const files = Object.fromEntries(
  paths.map((path) => [path, readFileSync(new URL(`../../${path}`, import.meta.url), 'utf8')]),
);
const hillside = (files['specs/hillside.yaml'] ?? '').replaceAll('../', '');

/** Codes of all verdicts on the vineyard, with one thing in it replaced. */
function verdicts(from: string, to: string): readonly string[] {
  expect(hillside).toContain(from);
  const { builds, settings } = batchOf(hillside.replace(from, to), files);
  const unmet = unmetBy(builds);
  const { ruler, firstUnit } = settings;
  const style = { units: firstUnit, firstUnit, ruler: ruler.value };
  return builds
    .map((it) => judge(it, { ruler: ruler.value, wander: undefined }, unmet.get(it.tile)))
    .flatMap((fit) => verdictsSaid(fit, style).map(({ code }) => code));
}

describe('the magnets of the vineyard', () => {
  it('are sound, and broken copies are told', () => {
    expect(verdicts('pole: [out, in]', 'pole: [out, in]')).toEqual([]);
    expect(verdicts('pole: [out, in]', 'pole: out')).toContain('F24');
    expect(verdicts('at: [[1/2, 1/4], [2 1/2, 1/4]]', 'at: [[1/2, 1/4], [2 3/8, 1/4]]')).toContain('F23');
    expect(verdicts('at: [[1/2, 1/4], [2 1/2, 1/4]]', 'at: [[1/2, 1/8], [2 1/2, 1/8]]')).toContain('F20');
    expect(verdicts('[front of fill, right', '[front of bed, right')).toContain('F20');
    expect(verdicts('at: [[1/2, 1/4], [2 1/2, 1/4]]', 'at: [[1/2, 1/4], [5/8, 1/4]]')).toContain('F22');
    expect(verdicts('at: [[1/2, 1/4], [2 1/2, 1/4]]', 'at: [[1/2, 1], [2 1/2, 1]]')).toContain('F21');
  });
});
