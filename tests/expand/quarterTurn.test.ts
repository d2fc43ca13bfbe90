import { describe, expect, it } from 'vitest';
import { toDrawnMm } from '../../src/measure/index.ts';
import { boxOf } from '../../src/outline/index.ts';
import { expandText } from './check.ts';

function standing(parts: string, member: string, footprint = '[40, 80]') {
  const { value, diagnostics } = expandText(`cardwright: kit
units: mm
materials: { plain: { thickness: 1 }, card: { thickness: 1, good side: yes }, strip: { thickness: 1 } }
tiles:
  tile:
    footprint: ${footprint}
    parts:
      bed: { of: plain, size: [tile across, tile along] }
      ${parts}
    build: { up: [bed, ${member}], to: free }
`);
  expect(diagnostics).toEqual([]);
  const [build] = value!.builds;
  const top = build!.parts.find(({ name }) => name === 'top')!;
  const members = value!.materials.flatMap((it) => it.parts.flatMap((kind) => kind.members));
  const over = members.find(({ part }) => part === top.part)?.turnedOver ?? 0;
  return { top, over, parts: build!.parts };
}

const holed = 'top: { of: card, size: [80, 40], cuts: [{ hole: { circle: 6 }, left: 5, bottom: 7 }] }';

/** The middle of its hole: from the low end of the way that its length runs, and of that of its width. */
function holeOf({ top }: ReturnType<typeof standing>): readonly [number, number] {
  const [hole] = top.outline?.holes ?? [];
  const { left, right, bottom, top: high } = boxOf({ ...top.outline!, rim: hole!, holes: [] });
  return [(toDrawnMm(left.lo) + toDrawnMm(right.hi)) / 2, (toDrawnMm(bottom.lo) + toDrawnMm(high.hi)) / 2];
}

// Expected figures: computed by hand. The middle of the hole is 5 + 3 = 8 from the left of the drawing and 7 + 3 = 10
// from its bottom; a quarter turn to the left, seen from above, takes its left to the front and its bottom to the right.
describe('what lies with its length along', () => {
  it.each([
    ['a plain board', 'top: { of: card, size: [80, 40] }', '{ part: top, length: along }', '[40, 80]'],
    [
      'a board without a good side',
      'top: { of: plain, size: [80, 40] }',
      '{ part: top, length: along }',
      '[40, 80]',
    ],
    [
      'a folded strip',
      'top: { of: plain, folds: { panels: [12, 40, 12], angles: [90, 90], width: 80 } }',
      '{ part: top, length: along }',
      '[80, 40]',
    ],
    [
      'a slope',
      'top: { of: card, size: [rest, 40] }',
      '{ part: top, length: along, slope: { to: back, rise: 60 } }',
      '[40, 80]',
    ],
  ])('has its good side up: %s', (_, part, member, footprint) => {
    const { top, over } = standing(part, member, footprint);
    expect([top.facing, top.isTurnedOver, top.part, over]).toEqual(['top', false, 'top', 0]);
    expect(standing(part, member.replace('along', 'along, facing: top'), footprint).top.facing).toBe('top');
  });

  it('is the same hand, turned a quarter round', () => {
    const across = standing(holed, 'top', '[80, 40]');
    const along = standing(holed, '{ part: top, length: along }');
    expect([across.top.part, across.top.facing, holeOf(across)]).toEqual(['top', 'top', [8, 10]]);
    expect([along.top.part, along.top.facing, holeOf(along)]).toEqual(['top', 'top', [8, 40 - 10]]);
  });

  it('is its other hand where it faces about, and turned over with its drawing where it is flipped', () => {
    const about = standing(holed, '{ part: top, length: along, facing: bottom }');
    expect([about.top.part, about.top.isTurnedOver, holeOf(about)]).toEqual([
      'top, other hand',
      true,
      [8, 30],
    ]);
    const flipped = standing(holed, '{ part: top, length: along, flip: width }');
    expect([flipped.top.part, flipped.top.facing, flipped.top.isTurnedOver]).toEqual(['top', 'bottom', true]);
    expect(holeOf(flipped)).toEqual([8, 10]);
    const round = standing(holed, '{ part: top, length: along, flip: both }');
    expect([round.top.part, round.top.facing, round.top.isTurnedOver]).toEqual(['top', 'top', false]);
    expect(holeOf(round)).toEqual([80 - 8, 10]);
  });

  it('has the strip at the bottom of its drawing at its right', () => {
    const { parts } = standing(
      'top: { of: plain, size: [80, 39], clad: { bottom: strip } }',
      '{ part: top, length: along }',
    );
    const strip = parts.find(({ clads }) => clads === 'top');
    expect(strip?.block.low.across).toEqual(parts.find(({ name }) => name === 'top')?.block.high.across);
  });
});

// Expected: computed by hand, as above. Seen from its good side the bottom of the drawing goes to the right hand: which
// is the right of a wall that is seen from the front, and the back of one that is seen from the right.
describe('what stands with its length up', () => {
  it.each([
    ['along', 'front', [8, 40 - 10]],
    ['across', 'right', [8, 40 - 10]],
  ] as const)('in a row %s still looks to the %s, turned a quarter round', (way, side, hole) => {
    const level = standing(holed, `{ ${way}: [top] }`, '[80, 80]');
    expect([level.top.part, level.top.facing, holeOf(level)]).toEqual(['top', side, [8, 10]]);
    const up = standing(holed, `{ ${way}: [{ part: top, length: up }] }`);
    expect([up.top.part, up.top.facing, up.top.isTurnedOver, up.over]).toEqual(['top', side, false, 0]);
    expect(holeOf(up)).toEqual(hole);
  });

  it('is its other hand where it faces about, and turned over with its drawing where it is flipped', () => {
    const about = standing(holed, '{ along: [{ part: top, length: up, facing: back }] }');
    expect([about.top.part, about.top.isTurnedOver, holeOf(about)]).toEqual([
      'top, other hand',
      true,
      [8, 30],
    ]);
    const flipped = standing(holed, '{ along: [{ part: top, length: up, flip: width }] }');
    expect([flipped.top.part, flipped.top.facing, flipped.top.isTurnedOver]).toEqual(['top', 'back', true]);
    expect(holeOf(flipped)).toEqual([8, 10]);
  });

  it('has the inside of its folds behind it', () => {
    const { top } = standing(
      'top: { of: plain, folds: { panels: [12, 40, 12], angles: [90, 90], width: 20 } }',
      '{ along: [{ part: top, length: up }] }',
    );
    expect(top.facing).toBe('front');
    // Looking along the strip across: the front is at x = 0, and only the edges of both lips are at x = 12, a thickness each.
    expect(top.profile!.along).toBe('across');
    const corners = top.profile!.outline.rim.map(({ from }) => [toDrawnMm(from.x), toDrawnMm(from.y)]);
    const heightsAt = (x: number) => corners.filter(([it]) => it === x).map(([, y]) => y);
    expect(new Set(heightsAt(12))).toEqual(new Set([0, 1, 39, 40]));
    expect(new Set(heightsAt(0))).toEqual(new Set([0, 40]));
  });
});
