import fc from 'fast-check';
import initManifold from 'manifold-3d';
import { beforeAll, describe, expect, it } from 'vitest';
import { expand } from '../../src/expand/index.ts';
import { judge, verdictsSaid } from '../../src/fit/index.ts';
import { touchingOf } from '../../src/fit/touching.ts';
import { minus, toFraction, zero } from '../../src/measure/index.ts';
import { type Length, type StandingPart, type TileFit, ways } from '../../src/model/index.ts';
import { bodyOf, sideAreaOf } from '../../src/outline/index.ts';
import { specOf } from '../expand/check.ts';
import { blockAt, float, lying, piece, type Solid } from './bodiesByHand.ts';
import { mm } from './byHand.ts';

/** Parts that slope or are folded, with something cut into them, where they stand. */
type Place = readonly [number, number, number];

let kernel: Awaited<ReturnType<typeof initManifold>>;
beforeAll(async () => {
  kernel = await initManifold();
  kernel.setup();
});

const opening = (t: number) => `cardwright: kit
units: mm
grid: { square: 60, slack: 0.2, lip: 0.2 }
print: { ruler: 0.1 }
materials: { card: { thickness: ${t} }, foam: { thickness: 10 } }
sheets: { card: [{ size: [800, 800] }], foam: [{ size: [800, 800] }] }
fittings: { disc magnet: { diameter: 6, depth: 2, least wall: 0.5 } }
`;

function judged(text: string): { readonly fit: TileFit; readonly said: readonly string[] } {
  const { value, diagnostics } = expand(specOf(text), {});
  expect(diagnostics.map(({ code, message }) => `${code} ${message}`)).toEqual([]);
  const { ruler, firstUnit } = value!.settings;
  const fit = judge(value!.builds[0]!, { ruler: ruler.value, wander: undefined });
  const said = verdictsSaid(fit, { units: firstUnit, firstUnit, ruler: ruler.value });
  return { fit, said: said.map(({ code, message }) => `${code} ${message}`) };
}

const partOf = (text: string): StandingPart => judged(text).fit.build.parts[0]!;

/** What is cut out, in the drawing of a part. */
interface Cut {
  readonly kind: 'rectangle' | 'circle';
  readonly middle: readonly [number, number];
  readonly size: readonly [number, number];
}

/** One hole, whose middle lies between two places and well within the width. */
const cutIn = (from: number, to: number, wide: number): fc.Arbitrary<Cut> =>
  fc
    .record({
      kind: fc.constantFrom('rectangle' as const, 'circle' as const),
      x: fc.integer({ min: from, max: to }),
      y: fc.integer({ min: 12, max: wide - 12 }),
      a: fc.integer({ min: 4, max: 14 }),
      b: fc.integer({ min: 4, max: 14 }),
    })
    .map(({ kind, x, y, a, b }) => ({ kind, middle: [x, y], size: [a, b] }));

function written({ kind, middle: [x, y], size: [a, b] }: Cut): string {
  const hole = kind === 'circle' ? `circle: ${a}` : `rectangle: [${a}, ${b}]`;
  return `{ hole: { ${hole} }, centre: [${x}, ${y}] }`;
}

/** A flat board from one place of its drawing to another, its lower face at 0. */
function board(from: number, to: number, wide: number, thick: number, { kind, middle, size }: Cut): Solid {
  const { CrossSection } = kernel;
  const hole =
    kind === 'circle' ? CrossSection.circle(size[0] / 2, 256) : CrossSection.square([...size], true);
  return CrossSection.square([to - from, wide])
    .subtract(hole.translate([middle[0] - from, middle[1]]))
    .extrude(thick);
}

/** Where x, y and z go, and the datum: across, along, up. */
function laidOut(solid: Solid, ...columns: readonly [Place, Place, Place, Place]): Solid {
  const [x, y, z, at] = columns;
  return solid.transform([...x, 0, ...y, 0, ...z, 0, ...at, 1] as never); // sixteen numbers, column by column
}

const box = (low: Place, size: Place): Solid => kernel.Manifold.cube([...size]).translate([...low]);

