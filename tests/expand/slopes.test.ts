import { beforeAll, describe, expect, it } from 'vitest';
import { toDrawnMm, toFraction, toInches } from '../../src/measure/index.ts';
import type { Length, PartKind, StandingPart } from '../../src/model/index.ts';
import { kernelOfSolids, type Solid } from '../fit/bodiesByHand.ts';
import { batchOf, expandText } from './check.ts';

let solid: (it: StandingPart) => Solid;
beforeAll(async () => {
  ({ solid } = await kernelOfSolids());
});

/** A kit of one tile, 4 in square. */
const kit = (rest: string) => `
cardwright: session
units: in
grid: { square: 4 }
materials: { greyboard: { thickness: 1/16 }, foam: { thickness: 1/2 }, card: { thickness: 1/32, grain: yes, flutes: yes } }
sheets: { greyboard: [{ size: [16, 12] }], foam: [{ size: [16, 12] }], card: [{ size: [16, 12], grain: length, flutes: length }] }
${rest}
make: { ramp: 1 }
`;

function sloping(slope: string, more = '', deck = '[4, rest]'): string {
  return kit(`tiles:
  ramp:
    parts:
      base: { of: greyboard, size: [4, 4] }
      deck: { of: greyboard, size: ${deck} }
      cheek: { of: greyboard, size: [rest, rest], good side: yes }
    build: { up: [base, { part: deck, slope: ${slope}${more} }] }
    added: [{ part: cheek, under: deck, flush: left, facing: left${more} }, { part: cheek, under: deck, flush: right${more} }]`);
}

function pieces(text: string): ReadonlyMap<string, StandingPart> {
  const [build] = batchOf(text).builds;
  return new Map(build!.parts.map((it) => [it.name, it]));
}

const inches = (length: Length) => toFraction(toInches(length));
const boxOf = ({ block }: StandingPart) =>
  [block.low, block.high]
    .map(({ across, along, up }) => [across, along, up].map(inches).join(' '))
    .join(' to ');

describe('a slope of three, four and five', () => {
  const found = () => pieces(sloping('{ to: back, rise: 3 }'));
  // Source: computed. 5 along the slope, and 1/16 × 3/4 for the bevels; 1/16 × 5/4 measured upright.
  it('is as long as its slope and its bevels, and as high as its rise and itself upright', () => {
    const deck = found().get('deck')!;
    expect(inches(deck.size.width)).toBe('323/64');
    expect(boxOf(deck)).toBe('0 0 1/16 to 4 4 201/64');
    expect(deck.inclined).toMatchObject({ size: 'width', roundedTo: undefined });
    expect(deck.bevels?.map(({ side, longFace, back }) => [side, longFace, inches(back.hi)])).toEqual([
      ['bottom', 'other', '3/64'],
      ['top', 'good', '3/64'],
    ]);
  });
  it('has cheeks under it that take what it leaves, one of either hand', () => {
    const [one, other] = [found().get('cheek 1')!, found().get('cheek 2')!];
    expect(boxOf(one)).toBe('0 0 1/16 to 1/16 4 49/16');
    expect(boxOf(other)).toBe('63/16 0 1/16 to 4 4 49/16');
    expect([one.part, other.part]).toEqual(['cheek, other hand', 'cheek']);
    expect(one.outline?.rim.map(({ from }) => [from.x, from.y].map(inches).join(' '))).toEqual([
      '0 0',
      '4 0',
      '4 3',
    ]);
  });
  // Source: manifold-3d 3.5.4; and by hand, 4 across × (5 along the slope × 1/16), 1/16 × 4 × 3 / 2.
  it('takes up as much as the board it is cut from, but for what the bevels take', () => {
    const cubic = (it: StandingPart) => solid(it).volume() / 25.4 ** 3;
    expect(cubic(found().get('deck')!)).toBeCloseTo((4 * 5) / 16, 9);
    expect(cubic(found().get('cheek 1')!)).toBeCloseTo(6 / 16, 9);
    const all = [...found().values()].map(solid);
    for (const [i, one] of all.entries())
      for (const other of all.slice(i + 1)) expect(one.intersect(other).volume()).toBeLessThan(1e-6);
  });
  it.each([
    ['front', 'bottom good, top other'],
    ['back', 'bottom other, top good'],
    ['left', 'left good, right other'],
    ['right', 'left other, right good'],
  ])('may rise to the %s', (to, bevels) => {
    const size = to === 'left' || to === 'right' ? '[rest, 4]' : '[4, rest]';
    const text = sloping(`{ to: ${to}, rise: 3 }`, '', size).replace(/, facing: left/u, '');
    const deck = pieces(text).get('deck')!;
    expect(deck.bevels?.map(({ side, longFace }) => `${side} ${longFace}`).join(', ')).toBe(bevels);
    expect(deck.profile?.along).toBe(to === 'left' || to === 'right' ? 'along' : 'across');
    expect(solid(deck).volume() / 25.4 ** 3).toBeCloseTo(20 / 16, 9);
  });
});

