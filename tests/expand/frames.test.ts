import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { toFraction } from '../../src/measure/index.ts';
import type { Build, Length, StandingPart } from '../../src/model/index.ts';
import { batchOf, check } from './check.ts';

/** A box of 60 x 40 mm with walls 20 mm high, of which a test says what they are and how they meet. */
function box(parts: string, frame: string, { footprint = '60, 40' } = {}): string {
  return `cardwright: kit
units: mm
materials: { foam: { thickness: 5 }, slab: { thickness: 8 } }
tiles:
  box:
    footprint: [${footprint}]
    parts:
${parts
  .split('\n')
  .map((line) => `      ${line}`)
  .join('\n')}
    build: ${frame}
`;
}

const walls = 'wall: { of: foam, size: [rest, 20] }\nend: { of: foam, size: [rest, 20] }';
const round = 'front: wall, back: wall, left: end, right: end';

function buildOf(text: string): Build {
  const [build] = batchOf(text).builds;
  if (build === undefined) throw new Error('nothing stands');
  return build;
}

/** Lengths of the pieces by their names. */
function lengths(text: string): Readonly<Record<string, string>> {
  return Object.fromEntries(buildOf(text).parts.map(({ name, size }) => [name, toFraction(size.length)]));
}

function edgesOf({ parts }: Build): Readonly<Record<string, readonly string[]>> {
  return Object.fromEntries(
    parts.map(({ name, part, bevels = [], rebates = [] }) => [
      `${name}: ${part}`,
      [
        ...bevels.map(({ side, longFace, back }) => `bevel ${side} ${longFace} ${toFraction(back.lo)}`),
        ...rebates.map(
          ({ side, longFace, wide, stays }) =>
            `rebate ${side} ${longFace} ${toFraction(wide)} ${toFraction(stays)}`,
        ),
      ],
    ]),
  );
}

