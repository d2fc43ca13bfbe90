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