describe('glue', () => {
  // Source: computed, 1/100 in at each contact: base and deck, base and cheek, cheek and deck; the cheek begins where
  // it has any height, 4/3 of a glue line from the front.
  it('lies above and below a cheek, and under a skin', () => {
    const glued = (text: string) =>
      pieces(text.replace('grid: { square: 4 }', 'grid: { square: 4, glue line: 0.01 }'));
    const found = glued(sloping('{ to: back, rise: 3 }').replace('facing: left', 'facing: right'));
    expect(inches(found.get('deck')!.block.low.up)).toBe('29/400');
    expect(boxOf(found.get('cheek 1')!)).toBe('0 1/75 29/400 to 1/16 4 49/16');
    const skin = glued(skinned('size: [4, rest]')).get('skin')!;
    expect(inches(skin.block.low.up)).toBe('1/100');
  });
});

describe('a slope that no fraction says', () => {
  // Source: computed, √(4² + (3/4)²) + 1/16 × 3/16 = 4.0813958… in, rounded up to 1/64: 4 6/64.
  it('is rounded outward, and its true length stands with it', () => {
    const kinds = batchOf(sloping('{ to: back, rise: 3/4 }', ', up to: 1/64')).materials[0]!.parts;
    const deck = kinds.find((it: PartKind) => it.members[0].part === 'deck')!;
    expect(inches(deck.length)).toBe('131/32');
    const inclined = deck.members[0].drawn!.inclined!;
    expect(inches(inclined.roundedTo!)).toBe('1/64');
    expect(toDrawnMm(inclined.truly.lo) / 25.4).toBeCloseTo(Math.hypot(4, 3 / 4) + 3 / 256, 12);
  });
  it('stands where its levels are, and its cheeks end at it', () => {
    const found = pieces(
      kit(`tiles:
  ramp:
    parts:
      base: { of: greyboard, size: [4, 4] }
      wall: { of: greyboard, size: [4, 2] }
      deck: { of: greyboard, size: [rest, rest] }
      cheek: { of: greyboard, size: [rest, rest] }
    build: { up: [base, { across: [wall, { part: deck, slope: { to: back, levels: [1/2, 1 1/4] }, up to: 1/64 }, wall] }] }
    added: [{ part: cheek, under: deck, up to: 1/64 }]`),
    );
    const deck = found.get('deck')!;
    expect(deck.profile!.outline.within.numerator).toBeGreaterThan(0n);
    expect(inches(deck.block.high.up)).toBe('5/4');
    const upright = (Math.hypot(4, 3 / 4) / 4 / 16) * 25.4;
    expect(Math.abs(toDrawnMm(deck.block.low.up) - (12.7 - upright))).toBeLessThan(0.001);
    const cheek = found.get('cheek')!;
    expect(inches(cheek.block.low.up)).toBe('1/16');
    expect(solid(deck).intersect(solid(cheek)).volume()).toBeLessThan(1e-6);
    expect(solid(deck).translate([0, 0, -0.01]).intersect(solid(cheek)).volume()).toBeGreaterThan(0);
  });
  // Source: computed, t × rise / √(run² + rise²) and √(run² + rise²) − t × rise / run.
  it('leaves gaps where its ends are square', () => {
    const deck = pieces(sloping('{ to: back, rise: 3/4, ends: square }', ', up to: 1/64')).get('deck')!;
    const { truly, how } = deck.inclined!;
    expect(deck.bevels).toBeUndefined();
    expect(toDrawnMm(truly.hi) / 25.4).toBeCloseTo(Math.hypot(4, 3 / 4) - 3 / 256, 12);
    expect(how.kind === 'slope' ? toDrawnMm(how.gap.lo) / 25.4 : 0).toBeCloseTo(
      3 / 64 / Math.hypot(4, 3 / 4),
      12,
    );
    expect(
      Math.abs(solid(deck).volume() / 25.4 ** 3 - (4 * (Math.hypot(4, 3 / 4) - 3 / 256)) / 16),
    ).toBeLessThan(0.001);
  });
});