describe('walls round a room of 60 x 40, 5 thick', () => {
  // Expected: worked out by hand; where one wall ends on another, it is shorter by the thickness of that.
  it.each([
    ['front through', { 'wall 1': '60', 'wall 2': '60', 'end 1': '30', 'end 2': '30' }],
    ['sides through', { 'wall 1': '50', 'wall 2': '50', 'end 1': '40', 'end 2': '40' }],
    ['pinwheel', { 'wall 1': '55', 'wall 2': '55', 'end 1': '35', 'end 2': '35' }],
    ['mitre', { 'wall 1': '60', 'wall 2': '60', 'end 1': '40', 'end 2': '40' }],
    ['{ rebate: 1 }', { 'wall 1': '60', 'wall 2': '60', 'end 1': '38', 'end 2': '38' }],
  ])('%s', (corners, expected) => {
    expect(lengths(box(walls, `{ frame: { ${round} }, corners: ${corners} }`))).toEqual(expected);
  });

  it('gives what stands within all that the walls leave, both ways', () => {
    const parts = `${walls}\nfill: { of: slab, size: [rest, rest] }`;
    for (const corners of ['front through', 'sides through', 'pinwheel', 'mitre', '{ rebate: 1 }']) {
      const { parts: pieces } = buildOf(
        box(parts, `{ frame: { ${round} }, corners: ${corners}, inside: fill }`),
      );
      const fill = pieces.find(({ name }) => name === 'fill');
      expect([fill?.size.length, fill?.size.width].map((it) => it && toFraction(it))).toEqual(['50', '30']);
    }
  });

  it('leaves the walls where they are round something smaller, which lies in the middle', () => {
    const parts = `${walls}\ncore: { of: slab, size: [20, 10] }`;
    const { parts: pieces } = buildOf(box(parts, `{ frame: { ${round} }, corners: mitre, inside: core }`));
    const low = ({ block }: StandingPart) => [block.low.across, block.low.along].map(toFraction);
    expect(pieces.map((it) => [it.name, ...low(it)])).toEqual([
      ['wall 1', '0', '0'],
      ['end 1', '0', '0'],
      ['core', '20', '15'],
      ['end 2', '55', '0'],
      ['wall 2', '0', '35'],
    ]);
  });

  it('lets it lie at a side, or so far from it', () => {
    const parts = `${walls}\ncore: { of: slab, size: [20, 10] }`;
    const place = (inside: string) =>
      buildOf(box(parts, `{ frame: { ${round} }, inside: ${inside} }`)).parts.find(
        ({ name }) => name === 'core',
      )?.block.low;
    const flush = place('{ part: core, flush: [right, back] }');
    expect([flush?.across, flush?.along].map((it) => it && toFraction(it))).toEqual(['35', '25']);
    const inset = place('{ part: core, inset: { left: 3, front: 2 } }');
    expect([inset?.across, inset?.along].map((it) => it && toFraction(it))).toEqual(['8', '7']);
  });

  it('stands within another, each with walls of its own height', () => {
    const parts = `${walls}\nlow: { of: foam, size: [rest, 8] }`;
    const inner = '{ frame: { front: low, back: low, left: low, right: low }, corners: pinwheel }';
    const within = box(parts, `{ frame: { ${round} }, corners: mitre, inside: ${inner} }`, {
      footprint: '60, 60',
    });
    expect(lengths(within)).toMatchObject({ 'wall 1': '60', 'low 1': '45', 'low 4': '45', 'end 2': '60' });
  });

  it('ends walls flush with the room where no other meets them', () => {
    expect(lengths(box(walls, '{ frame: { front: wall, left: end }, corners: mitre }'))).toEqual({
      wall: '60',
      end: '40',
    });
    expect(lengths(box(walls, '{ frame: { back: wall, left: end, right: end } }'))).toEqual({
      wall: '60',
      'end 1': '35',
      'end 2': '35',
    });
  });

  it('stands as a member of a row, and beside the rows where the walls state their lengths', () => {
    const inRow = box(
      `${walls}\npost: { of: slab, size: [40, 20] }`,
      `{ across: [post, { frame: { ${round} }, corners: mitre }] }`,
    );
    expect(lengths(inRow)).toMatchObject({ 'wall 1': '52', 'end 1': '40' });
    const stated =
      'base: { of: foam, size: [60, 40] }\nwall: { of: foam, size: [30, 20] }\nend: { of: foam, size: [20, 20] }';
    const beside = `${box(stated, '{ up: [base] }')}    added:
      - { frame: { ${round} }, corners: mitre, against: top of base }
`;
    const { parts } = buildOf(beside);
    expect(
      parts.map(({ name, block }) => [name, toFraction(block.low.across), toFraction(block.low.up)]),
    ).toEqual([
      ['base', '0', '0'],
      ['wall 1', '15', '5'],
      ['end 1', '15', '5'],
      ['end 2', '40', '5'],
      ['wall 2', '15', '5'],
    ]);
  });

  it('keeps a glue line where faces are glued, and none in a slant', () => {
    const glued = (corners: string) =>
      box(walls, `{ frame: { ${round} }, corners: ${corners} }`).replace(
        'tiles:',
        'grid: { square: 60, glue line: 0.5 }\ntiles:',
      );
    expect(lengths(glued('front through'))).toMatchObject({ 'wall 1': '60', 'end 1': '29' });
    expect(lengths(glued('pinwheel'))).toMatchObject({ 'wall 1': '109/2', 'end 1': '69/2' });
    expect(lengths(glued('mitre'))).toMatchObject({ 'wall 1': '60', 'end 1': '40' });
    expect(lengths(glued('{ rebate: 1 }'))).toMatchObject({ 'wall 1': '60', 'end 1': '37' });
  });
});