/** How far the middle of a block is off some place, and how large it is. */
const blocks = fc.record({
  off: fc.tuple(...[2, 2, 2].map((most) => fc.integer({ min: -most, max: most }))),
  size: fc.tuple(...[6, 6, 6].map((max) => fc.integer({ min: 1, max }))),
});

/** That block, by eighths of a millimetre, and the same in floats. */
function blockBy(place: Place, { off, size }: { readonly off: number[]; readonly size: number[] }) {
  const low = place.map((at, i) => Math.round((at + off[i]! - size[i]! / 2) * 8)); // three of three
  const block = blockAt(
    low.map((it) => mm(it, 8)),
    size.map((it) => mm(it)),
  );
  const [x, y, z] = low.map((it) => it / 8) as [number, number, number]; // three of three
  return { part: piece('block', block, lying), solid: box([x, y, z], size as never) };
}

const touching = (...parts: readonly StandingPart[]) => touchingOf({ parts, glueLine: zero } as never); // all it looks at

/** How a part would be without its cuts. */
function whole(part: StandingPart): StandingPart {
  const { panels, ...profile } = part.profile!;
  expect(panels).toBeDefined();
  return { ...part, profile };
}

/** @returns true where there is room for it in the hole alone */
function agrees(part: StandingPart, solid: Solid, other: ReturnType<typeof blockBy>): boolean {
  const { overlaps, doubts } = touching(part, other.part);
  const shared = solid.intersect(other.solid).volume();
  if (doubts.length > 0) expect(shared).toBeLessThan(3);
  else if (overlaps.length > 0) expect(shared).toBeGreaterThan(1e-4);
  else expect(shared).toBeLessThan(1e-2);
  return overlaps.length === 0 && touching(whole(part), other.part).overlaps.length > 0;
}

function looksAsLargeAs(part: StandingPart, solid: Solid): void {
  const areas = ways.flatMap((way) =>
    (['low', 'high'] as const).map((end) => sideAreaOf(bodyOf(part), way, end)),
  );
  const sum = (end: 'lo' | 'hi') => areas.reduce((all, area) => all + float(area[end]), 0);
  const surface = solid.surfaceArea();
  expect(surface).toBeGreaterThan(sum('lo') * (1 - 1e-3));
  expect(surface).toBeLessThan(sum('hi') * (1 + 1e-3));
}

const middleOf = (solid: Solid): Place => solid.boundingBox().min as unknown as Place; // of a speck
const speck = (x: number, y: number, z: number): Solid => box([x, y, z], [1e-6, 1e-6, 1e-6]);