describe('steps', () => {
  it('climb, each so much higher than the one before', () => {
    const found = pieces(
      kit(`tiles:
  ramp:
    parts:
      base: { of: foam, size: [4, 4] }
      tread: { of: foam, size: [4, 1], lies: yes }
    build: { up: [base, { along: [{ part: tread, times: 4, every: 1, climb: 1/4 }] }] }`),
    );
    expect([1, 2, 3, 4].map((i) => boxOf(found.get(`tread ${i}`)!))).toEqual([
      '0 0 1/2 to 4 1 1',
      '0 1 3/4 to 4 2 5/4',
      '0 2 1 to 4 3 3/2',
      '0 3 5/4 to 4 4 7/4',
    ]);
  });
  it('climb as whole rows, and what lies on them lies on the highest', () => {
    const found = pieces(
      kit(`tiles:
  ramp:
    parts:
      base: { of: foam, size: [4, 4] }
      tread: { of: foam, size: [1, 2], lies: yes }
      top: { of: greyboard, size: [4, 4] }
    build: { up: [base, { across: [{ along: [tread, tread], times: 4, climb: 1/2 }] }, top] }`),
    );
    expect(boxOf(found.get('tread 8')!)).toBe('3 2 2 to 4 4 5/2');
    expect(boxOf(found.get('top')!)).toBe('0 0 5/2 to 4 4 41/16');
  });
});

function skinned(skin: string, more = '', over = '[cheek 1, cheek 2]', cheek = '{ half round: 4 }'): string {
  return kit(`tiles:
  ramp:
    parts:
      cheek: { of: greyboard, outline: ${cheek} }
      skin: { of: card, ${skin} }
    build: { across: [cheek, gap rest, cheek] }
    added: [{ part: skin, over: ${over}, up to: 1/32${more} }]`);
}

describe('a skin over half a circle', () => {
  // Source: computed, π × the radius of its outer face, its middle, its inner one; rounded up to 1/32.
  it.each([
    ['outer', 2 + 1 / 32],
    ['middle', 2 + 1 / 64],
    ['inner', 2],
  ])('is as long as its %s face', (face, radius) => {
    const skin = pieces(skinned('size: [4, rest]', `, face: ${face}`)).get('skin')!;
    const { truly } = skin.inclined!;
    expect(toDrawnMm(truly.lo) / 25.4).toBeCloseTo(Math.PI * radius, 9);
    expect((toDrawnMm(skin.size.width) / 25.4) * 32).toBeCloseTo(Math.ceil(Math.PI * radius * 32), 9);
  });
  it('lies from the one cheek to the other, a thickness above them', () => {
    const skin = pieces(skinned('size: [rest, rest]')).get('skin')!;
    expect(boxOf(skin)).toBe('0 -1/32 0 to 4 129/32 65/32');
    // Source: manifold-3d 3.5.4; and by hand, half a ring of 4 in.
    const cubic = solid(skin).volume() / 25.4 ** 3;
    expect(cubic).toBeCloseTo(4 * (Math.PI / 2) * ((2 + 1 / 32) ** 2 - 2 ** 2), 3);
  });
  it('has its grain and flutes along the axis of its bend, where nothing is said', () => {
    const [demand] = batchOf(skinned('size: [4, rest]')).materials.filter(
      (it) => it.material.name === 'card',
    );
    const [kind] = demand!.parts;
    const isLong = kind.members[0].isTurned === true;
    expect([kind.grain, kind.flutes]).toEqual(isLong ? ['width', 'width'] : ['length', 'length']);
    expect(pieces(skinned('size: [4, rest]')).get('skin')).toMatchObject({
      grain: 'across',
      flutes: 'across',
    });
  });
  it('is trimmed flush where its ends shall be plumb', () => {
    const over = ['[cheek 1, cheek 2]', '{ arched: { width: 4, sides: 1, rise: 1 } }'] as const;
    const proud = pieces(skinned('size: [4, rest]', '', ...over)).get('skin')!;
    const flush = pieces(skinned('size: [4, rest]', ', ends: plumb', ...over)).get('skin')!;
    expect(toDrawnMm(proud.block.low.along)).toBeLessThan(0);
    expect([flush.block.low.along, flush.block.high.along].map(inches)).toEqual(['0', '4']);
    expect(toFraction(flush.size.width)).toBe(toFraction(proud.size.width));
  });
});

