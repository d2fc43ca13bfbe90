import { describe, expect, it } from 'vitest';
import { run } from '../cli/memoryWorld.ts';

const wellHouse = (core: string, side = 'floor: no', gap = 'gap rest') => `cardwright: kit
units: in
grid: { square: 3 }
materials: { greyboard: { thickness: 1/16 }, foam: { thickness: 1/2 } }
sheets: { greyboard: [{ size: [16, 12] }], foam: [{ size: [24, 12] }] }
tiles:
  well house:
    height: 9/16
    parts:
      paving: { of: greyboard, size: [square, square] }
      front:  { of: greyboard, size: [1 7/8, rest], floor: no }
      side:   { of: greyboard, size: [1 3/4, rest], ${side} }
      core:   { of: foam, size: [${core}, rest], floor: no }
    build:
      up:
        - paving
        - across: [${gap}, side, { along: [front, { up: [core] }, front], to: 1 3/4 }, side, ${gap}]
          flush: front
    edges: { front: 1/16 }
`;
const check = (text: string, ...more: readonly string[]) =>
  run(['check', 'it.yaml', ...more], { files: { 'it.yaml': text } });

describe('a rest beside a gap rest', () => {
  it('is told as the cause, and no size that only hides it', async () => {
    const { stderr } = await check(wellHouse('rest'));
    // (3 - 2 x 1/16) / 3 = 23/24: computed.
    expect(stderr).toContain(
      'length of core: its rest is a share of what is left, like each gap rest: 15/16 in full (+0.021)',
    );
    expect(stderr).toContain('Say   length of front   in its place');
    expect(stderr).not.toContain('closes it');
  });

  it('is not mended by changing what is right', async () => {
    const ran = await check(wellHouse('rest'), '--fix');
    expect(ran.text('it.yaml')).toBe(wellHouse('rest'));
  });

  it('closes with the size that is named', async () => {
    expect((await check(wellHouse('length of front'))).stderr).toBe('');
  });

  it('is not told where no gap shares', async () => {
    const { stderr } = await check(wellHouse('length of front', 'floor: no', 'gap 1/8'));
    expect(stderr).toContain('error F01');
    expect(stderr).not.toContain('its rest');
  });
});

describe('a row of thicknesses that is short', () => {
  const stack = (row: string) => wellHouse('length of front').replace(/{ up: \[core\] }/, row);

  it('may be filled with layers, or left open', async () => {
    const { stderr } = await check(stack('core'));
    expect(stderr).toContain(
      'thicknesses add up to it; more layers do, or   gap rest   where it may stay open',
    );
    expect((await check(stack('gap rest, core, gap rest'))).stderr).not.toContain('error F01');
  });
});

describe('a clad part in the way of another', () => {
  const yard = (across: string) => `cardwright: kit
units: in
grid: { square: 3 }
materials: { card: { thickness: 1/16 }, wavy: { thickness: 1/4, flutes: yes } }
sheets: { card: [{ size: [16, 12] }], wavy: [{ size: [16, 12], flutes: length }] }
tiles:
  yard:
    parts:
      ground: { of: card, size: [3, 3] }
      block:  { of: wavy, size: [2, 1], flutes: length, accepted: { bare flutes: painted } }
      step:   { of: wavy, size: [1, 1/2], flutes: length, clad: { left: card, right: card } }
    build: { up: [ground] }
    added:
      - { part: block, at: [0, 1, 1/16] }
      - { part: step, at: [${across}, 1, 1/16] }
`;
  const overlaps = async (across: string) =>
    (await check(yard(across))).stderr.match(/"[^"]*" and "[^"]*" are in one place/g);

  it('is told once, its strips not for themselves', async () => {
    expect(await overlaps('1/2')).toEqual(['"block" and "step" are in one place']);
  });

  it('is told of the strip where that alone is in the way', async () => {
    expect(await overlaps('(2 - 1/32)')).toEqual(['"block" and "step left strip" are in one place']);
  });
});

describe('a level that a wall makes', () => {
  it('asks whether anybody stands there', async () => {
    const { stderr } = await check(wellHouse('length of front', 'good side: no'));
    expect(stderr).toContain('if nobody stands on "side 1", say   floor: no   of that part');
    const mended = wellHouse('length of front');
    expect((await check(mended)).stderr).not.toContain('F06');
  });

  it('asks nothing of a floor that is a little high', async () => {
    const { stderr } = await check(wellHouse('length of front').replace('front: 1/16', 'front: 1/32'));
    expect(stderr).toContain('error F06');
    expect(stderr).toContain('  try   a floor may be off its level by the lip, 1/64 in');
    expect(stderr).not.toContain('if nobody stands');
  });
});