// Source of every expected value in this block: manifold-3d 3.5.4, an independent solid kernel in binary floats;
// where boards stand: Pythagoras and hinges in floats.
describe('what is cut into slopes and folds, against an independent kernel', () => {
  const slopes = fc.record({
    run: fc.constantFrom(40, 36, 50),
    rise: fc.constantFrom(30, 15, 20, 7),
    thick: fc.constantFrom(1.5, 2, 4),
    to: fc.constantFrom('back' as const, 'front' as const, 'left' as const, 'right' as const),
    ends: fc.constantFrom('plumb' as const, 'square' as const),
    cut: cutIn(12, 24, 40),
    block: blocks,
  });

  it('leaves as much room and as much surface of a board that slopes', () => {
    let freed = 0;
    fc.assert(
      fc.property(slopes, ({ run, rise, thick, to, ends, cut, block }) => {
        const isAlong = to === 'back' || to === 'front';
        // The drawing's length runs up the slope.
        const deck = partOf(`${opening(thick)}
tiles:
  ramp:
    footprint: [${isAlong ? `40, ${run}` : `${run}, 40`}]
    parts: { deck: { of: card, size: [rest, 40], cuts: [${written(cut)}] } }
    build: { up: [{ part: deck, slope: { to: ${to}, rise: ${rise}, ends: ${ends} }, length: ${isAlong ? 'along' : 'across'}, up to: 0.1 }] }
`);
        const long = Math.hypot(run, rise);
        const [cos, sin] = [run / long, rise / long];
        const longer = (thick * rise) / run;
        const isUp = to === 'back' || to === 'right';
        const stretch = ends === 'square' ? long - longer : long + longer;
        // Where the lower face of the drawing's left end is, seen from beside.
        const lowerEnd: readonly [number, number] = ends === 'square' ? [thick * sin, 0] : [0, 0];
        const upperEnd: readonly [number, number] =
          ends === 'square' ? [0, stretch * sin] : [-thick * sin, rise + thick / cos - thick * cos];
        const [w, z] = isUp ? lowerEnd : upperEnd;
        const up = isUp ? sin : -sin;
        // Along, it is turned a quarter round: its bottom is at the right.
        const way = (x: number, y: number, h: number): Place => (isAlong ? [-y, x, h] : [x, y, h]);
        const stood = (it: Solid) =>
          laidOut(it, way(cos, 0, up), way(0, 1, 0), way(-up, 0, cos), isAlong ? [40, w, z] : [w, 0, z]);
        const room = box([0, 0, -1], isAlong ? [40, run, 200] : [run, 40, 200]);
        const solid = stood(board(0, stretch, 40, thick, cut)).intersect(room);
        const [x, y] = cut.middle;
        if (agrees(deck, solid, blockBy(middleOf(stood(speck(x, y, thick / 2))), block))) freed++;
        looksAsLargeAs(deck, solid);
      }),
      { numRuns: 12 },
    );
    expect(freed).toBeGreaterThan(0);
  });

  const strips = fc.record({
    panels: fc.array(fc.integer({ min: 28, max: 34 }), { minLength: 2, maxLength: 3 }),
    angles: fc.tuple(
      ...[0, 1].map(() => fc.constantFrom('90', '{ rise: 3, run: 4 }', '30', '{ rise: 2, run: 5 }')),
    ),
    number: fc.integer({ min: 0, max: 2 }),
    thick: fc.constantFrom(1, 2),
    facing: fc.constantFrom('top', 'bottom'),
    flip: fc.constantFrom('', ', flip: both'),
    cut: cutIn(12, 12, 40),
    block: blocks,
  });
  const radians = (angle: string): number => {
    const [rise = 0, run] = (angle.match(/\d+/gu) ?? []).map(Number);
    return run === undefined ? (rise * Math.PI) / 180 : Math.atan2(rise, run);
  };

  /** Slabs one after the other, each turned down about the lower edge of the one before; wedges fill what opens. */
  function foldedUp(
    panels: readonly number[],
    turns: readonly number[],
    thick: number,
    cut: Cut,
    number: number,
  ) {
    const takes = turns.map((it) => thick * Math.tan(it / 2));
    const lines = [0];
    for (const [i, size] of panels.entries())
      lines.push(lines[i]! + size - (takes[i - 1] ?? 0) - (takes[i] ?? 0));
    const inBlank: Cut = { ...cut, middle: [lines[number]! + cut.middle[0], cut.middle[1]] };
    let [x, z, turn] = [0, 0, 0];
    const solids: Solid[] = [];
    let middle = speck(0, 0, 0);
    for (const [i] of panels.entries()) {
      const [from, to] = [lines[i]!, lines[i + 1]!];
      const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
      const at: Place = [x, 0, z];
      const stood = (it: Solid) => laidOut(it, [cos, 0, sin], [0, 1, 0], [-sin, 0, cos], at);
      solids.push(stood(board(from, to, 40, thick, inBlank)));
      if (i === number) middle = stood(speck(cut.middle[0], cut.middle[1], thick / 2));
      [x, z] = [x + (to - from) * cos, z + (to - from) * sin];
      if (turns[i] === undefined) break;
      const outer = (angle: number): [number, number] => [
        x - thick * Math.sin(angle),
        z + thick * Math.cos(angle),
      ];
      const [one, other] = [outer(turn), outer(turn - turns[i]!)];
      const apex: [number, number] = [one[0] + takes[i]! * cos, one[1] + takes[i]! * sin];
      // A hair larger, or floats leave it apart from the slabs beside it.
      const kite = new kernel.CrossSection([[[x, z], other, apex, one]], 'NonZero').offset(1e-4, 'Miter');
      const wedge = kite.extrude(40);
      solids.push(laidOut(wedge, [1, 0, 0], [0, 0, 1], [0, 1, 0], [0, 0, 0]));
      turn -= turns[i]!;
    }
    return { solid: kernel.Manifold.union(solids), middle, inBlank };
  }

  it('leaves as much room and as much surface of a strip that is folded', () => {
    let freed = 0;
    fc.assert(
      fc.property(strips, ({ panels, angles, number, thick, facing, flip, cut, block }) => {
        const turns = angles.slice(0, panels.length - 1);
        const which = Math.min(number, panels.length - 1);
        const { solid, middle, inBlank } = foldedUp(panels, turns.map(radians), thick, cut, which);
        const strip = partOf(`${opening(thick)}
tiles:
  roof:
    footprint: [200, 40]
    parts: { strip: { of: card, folds: { panels: [${panels.join(', ')}], angles: [${turns.join(', ')}], width: 40, base: 1 }, cuts: [${written(inBlank)}] } }
    build: { up: [{ across: [{ part: strip, thickness: up, facing: ${facing}${flip} }, gap rest], length: across }] }
`);
        const { low } = strip.block;
        const { min, max } = solid.boundingBox();
        const [round, down] = [flip !== '', facing === 'bottom'];
        const moved = (it: Solid) =>
          laidOut(
            it,
            [round ? -1 : 1, 0, 0],
            [0, round ? -1 : 1, 0],
            [0, 0, down ? -1 : 1],
            [
              float(low.across) + (round ? max[0]! : -min[0]!),
              float(low.along) + (round ? 40 : 0),
              float(low.up) + (down ? max[2]! : -min[2]!),
            ],
          );
        if (agrees(strip, moved(solid), blockBy(middleOf(moved(middle)), block))) freed++;
        looksAsLargeAs(strip, moved(solid));
      }),
      { numRuns: 12 },
    );
    expect(freed).toBeGreaterThan(0);
  });
});