describe('what has to be rounded', () => {
  it.each([
    ['in', 'up to: 1/64'],
    ['mm', 'up to: 0.5'],
  ])('is offered a step in the unit of its file: %s', (units, step) => {
    const text = `cardwright: session
units: ${units}
grid: { square: 40 }
materials: { board: { thickness: 1 } }
make: { ramp: 1 }
tiles:
  ramp:
    parts: { base: { of: board, size: [40, 40] }, deck: { of: board, size: [40, rest] } }
    build: { up: [base, { part: deck, slope: { to: back, rise: 10 } }] }
`;
    const told = expandText(text).diagnostics.filter(({ code }) => code === 'E77');
    expect(told.flatMap((it) => it.hints)).toEqual([`round it outward:   ${step}`]);
  });
});

describe('what can not be', () => {
  const opening = `
cardwright: session
units: in
grid: { square: 4 }
materials: { greyboard: { thickness: 1/16 }, card: { thickness: 1/32, grain: yes, least bend: 1/2 } }
sheets: { greyboard: [{ size: [16, 12] }], card: [{ size: [16, 12], grain: length }] }
make: { ramp: 1 }
tiles:
  ramp:
    parts:
      base: { of: greyboard, size: [4, 4] }
      deck: { of: greyboard, size: [4, rest] }
      flat: { of: greyboard, size: [4, 4] }
      skin: { of: card, size: [4, rest] }
`;
  it.each([
    [
      '{ part: deck, slope: { to: back, rise: 3, run: 0 } }',
      'E48 "deck" would rise 3 in over a run of 0 in: steeper than upright',
    ],
    [
      '{ part: deck, slope: { to: back, levels: [3/4, 1/2], run: 2 } }',
      'E48 "deck" would rise by -1/4 in over a run of 2 in, so it does not slope',
    ],
    [
      '{ part: deck, slope: { to: back, rise: 1/32, run: 1/16, ends: square }, up to: 1/64 }',
      'E48 "deck" would be no longer than the 1/16 in that it is thick: it rises 1/32 in over a run of 1/16 in',
    ],
    ['{ part: flat, slope: { to: back, rise: 3 } }', 'E49 the width of "flat" follows from its slope'],
    [
      '{ part: deck, slope: { to: back, rise: 3/4 } }',
      'E77 the width of "deck" comes to 4 5/64 in full (+0.0033), which no fraction says exactly',
    ],
    [
      '{ part: deck, slope: { to: back, rise: 3 }, thickness: along }',
      'E56 a slope and thickness: along contradict',
    ],
    ['{ part: deck, climb: 1/4 }', 'E94'],
  ])('is told with its numbers: %s', (member, wanted) => {
    const across = `{ across: [${member}] }`;
    expect(
      said(
        `${opening}    build: { up: [base, ${member.includes('climb') || member.includes('levels') ? across : member}] }\n`,
      ),
    ).toContainEqual(expect.stringContaining(wanted));
  });
  const cheeks = (cheek: string, other: string, added: string) =>
    `${opening}      cheek: { of: greyboard, outline: ${cheek} }
      other: { of: greyboard, outline: ${other} }
    build: { across: [cheek, gap rest, other], to: free }
    added: [{ ${added}, up to: 1/32 }]
`;
  const half = '{ half round: 4 }';
  const skin = 'part: skin, over: [cheek, other]';
  const skins: readonly (readonly [string, string, string, string])[] = [
    [
      half,
      '{ half round: 3 }',
      skin,
      'E79 the top edge of "cheek" goes from 0 in to 4 in along, that of "other" from 1/2 in to 3 1/2 in',
    ],
    [
      half,
      '{ arched: { width: 4, sides: 1, rise: 1 } }',
      skin,
      'E79 "cheek" and "other" have different top edges: at 0 in along the one is 0 in high, the other 1 in',
    ],
    [
      half,
      half,
      'part: skin, over: [cheek, othre]',
      'E60 nothing that stands already is called "othre"; did you mean "other"?',
    ],
    [half, half, 'part: flat, over: cheek', 'E49 the width of "flat" follows from what it is bent over'],
    [
      '{ slot: [4, 7/8] }',
      '{ slot: [4, 7/8] }',
      skin,
      'E89 "skin" is bent to a radius of 7/16 in at 0 in; "card" takes 1/2 in',
    ],
    [
      // 0.432 = 27.648 / 64, and 28/64 = 0.4375: computed.
      '{ slot: [4, 0.864] }',
      '{ slot: [4, 0.864] }',
      skin,
      'E89 "skin" is bent to a radius of 0.432 in, 7/16 in scant (-0.0055) at 0 in; "card" takes 1/2 in',
    ],
    ['{ path: [[0, 0], [4, 0], [4, 1], { arc: [0, 1], rise: 1/64, swells: left }] }', half, skin, 'E79'],
  ];
  it.each(skins)('is told with its numbers: %s, %s, %s', (cheek, other, added, wanted) => {
    expect(said(cheeks(cheek, other, added))).toContainEqual(expect.stringContaining(wanted));
  });
  it('is a hollow tighter than the skin is thick, or a corner in one', () => {
    const hollow =
      '{ path: [[0, 0], [4, 0], [4, 1], [2 1/64, 1], { arc: [1 63/64, 1], radius: 1/64, swells: right }, [0, 1]] }';
    const corner = '{ polygon: [[0, 0], [4, 0], [4, 1], [2, 1/2], [0, 1]] }';
    expect(said(cheeks(hollow, hollow, skin))).toContainEqual(
      expect.stringMatching(/^E88 .* of "cheek"|^E88 "cheek" has a hollow corner/u),
    );
    expect(said(cheeks(corner, corner, skin))).toContainEqual(
      'E88 "cheek" has a hollow corner at 2 in, which "skin" can\'t be bent into',
    );
  });
  it('is what bends along its grain, which is a doubt only', () => {
    const grainy = cheeks(half, half, skin).replace(
      'of: card, size: [4, rest]',
      'of: card, size: [4, rest], grain: width',
    );
    expect(said(grainy)).toContainEqual(
      'E92 the grain of "skin" would run along, round the bend; card bends evenly only across its grain',
    );
  });
});

