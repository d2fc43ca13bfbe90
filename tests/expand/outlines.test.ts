import { describe, expect, it } from 'vitest';
import { showExact } from '../../src/measure/index.ts';
import type { Batch, PartMember } from '../../src/model/index.ts';
import { batchOf, check } from './check.ts';

const kit = (parts: string, build = '') => `cardwright: session
units: in
materials: { greyboard: { thickness: 1/16 } }
masters: { shoulder: { through: [[0, 1/4], [3/2, 1/2], [3, 3/4]], ends: flat }, hump: { half round: 1 } }
make: { wall: 1 }
tiles:
  wall:
    footprint: [1/8, 3]
    parts:
${parts}${build}`;

function member(batch: Batch, part: string) {
  for (const { parts } of batch.materials) {
    for (const kind of parts) {
      const found = kind.members.find((it) => it.part === part);
      if (found !== undefined) return { kind, found };
    }
  }
  throw new Error(`no part ${part}`);
}

function net({ drawn }: PartMember): readonly string[] {
  return [drawn!.net.length, drawn!.net.width].map((it) => showExact(it, 'in')); // it is drawn
}

describe('the size of a part with an outline', () => {
  it('is the box around it', () => {
    // Computed: sides 2 + rise 1/2; half a circle of 1 is 1/2 high; the master's highest point is its last.
    const batch = batchOf(
      kit(`      arch: { of: greyboard, outline: { arched: { width: 3/2, sides: 2, rise: 1/2 } } }
      sill: { of: greyboard, outline: { half round: 1 } }
      cheek: { of: greyboard, outline: { master: shoulder } }
      turned: { of: greyboard, outline: { master: shoulder, turned: 90 } }
      copy: { of: greyboard, size: [length of cheek, width of shoulder] }
`),
    );
    expect(net(member(batch, 'arch').found)).toEqual(['1 1/2 in', '2 1/2 in']);
    expect(net(member(batch, 'sill').found)).toEqual(['1 in', '1/2 in']);
    expect(net(member(batch, 'cheek').found)).toEqual(['3 in', '3/4 in']);
    expect(net(member(batch, 'turned').found)).toEqual(['3/4 in', '3 in']);
    expect(member(batch, 'copy').found.drawn).toBeUndefined();
    expect(showExact(member(batch, 'copy').kind.width, 'in')).toBe('3/4 in');
  });

  it('is taken outward to 1/64 in where it is not rational', () => {
    // Computed: an arch of radius 1 and rise 1/2 spans √3 = 1.73205 in, of which 111/64 = 1.734 is next above.
    const batch = batchOf(
      kit('      arch: { of: greyboard, outline: { arched: { radius: 1, sides: 1, rise: 1/2 } } }\n'),
    );
    expect(net(member(batch, 'arch').found)).toEqual(['1 47/64 in', '1 1/2 in']);
  });

  it('stays net whatever is left on it: its blank is formed once the kerf is known', () => {
    const batch = batchOf(
      kit('      sill: { of: greyboard, outline: { circle: 2 }, leave: { left: 1/8, top: 1/4 } }\n'),
    );
    const { kind, found } = member(batch, 'sill');
    expect(net(found)).toEqual(['2 in', '2 in']);
    expect([kind.length, kind.width].map((it) => showExact(it, 'in'))).toEqual(['2 in', '2 in']);
    const left = found.drawn?.leave;
    expect([left?.left, left?.top].map((it) => it && showExact(it, 'in'))).toEqual(['1/8 in', '1/4 in']);
  });

  it('rounds a developed length outward from both ends of what is known', () => {
    // Computed: half of π × 1 in is 1.5708 in, so 51/32 up and 50/32 down.
    const batch = batchOf(
      kit(`      up: { of: greyboard, size: [3, (developed length of hump up to 1/32)] }
      down: { of: greyboard, size: [3, (developed length of hump down to 1/32)] }
`),
    );
    expect(showExact(member(batch, 'up').kind.width, 'in')).toBe('1 19/32 in');
    expect(showExact(member(batch, 'down').kind.width, 'in')).toBe('1 9/16 in');
  });
});

