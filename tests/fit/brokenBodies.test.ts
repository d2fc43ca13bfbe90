import { describe, expect, it } from 'vitest';
import { expand } from '../../src/expand/index.ts';
import { judge, verdictsSaid } from '../../src/fit/index.ts';
import { toFraction } from '../../src/measure/index.ts';
import type { TileFit } from '../../src/model/index.ts';
import { specOf } from '../expand/check.ts';

/** Sound tiles that are mitred, slope or bend, and copies of them that are broken in one place. Expected: by hand. */
function judged(text: string): { readonly fits: readonly TileFit[]; readonly said: readonly string[] } {
  const { value, diagnostics } = expand(specOf(text), {});
  expect(diagnostics.map(({ code, message }) => `${code} ${message}`)).toEqual([]);
  const { ruler, firstUnit } = value!.settings;
  const style = { units: firstUnit, firstUnit, ruler: ruler.value };
  const fits = value!.builds.map((build) => judge(build, { ruler: ruler.value, wander: undefined }));
  const said = fits.flatMap((fit) =>
    verdictsSaid(fit, style).map(({ code, message }) => `${code} ${message}`),
  );
  return { fits, said };
}

function said(text: string): readonly string[] {
  return judged(text).said;
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
materials: { card: { thickness: 2 }, board: { thickness: 5, flutes: yes }, foam: { thickness: 10 }, paper: { thickness: 1/2 } }
sheets: { card: [{ size: [400, 400] }], board: [{ size: [400, 400], flutes: length }], foam: [{ size: [400, 400] }], paper: [{ size: [400, 400] }] }
`;

const cistern = `${opening}
tiles:
  cistern:
    height: 22
    parts:
      slab: { of: card, size: [60, 60] }
      wall: { of: board, size: [rest, 20], flutes: length }
      core: { of: foam, size: [50, 50] }
    build: { up: [slab, { frame: { front: wall, back: wall, left: wall, right: wall }, corners: mitre, inside: { up: [2 x core] } }] }
    edges: { front: wall, back: wall, left: wall, right: wall }
`;

describe('mitred walls round a core', () => {
  it('are sound, closed all round, and show no flutes', () => {
    expect(said(cistern)).toEqual([]);
  });
  it('show where they are open', () => {
    const parts =
      'wall: { of: board, size: [rest, 20], flutes: length }\n      end: { of: board, size: [rest, 20], flutes: length }';
    const open = but(cistern, 'wall: { of: board, size: [rest, 20], flutes: length }', parts);
    const round = 'front: wall, back: wall, left: wall, right: wall }, corners';
    const missing = but(open, round, 'front: wall, back: wall, left: end }, corners');
    const smaller = but(missing, 'size: [50, 50]', 'size: [45, 50]');
    expect(said(but(smaller, 'left: wall, right: wall }', 'left: wall, right: { foot: 2 } }'))).toEqual([
      'F12 "cistern": nothing closes the right, from 2 mm up, between 5 mm and 55 mm [2 11/64 in scant (-0.0065)] from its front end',
    ]);
  });
});

const ramp = `${opening}
tiles:
  ramp:
    footprint: [60, 40]
    parts:
      slab:  { of: card, size: [60, 40] }
      deck:  { of: card, size: [60, rest] }
      cheek: { of: foam, outline: { polygon: [[0, 0], [40, 0], [40, 30]] } }
    build: { up: [slab, { part: deck, slope: { to: back, rise: 30 } }] }
    added:
      - { part: cheek, at: [0, 0, 2], thickness: across }
      - { part: cheek, at: [50, 0, 2], thickness: across }
    edges: { front: 4 1/2, back: 34 1/2, left: [4 1/2, 34 1/2], right: [4 1/2, 34 1/2] }
`;

// A slope of 3 in 4 is 5 long: 40 and 30 give 50, and 2 thick is 2 · 5/4 upright, all exact.
describe('a ramp over two cheeks', () => {
  it('is sound, lies on the cheeks all along, and is glued on when they stand', () => {
    const { fits, said } = judged(ramp);
    expect(said).toEqual([]);
    const [fit] = fits;
    const under = fit!.contacts.filter(({ part, other }) => part.part === 'cheek' && other.part === 'deck');
    expect(under.map(({ way, area }) => [way, toFraction(area.lo), toFraction(area.hi)])).toEqual([
      ['up', '500', '500'],
      ['up', '500', '500'],
    ]);
    expect(fit!.glueing.map(({ what }) => what)).toEqual(['slab', 'cheek 1', 'cheek 2', 'deck']);
    const top = fit!.faces.find(({ material, side }) => material === 'card' && side === 'top');
    // The deck's upper face, 50 · 60, and what of the slab lies open beneath it, 40 · 40.
    expect([top?.area.lo, top?.area.hi].map((it) => it && toFraction(it))).toEqual(['4600', '4600']);
  });
  it('shares space with a cheek that is higher', () => {
    // In a plane of 3 in 4 a cheek of 31 in 40 rises, at the back, 1 mm higher: so deep are they in each other.
    expect(said(but(ramp, '[40, 30]]', '[40, 31]]'))).toEqual([
      'F04 "ramp": "deck" and "cheek 1" are in one place, 1 mm [3/64 in scant (-0.0075)] deep up',
      'F04 "ramp": "deck" and "cheek 2" are in one place, 1 mm [3/64 in scant (-0.0075)] deep up',
    ]);
  });
  it('floats over cheeks that are lower', () => {
    expect(said(but(ramp, '[40, 30]]', '[40, 29]]'))).toEqual([
      'F05 "ramp": "deck" touches nothing of the rest, so nothing holds it',
    ]);
  });
  it('is off its levels where it rises less', () => {
    expect(said(but(ramp, 'back: 34 1/2', 'back: 34'))).toEqual([
      'F06 "ramp": the floor at the back is 34.5 mm high, on "deck"; its level is 34 mm: 0.5 mm [1/64 in full (+0.0041)] too high',
    ]);
  });
});

const hump = `${opening}
tiles:
  hump:
    parts:
      slab:  { of: card, size: [60, 60] }
      cheek: { of: foam, outline: { through: [[0, 5], [30, 20], [60, 5]], ends: flat } }
      skin:  { of: paper, size: [rest, rest] }
    build: { up: [slab] }
    added:
      - { part: cheek, against: top of slab, thickness: across, flush: left }
      - { part: cheek, against: top of slab, thickness: across, flush: right }
      - { part: skin, over: [cheek 1, cheek 2], up to: 0.1 }
    edges: { front: 7 1/2, back: 7 1/2 }
`;

describe('a skin over two cheeks', () => {
  it('is sound, and lies on both all along', () => {
    const { fits, said } = judged(hump);
    expect(said).toEqual([]);
    const [fit] = fits;
    expect(fit!.glueing.map(({ what, onto }) => `${what}: ${onto.join(', ')}`)).toEqual([
      'slab: ',
      'cheek 1: slab',
      'cheek 2: slab',
      'skin: cheek 1, cheek 2',
    ]);
  });
  it('counts with its thickness at its ends', () => {
    expect(said(but(hump, 'front: 7 1/2', 'front: 7'))).toEqual([
      'F06 "hump": the floor at the front is 7.5 mm high, on "skin"; its level is 7 mm: 0.5 mm [1/64 in full (+0.0041)] too high',
    ]);
  });
  // Told at the first place where it is off by more than the lip.
  it('counts all along where it is seen from beside', () => {
    const told = said(but(hump, 'back: 7 1/2 }', 'back: 7 1/2, left: 7 1/2 }'));
    expect(told).toHaveLength(1);
    expect(told[0]).toMatch(
      /^F06 "hump": the floor at the left is ~7\.7 mm .* high, on "skin"; its level is 7\.5 mm/,
    );
  });
  // 1 mm to either side of its middle the skin is 0.05 mm lower than there: 15 · (3 − 2/30) / 30².
  it('leaves no room for what is higher between the cheeks', () => {
    const post = 'slab:  { of: card, size: [60, 60] }\n      post:  { of: card, size: [10, 20 1/4] }';
    const broken = but(
      but(hump, 'slab:  { of: card, size: [60, 60] }', post),
      '    edges',
      '      - { part: post, against: top of slab, thickness: along }\n    edges',
    );
    expect(said(broken)).toEqual([
      'F04 "hump": "skin" and "post" are in one place, ~0.3 mm (-0.0013) [1/64 in scant (-0.0039)] deep up',
    ]);
  });
});

const bridge = `${opening}
tiles:
  bridge:
    height: 22
    parts:
      deck: { of: card, folds: { panels: [22, 60, 22], angles: [90, 90], width: 60, laps: yes } }
      fill: { of: foam, size: [56, 60] }
    build: { up: [2 x fill, deck] }
    edges: { left: wall, right: wall, front: 22, back: 22 }
`;

describe('a deck folded over its core', () => {
  it('is sound, and closed at its sides', () => {
    expect(said(bridge)).toEqual([]);
  });
  it('leaves no room for a core that is longer', () => {
    expect(said(but(bridge, 'size: [56, 60]', 'size: [57, 60]'))).toEqual([
      'F04 "bridge": "fill 1" and "deck" are in one place, 0.5 mm [1/64 in full (+0.0041)] deep across',
      'F04 "bridge": "fill 2" and "deck" are in one place, 0.5 mm [1/64 in full (+0.0041)] deep across',
    ]);
  });
  it('is open where it hangs less far down', () => {
    expect(said(but(bridge, 'panels: [22, 60, 22]', 'panels: [22, 60, 12]'))).toEqual([
      'F12 "bridge": nothing closes the right',
    ]);
  });
});
