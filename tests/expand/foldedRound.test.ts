import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { judge } from '../../src/fit/index.ts';
import { isPositive, millimetres, rational, toFraction } from '../../src/measure/index.ts';
import type { Build, Fault, Length, LevelSide, PartKind, StandingPart } from '../../src/model/index.ts';
import { kernelOfSolids } from '../fit/bodiesByHand.ts';
import { batchOf, check, expandText } from './check.ts';

interface Asked {
  readonly corners?: string;
  readonly walls?: readonly LevelSide[];
  readonly inside?: string;
  readonly size?: string;
  readonly more?: string;
  readonly thickness?: number;
  readonly footprint?: readonly [number, number];
  readonly glue?: number;
  readonly parts?: string;
}

const all: readonly LevelSide[] = ['front', 'right', 'back', 'left'];

/** A box with walls 30 mm high, folded round it out of one strip of board. */
function box(asked: Asked = {}): string {
  const { corners = 'fold', walls = all, inside, size = '[rest, 30]', more = '', parts = '' } = asked;
  const { thickness = 1.5, footprint = [60, 40], glue = 0 } = asked;
  const within = inside === undefined ? '' : `, inside: ${inside}`;
  return `cardwright: kit
units: mm
grid: { square: 60, glue line: ${glue} }
materials: { board: { thickness: ${thickness}, grain: yes }, base: { thickness: 3 } }
tiles:
  box:
    footprint: [${footprint.join(', ')}]
    parts:
      wall: { of: board, size: ${size}${more} }${parts}
    build: { frame: { ${walls.map((it) => `${it}: wall`).join(', ')} }, corners: ${corners}${within} }
`;
}

const fill = '\n      fill: { of: base, size: [rest, rest] }';

const buildOf = (text: string): Build => batchOf(text).builds[0]!;
const strip = (text: string): PartKind =>
  batchOf(text)
    .materials.flatMap(({ parts }) => parts)
    .find(({ members: [{ drawn }] }) => drawn?.folds !== undefined)!;
const sizeOf = ({ length, width }: PartKind): string => `${toFraction(length)} × ${toFraction(width)}`;
const panelsOf = (kind: PartKind): readonly string[] =>
  kind.members[0].drawn!.folds!.panels.map((it) => toFraction(it));
/** Where its folds lie along it. */
const linesOf = (kind: PartKind): readonly string[] =>
  kind.members[0].drawn!.outline!.marks.flatMap((it) => (it.kind === 'fold' ? [toFraction(it.from.x)] : []));

const faultsOf = (build: Build): readonly Fault[] =>
  judge(build, { ruler: [millimetres(rational(1n, 2n))], wander: undefined }).faults;
const kinds = (faults: readonly Fault[]): readonly string[] => [...new Set(faults.map(({ kind }) => kind))];

