import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { labelsOf, tileLetters } from '../../src/expand/labels.ts';

const unlabelled = (...names: readonly string[]) => names.map((name) => ({ name, label: undefined }));

describe('the letters of a tile', () => {
  it.each([
    ['retaining wall', 'RW'],
    ['terrace', 'TE'],
    ['2 x 2 floor (left)', '2X2FL'],
    ["vintner's hut", 'VSH'],
    ['half-round end', 'HRE'],
    ['Überweg', 'ÜB'],
  ])('%s is %s', (name, letters) => {
    expect(tileLetters(unlabelled(name)).get(name)).toBe(letters);
  });

  it('take more of the first word where two tiles share them', () => {
    expect([...tileLetters(unlabelled('retaining wall', 'rubble wall', 'terrace'))]).toEqual(
      expect.arrayContaining([
        ['retaining wall', 'REW'],
        ['rubble wall', 'RUW'],
        ['terrace', 'TE'],
      ]),
    );
  });

  it('take a number where more letters tell nothing', () => {
    const letters = tileLetters(unlabelled('wall (left)', 'wall, left'));
    expect([...letters.values()].sort()).toEqual(['WL 1', 'WL 2']);
  });

  it('count from 2 where a label has the letters alone', () => {
    const letters = tileLetters([...unlabelled('m t'), { name: 'mill tower', label: 'MT' }]);
    expect([...letters]).toEqual([
      ['mill tower', 'MT'],
      ['m t', 'MT 2'],
    ]);
  });

  it('are the label where that is one short word', () => {
    expect(tileLetters([{ name: 'retaining wall', label: 'W1' }]).get('retaining wall')).toBe('W1');
  });

  it('are those of the label where it is longer', () => {
    expect(tileLetters([{ name: 'retaining wall', label: 'wall with drain' }]).get('retaining wall')).toBe(
      'WWD',
    );
  });
});

describe('a label', () => {
  const tile = { name: 'retaining wall', label: undefined };
  const letters = tileLetters([tile]);

  it('tells tile and part', () => {
    expect(labelsOf([{ tile, part: 'face', label: 'face' }], letters)).toEqual(['RW face']);
  });

  it('is the name alone for a loose part', () => {
    expect(labelsOf([{ tile: undefined, part: 'edging', label: 'edging' }], letters)).toEqual(['edging']);
  });

  it('gets a number where two parts print the same, each of them', () => {
    const parts = ['left side', 'right side'].map((part) => ({ tile, part, label: 'side' }));
    expect(labelsOf(parts, letters)).toEqual(['RW side 1', 'RW side 2']);
  });

  it('pushes none aside that is called so', () => {
    const parts = ['side 2', 'left side', 'right side'].map((part) => ({
      tile,
      part,
      label: part === 'side 2' ? part : 'side',
    }));
    expect(labelsOf(parts, letters)).toEqual(['RW side 2', 'RW side 1', 'RW side 3']);
  });

  it.each(['E01', 'p12', 'keep 3', 'Keep 3', 'strip B', 'sheet', 'scrap'])('is never "%s"', (name) => {
    expect(labelsOf([{ tile: undefined, part: name, label: name }], letters)).toEqual([`part ${name}`]);
  });
});

const word = fc.constantFrom(
  'wall',
  'wet',
  'Wall',
  'a',
  'ab',
  'E01',
  'keep',
  '3',
  'strip',
  'B',
  'side',
  'side 2',
  'x-y',
  '(left)',
);
const name = fc.array(word, { minLength: 1, maxLength: 4 }).map((words) => words.join(' '));
const tiles = fc.uniqueArray(fc.record({ name, label: fc.option(name, { nil: undefined }) }), {
  selector: (it) => it.name,
  maxLength: 6,
});
const batch = tiles.chain((made) =>
  fc.record({
    made: fc.constant(made),
    parts: fc.uniqueArray(fc.record({ tile: fc.constantFrom(undefined, ...made), part: name, label: name }), {
      selector: (it) => `${it.tile?.name}\n${it.part}`,
      maxLength: 12,
    }),
  }),
);

describe('labels over a whole batch', () => {
  it('are all different, and none can be misread', () => {
    fc.assert(
      fc.property(batch, ({ made, parts }) => {
        const labels = labelsOf(parts, tileLetters(made));
        expect(new Set(labels).size).toBe(parts.length);
        for (const label of labels) expect(label).not.toMatch(/^([a-z]\d\d|keep \d+|strip [a-z]+)$/i);
      }),
    );
  });

  it('do not depend on the order in which tiles and parts are written', () => {
    fc.assert(
      fc.property(batch, ({ made, parts }) => {
        const labels = labelsOf(parts, tileLetters(made));
        const turned = labelsOf([...parts].reverse(), tileLetters([...made].reverse()));
        expect([...turned].reverse()).toEqual(labels);
      }),
    );
  });
});