describe('cuts in a size that is rest', () => {
  const build = '    build: { across: [{ part: cheek, facing: left }, { part: cheek, facing: right }] }\n';
  const cheek = (cuts: string) =>
    `      cheek: { of: greyboard, size: [rest, 1], cuts: [${cuts}], good side: yes }\n`;

  it('are made in the size that the build gives', () => {
    // Computed: the tile is 3 in along, and the notch begins 1 in from the right of that.
    const batch = batchOf(kit(cheek('{ notch: { size: [1/2, 1/4] }, edge: top, right: 1 }'), build));
    const { found, kind } = member(batch, 'cheek');
    expect(showExact(kind.length, 'in')).toBe('3 in');
    const corners = found.drawn?.outline?.rim.map(
      ({ from }) => `${showExact(from.x, 'in')}, ${showExact(from.y, 'in')}`,
    );
    expect(corners).toContain('1 1/2 in, 3/4 in');
    expect(corners).toHaveLength(8);
    expect(member(batch, 'cheek, other hand').found.drawn?.isMirrored).toBe(true);
    expect(batch.builds[0]?.parts.map(({ part, outline }) => [part, outline?.rim.length])).toEqual([
      ['cheek, other hand', 8],
      ['cheek', 8],
    ]);
  });

  it('are told once where they do not fit it', () => {
    check(
      `cardwright: kit
units: in
materials: { greyboard: { thickness: 1/16 } }
tiles:
  wall:
    footprint: [1/8, 3]
    parts:
      cheek: { of: greyboard, size: [rest, 1], cuts: [{ notch: { size: [4, 1/4] }, edge: top }] }
#                                                                      ^^^^^^^^ error T12: the notch takes 4 in along the top edge, which is 3 in long
    build: { across: [2 x cheek] }
`,
    );
  });
});

describe('two hands', () => {
  const build = '    build: { across: [{ part: cheek, facing: left }, { part: cheek, facing: right }] }\n';
  it('are two parts where the drawing tells them apart and there is a good side', () => {
    const cheek = '      cheek: { of: greyboard, outline: { master: shoulder }, good side: yes }\n';
    const batch = batchOf(kit(cheek, build));
    expect(member(batch, 'cheek').found.count).toBe(1);
    const { found, kind } = member(batch, 'cheek, other hand');
    expect(found.drawn?.isMirrored).toBe(true);
    expect(found.drawn?.master).toBe('shoulder');
    // One size of blank serves both.
    expect(kind.members).toHaveLength(2);
  });

  it('are one part where it is its own mirror image, or may be turned over', () => {
    const round = '      cheek: { of: greyboard, outline: { circle: 3 }, good side: yes }\n';
    expect(member(batchOf(kit(round, build)), 'cheek').found.count).toBe(2);
    const either = '      cheek: { of: greyboard, outline: { master: shoulder } }\n';
    const { found } = member(batchOf(kit(either, build)), 'cheek');
    expect([found.count, found.turnedOver]).toEqual([2, 1]);
  });
});

describe('what is wrong with an outline', () => {
  it('is told where it is written', () => {
    check(`
lengths: { deep: 1 }
parts:
  z: { of: greyboard, size: [3, 1] }
tiles:
  wall:
    parts:
      a: { of: greyboard, size: [3, 1], cuts: [{ hole: { circle: 1/4 }, left: 1/4 }, { notch: { size: [1/2, deep] }, edge: top }] }
#                                                                                                     ^^^^^^^^^^^ error T20: the notch is 1 in deep, and the part only 1 in
      b: { of: greyboard, outline: { half: { polygon: [[0, 0], [1, 0], [1, 0], [0, 1]] } } }
#                                                                      ^^^^^^ error T05: point 3, [1 in, 0 in], is where point 2 is
      c: { of: greyboard, size: [2, 1], outline: { half round: 1 } }
#                               ^^^^^^ error E75: the box around the outline is 1 in, 1/2 in
      d: { of: greyboard, outline: { master: sholder } }
#                                            ^^^^^^^ error E74: unknown master "sholder"
`);
  });

  it('is a mark that lies off its part, told at the point that does', () => {
    check(`
tiles:
  wall:
    footprint: [3, 3]
    parts:
      face:
        of: greyboard
        size: [3, 2]
        marks:
          - { cross: [3, 2] }
          - { cross: [3 1/64, 1] }
#                    ^^^^^^^^^^^ error T40: the cross lies off the part: 3 1/64 in along and 1 in up
          - { line: [[0, 0], [1, -1/64]] }
#                            ^^^^^^^^^^ error T40: the line goes off the part: 1 in along and -1/64 in up
          - { centre line: length }
`);
  });

  it('is a repeat too many, told where it is said how many there are', () => {
    check(`
tiles:
  wall:
    footprint: [3, 3]
    parts:
      face: { of: greyboard, size: [3, 2], cuts: [{ notch: { size: [1/2, 1/2] }, edge: top, times: 4, every: 1 }] }
#                                                                                                  ^ error T12: the notch takes 3 1/2 in along the top edge, which is 3 in long
      back: { of: greyboard, size: [3, 2], cuts: [{ hole: { circle: 1/2 }, left: 1/4, times: 4, every: 1 }] }
#                                                                                            ^ error T14: hole 4 of 4 lies outside the part: it takes 3 1/4 in to 3 3/4 in along and 3/4 in to 1 1/4 in up
`);
  });

  it('names a ring of masters', () => {
    check(`
masters: { a: { master: b }, b: { master: a } }
#          ^ error E03: these need each other: master a → master b → master a
`);
  });
});