describe('walls folded round a room of 60 x 40, 1.5 thick', () => {
  // Expected: computed by hand. Panels are the sides of the room outside; the last of four ends on the first, a
  // thickness short. At each fold the blank is shorter by 2 t scored, by t creased, by nothing grooved.
  it.each([
    ['fold', 60 + 40 + 60 + 38.5 - 3 * 3],
    ['{ fold: score }', 60 + 40 + 60 + 38.5 - 3 * 3],
    ['{ fold: crease }', 60 + 40 + 60 + 38.5 - 3 * 1.5],
    ['{ fold: groove }', 60 + 40 + 60 + 38.5],
    ['{ fold: score, tab: 6 }', 60 + 40 + 60 + 38.5 + 6 - 4 * 3],
    ['{ fold: crease, tab: 6 }', 60 + 40 + 60 + 38.5 + 6 - 4 * 1.5],
    ['{ fold: groove, tab: 6 }', 60 + 40 + 60 + 38.5 + 6],
  ])('%s: a strip of %d', (corners, length) => {
    const kind = strip(box({ corners }));
    expect(millimetresOf(kind.length)).toBe(length);
    expect(toFraction(kind.width)).toBe('30');
    expect(kind.count).toBe(1);
    expect(kind.grain).toBe('width');
    expect(panelsOf(kind)).toEqual(['60', '40', '60', '77/2', ...(corners.includes('tab') ? ['6'] : [])]);
  });

  it('has each fold half of what it takes before the corner outside', () => {
    // Expected: computed by hand. Scored: 60 − 1.5, 100 − 3 − 1.5, 160 − 6 − 1.5, and the tab at 198.5 − 9 − 1.5.
    expect(linesOf(strip(box({ corners: '{ fold: score, tab: 6 }' })))).toEqual([
      '117/2',
      '191/2',
      '305/2',
      '188',
    ]);
    expect(linesOf(strip(box({ corners: '{ fold: groove }' })))).toEqual(['60', '100', '160']);
  });

  it('scores on its outside, which is its good side, and turns away from it', () => {
    const { marks } = strip(box()).members[0].drawn!.outline!;
    expect(marks.map((it) => (it.kind === 'fold' ? `${it.by} ${it.way}` : it.kind))).toEqual(
      Array(3).fill('score away'),
    );
  });

  // Expected: computed by hand; a strip begins where the wall before it is left out, seen from outside to the right.
  it.each<readonly [string, readonly LevelSide[], readonly string[], number]>([
    ['open at the front', ['back', 'left', 'right'], ['40', '60', '40'], 140 - 2 * 3],
    ['open at the back', ['front', 'left', 'right'], ['40', '60', '40'], 140 - 2 * 3],
    ['open at the right', ['front', 'left', 'back'], ['60', '40', '60'], 160 - 2 * 3],
    ['open at the left', ['front', 'right', 'back'], ['60', '40', '60'], 160 - 2 * 3],
    ['front and right', ['front', 'right'], ['60', '40'], 100 - 3],
    ['front and left', ['front', 'left'], ['40', '60'], 100 - 3],
    ['back and right', ['back', 'right'], ['40', '60'], 100 - 3],
    ['back and left', ['back', 'left'], ['60', '40'], 100 - 3],
  ])('%s', (_, walls, panels, length) => {
    const kind = strip(box({ walls }));
    expect(panelsOf(kind)).toEqual(panels);
    expect(millimetresOf(kind.length)).toBe(length);
    expect(kind.members[0].turnedOver).toBeUndefined();
  });

  it('keeps a glue line where the last wall ends on the first, and where what stands within touches', () => {
    const text = box({ glue: 0.5, inside: 'fill', parts: fill });
    expect(sizeOf(strip(text))).toBe('189 × 30'); // 60 + 40 + 60 + (40 − 1.5 − 0.5) − 9
    const { parts } = buildOf(text);
    const within = parts.find(({ name }) => name === 'fill')!;
    // 60 − 2 · 1.5 − 2 · 0.5, 40 − 2 · 1.5 − 2 · 0.5
    expect([within.size.length, within.size.width].map((it) => toFraction(it))).toEqual(['56', '36']);
  });

  it('has its grain as it says, and is told of folds across it', () => {
    check(
      box({ more: ', grain: length' }).replace(
        'grain: length }\n',
        `grain: length }
#                                                 ^^^^^^ warning T36: "wall" folds across its grain, where board resists, and cracks or tears
`,
      ),
    );
    const accepted = box({ more: ', grain: length, accepted: { folds across: only strip left }' });
    expect(strip(accepted).grain).toBe('length');
  });

  it('takes a length that is that of its strip', () => {
    expect(sizeOf(strip(box({ size: '[189.5, 30]' })))).toBe('379/2 × 30');
  });

  it('stands as a member of a row, round what is in another frame, and against what stands already', () => {
    const inRow = box({ parts: '\n      post: { of: base, size: [40, 30] }' }).replace(
      'build: {',
      'build: { across: [post, {',
    );
    // The post is 3 thick: 57 are left across.
    expect(panelsOf(strip(inRow.replace(/ }\n$/, ' }] }\n')))).toEqual(['57', '40', '57', '77/2']);
    const nested = box({
      inside: '{ frame: { front: low, back: low, left: low, right: low }, corners: fold }',
      parts: '\n      low: { of: base, size: [rest, 8] }',
    });
    const folded = batchOf(nested).materials.map(({ parts: [kind] }) => panelsOf(kind!));
    expect(folded).toEqual([
      ['60', '40', '60', '77/2'],
      ['57', '37', '57', '34'], // 60 − 3, 40 − 3, and 37 − 3 where it ends on the first
    ]);
  });

  it('is one kind of part where it goes round two rooms of one size', () => {
    const text = box().replace(
      /build:.*\n$/,
      'build: { up: [{ frame: { front: wall, right: wall, back: wall, left: wall }, corners: fold, times: 2 }] }\n',
    );
    expect(strip(text).count).toBe(2);
    expect(buildOf(text).parts.map(({ name }) => name)).toEqual(['wall 1', 'wall 2']);
  });
});

