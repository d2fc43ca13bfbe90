import { describe, expect, it } from 'vitest';
import { judge } from '../../src/fit/index.ts';
import { toFraction } from '../../src/measure/index.ts';
import type { Build, Edge, Length, Outline } from '../../src/model/index.ts';
import {
  arched,
  circle,
  difference,
  laid,
  polygon,
  rectangle,
  shiftBy,
  through,
} from '../../src/outline/index.ts';
import { at, made } from '../outline/drawing.ts';
import { flush, here, member, mm, part, row, standUp } from './byHand.ts';

/** Sides of a tile at which parts stand that are less than their blocks. Expected: computed by hand. */
const bench = { ruler: [mm(1, 2)] as const, wander: undefined };
const wall: Edge = { kind: 'wall', at: here };
const foot = (level: number): Edge => ({ kind: 'foot', at: here, level: mm(level) });
const floor = (...levels: number[]): Edge => ({
  kind: 'floor',
  at: here,
  levels: levels.map((it) => ({ value: mm(it), at: here })),
});
const none = { front: undefined, back: undefined, left: undefined, right: undefined };

function said(build: Build | undefined): readonly string[] {
  return judge(build!, bench).faults.map((it) => {
    switch (it.kind) {
      case 'not closed':
        return `open ${it.side} ${round(it.from)}..${round(it.to)}`;
      case 'level is off':
        return `off ${it.side} ${it.end ?? ''} ${round(it.found)} not ${round(it.declared)}`;
      case 'steps':
        return `steps ${it.side} at ${round(it.where)}: ${round(it.from)} to ${round(it.to)}`;
      case 'hangs on a curve':
        return `${it.what} hangs on ${it.part.name}`;
      default:
        return it.kind;
    }
  });
}

/** To a tenth of a millimetre, as a curve's figures are. */
function round(length: Length): string {
  const [over, under = '1'] = toFraction(length).split('/');
  return `${Math.round((Number(over) / Number(under)) * 10) / 10}`;
}

function cutOut(whole: Outline, away: Outline, x: number, y: number): Outline {
  const [left] = difference(whole, laid(away, shiftBy(at(x, y))));
  if (left === undefined) throw new Error('nothing is left');
  return left;
}

const board = made(rectangle(mm(60), mm(30)));
const arch = made(arched({ width: mm(20), rise: mm(10) }, mm(10)));
const archway = cutOut(board, arch, 20, 0);
const window = cutOut(board, made(circle(mm(10))), 25, 10);

/** A slab of 5 mm, on its front a face with an outline, and what stands behind it. */
function fronted(outline: Outline, edge: Edge, behind?: readonly [number, number]) {
  const slab = member(part('slab', [mm(60), mm(60)], mm(5)));
  const face = member(part('face', [mm(60), mm(30)], mm(2), { outline }));
  const core = behind && [member(part('core', [mm(behind[0]), mm(behind[1])], mm(5)))];
  return standUp(
    row('up', [slab, row('along', [face, ...(core ?? [])], { to: 'free' })], {
      ofMembers: { along: flush('low') },
    }),
    { edges: { ...none, front: edge } },
  ).build;
}

describe('a wall with something cut out of it', () => {
  it('leaves a way through where nothing stands behind', () => {
    expect(said(fronted(archway, wall))).toEqual(['open front 20..40']);
    expect(said(fronted(window, wall))).toEqual(['open front 25..35']);
    expect(said(fronted(board, wall))).toEqual([]);
  });
  it('is closed by what stands behind it, as far as that goes', () => {
    expect(said(fronted(archway, wall, [60, 30]))).toEqual([]);
    expect(said(fronted(archway, wall, [20, 20]))).toEqual([]);
    expect(said(fronted(archway, wall, [10, 20]))).toEqual(['open front 20..25']);
    expect(said(fronted(window, wall, [60, 15]))).toEqual(['open front 25..35']);
  });
  it('is looked at just above the level of a foot', () => {
    expect(said(fronted(archway, foot(26)))).toEqual([]);
    expect(said(fronted(window, foot(10)))).toEqual([]);
    expect(said(fronted(window, foot(20)))).toEqual(['open front 25..35']);
    expect(said(fronted(archway, foot(5)))).toEqual(['open front 20..40']);
  });
});

/** A tile of cheeks side by side, 60 mm deep, with sides that slope. */
function ramp(outline: Outline, left: Edge, more: { readonly lip?: Length } = {}) {
  const height = 20;
  const cheek = member(part('cheek', [mm(60), mm(height)], mm(12), { outline }));
  return standUp(row('across', [cheek, cheek, cheek, cheek, cheek]), {
    edges: { ...none, left, right: left },
    ...more,
  }).build;
}

const shoulder = made(through([at(0, 10), at(30, 15), at(60, 20)], ['flat', 'flat']));
const straight = made(polygon([at(0, 0), at(60, 0), at(60, 20), at(0, 10)]));
const stair = made(polygon([at(0, 0), at(60, 0), at(60, 20), at(30, 20), at(30, 10), at(0, 10)]));
const hump = made(polygon([at(0, 0), at(60, 0), at(60, 15), at(30, 20), at(0, 10)]));

describe('a side that slopes', () => {
  it('begins at the one level and ends at the other', () => {
    for (const outline of [shoulder, straight]) {
      expect(said(ramp(outline, floor(10, 20)))).toEqual([]);
      expect(said(ramp(outline, floor(9, 20)))).toEqual([
        'off left front 10 not 9',
        'off right front 10 not 9',
      ]);
      expect(said(ramp(outline, floor(10, 21)))).toEqual([
        'off left back 20 not 21',
        'off right back 20 not 21',
      ]);
      expect(said(ramp(outline, floor(20, 10)))).toHaveLength(4);
    }
  });
  it('is no slope where it steps, nor where it leaves what lies between its ends', () => {
    expect(said(ramp(stair, floor(10, 20)))[0]).toBe('steps left at 30: 10 to 20');
    expect(said(ramp(hump, floor(10, 15)))[0]).toBe('off left  20 not 15');
  });
  it('is no level', () => {
    expect(said(ramp(straight, floor(10, 10)))[0]).toBe('off left  20 not 10');
    expect(said(ramp(shoulder, floor(20, 20)))[0]).toBe('off left  10 not 20');
  });
  it('can not be told where less than 0.01 mm of a curve would tell', () => {
    // The crest is at 10 + 37 - √(37² - 30²) = 25.3436 mm.
    const crest = made(arched({ width: mm(60), radius: mm(37) }, mm(10)));
    const within = (lip: number) => said(ramp(crest, floor(10, 10), { lip: mm(lip, 10_000) }));
    expect(within(153_600)).toEqual([]);
    expect(within(153_440)).toEqual(['level hangs on cheek 1', 'level hangs on cheek 5']);
    expect(within(153_300)).toEqual(['off left  25.3 not 10', 'off right  25.3 not 10']);
  });
});
