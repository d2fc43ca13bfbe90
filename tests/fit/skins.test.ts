import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { judge, verdictsSaid } from '../../src/fit/index.ts';
import { toDrawnMm } from '../../src/measure/index.ts';
import { batchOf, expandText } from '../expand/check.ts';

const paths = ['shared/card-and-foam.yaml', 'specs/hillside.yaml'];
const files = Object.fromEntries(
  paths.map((path) => [path, readFileSync(new URL(`../../${path}`, import.meta.url), 'utf8')]),
);
const hillside = (files['specs/hillside.yaml'] ?? '').replaceAll('../', '');

/** All verdicts on the ramp of the vineyard, with some things in the kit replaced. */
function ramp(...changes: readonly (readonly [from: string, to: string])[]): readonly string[] {
  let text = hillside;
  for (const [from, to] of changes) {
    expect(text).toContain(from);
    text = text.replaceAll(from, to);
  }
  return said(text, 'shoulder ramp');
}

function said(text: string, tile: string): readonly string[] {
  const { builds, settings } = batchOf(text, files);
  const { ruler, firstUnit } = settings;
  const style = { units: firstUnit, firstUnit, ruler: ruler.value };
  return builds
    .filter((it) => it.tile === tile)
    .map((it) => judge(it, { ruler: ruler.value, wander: undefined }))
    .flatMap((fit) => verdictsSaid(fit, style).map(({ code, message }) => `${code} ${message}`));
}

describe('the ramp of the vineyard', () => {
  const added = '    added: [{ part: skin, over: [cheek 1, cheek 2], face: outer, up to: 1/32 }]\n';
  it('is sound, with the skin on its cheeks', () => {
    expect(ramp()).toEqual([]);
  });
  it('goes by what the card measures: its cheeks give way to a thicker one', () => {
    const shelf = {
      ...files,
      'shared/card-and-foam.yaml': (files['shared/card-and-foam.yaml'] ?? '').replace('18 thou', '24 thou'),
    };
    const { builds } = batchOf(hillside, shelf);
    const skin = builds
      .find(({ tile }) => tile === 'shoulder ramp')
      ?.parts.find(({ part }) => part === 'skin');
    expect(toDrawnMm(skin!.block.high.up)).toBe(19.05);
    expect(toDrawnMm(skin!.size.thickness)).toBeCloseTo(0.6096, 12);
  });
  it('is low without it, and the flutes of its liners are bare', () => {
    const skin = / {6}skin: .*\n/u.exec(hillside)?.[0] ?? '';
    expect(ramp([added, ''], [skin, '']).map((it) => it.slice(0, 3))).toEqual(['F01', 'F11']);
  });
  it('is high where its cheeks go up to the levels themselves', () => {
    const codes = ramp(['- skin)', '- 0)']);
    expect(codes.map((it) => it.slice(0, 3))).toEqual(['F03', ...Array.from({ length: 6 }, () => 'F06')]);
    expect(codes.every((it) => it.includes('"skin"') && it.includes('0.018 in'))).toBe(true);
  });
  it('has no room for what comes up through it', () => {
    const broken = ramp([
      'fill:  { of: foam, outline: { master: shoulder } }',
      'fill:  { of: foam, size: [square, terrace] }',
    ]);
    expect(broken.filter((it) => it.startsWith('F04')).every((it) => it.includes('"skin"'))).toBe(true);
    expect(broken.some((it) => it.startsWith('F04'))).toBe(true);
  });
  it('takes no card that bends less', () => {
    const shelf = {
      ...files,
      'shared/card-and-foam.yaml': (files['shared/card-and-foam.yaml'] ?? '').replace(
        'least bend: 1/8',
        'least bend: 12',
      ),
    };
    const codes = expandText(hillside, shelf).diagnostics.map(({ code }) => code);
    expect(codes).toEqual(['E89']);
  });
});

const opening = `cardwright: kit
units: mm
grid: { square: 60, slack: 0.2, lip: 0.2 }
print: { ruler: 0.1 }
materials: { card: { thickness: 1 }, board: { thickness: 2 }, foam: { thickness: 10 } }
sheets: { card: [{ size: [400, 400] }], board: [{ size: [400, 400] }], foam: [{ size: [400, 400] }] }
`;

/** A deck of 45 up over 60, 75 along: its cheeks under it, a base below. */
const deck = `${opening}
tiles:
  ramp:
    parts:
      base: { of: board, size: [60, 60] }
      deck: { of: board, size: [60, rest] }
      cheek: { of: board, size: [rest, rest] }
    build: { up: [base, { part: deck, slope: { to: back, rise: 45 } }] }
    added: [{ part: cheek, under: deck, flush: left }, { part: cheek, under: deck, flush: right }]
    edges: { front: 4.5, back: 49.5, left: [4.5, 49.5], right: [4.5, 49.5] }
`;

describe('a deck on cheeks', () => {
  // Source: computed: 2 for the base, 2 × 75 / 60 = 2.5 for the deck upright, 45 for its rise.
  it('closes without sharing space, at the levels that follow', () => {
    expect(said(deck, 'ramp')).toEqual([]);
  });
  it('is off where it rises less', () => {
    const codes = said(deck.replace('rise: 45 }', 'rise: 44 }, up to: 0.1'), 'ramp');
    expect(codes.map((it) => it.slice(0, 3))).toEqual(['F06', 'F06', 'F06']);
  });
  it('floats without them, but for the line that it touches in', () => {
    const bare = deck.replace(/ {4}added: .*\n/u, '').replace(/ {6}cheek: .*\n/u, '');
    expect(said(bare, 'ramp').map((it) => it.slice(0, 3))).toContain('F05');
  });
  it('shares space with cheeks that are cut to its own thickness too little', () => {
    const plain = deck
      .replace(
        'cheek: { of: board, size: [rest, rest] }',
        'cheek: { of: board, outline: { polygon: [[0, 0], [60, 0], [60, 46], [0, 1]] } }',
      )
      .replace(
        /added: .*\n/u,
        'added: [{ part: cheek, against: top of base, thickness: across, flush: left }]\n',
      );
    expect(said(plain, 'ramp').map((it) => it.slice(0, 3))).toContain('F04');
  });
});