describe('cuts in folded walls', () => {
  const holesOf = (text: string) =>
    strip(text).members[0].drawn!.outline!.holes.map((hole) => {
      const xs = hole.flatMap(({ from }) => [millimetresOf(from.x)]);
      return [Math.min(...xs), Math.max(...xs)];
    });
  const hole = (place: string) => `{ hole: { rectangle: [3, 3] }, bottom: 10, ${place} }`;

  it('lie on their wall as it stands, and in the blank where its folds leave it', () => {
    // Expected: computed by hand. Where the right begins, 60, one fold has taken 3; where the back does, two, and so on.
    // The left is 40 long outside, though its board ends 1.5 before that.
    const cuts = ['left: 8, on: front', 'left: 8, on: right', 'right: 8, on: back', 'on: left'].map(hole);
    expect(holesOf(box({ more: `, cuts: [${cuts.join(', ')}]` }))).toEqual([
      [8, 11],
      [60 - 3 + 8, 60 - 3 + 11],
      [160 - 6 - 11, 160 - 6 - 8],
      [160 - 9 + 18.5, 160 - 9 + 21.5],
    ]);
    expect(holesOf(box({ corners: '{ fold: groove }', more: `, cuts: [${cuts[3]}]` }))).toEqual([
      [178.5, 181.5],
    ]);
  });

  it('lie in the blank where nothing is said of a wall', () => {
    expect(holesOf(box({ more: `, cuts: [${hole('left: 100')}]` }))).toEqual([[100, 103]]);
  });

  it('take notches, arches and repeats, and holes by their middle', () => {
    const cuts = [
      '{ notch: { size: [12, 20] }, edge: bottom, left: 10, on: front }',
      '{ arch: { width: 8, sides: 4, rise: 4 }, edge: top, on: back, times: 2, every: 20 }',
      '{ hole: { circle: 6 }, centre: [8, 20], on: right }',
    ];
    const { rim, marks } = strip(box({ more: `, cuts: [${cuts.join(', ')}]` })).members[0].drawn!.outline!;
    const corners = rim.map(({ from }) => `${toFraction(from.x)},${toFraction(from.y)}`);
    expect(corners).toEqual(expect.arrayContaining(['10,20', '22,20']));
    // 28 wide in the middle of 60: from 16 to 44 on the back, which begins at 100 − 6.
    expect(corners).toEqual(expect.arrayContaining(['110,30', '118,30', '130,30', '138,30']));
    const [cross] = marks.filter((it) => it.kind === 'cross');
    expect(cross?.kind === 'cross' && toFraction(cross.at.x)).toBe('65'); // 60 − 3 + 8
  });

  it('have marks beside them, on their wall as it stands', () => {
    const marks = [
      '{ cross: [8, 20], on: right }',
      '{ line: [[8, 4], [20, 4]], on: back }',
      '{ centre line: width, on: left }',
      '{ centre line: length, on: right }',
      '{ cross: [8, 20] }',
    ];
    const outline = strip(box({ more: `, marks: [${marks.join(', ')}]` })).members[0].drawn!.outline!;
    const said = outline.marks.flatMap((it) => {
      if (it.kind === 'cross') return [`cross ${toFraction(it.at.x)} ${toFraction(it.at.y)}`];
      if (it.kind === 'fold') return [];
      return [`${it.kind} ${[it.from.x, it.from.y, it.to.x, it.to.y].map(toFraction).join(' ')}`];
    });
    // Computed by hand, as above: the right begins at 60 - 3, the back at 100 - 6, the left, 40 long, at 160 - 9. The right is
    // flat from 1.5 behind its one corner to 1.5 before the other.
    expect(said).toEqual([
      'cross 65 20',
      'line 102 4 114 4',
      'centre line 171 0 171 30',
      'centre line 117/2 15 191/2 15',
      'cross 8 20',
    ]);
    const told = (mark: string, asked: Asked = {}) =>
      expandText(box({ more: `, marks: [${mark}]`, ...asked })).diagnostics.map(
        ({ code, message }) => `${code} ${message}`,
      );
    expect(told('{ cross: [1, 20], on: right }')).toEqual([
      'T43 the cross lies 1 mm along the right, which is flat from 1.5 mm to 38.5 mm',
    ]);
    expect(told('{ line: [[4, 2], [59, 2]], on: front }')).toEqual([
      'T43 the line lies 59 mm along the front, which is flat from 0 mm to 58.5 mm',
    ]);
    expect(told('{ cross: [8, 31], on: right }').map((it) => it.slice(0, 3))).toEqual(['T40']);
    expect(told('{ centre line: width, on: left }', { walls: ['front', 'right'] })).toEqual([
      'T42 "on: left": no wall is folded there; there are front, right',
    ]);
  });

  // A rod that goes in through each wall, 3 by 3, at 8 from the left corner of that wall, seen from outside.
  const rods: Readonly<Record<LevelSide, readonly [string, number, number]>> = {
    front: ['along', 8, 0],
    right: ['across', 50, 8],
    back: ['along', 60 - 11, 30],
    left: ['across', 0, 40 - 11],
  };
  const through = (by: string, walls: readonly LevelSide[], side: LevelSide, left: number) => {
    const [length, x, y] = rods[side];
    const rod = `\n      rod: { of: base, size: [10, 3], accepted: { floating: held by hand } }`;
    const more = `, cuts: [${hole(`left: ${left}, on: ${side}`)}]`;
    const text = box({ corners: `{ fold: ${by} }`, walls, more, parts: rod });
    const added = `    added: [{ part: rod, length: ${length}, thickness: up, at: [${x}, ${y}, 10] }]\n`;
    return kinds(faultsOf(buildOf(`${text}${added}`)));
  };
  const some: readonly (readonly LevelSide[])[] = [
    all,
    ['back', 'left', 'right'],
    ['front', 'left', 'back'],
    ['front', 'right'],
  ];

  it.each(['score', 'crease', 'groove'])('let through what goes through them once folded: %s', (by) => {
    for (const walls of some) {
      for (const side of walls) {
        expect([walls, side, through(by, walls, side, 8)]).toEqual([walls, side, []]);
        for (const off of [7.75, 8.25]) {
          expect([walls, side, off, through(by, walls, side, off)]).toEqual([walls, side, off, ['overlaps']]);
        }
      }
    }
  });

  it('leave one joint to what the walls stand on, as large as they are there', () => {
    const more = `, cuts: [{ notch: { size: [14, 22] }, edge: bottom, left: 10, on: front }]`;
    const on = box({ more, parts: '\n      floor: { of: base, size: [60, 40] }' }).replace(
      /build: (.*)\n/,
      'build: { up: [floor, $1] }\n',
    );
    const { contacts } = judge(buildOf(on), { ruler: [millimetres(rational(1n, 2n))], wander: undefined });
    // Expected: computed by hand. The ring, 60 x 40 less 57 x 37, less the door, 14 x 1.5.
    expect(contacts.map(({ way, area }) => [way, Number(toFraction(area.lo))])).toEqual([['up', 270]]);
  });

  it('are told where they go into a fold, or on a wall that is not there', () => {
    const told = (cut: string, asked: Asked = {}) => {
      const { diagnostics } = expandText(box({ more: `, cuts: [${cut}]`, ...asked }));
      return diagnostics.map(({ code, message }) => `${code} ${message}`);
    };
    // Scored, a wall is flat up to a thickness before its corner; grooved up to its corner.
    expect(told(hole('right: 1.5, on: front'))).toEqual([]);
    expect(told(hole('right: 1, on: front'))).toEqual([
      'T43 the hole takes 56 mm to 59 mm of the front, which is flat from 0 mm to 58.5 mm',
    ]);
    expect(told(hole('left: 1, on: back'))).toEqual([
      'T43 the hole takes 1 mm to 4 mm of the back, which is flat from 1.5 mm to 58.5 mm',
    ]);
    expect(told(hole('left: 1, on: back'), { corners: '{ fold: groove }' })).toEqual([]);
    expect(told('{ notch: { size: [39, 5] }, edge: top, on: left }')).toEqual([
      'T43 the notch takes 0.5 mm to 39.5 mm of the left, which is flat from 1.5 mm to 38.5 mm',
    ]);
    expect(told(hole('on: left'), { walls: ['front', 'right'] })).toEqual([
      'T42 "on: left": no wall is folded there; there are front, right',
    ]);
    expect(told(hole('on: front'), { size: '[189.5, 30]' })).toEqual([
      'T42 "on: front" is a wall of those that are folded round a room, and this part is not',
    ]);
    expect(told(hole('left: 100'), { size: '[189.5, 30]' })).toEqual([
      'T39 "wall" has a shape of its own, and folded walls are cut from a strip whose length follows',
    ]);
    expect(told(hole('on: front'), { more: `, cuts: [${hole('on: front')}], mirrored: yes` })).toEqual([
      'T39 folded walls have the good side of "wall" outside, and can be turned no other way',
    ]);
  });

  it('make two parts of walls that are the same strip with other names', () => {
    const frames = ['front: wall, left: wall, right: wall', 'back: wall, left: wall, right: wall'];
    const up = frames.map((it) => `{ frame: { ${it} }, corners: fold }`).join(', ');
    const told = (more: string) =>
      expandText(box({ more }).replace(/build:.*/, `build: { up: [${up}] }`)).diagnostics.map(
        ({ code, message }) => `${code} ${message}`,
      );
    expect(told('')).toEqual([]);
    expect(told(`, cuts: [${hole('on: left')}]`)).toEqual([
      'T39 "wall" is folded in one place, and is another strip or no strip in another',
    ]);
  });
});

