import { describe, expect, it } from 'vitest';
import { effortSteps } from '../../src/expand/index.ts';
import { inches, millimetres, rational, showExact } from '../../src/measure/index.ts';
import type { Overrides, Paper } from '../../src/model/index.ts';
import { batchOf } from './check.ts';

const opening = `cardwright: session
materials: { card: { thickness: 1 mm } }
loose: { post: { of: card, size: [2 in, 1 in] } }
`;

function settingsOf(text: string, overrides: Overrides = {}, others = {}) {
  const { units, firstUnit, ruler, paper, margin, effort } = batchOf(
    `${opening}${text}`,
    others,
    overrides,
  ).settings;
  return {
    units: `${units.value} ${units.from}`,
    firstUnit,
    ruler: `${ruler.value.map((it) => showExact(it, firstUnit)).join(', ')} ${ruler.from}`,
    paper: `${paperWords(paper.value)} ${paper.from}`,
    margin: `${showExact(margin.value, 'mm')} ${margin.from}`,
    effort: `${effort.value.name} ${effort.value.steps} ${effort.from}`,
  };
}

function paperWords(paper: Paper): string {
  if (typeof paper === 'string') return paper;
  return `${paper.name} ${showExact(paper.width, 'mm')} x ${showExact(paper.height, 'mm')}`;
}

describe('settings', () => {
  it('are built in where nobody says anything', () => {
    expect(settingsOf('')).toEqual({
      units: 'mm built-in',
      firstUnit: 'mm',
      ruler: '0.5 mm built-in',
      paper: 'shared built-in',
      margin: '10 mm built-in',
      effort: `normal ${effortSteps.normal} built-in`,
    });
  });

  it('follow the units of the session', () => {
    expect(settingsOf('units: in\n')).toMatchObject({ units: 'in session', ruler: '1/16 in built-in' });
  });

  it('come from the session, with what it is read by', () => {
    const print =
      'print: { units: both, ruler: [1/32, 0.5 mm], paper: A4, margin: 1/2 }\ncutting: { effort: quick }\n';
    expect(settingsOf(`units: in\n${print}`)).toEqual({
      units: 'both session',
      firstUnit: 'in',
      ruler: '1/32 in, 5/254 in session',
      paper: 'a4 210 mm x 297 mm session',
      margin: '12.7 mm session',
      effort: 'quick 0 session',
    });
  });

  it('come from the kit where the session is silent', () => {
    const others = { 'kit.yaml': 'cardwright: kit\nunits: mm\nprint: { paper: [150, 100], margin: 5 }\n' };
    expect(settingsOf('uses: [kit.yaml]\nprint: { margin: 6 mm }\n', {}, others)).toMatchObject({
      units: 'mm kit',
      paper: 'custom 150 mm x 100 mm kit',
      margin: '6 mm session',
    });
  });

  // Source: ISO 216, A4 210 × 297 mm; ANSI/ASME Y14.1, A 8 1/2 × 11 in.
  it.each([
    ['A4 landscape', {}, 'a4 297 mm x 210 mm session'],
    ['letter Landscape', {}, 'letter 279.4 mm x 215.9 mm session'],
    ['landscape', {}, 'shared landscape session'],
    ['[11, 8 1/2]', {}, 'custom 279.4 mm x 215.9 mm session'],
    ['A4', { landscape: true }, 'a4 297 mm x 210 mm option'],
    ['A4 landscape', { landscape: true }, 'a4 297 mm x 210 mm option'],
    ['A4 landscape', { paper: 'shared' }, 'shared option'],
    ['A4', { paper: 'shared', landscape: true }, 'shared landscape option'],
  ] as const)('lie as they are asked for: %s, %j', (paper, overrides, expected) => {
    expect(settingsOf(`units: in\nprint: { paper: ${paper} }\n`, overrides).paper).toBe(expected);
  });

  it('come from the command line before all else', () => {
    const overrides: Overrides = {
      units: 'mm',
      ruler: [millimetres(rational(1n))],
      paper: 'shared',
      margin: inches(rational(1n)),
      effort: { name: 'stated', steps: 7 },
    };
    expect(
      settingsOf('units: in\nprint: { units: both, ruler: 1/32, paper: A4, margin: 1/2 }\n', overrides),
    ).toEqual({
      units: 'mm option',
      firstUnit: 'mm',
      ruler: '1 mm option',
      paper: 'shared option',
      margin: '25.4 mm option',
      effort: 'stated 7 option',
    });
  });

  it('ask for a rule in the unit that is shown', () => {
    expect(settingsOf('units: in\n', { units: 'mm' })).toMatchObject({
      firstUnit: 'mm',
      ruler: '0.5 mm built-in',
    });
  });
});

describe('the title', () => {
  const others = { 'kit.yaml': 'cardwright: kit\ntitle: Vineyard\n' };

  it('is that of the session, else the name of its file', () => {
    expect(batchOf(`${opening}title: Tonight\nuses: [kit.yaml]\n`, others).title).toBe('Tonight');
    expect(batchOf(`${opening}uses: [kit.yaml]\n`, others).title).toBe('it');
  });
});