describe('edges of walls', () => {
  it('have their long face outward at both ends of a mitre', () => {
    const build = buildOf(
      box('wall: { of: foam, size: [rest, 20] }', `{ frame: ${square}, corners: mitre }`, sq),
    );
    const both = ['bevel left good 5', 'bevel right good 5'];
    expect(edgesOf(build)).toEqual({
      'wall 1: wall': both,
      'wall 2: wall': both,
      'wall 3: wall': both,
      'wall 4: wall': both,
    });
  });

  it('are cut down to what stays of the walls that run through, as wide as the others are thick', () => {
    const parts = 'wall: { of: foam, size: [rest, 20] }\nend: { of: slab, size: [rest, 20] }';
    const build = buildOf(box(parts, `{ frame: { ${round} }, corners: { rebate: 1 } }`));
    const both = ['rebate left good 8 1', 'rebate right good 8 1'];
    expect(edgesOf(build)).toEqual({
      'wall 1: wall': both,
      'end 1: end': [],
      'end 2: end': [],
      'wall 2: wall': both,
    });
  });

  it('make no second hand of a plain wall with one bevel: turned half round it fits the other side', () => {
    const parts = 'wall: { of: foam, size: [rest, 20], good side: yes }';
    const build = buildOf(box(parts, '{ frame: { front: wall, right: wall }, corners: mitre }', sq));
    expect(build.parts.map(({ part }) => part)).toEqual(['wall', 'wall']);
  });

  // A wall with a notch off its middle: in a mirror it is another part, however it is turned in its plane. Face down
  // its notch would do, and its long face would look inward.
  const notched = (more: string, frame: string) =>
    buildOf(
      box(
        `wall: { of: foam, size: [rest, 20], cuts: [{ notch: { size: [4, 5] }, edge: top, left: 8 }]${more} }`,
        frame,
        sq,
      ),
    ).parts.map(({ part }) => part);

  it.each(['', ', good side: yes'])('make two hands of a wall whose drawing has two%s', (more) => {
    // Seen from outside, the drawing's left is at the left of the front and of the right wall.
    expect(notched(more, `{ frame: ${square}, corners: mitre }`)).toEqual([
      'wall',
      'wall, other hand',
      'wall',
      'wall, other hand',
    ]);
    const ell = '{ front: wall, right: { part: wall, flip: length } }';
    expect(notched(more, `{ frame: ${ell}, corners: mitre }`)).toEqual(['wall', 'wall, other hand']);
  });

  it('take nobody for the other hand where ends are square and no side is good', () => {
    expect(notched('', `{ frame: ${square}, corners: pinwheel }`)).toEqual(['wall', 'wall', 'wall', 'wall']);
  });

  it('can be those of neither hand', () => {
    check(`cardwright: kit
units: mm
materials: { foam: { thickness: 5 } }
tiles:
  box:
    footprint: [40, 40]
    parts:
      wall: { of: foam, size: [rest, 20], cuts: [{ notch: { size: [4, 5] }, edge: top, left: 8 }] }
    build: { frame: { front: wall, right: wall }, corners: mitre }
#                                         ^^^^ error E45: "wall" has a bevel at its left here and a bevel at its right there
`);
  });
});

const square = '{ front: wall, back: wall, left: wall, right: wall }';
const sq = { footprint: '40, 40' };

describe('what can be wrong with walls at their corners', () => {
  const kit = (materials: string, lines: string) => `
cardwright: kit
units: mm
materials: { ${materials} }
tiles:
  box:
    footprint: [60, 40]
${lines}`;

  it('tells each with its numbers', () => {
    check(
      kit(
        'foam: { thickness: 5 }, slab: { thickness: 8 }',
        `    parts:
      wall: { of: foam, size: [rest, 20] }
      end:  { of: slab, size: [rest, 20] }
    build: { frame: { front: wall, back: wall, left: end, right: end }, corners: mitre }
#                                                                                ^^^^^ error E41: "wall" is 5 mm thick and "end" 8 mm: no bevel of half the corner fits both
`,
      ),
    );
    check(
      kit(
        'foam: { thickness: 20 }',
        `    parts:
      wall: { of: foam, size: [rest, 20] }
      end:  { of: foam, size: [rest, 20] }
    build: { frame: { front: wall, back: wall, left: end, right: end }, corners: mitre }
#            ^^^^^ error E42: the walls are 40 mm thick together along, which leaves nothing within a room of 40 mm
`,
      ),
    );
    check(
      kit(
        'foam: { thickness: 5 }',
        `    parts:
      wall: { of: foam, size: [rest, 20] }
      end:  { of: foam, size: [rest, 20] }
    build: { frame: { front: wall, back: wall, left: end, right: end }, corners: { rebate: 5 } }
#                                                                                ^^^^^^^^^^^^^ error E43: 5 mm can't stay of "wall", which is 5 mm thick
`,
      ),
    );
    check(
      kit(
        'foam: { thickness: 5 }',
        `    parts:
      wall: { of: foam, size: [58, 20] }
      end:  { of: foam, size: [rest, 20] }
    build: { frame: { front: wall, left: end }, corners: pinwheel }
#                            ^^^^ error E44: "wall" states a length of 58 mm; between its corners it is 60 mm
`,
      ),
    );
    check(
      kit(
        'foam: { thickness: 5 }',
        `    parts:
      wall: { of: foam, size: [rest, 20] }
      end:  { of: foam, size: [rest, 15] }
    build: { frame: { front: wall, left: end }, corners: mitre }
#                                        ^^^ error E46: "wall" is 20 mm high and "end" 15 mm: above the lower one the slant would show
`,
      ),
    );
  });

  it('says where an end is no straight cut: cut into, left larger, or clad', () => {
    const tile = (wall: string, marks: string) =>
      kit(
        'foam: { thickness: 5 }, card: { thickness: 1 }',
        `    parts:
      wall: { of: foam, size: [rest, 20], ${wall} }
      end:  { of: foam, size: [rest, 20] }
    build: { frame: { front: wall, left: end }, corners: mitre }
#                            ^^^^ error E47: ${marks}
`,
      );
    check(
      tile(
        'cuts: [{ clip: { bottom left: 4 } }]',
        '"wall" is cut into or bent at its left, where it goes into a corner',
      ),
    );
    check(tile('leave: { left: 2 }', '"wall" is left larger at its left, where it goes into a corner'));
    check(tile('clad: { top: card }', '"wall" is clad, and its end goes into a corner'));
  });

  it('finds more within walls than they leave, either way', () => {
    const tile = (fill: string, marks: string) =>
      kit(
        'foam: { thickness: 5 }',
        `    parts:
      wall: { of: foam, size: [rest, 20] }
      end:  { of: foam, size: [rest, 20] }
      fill: { of: foam, size: [${fill}] }
    build: { frame: { front: wall, back: wall, left: end, right: end }, corners: mitre, inside: fill }
#                                                                                               ^^^^ error E42: ${marks}
`,
      );
    check(tile('51, 30', 'what stands within is 51 mm across, and its walls leave 50 mm'));
    check(tile('50, 31', 'what stands within is 31 mm along, and its walls leave 30 mm'));
  });

  it('finds one part with different edges, also where it lies elsewhere', () => {
    check(
      kit(
        'foam: { thickness: 5 }',
        `    parts:
      base: { of: foam, size: [60, 40] }
      wall: { of: foam, size: [60, 40] }
      end:  { of: foam, size: [rest, 40] }
    build: { up: [base, { frame: { front: wall, left: end }, corners: mitre }, wall] }
#                                                                              ^^^^ error E45: "wall" has square edges here and a bevel at its left there
`,
      ),
    );
  });
});