describe('a folded frame that is broken', () => {
  const closed = () => buildOf(box({ inside: 'fill', parts: fill }));

  it('is well before', () => {
    expect(faultsOf(closed())).toEqual([]);
  });

  it('runs into what stands within where its strip is that of a smaller room, either way', () => {
    for (const footprint of [
      [59.5, 40],
      [60, 39.5],
    ] as const) {
      const other = buildOf(box({ inside: 'fill', parts: fill, footprint }));
      const [wall] = other.parts;
      const parts = closed().parts.map((it) =>
        it.name === 'wall' ? { ...it, block: wall!.block, profile: wall!.profile! } : it,
      );
      expect(kinds(faultsOf({ ...closed(), parts }))).toContain('overlaps');
    }
  });

  it('has its tab in the way of what fills its room', () => {
    const tabbed = (inside: string) =>
      faultsOf(
        buildOf(
          box({
            corners: '{ fold: score, tab: 6 }',
            inside,
            parts: `${fill}\n      slab: { of: base, size: [rest, 35.5] }`,
          })
            .replace('slab', inside.includes('slab') ? 'slab' : 'gone')
            .replace(inside.includes('slab') ? fill : /\n {6}gone.*/, ''),
        ),
      );
    expect(kinds(tabbed('fill'))).toEqual(['overlaps']);
    // 37 less the tab's thickness, at the back.
    expect(tabbed('{ part: slab, flush: back }')).toEqual([]);
    expect(kinds(tabbed('{ part: slab, flush: front }'))).toEqual(['overlaps']);
  });

  it('is told where it cannot be made, each with its numbers', () => {
    const told = (asked: Asked, faulty: string, message: string) => {
      const text = box(asked);
      const build = text.slice(text.indexOf('    build'));
      const marks = `#${'^'.repeat(faulty.length).padStart(build.indexOf(faulty) - 1 + faulty.length)} error ${message}`;
      check(`${text}${marks}\n`);
    };
    told(
      { footprint: [60, 3] },
      'frame',
      'E42: the walls are 3 mm thick together along, which leaves nothing within a room of 3 mm',
    );
    told(
      { size: '[190, 30]' },
      'wall',
      'E44: "wall" states a length of 190 mm; in the flat, for its corners, it is 189.5 mm',
    );
    told(
      { inside: 'fill', parts: '\n      fill: { of: base, size: [50, 37.5] }' },
      'fill',
      'E42: what stands within is 37.5 mm along, and its walls leave 37 mm',
    );
    const tabbed = (tab: number) => `{ fold: score, tab: ${tab} }`;
    told(
      { corners: tabbed(1) },
      tabbed(1),
      'T30: the tab of "wall" is 1 mm on its outside, and the folds beside it take 1.5 mm of that, in material 1.5 mm thick',
    );
    told(
      { corners: tabbed(59) },
      tabbed(59),
      'T31: folded, the tab of "wall" runs into the right of "wall": they share 0.5 mm by 1.5 mm',
    );
    told(
      { corners: tabbed(6), walls: ['front', 'left', 'back'] },
      tabbed(6),
      'T39: "wall" does not go all the way round, and a tab is glued behind the first wall, where the last one meets it',
    );
  });

  it('is told where it is no strip', () => {
    const told = (line: string, marks: string, wall = '{ of: board, size: [rest, 30] }') =>
      check(`cardwright: kit
units: mm
materials: { board: { thickness: 1.5 }, card: { thickness: 0.5 } }
tiles:
  box:
    footprint: [60, 40]
    parts:
      wall: ${wall}
${line}
${marks}
`);
    told(
      '      end: { of: board, size: [rest, 30] }\n    build: { frame: { front: wall, left: end }, corners: fold }',
      '#                                                        ^^^^ error T39: folded walls are one strip, and so one part; here are "wall", "end"',
    );
    told(
      '    build: { frame: { front: wall, left: { part: wall, facing: right } }, corners: fold }',
      '#                                                ^^^^ error T39: folded walls have the good side of "wall" outside, and can be turned no other way',
    );
    told(
      '    build: { frame: { front: wall, left: wall }, corners: fold }',
      '#                                                         ^^^^ error T39: "wall" has a shape of its own, and folded walls are cut from a strip whose length follows',
      '{ of: board, outline: { polygon: [[0, 0], [97, 0], [97, 30], [0, 20]] } }',
    );
    told(
      '    build: { frame: { front: wall, left: wall }, corners: fold }',
      '#                                                         ^^^^ error E47: "wall" is clad, and its end goes into a corner',
      '{ of: board, size: [rest, 30], clad: { top: card } }',
    );
  });

  it('is told where one part is two strips, or a strip and a plain board', () => {
    const told = (build: string) =>
      check(`cardwright: kit
units: mm
materials: { board: { thickness: 1.5 } }
tiles:
  box:
    footprint: [60, 40]
    parts:
      wall: { of: board, size: [97, 30] }
#     ^^^^ error T39: "wall" is folded in one place, and is another strip or no strip in another
    build: ${build}
`);
    told('{ up: [{ frame: { front: wall, left: wall }, corners: fold }, wall] }');
    // 60 and 40, and the other way round: both are 97 long.
    told(
      '{ up: [{ frame: { front: wall, left: wall }, corners: fold }, { frame: { front: wall, right: wall }, corners: fold }] }',
    );
  });
});