describe('what is clad', () => {
  const clad = (text: string, part: string) =>
    text.replace(
      new RegExp(`(${part}: +\\{ of: [a-z]+, size: \\[[^\\]]*\\])`, 'u'),
      '$1, clad: { left: card }',
    );
  const ramp = `cardwright: kit
units: in
grid: { square: 4 }
materials: { greyboard: { thickness: 1/16 }, card: { thickness: 1/32 } }
tiles:
  ramp:
    parts:
      base:  { of: greyboard, size: [4, 4] }
      deck:  { of: greyboard, size: [4, rest] }
      cheek: { of: greyboard, size: [rest, rest] }
      hump:  { of: greyboard, outline: { arched: { width: 4, sides: 1/4, rise: 1 } } }
      skin:  { of: card, size: [4, rest] }
    build: { up: [base, { part: deck, slope: { to: back, rise: 3 } }] }
    added: [{ part: cheek, under: deck }, { part: hump, against: left of base }, { part: skin, over: hump, up to: 1/32 }]
`;
  it.each([
    ['deck', 'slopes'],
    ['cheek', 'stands under a slope'],
    ['skin', 'is bent over something'],
  ])('is refused where strips would not lie along it: %s, which %s', (part, how) => {
    expect(said(clad(ramp, part))).toContainEqual(
      `S33 "clad of ${part}, which ${how}" belongs to the language but is not built yet`,
    );
    expect(said(ramp).filter((it) => it.startsWith('S33'))).toEqual([]);
  });
});

function said(text: string): readonly string[] {
  return expandText(text).diagnostics.map(({ code, message }) => `${code} ${message}`);
}