/** Quarters of a millimetre, as whole numbers. */
function quarters(length: Length): number {
  const { numerator, denominator } = length;
  expect((numerator * 4n) % denominator).toBe(0n);
  return Number((numerator * 4n) / denominator);
}

/** Twice the area in plan: of a wall that of its profile by the shoelace formula, else that of its block. */
function twiceInPlan({ block, profile }: StandingPart): number {
  const { low, high } = block;
  if (profile === undefined) {
    const [across, along] = (['across', 'along'] as const).map(
      (way) => quarters(high[way]) - quarters(low[way]),
    );
    return 2 * (across ?? 0) * (along ?? 0);
  }
  return profile.outline.rim.reduce(
    (all, { from, to }) => all + quarters(from.x) * quarters(to.y) - quarters(to.x) * quarters(from.y),
    0,
  );
}

describe('four walls', () => {
  const corners = fc.constantFrom('front through', 'sides through', 'pinwheel', 'mitre', 'rebate');
  const room = fc.record({
    corners,
    across: fc.integer({ min: 60, max: 400 }),
    along: fc.integer({ min: 60, max: 400 }),
    thickness: fc.integer({ min: 2, max: 28 }),
    other: fc.integer({ min: 2, max: 28 }),
    stays: fc.integer({ min: 1, max: 1 }),
  });

  it('and what they enclose are exactly the room, whatever the corners', () => {
    fc.assert(
      fc.property(room, ({ corners: kind, across, along, thickness, other, stays }) => {
        const sides = kind === 'mitre' ? thickness : other;
        const text = `cardwright: kit
units: mm
materials: { one: { thickness: ${thickness / 4} }, other: { thickness: ${sides / 4} } }
tiles:
  box:
    footprint: [${across / 4}, ${along / 4}]
    parts:
      wall: { of: one, size: [rest, 10] }
      end:  { of: other, size: [rest, 10] }
      fill: { of: one, size: [rest, rest] }
    build: { frame: { ${round} }, corners: ${kind === 'rebate' ? `{ rebate: ${stays / 4} }` : kind}, inside: fill }
`;
        const { parts } = buildOf(text);
        expect(parts.length).toBe(5);
        expect(parts.reduce((all, it) => all + twiceInPlan(it), 0)).toBe(2 * across * along);
        const fill = parts.find(({ name }) => name === 'fill');
        expect(fill && twiceInPlan(fill)).toBe(2 * (across - 2 * sides) * (along - 2 * thickness));
      }),
    );
  });
});