/** Sixteenths of a millimetre, as whole numbers. */
const fine = 16;
const millimetresOf = ({ numerator, denominator }: Length): number => {
  const sixteenths = (numerator * BigInt(fine)) / denominator;
  expect(sixteenths * denominator).toBe(numerator * BigInt(fine));
  return Number(sixteenths) / fine;
};

/** Even-odd: how often a ray to the right crosses the walls' edges. All numbers are short in binary. */
function isInWalls({ block, profile }: StandingPart, x: number, y: number): boolean {
  const [left, front] = [millimetresOf(block.low.across), millimetresOf(block.low.along)];
  const edges = [profile!.outline.rim, ...profile!.outline.holes].flat().map(({ from, to }) => ({
    from: [millimetresOf(from.x) + left, millimetresOf(from.y) + front] as const,
    to: [millimetresOf(to.x) + left, millimetresOf(to.y) + front] as const,
  }));
  const crossed = edges.filter(
    ({ from, to }) => from[1] > y !== to[1] > y && from[0] > x, // all edges are level or upright
  );
  return crossed.length % 2 === 1;
}

const quarter = (least: number, most: number) =>
  fc.integer({ min: least * 4, max: most * 4 }).map((it) => it / 4);
const standing = fc.subarray([...all], { minLength: 2 }).filter((walls) => {
  const has = (...sides: readonly LevelSide[]) => sides.some((it) => walls.includes(it));
  return has('front', 'back') && has('left', 'right');
});
const room = fc.record({
  walls: standing,
  across: quarter(20, 100),
  along: quarter(20, 100),
  thickness: quarter(0.25, 3),
  glue: fc.constantFrom(0, 0.25, 0.5),
  by: fc.constantFrom('score' as const, 'crease' as const, 'groove' as const),
  tab: fc.option(quarter(4, 8), { nil: undefined }),
});

