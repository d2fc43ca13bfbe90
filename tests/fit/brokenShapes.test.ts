import { describe, expect, it } from 'vitest';
import { expand } from '../../src/expand/index.ts';
import { judge, verdictsSaid } from '../../src/fit/index.ts';
import { specOf } from '../expand/check.ts';

/** Sound tiles with outlines, and copies of them that are broken in one place. Expected: by construction. */
function said(text: string): readonly string[] {
  const { value, diagnostics } = expand(specOf(text), {});
  expect(diagnostics.map(({ code, message }) => `${code} ${message}`)).toEqual([]);
  const { ruler, firstUnit } = value!.settings;
  const style = { units: firstUnit, firstUnit, ruler: ruler.value };
  return value!.builds
    .map((build) => judge(build, { ruler: ruler.value, wander: undefined }))
    .flatMap((fit) => verdictsSaid(fit, style).map(({ code, message }) => `${code} ${message}`));
}

/** The text with one thing in it replaced. */
function but(text: string, from: string, to: string): string {
  expect(text.split(from)).toHaveLength(2);
  return text.replace(from, to);
}

const opening = `cardwright: kit
units: mm
grid: { square: 60, slack: 0.2, lip: 0.2 }
print: { ruler: 0.1 }
materials: { card: { thickness: 2 }, foam: { thickness: 10 } }
sheets: { card: [{ size: [400, 400] }], foam: [{ size: [400, 400] }] }
`;

const drain = `${opening}
masters: { mouth: { arched: { width: 20, sides: 10, rise: 10 } } }
tiles:
  wall:
    parts:
      slab:  { of: card, size: [60, 60] }
      face:  { of: card, size: [60, 30], cuts: [{ arch: { width: 20, sides: 10, rise: 10 }, edge: bottom }] }
      core:  { of: foam, size: [60, 30] }
      grate: { of: card, outline: { master: mouth, smaller all round: 1/2 } }
    build: { up: [slab, { along: [face, core], to: free }], flush: front }
    added: [{ part: grate, at: [20 1/2, 0, 2 1/2], thickness: along }]
    edges: { front: wall }
`;

describe('a drain in a wall', () => {
  it('is sound with a grate in it and a core behind', () => {
    expect(said(drain)).toEqual([]);
  });
  it('has no room for a grate that is larger', () => {
    const broken = but(drain, 'smaller all round: 1/2', 'larger all round: 1/2');
    expect(said(but(broken, '[20 1/2, 0, 2 1/2]', '[19 1/2, 0, 2]'))).toEqual([
      'F04 "wall": "face" and "grate" are in one place, 2 mm [5/64 in full (+0.00062)] deep along',
    ]);
  });
  it('takes one that is traced from the same master, without any play', () => {
    const traced = but(but(drain, ', smaller all round: 1/2', ''), '[20 1/2, 0, 2 1/2]', '[20, 0, 2]');
    expect(said(traced)).toEqual([]);
    // Held by its edge alone: nothing stands behind it.
    expect(
      said(but(but(traced, '[face, core]', '[face]'), '      core:  { of: foam, size: [60, 30] }\n', '')),
    ).toEqual([]);
  });
  it('tells where nobody can tell', () => {
    const near = but(drain, 'smaller all round: 1/2', 'smaller all round: 0.002');
    expect(said(but(near, '[20 1/2, 0, 2 1/2]', '[20.002, 0, 2.002]'))).toEqual([
      `F13 "wall": whether "face" and "grate" are in one place hangs on less than 0.01 mm of a curve, and can't be told`,
    ]);
  });
  it('is a way through where nothing covers it', () => {
    const bare = but(drain, '    added: [{ part: grate, at: [20 1/2, 0, 2 1/2], thickness: along }]\n', '');
    const open = but(bare, '[face, core]', '[face]').replace(/ {6}(core|grate): .*\n/g, '');
    expect(said(open)).toEqual([
      'F12 "wall": nothing closes the front, between 20 mm and 40 mm [1 37/64 in scant (-0.0033)] from its left end',
    ]);
  });
  it('lets a grate float that is set where nothing is', () => {
    expect(said(but(drain, '[20 1/2, 0, 2 1/2]', '[20 1/2, 40, 2 1/2]'))).toEqual([
      'F05 "wall": "grate" touches nothing of the rest, so nothing holds it',
    ]);
  });
});

const ramp = `${opening}
levels: { low: 10, high: 20 }
masters: { shoulder: { through: [[0, low], [20, 12], [40, 17], [60, high]], ends: flat } }
tiles:
  ramp:
    height: high
    parts:
      cheek: { of: card, outline: { master: shoulder }, good side: yes }
      fill:  { of: foam, outline: { master: shoulder } }
      packing: { of: card, outline: { master: shoulder } }
    build: { across: [{ part: cheek, facing: left }, 5 x fill, 3 x packing, { part: cheek, facing: right }] }
    edges: { front: low, back: high, left: [low, high], right: [low, high] }
`;

describe('a ramp with sloping sides', () => {
  it('is sound', () => {
    expect(said(ramp)).toEqual([]);
  });
  it('is too long where its master is', () => {
    const long = but(ramp, '[60, high]]', '[61, high]]');
    expect(said(long).map((it) => it.slice(0, 3))).toEqual(['F01']);
  });
  it('is off its level where its master ends too low', () => {
    const found = said(but(but(ramp, '[60, high]]', '[60, 19]]'), '    height: high\n', ''));
    const off = '19 mm high, on "cheek 1"; its level is 20 mm: 1 mm [3/64 in scant (-0.0075)] too low';
    expect(found).toEqual([
      `F06 "ramp": the floor at the back is ${off}`,
      `F06 "ramp": the floor at the left, at its back end, is ${off}`,
      `F06 "ramp": the floor at the right, at its back end, is ${off.replace('cheek 1', 'cheek 2')}`,
    ]);
  });
  it('is no slope where a cheek is cut in steps', () => {
    const stepped = but(
      ramp,
      'cheek: { of: card, outline: { master: shoulder }',
      'cheek: { of: card, outline: { polygon: [[0, 0], [60, 0], [60, 20], [30, 20], [30, 10], [0, 10]] }',
    );
    expect(said(stepped)).toEqual([
      'F14 "ramp": the floor at the left is to slope, and steps from 10 mm to 20 mm on "cheek 1", 30 mm from its front end',
      'F14 "ramp": the floor at the right is to slope, and steps from 10 mm to 20 mm on "cheek 2", 30 mm from its front end',
    ]);
  });
});