/** Without what it is in inches. */
const said = (text: string): readonly string[] =>
  judged(text).said.map((it) => it.replace(/ \[[^\]]*\]/gu, ''));

const withoutPosts = (text: string): string =>
  text.replace(/^ +(- \{ part: )?post.*\n|^ +added: \[\{ part: post.*\n/gmu, '');

/** The text with one thing in it replaced. */
function but(text: string, from: string, to: string): string {
  expect(text.split(from)).toHaveLength(2);
  return text.replace(from, to);
}

const ramp = `${opening(2)}
tiles:
  ramp:
    footprint: [60, 40]
    parts:
      slab:  { of: card, size: [60, 40] }
      deck:  { of: card, size: [60, rest], cuts: [{ hole: { rectangle: [10, 14] }, centre: [30, 25] }] }
      cheek: { of: foam, size: [rest, rest] }
      post:  { of: foam, size: [10, 10], lies: yes }
    build: { up: [slab, { part: deck, slope: { to: back, rise: 30 } }] }
    added:
      - { part: cheek, under: deck, flush: left }
      - { part: cheek, under: deck, flush: right }
      - { part: post, at: [25, 14.4, 2] }
      - { part: post, at: [25, 14.4, 12] }
      - { part: post, at: [25, 14.4, 22] }
    edges: { front: 4.5, back: 34.5, left: [4.5, 34.5], right: [4.5, 34.5] }
`;

// Source of every expected value: by hand. The slope is 3 in 4, so a hole is 4/5 of its length long and its walls
// lean back by 3/5 of the thickness: a post 10 thick wants (10 + 2 · 3/5) · 5/4 = 14.
describe('a post through a ramp', () => {
  it('has room in a hole that is long enough to a hair', () => {
    expect(said(ramp)).toEqual([]);
  });
  it('is in the way where that is shorter, or elsewhere', () => {
    const deep = '0.04 mm deep along';
    expect(said(but(ramp, '[10, 14]', '[10, 13.9]'))).toEqual([
      `F04 "ramp": "deck" and "post 2" are in one place, ${deep}`,
      `F04 "ramp": "deck" and "post 3" are in one place, ${deep}`,
    ]);
    expect(said(but(ramp, 'centre: [30, 25]', 'centre: [31, 25]')).map((it) => it.slice(0, 24))).toEqual(
      Array(2).fill('F04 "ramp": "deck" and "'),
    );
  });
  it('leaves what is beside it as it was', () => {
    const { fit } = judged(
      but(
        withoutPosts(ramp),
        '{ hole: { rectangle: [10, 14] }, centre: [30, 25] }',
        '{ hole: { rectangle: [6, 10] }, centre: [5, 25] }',
      ),
    );
    const under = fit.contacts.filter(({ part, other }) => part.part === 'cheek' && other.part === 'deck');
    // 50 · 10, less 6 · 10 over the left one.
    expect(under.map(({ area }) => [area.lo, area.hi].map(toFraction))).toEqual([
      ['440', '440'],
      ['500', '500'],
    ]);
    const top = (material: string) => fit.faces.find((it) => it.material === material && it.side === 'top');
    // The deck, 50 · 60 less the hole, and the slab between the cheeks; of a cheek what the hole shows.
    expect([top('card')?.area.lo, top('card')?.area.hi].map((it) => it && toFraction(it))).toEqual([
      '4540',
      '4540',
    ]);
    expect([top('foam')?.area.lo, top('foam')?.area.hi].map((it) => it && toFraction(it))).toEqual([
      '60',
      '60',
    ]);
  });
  it('does not make up for a floor that is cut away at a side', () => {
    // From 20 up the slope the deck's top is 2 + 12 + 8/5 high, 16 − 6/5 from the front; the cheek 2 + 3/4 · 74/5.
    const cut = but(
      withoutPosts(ramp),
      '{ hole: { rectangle: [10, 14] }, centre: [30, 25] }',
      '{ notch: { size: [20, 10] }, edge: left, bottom: 20 }',
    );
    expect(said(cut)).toEqual([
      'F14 "ramp": the floor at the left is to slope, and steps from 15.6 mm to 13.1 mm on "cheek 1", 14.8 mm from its front end',
    ]);
  });
});

const bridge = `${opening(2)}
tiles:
  bridge:
    parts:
      slab: { of: card, size: [60, 60] }
      deck: { of: card, folds: { panels: [22, 60, 22], angles: [90, 90], width: 60 }, cuts: [{ hole: { circle: 12 }, centre: [48, 30] }] }
      post: { of: foam, size: [8, 8] }
    build: { up: [slab, deck] }
    added: [{ part: post, at: [26, 26, 18] }, { part: post, at: [26, 26, 28], name: cap }]
    edges: { left: wall, right: wall }
`;

// By hand: a square of 8 is 11.3 from corner to corner, one of 9 is 12.7. The blank is folded at 20 and at 76.
describe('what is folded', () => {
  const loose = (it: string) => !it.startsWith('F05');
  it('leaves room for what goes through a hole of its roof', () => {
    expect(said(bridge).filter(loose)).toEqual([]);
    const wide = but(bridge, 'size: [8, 8]', 'size: [9, 9]');
    // At its corner, 5 off both ways: 5 − √(36 − 25).
    expect(said(wide).filter(loose)[0]).toMatch(
      /^F04 "bridge": "deck" and "post" are in one place, ~1\.7 mm /u,
    );
  });
  it('is no wall where one can look through it from side to side', () => {
    const window = '{ hole: { circle: 12 }, centre: [48, 30] }';
    const left = '{ hole: { circle: 8 }, centre: [10, 20] }';
    const right = '{ hole: { rectangle: [10, 10] }, centre: [86, 22] }';
    const empty = withoutPosts(bridge);
    expect(said(but(empty, window, left))).toEqual([]);
    expect(said(but(empty, window, `${left}, ${right}`))).toEqual([
      'F12 "bridge": nothing closes the left, between 17 mm and 24 mm from its front end',
      'F12 "bridge": nothing closes the right, between 17 mm and 24 mm from its front end',
    ]);
  });
});

const box4 = (parts: string, build: string, fitting: string) => `${opening(2)}
tiles:
  box:
    parts: { ${parts} }
    build: ${build}
    fittings: { disc magnet: { into: [${fitting}] } }
`;

describe('holes for fittings', () => {
  it('go into the edge of a part with an outline', () => {
    const clipped = 'fill: { of: foam, size: [60, 60], cuts: [{ clip: { top left: 10 } }] }';
    const at = (x: number) => box4(clipped, '{ up: [fill] }', `front of tile], at: [[${x}, 5]`);
    expect(said(at(30))).toEqual([]);
    // 3 from the left end, as wide as it is round.
    expect(said(at(3.2))).toEqual([
      'F20 "box": the hole for "disc magnet" (front, 3.2 mm across, 0 mm along, 5 mm up) leaves 0.2 mm of "fill", and 0.5 mm is the least wall',
    ]);
  });
  it('keep clear of a mitre', () => {
    const walls = 'wall: { of: foam, size: [rest, 20] }';
    const frame = '{ up: [{ frame: { front: wall, back: wall, left: wall, right: wall }, corners: mitre }] }';
    const at = (x: number) => judged(box4(walls, frame, `front of wall 1], at: [[${x}, 10]`));
    const { fit, said } = at(8);
    expect(said).toEqual([]);
    // 2 deep the mitre has come in 2, so 8 − 3 − 2 are left, square to it.
    expect(Math.abs(float(fit.thinnestWall!) - 3 / Math.SQRT2)).toBeLessThan(0.0101);
    expect(at(4.5).said.map((it) => it.slice(0, 3))).toEqual(['F20']);
  });
  it('go into nothing that is folded', () => {
    const folded = 'deck: { of: card, folds: { panels: [20, 60, 20], angles: [90, 90], width: 60 } }';
    expect(
      said(box4(folded, '{ up: [deck] }', 'front of tile], at: [[30, 10]')).map((it) => it.slice(0, 3)),
    ).toEqual(['F21']);
  });
});

// Source: computed; a mirror image of a pair meets where the pair does.
describe('the other hand of a folded strip', () => {
  it('leaves room where its mirror image does', () => {
    const strip = (more: string) =>
      partOf(`${opening(2)}
tiles:
  roof:
    footprint: [200, 40]
    parts: { strip: { of: card, folds: { panels: [20, 37, 11], angles: [90, { rise: 5, run: 12 }], width: 40, base: 2 }, cuts: [{ hole: { rectangle: [8, 6] }, left: 30, bottom: 5 }, { hole: { rectangle: [5, 9] }, left: 4, top: 3 }]${more} } }
    build: { up: [{ across: [{ part: strip, thickness: up }, gap rest], length: across }] }
`);
    const [one, other] = [strip(''), strip(', mirrored: yes')];
    const long = minus(one.block.high.across, one.block.low.across);
    let freed = 0;
    // In the hole of the level panel, beside it, in that of the one that hangs, above it, and where nothing is.
    for (const [x, y, z] of [
      [16, 6, 16],
      [14, 7, 16],
      [19, 6, 16],
      [16, 25, 16],
      [-1, 31, 4],
      [-1, 31, 8],
      [-1, 3, 4],
      [40, 6, 14],
      [10, 6, 2],
    ] as const) {
      const size = [mm(4), mm(4), mm(4)];
      const block = (across: Length) => piece('block', blockAt([across, mm(y), mm(z)], size), lying);
      const isMet = (part: StandingPart, it: StandingPart) => touching(part, it).overlaps.length > 0;
      const [here, there] = [block(mm(x)), block(minus(minus(long, mm(x)), mm(4)))];
      expect(isMet(other, there)).toBe(isMet(one, here));
      if (!isMet(one, here) && isMet(whole(one), here)) freed++;
    }
    expect(freed).toBe(3);
  });
});
