import { describe, expect, it } from 'vitest';
import type { Made } from '../../src/model/index.ts';
import { polygon, withCuts } from '../../src/outline/index.ts';
import { pipeline, runToEnd } from '../../src/pipeline.ts';
import { cutDocument } from '../../src/print/json/index.ts';
import { partOrder } from '../../src/print/memberWords.ts';
import { printText } from '../../src/print/text/index.ts';
import { readSpec } from '../../src/spec/index.ts';
import { at, made, mm } from '../outline/drawing.ts';
import { faultsOf } from './page/collisions.ts';
import { sheetPages } from './page/sheetPages.ts';

/** Wedges of both hands, an odd one among them, and shoulders that go on one sheet only if they share blanks. */
const ramps = madeFrom(`cardwright: session
title: Ramps
units: in
materials: { card: { thickness: 1/16 } }
sheets: { card: [{ size: [8, 7] }] }
parts:
  wedge: { of: card, outline: { polygon: [[0, 0], [3, 0], [0, 1 1/2]] }, good side: yes }
masters:
  shoulder: { through: [[0, 1/4], [3/4, 5/16], [1 1/2, 1/2], [2 1/4, 11/16], [3, 3/4]], ends: flat }
loose:
  wedge: { like: wedge, count: 7 }
  other: { like: wedge, mirrored: yes, count: 4 }
  cheek: { of: card, outline: { master: shoulder }, count: 16 }
`);

describe('a blank that two parts share', () => {
  const text = printText(ramps, { width: 80, ascii: false }).replaceAll('\u00a0', ' ').replace(/\s+/g, ' ');

  it('is told of with what it saves, how the two lie in it and where it is parted', () => {
    expect(text).toContain('Blanks that two parts share take about 40 % off all its parts.');
    expect(text).toContain('2 × pair of other, 3 × pair of wedge, wedge');
    expect(text).toContain(
      '2 × wedge head to tail in one blank, about 50 % less than two of 3 × 1 1/2, parted by one straight cut',
    );
    expect(text).toContain(
      'The one as drawn lies in its left bottom corner, the turned one in its right top corner',
    );
    expect(text).toContain('part it along the straight line from 3 along, 0 up to 0 along, 1 1/2 up');
    expect(text).toContain('trace both, then cut along the first, then along the second');
  });

  it('bears the label of each of the two in its picture, and nothing stands on anything', () => {
    const { value: pages = [] } = sheetPages(ramps);
    expect(pages.flatMap((page) => faultsOf(page, 10))).toEqual([]);
    const labels = pages.flatMap(({ marks }) =>
      marks.flatMap((mark) =>
        mark.kind === 'words' && /label/.test(mark.role) && mark.text === 'wedge' ? [mark] : [],
      ),
    );
    // One in the list, one alone in its blank, and two in each blank that has room for them.
    expect(labels.length).toBeGreaterThanOrEqual(4);
  });

  it('is in JSON with the places of both and the cut between', () => {
    const { result } = cutDocument(ramps, []);
    const members = result!.materials[0]!.parts.flatMap((kind) => kind.members);
    expect(members.find(({ label }) => label === 'pair of wedge')).toMatchObject({
      count: 3,
      shared: {
        labels: ['wedge', 'wedge'],
        asDrawn: { along: { mm: '0' }, up: { mm: '0' } },
        // Source: by hand: half of two of 3 × 1 1/2 in = 4 1/2 × 16129/25 mm².
        saved: '145161/50',
      },
    });
    expect(members.find(({ label }) => label === 'wedge')).toMatchObject({ count: 1, shared: null });
  });
});

describe('the order of work for one part', () => {
  const board = made(polygon([at(0, 0), at(60, 0), at(60, 40), at(0, 40)]));

  it('has what is straight before what is curved, and the centre before both', () => {
    const notched = made(
      withCuts(board, [
        {
          kind: 'notch',
          size: [mm(10), mm(5)],
          edge: 'top',
          along: undefined,
          repeat: undefined,
        },
      ]),
    );
    expect(partOrder(board, mm(1))).toBe('rip the blank');
    expect(partOrder(notched, mm(1))).toBe('rip the blank, then notch');
    const marked = { ...notched, marks: [{ kind: 'centre line', from: at(30, 0), to: at(30, 40) }] as const };
    expect(partOrder(marked, mm(1))).toBe('rip the blank, then mark the centre line, then notch');
    const wedge = made(polygon([at(0, 0), at(60, 0), at(0, 20)]));
    expect(partOrder(wedge, mm(1))).toBe('rip the blank, then cut what slopes');
    // A millimetre off one corner is no slope to whoever has whole inches; to tenths of a millimetre it is one.
    const nicked = made(polygon([at(0, 0), at(60, 0), at(60, 40), at(1, 40), at(0, 39)]));
    expect(partOrder(nicked, mm(25))).toBe('rip the blank');
    expect(partOrder(nicked, mm(1))).toBe('rip the blank, then cut what slopes');
  });
});

function madeFrom(yaml: string): Made {
  const bytes = new TextEncoder().encode(yaml);
  const { value } = readSpec([{ path: 'a.yaml', bytes }], () => ({ kind: 'missing', reason: 'none' }));
  return runToEnd(pipeline(value!, {})).value!;
}
