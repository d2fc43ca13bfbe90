import { describe, expect, it } from 'vitest';
import type { Made } from '../../src/model/index.ts';
import { pipeline, runToEnd } from '../../src/pipeline.ts';
import { printText } from '../../src/print/text/index.ts';
import { readSpec } from '../../src/spec/index.ts';
import { sheetPages } from './page/sheetPages.ts';

const board = (parts: string): Made => {
  const yaml = `cardwright: session
units: mm
materials: { card: { thickness: 2 } }
sheets: { card: [{ size: [600, 400] }] }
masters:
  shoulder: { through: [[0, 5], [20, 9], [60, 20]], ends: flat }
loose:
${parts}`;
  const { value } = readSpec([{ path: 'a.yaml', bytes: new TextEncoder().encode(yaml) }], () => ({
    kind: 'missing',
    reason: 'none',
  }));
  return runToEnd(pipeline(value!, {})).value!;
};

const onPaper = (made: Made): string => {
  const { value: pages = [] } = sheetPages(made);
  const words = pages.flatMap(({ marks }) => marks.flatMap((it) => (it.kind === 'words' ? [it.text] : [])));
  return words.join(' ').replace(/\s+/g, ' ');
};
const inText = (made: Made): string => printText(made, { width: 80, ascii: false }).replaceAll('\u00a0', ' ');

describe('the heights of an edge', () => {
  const rounded = board('  lid: { of: card, size: [200, 40], cuts: [{ round: { top left: 12 } }] }\n');

  // Expected: by hand; the arc runs from 0 to 12, and between its ends the pitch of 5 meets 5 and 10.
  it('are told where it is curved alone: what is straight lies between its corners', () => {
    const [, table = ''] = inText(rounded).split('every 5 mm along where it is curved');
    const rows = [...table.matchAll(/^ +(?:\* )?(\d+) +\S.*$/gm)].map(([, along]) => along);
    expect(rows).toEqual(['0', '5', '10', '12', '200']);
  });

  it('are left to the compass on pages, which are printed', () => {
    expect(onPaper(rounded)).toContain('Compass: point at 12 along, 28 up, open to 12');
    expect(onPaper(rounded)).not.toContain('where it is curved');
  });

  const own = board('  cheek: { of: card, outline: { through: [[0, 5], [20, 9], [60, 20]], ends: flat } }\n');
  const traced = board('  cheek: { of: card, outline: { master: shoulder } }\n');

  it('of a smooth curve stand on pages too, where no master has it', () => {
    expect(onPaper(own)).toContain('every 5 mm along where it is curved');
    expect(onPaper(traced)).toContain('traced from the master shoulder');
    expect(onPaper(traced)).not.toContain('where it is curved');
    expect(inText(traced)).toContain('every 5 mm along where it is curved');
  });
});

describe('a smooth curve', () => {
  // Expected: common practice, no source: a compass is set a few times for an edge, not dozens of times.
  it('is told by its heights where it was moved all round and is arcs by the dozen', () => {
    const moved = board(
      '  plug: { of: card, outline: { through: [[0, 5], [20, 9], [60, 20]], smaller all round: 0.5 } }\n',
    );
    expect(inText(moved)).not.toContain('Compass');
    expect(inText(moved)).not.toContain('runs by');
    const corners = inText(moved).match(/^ +\* /gm) ?? [];
    expect(corners).toHaveLength(2);
  });

  it('is told at its points as these are given, whichever way it runs', () => {
    const gable = board(
      '  gable: { of: card, outline: { path: [[0, 0], [40, 0], { curve: [[30, 22], [10, 17], [0, 6]] }] } }\n',
    );
    const [, table = ''] = inText(gable).split('where it is curved');
    const points = [...table.matchAll(/^ +\* (\d+) +(.*)$/gm)].map(([, along, up]) => [along, up]);
    expect(points).toEqual([
      ['0', '6'],
      ['10', '17'],
      ['30', '22'],
      ['40', '0'],
    ]);
  });

  it('has no more figures than it is sure of', () => {
    const arch = board('  arch: { of: card, outline: { arched: { rise: 10, radius: 22, sides: 20 } } }\n');
    // Source: computed: the centre lies a radius below the crest, at 20 + 10 − 22.
    expect(inText(arch)).toMatch(/Compass: point at .* along, 8 up, open to 22,/);
  });
});
