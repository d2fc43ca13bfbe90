import { describe, expect, it } from 'vitest';
import { startFlow } from '../../../src/print/page/flow.ts';
import { lineTypes, type Mark } from '../../../src/print/page/index.ts';
import { legend } from '../../../src/print/page/legend.ts';
import { dimension } from '../../../src/print/page/partMarks.ts';
import { allPages } from '../drawn.ts';
import { composed } from '../masters/composed.ts';
import { outlines } from '../masters/evening.ts';
import { faultsOf } from './collisions.ts';
import { vineyard } from './evening.ts';
import { face } from './face.ts';
import { sheetPages } from './sheetPages.ts';
import { a4Paper, allMeanings, specimen } from './specimen.ts';

const marks = specimen().flatMap((page) => page.marks);

const rolesOf = (all: readonly Mark[]) =>
  new Set(all.flatMap((mark) => (mark.kind === 'stroke' ? [mark.role] : [])));

describe('all marks together', () => {
  it('are set with nothing on top of anything', () => {
    expect(specimen().flatMap((page) => faultsOf(page, 10))).toEqual([]);
  });

  it('and those of a session draw every line there is', () => {
    const session = sheetPages(vineyard()).value!.flatMap((page) => page.marks);
    const pages = allPages(composed(outlines).pages());
    const onMasters = pages.flatMap((page) => [...rolesOf(page.marks)]);
    const drawn = new Set([...rolesOf(marks), ...rolesOf(session), ...onMasters]);
    expect(Object.keys(lineTypes).filter((role) => !drawn.has(role as never))).toEqual([]);
  });

  it('look different from each other in black alone', () => {
    const looks = allMeanings.map((meaning) => {
      const flow = startFlow(face, a4Paper, { title: '', made: '', alarm: undefined });
      flow.open();
      legend(flow, new Set([meaning]));
      // The heading and the meaning in words stand beside every mark.
      const [page] = flow.rest();
      return JSON.stringify(page!.own.filter(isInFirstBox).map(lookOf));
    });
    expect(new Set(looks).size).toBe(allMeanings.length);
    expect(looks).not.toContain('[]');
  });

  it('part lines of one course by width or pattern, wide to narrow 2 : 1', () => {
    const along = [
      'first cut',
      'cut',
      'part outline',
      'datum edge',
      'fold',
      'centre line',
      'pencil mark',
      'keep outline',
    ] as const;
    const types = along.map((role) => JSON.stringify(lineTypes[role]));
    expect(new Set(types).size).toBe(along.length);
    // Source: ISO 128, widths 0.13, 0.18, 0.25, 0.35, 0.5, 0.7, 1.0 … mm in steps of √2 (second-hand).
    const widths = [0.13, 0.18, 0.25, 0.35, 0.5, 0.7, 1];
    for (const { widthMm } of Object.values(lineTypes)) expect(widths).toContain(widthMm);
    expect(lineTypes['first cut'].widthMm / lineTypes.cut.widthMm).toBeCloseTo(2, 9);
    // Source: ISO 128-20, types 04 and 05: one dot, two dots (second-hand); the lengths are ours.
    expect(lineTypes['centre line'].dashesMm).toHaveLength(4);
    expect(lineTypes.fold.dashesMm).toHaveLength(6);
  });
});

describe('a dimension', () => {
  // Source: ISO 129 (second-hand): the line runs beside what it measures and is as long, its extension lines
  // leave a gap at the outline and go a little past the line, it ends in strokes at 45°; the figure stands
  // above the line, readable from below or from the right.
  it.each([
    ['below', { from: { x: 20, y: 50 }, to: { x: 60, y: 50 } }],
    ['above', { from: { x: 60, y: 50 }, to: { x: 20, y: 50 } }],
    ['at the right', { from: { x: 60, y: 90 }, to: { x: 60, y: 50 } }],
    ['at the left', { from: { x: 60, y: 50 }, to: { x: 60, y: 90 } }],
  ] as const)('is drawn as trade drawings have it: %s', (_, edge) => {
    const all = dimension(face, '4', edge, 8);
    const paths = all.flatMap((mark) =>
      mark.kind === 'stroke' ? mark.paths.map(({ points }) => points) : [],
    );
    const [first, second, measured, ...ends] = paths;
    const span = Math.hypot(edge.to.x - edge.from.x, edge.to.y - edge.from.y);
    const lengthOf = ([a, b]: typeof first & object) => Math.hypot(b!.x - a.x, b!.y - a.y);
    expect(lengthOf(measured!)).toBeCloseTo(span, 9);
    for (const [line, corner] of [
      [first!, edge.from],
      [second!, edge.to],
    ] as const) {
      expect(Math.hypot(line[0].x - corner.x, line[0].y - corner.y)).toBeCloseTo(0.8, 9);
      expect(lengthOf(line)).toBeCloseTo(8 + 1.5 - 0.8, 9);
    }
    expect(ends).toHaveLength(2);
    for (const [a, b] of ends) expect(Math.abs(b!.x - a.x)).toBeCloseTo(Math.abs(b!.y - a.y), 9);
    const [figure] = all.flatMap((mark) => (mark.kind === 'words' ? [mark] : []));
    const isUpright = edge.from.x === edge.to.x;
    expect(figure!.turned).toBe(isUpright);
    // Above the line as it is read: farther up the page, or farther to the left of it.
    if (isUpright) expect(figure!.at.x).toBeLessThan(measured![0].x);
    else expect(figure!.at.y).toBeLessThan(measured![0].y);
  });
});

/** The box of the legend's first mark: under the heading, at the left. */
function isInFirstBox(mark: Mark): boolean {
  const points =
    mark.kind === 'words'
      ? [mark.at]
      : mark.kind === 'patch'
        ? mark.points
        : mark.paths.flatMap((it) => it.points);
  return points.every(({ x, y }) => x >= 9 && x < 26 && y > 32 && y < 42);
}

function lookOf(mark: Mark): unknown {
  if (mark.kind === 'words') return [mark.weight, mark.sizePt, mark.text];
  const round = ({ x, y }: { readonly x: number; readonly y: number }) => [
    Math.round(x * 10),
    Math.round(y * 10),
  ];
  if (mark.kind === 'patch') return mark.points.map(round);
  return [lineTypes[mark.role], mark.paths.map(({ points }) => points.map(round))];
}