describe('folded walls, whatever the room', () => {
  it('stand exactly where the walls of the stated box are, and nowhere else', () => {
    fc.assert(
      fc.property(
        room,
        fc.array(fc.tuple(fc.nat(), fc.nat()), { minLength: 40, maxLength: 40 }),
        (asked, shots) => {
          const { walls, across, along, thickness: t, glue, by } = asked;
          const tab = walls.length === 4 ? asked.tab : undefined;
          const corners = tab === undefined ? `{ fold: ${by} }` : `{ fold: ${by}, tab: ${tab} }`;
          const [wall] = buildOf(
            box({ walls, corners, thickness: t, glue, footprint: [across, along] }),
          ).parts;
          expect([wall!.block.low.across, wall!.block.high.across].map(millimetresOf)).toEqual([0, across]);
          expect([wall!.block.low.along, wall!.block.high.along].map(millimetresOf)).toEqual([0, along]);
          // In the middles of eighths, so on no edge: all edges are at quarters.
          for (const [one, other] of shots) {
            const x = ((one % (across * 8)) + 0.5) / 8;
            const y = ((other % (along * 8)) + 0.5) / 8;
            const isAtFront = walls.includes('front') && y < t;
            const ends = walls.length === 4 ? t + glue : 0;
            const isAtLeft = walls.includes('left') && x < t && y > ends;
            const isAtOther =
              (walls.includes('right') && x > across - t) || (walls.includes('back') && y > along - t);
            const isInTab = tab !== undefined && x < tab && y > t + glue && y < t + glue + t;
            expect([x, y, isInWalls(wall!, x, y)]).toEqual([
              x,
              y,
              isAtFront || isAtLeft || isAtOther || isInTab,
            ]);
          }
        },
      ),
      { numRuns: 60 },
    );
  });

  it('are cut from a strip as long as the sum by hand, and close round what fills their room', () => {
    fc.assert(
      fc.property(room, ({ walls, across, along, thickness: t, glue, by }) => {
        const text = box({
          walls,
          corners: `{ fold: ${by} }`,
          thickness: t,
          glue,
          footprint: [across, along],
          inside: 'fill',
          parts: fill,
        });
        const sides = walls.map((it) => (it === 'front' || it === 'back' ? across : along));
        const outside = sides.reduce((sum, it) => sum + it, 0) - (walls.length === 4 ? t + glue : 0);
        const folds = walls.length - 1;
        const taken = { score: 2 * t, crease: t, groove: 0 }[by];
        const kind = strip(text);
        expect(millimetresOf(kind.length)).toBe(outside - folds * taken);
        const build = buildOf(text);
        expect(faultsOf(build)).toEqual([]);
        const within = build.parts.find(({ name }) => name === 'fill')!;
        const left = (way: 'across' | 'along', size: number, pair: readonly LevelSide[]) => {
          const beside = pair.filter((it) => walls.includes(it)).length;
          const spans = [within.block.low[way], within.block.high[way]].map(millimetresOf);
          expect(spans[1]! - spans[0]!).toBe(size - beside * (t + glue));
        };
        left('across', across, ['left', 'right']);
        left('along', along, ['front', 'back']);
      }),
      { numRuns: 60 },
    );
  });

  it('have a hole where the sum by hand has it, or are told that it goes into a fold', () => {
    fc.assert(
      fc.property(
        room,
        fc.nat(),
        quarter(0, 100),
        ({ walls, across, along, thickness: t, glue, by }, one, left) => {
          const round = all.filter((it) => walls.includes(it));
          const before = (side: LevelSide) => all[(all.indexOf(side) + 3) % 4]!;
          const first = Math.max(
            0,
            round.findIndex((it) => !walls.includes(before(it))),
          );
          const order = [...round.slice(first), ...round.slice(0, first)];
          const index = one % order.length;
          const size = (side: LevelSide) => (side === 'front' || side === 'back' ? across : along);
          const taken = { score: 2 * t, crease: t, groove: 0 }[by];
          const wide = 3;
          const cut = `{ hole: { rectangle: [${wide}, 3] }, left: ${left}, on: ${order[index]} }`;
          const asked = {
            walls,
            corners: `{ fold: ${by} }`,
            thickness: t,
            glue,
            footprint: [across, along],
          } as const;
          const { value, diagnostics } = expandText(box({ ...asked, more: `, cuts: [${cut}]` }));
          const isLast = index === order.length - 1;
          const ends = size(order[index]!) - (isLast ? (order.length === 4 ? t + glue : 0) : taken / 2);
          const isFlat = left >= (index === 0 ? 0 : taken / 2) && left + wide <= ends;
          if (!isFlat) {
            expect(diagnostics.map(({ code }) => code)).toEqual(['T43']);
            return;
          }
          const start = order.slice(0, index).reduce((sum, it) => sum + size(it) - taken, 0);
          const isAtEnd = (index === 0 && left === 0) || (isLast && left + wide === ends);
          // A hole that reaches an end of the blank is none.
          expect(diagnostics.map(({ code }) => code)).toEqual(isAtEnd ? ['T14'] : []);
          if (isAtEnd) return;
          const [hole] = value!.materials.flatMap(({ parts }) => parts)[0]!.members[0].drawn!.outline!.holes;
          const xs = hole!.map(({ from }) => millimetresOf(from.x));
          expect([Math.min(...xs), Math.max(...xs)]).toEqual([start + left, start + left + wide]);
        },
      ),
      { numRuns: 100 },
    );
  });

  it('have the volume of the box less its inside', async () => {
    // Source: manifold-3d 3.5.4. A ring of 60 x 40 and 1.5 thick, 30 high; a tab of 4.5 beside its fold, 1.5 thick.
    const { solid } = await kernelOfSolids();
    const volume = (asked: Asked) => solid(buildOf(box(asked)).parts[0]!).volume();
    expect(volume({})).toBeCloseTo((60 * 40 - 57 * 37) * 30, 2);
    expect(volume({ corners: '{ fold: groove, tab: 6 }' })).toBeCloseTo(
      (60 * 40 - 57 * 37 + 4.5 * 1.5) * 30,
      2,
    );
    expect(volume({ walls: ['front', 'left', 'back'] })).toBeCloseTo((60 * 40 - 58.5 * 37) * 30, 2);
    expect(isPositive(buildOf(box()).parts[0]!.size.length)).toBe(true);
  });
});
