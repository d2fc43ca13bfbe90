import fc from 'fast-check';
import { millimetres, rational } from '../../../src/measure/index.ts';
import type { Made, NonEmpty, Paper, PartKind } from '../../../src/model/index.ts';
import { demand, inch, kind, member, mm, sheet, trimmed } from '../../plan/byHand.ts';
import { madeOf } from './evening.ts';

const name = fc.oneof(
  fc.constantFrom('RW face', 'T bed', 'x', 'cheek', 'a name far too long for any part of it', 'W'.repeat(80)),
  fc.string({ minLength: 1, maxLength: 12 }),
);

/** Sheets from a postcard to a full board, parts from a crumb to half a sheet. */
export const evening = fc.record({
  long: fc.integer({ min: 80, max: 1200 }),
  wide: fc.integer({ min: 60, max: 800 }),
  trim: fc.constantFrom(0, 2, 10),
  kerf: fc.constantFrom(0, 1),
  inInches: fc.boolean(),
  parts: fc.array(
    fc.record({
      length: fc.integer({ min: 1, max: 12 }),
      width: fc.integer({ min: 1, max: 12 }),
      fine: fc.integer({ min: 0, max: 15 }),
      count: fc.integer({ min: 1, max: 30 }),
      label: name,
      grain: fc.boolean(),
    }),
    { minLength: 1, maxLength: 6 },
  ),
});

type Evening = typeof evening extends fc.Arbitrary<infer T> ? T : never;

export function eveningOf({ long, wide, trim, kerf, inInches, parts }: Evening): Made {
  const kinds = parts.map(({ length, width, fine, count, label, grain }, index): PartKind => {
    const size = (twelfths: number, whole: number) =>
      inInches
        ? inch(Math.max(1, Math.floor((whole * twelfths) / 610)), fine, 16)
        : mm(Math.max(2, Math.floor((whole * twelfths) / 24)));
    return kind(size(length, long), size(width, wide), [member(`${label} ${index}`, count)], {
      grain: grain ? 'length' : 'any',
    });
  }) as unknown as NonEmpty<PartKind>; // fast-check gives at least one
  const stock = sheet(mm(long), mm(wide), { trim: trimmed(mm(trim)), grain: 'length' });
  const of = demand(kinds, [stock], { kerf: mm(kerf) }, { hasGrain: true });
  return madeOf('A random evening', [of], inInches ? {} : metric);
}

/** All sizes of paper that have a name, as they are sold. Source: ISO 216; ANSI/ASME Y14.1; PWG 5101.1. */
export const papers = {
  a0: [mm(841), mm(1189)],
  a1: [mm(594), mm(841)],
  a2: [mm(420), mm(594)],
  a3: [mm(297), mm(420)],
  a4: [mm(210), mm(297)],
  a5: [mm(148), mm(210)],
  letter: [inch(8, 1, 2), inch(11)],
  legal: [inch(8, 1, 2), inch(14)],
  ledger: [inch(11), inch(17)],
} as const;

const paper = fc.oneof(
  fc.constantFrom<Paper>('shared', 'shared landscape'),
  fc
    .tuple(fc.constantFrom(...(Object.keys(papers) as (keyof typeof papers)[])), fc.boolean())
    .map(([name, isLandscape]): Paper => {
      const [width, height] = papers[name];
      return isLandscape ? { name, width: height, height: width } : { name, width, height };
    }),
  // From what just holds the scale bars to a poster.
  fc
    .tuple(fc.integer({ min: 150, max: 700 }), fc.integer({ min: 160, max: 900 }))
    .map(([width, height]): Paper => ({ name: 'custom', width: mm(width), height: mm(height) })),
);

/** Names as people and programs give them. */
const wildName = fc.oneof(
  name,
  fc.constantFrom(
    'Mauer, außen',
    '🌙 moon 🌿 garden',
    'קיר תומך',
    'جدار',
    '墙'.repeat(40),
    'a\u0301e\u0300'.repeat(30),
    'line\nbreak\ttab',
    '\u001b[31mred\u001b[0m',
    '\u202eoverride\u202c',
    'x'.repeat(300),
    Array.from({ length: 60 }, (_, index) => `word${index % 9}`).join(' '),
    '½ × ¾ ½ × ¾',
    '\u200b',
  ),
  fc.string({ unit: 'binary', minLength: 1, maxLength: 300 }),
);

/** Any evening on any paper, read with any rules, shown in any units. */
export const wildEvening = fc.record({
  evening: fc.record({
    long: fc.integer({ min: 60, max: 2440 }),
    wide: fc.integer({ min: 40, max: 1220 }),
    trim: fc.constantFrom(0, 2, 10),
    kerf: fc.constantFrom(0, 0.2, 3),
    parts: fc.array(
      fc.record({
        length: fc.integer({ min: 1, max: 24 }),
        width: fc.integer({ min: 1, max: 24 }),
        count: fc.integer({ min: 1, max: 60 }),
        label: wildName,
        part: wildName,
        note: fc.option(wildName, { nil: undefined }),
        bound: fc.boolean(),
        goodSide: fc.boolean(),
      }),
      { minLength: 1, maxLength: 8 },
    ),
  }),
  title: wildName,
  paper,
  marginMm: fc.constantFrom(0, 4, 10, 15),
  units: fc.constantFrom('in', 'mm', 'both'),
  rules: fc.constantFrom('mm', 'in', 'in and mm', 'tenths'),
});

type WildEvening = typeof wildEvening extends fc.Arbitrary<infer T> ? T : never;

const rulers = {
  mm: [millimetres(rational(1n, 2n))],
  in: [inch(0, 1, 16), inch(0, 1, 32)],
  'in and mm': [inch(0, 1, 32), mm(1)],
  tenths: [inch(0, 1, 10)],
} as const;

export function wildEveningOf({ evening: of, title, paper: on, marginMm, units, rules }: WildEvening): Made {
  const kinds = of.parts.map(({ length, width, count, label, part, note, bound, goodSide }, index) => {
    const size = (share: number, whole: number) => mm(Math.max(2, Math.floor((whole * share) / 40)));
    const who = member(`${label} ${index}`, count, undefined, note === undefined ? { part } : { part, note });
    const runs = bound ? 'length' : 'any';
    return kind(size(length, of.long), size(width, of.wide), [who], { grain: runs, flutes: runs, goodSide });
  }) as unknown as NonEmpty<PartKind>; // fast-check gives at least one
  const stock = sheet(mm(of.long), mm(of.wide), {
    trim: trimmed(mm(of.trim)),
    grain: 'length',
    flutes: 'width',
  });
  const kerf = millimetres(rational(BigInt(Math.round(of.kerf * 10)), 10n));
  const needs = demand(kinds, [stock], { kerf }, { hasGrain: true, hasFlutes: true });
  return madeOf(title, [needs], {
    units: { value: units, from: 'option' },
    firstUnit: units === 'mm' ? 'mm' : 'in',
    ruler: { value: rulers[rules], from: 'option' },
    paper: { value: on, from: 'option' },
    margin: { value: mm(marginMm), from: 'option' },
  });
}

const metric = {
  units: { value: 'mm', from: 'kit' },
  firstUnit: 'mm',
  ruler: { value: [mm(1)], from: 'kit' },
} as const;
