import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Outline } from '../../../src/model/index.ts';
import { boxOf, flattened, polygon, rectangle } from '../../../src/outline/index.ts';
import { composeMasters, trueBars } from '../../../src/print/masters/index.ts';
import type { Page } from '../../../src/print/page/index.ts';
import type { Composed } from '../../../src/print/paged/index.ts';
import { at, float, made, middle, mm } from '../../outline/drawing.ts';
import { allPages, pdfOf, svgFilesOf } from '../drawn.ts';
import { a4, letter } from '../page/evening.ts';
import { type ReadBack, readBack } from '../pdf/readBack.ts';
import { readSvg } from '../svg/readSvg.ts';
import { composed, program } from './composed.ts';
import { mastersMade, outlines } from './evening.ts';

/** Source: a point is 1/72 in (ISO 32000-1:2008, 8.3.2.3), an inch 25.4 mm. */
const mmPerPt = 25.4 / 72;

interface Drawn {
  readonly role: string;
  /** Millimetres from the left bottom corner of the paper. */
  readonly points: readonly (readonly [number, number])[];
}

/** The paths of each page as another program reads them from the PDF; what they mean is told by the page. */
async function drawnIn(print: Composed): Promise<readonly (readonly Drawn[])[]> {
  const { pages } = await readBack(pdfOf(print));
  return allPages(print.pages()).map((page, i) => {
    const roles = page.marks.flatMap((mark) => {
      if (mark.kind === 'words') return [];
      return mark.kind === 'patch' ? [mark.role] : mark.paths.map(() => mark.role);
    });
    const paths = pages[i]!.drawn;
    expect(paths.length).toBe(roles.length);
    return paths.map(({ points }, at): Drawn => {
      const inMm = points.map(([x, y]) => [x * mmPerPt, y * mmPerPt] as const);
      return { role: roles[at]!, points: inMm };
    });
  });
}

function extents(paths: readonly Drawn[]) {
  const all = paths.flatMap(({ points }) => points);
  const [xs, ys] = [all.map(([x]) => x), all.map(([, y]) => y)];
  return {
    across: Math.max(...xs) - Math.min(...xs),
    up: Math.max(...ys) - Math.min(...ys),
  };
}

const edgesOf = (paths: readonly Drawn[]): readonly Drawn[] =>
  paths.filter(({ role }) => role === 'part outline');

function exact(outline: Outline) {
  const { left, right, bottom, top } = boxOf(outline);
  return { across: middle(right) - middle(left), up: middle(top) - middle(bottom) };
}

const small = {
  drain: outlines.drain,
  shoulder: outlines.shoulder,
  wedge: outlines.wedge,
  board: outlines.board,
};

describe('a master that fits the paper', () => {
  it.each(Object.entries(small))('%s is as large as it is, within 0.01 mm', async (name, outline) => {
    const [page, ...others] = await drawnIn(composed({ [name]: outline }));
    expect(others).toEqual([]);
    const found = extents(edgesOf(page!));
    expect(Math.abs(found.across - exact(outline).across)).toBeLessThan(0.01);
    expect(Math.abs(found.up - exact(outline).up)).toBeLessThan(0.01);
  });

  it('has bars of 100 mm and 4 in, across and up', async () => {
    const [page] = await drawnIn(composed({ board: outlines.board }));
    const lengths = page!
      .filter(({ role, points }) => role === 'scale bar' && points.length === 2)
      .map(({ points: [from, to] }) => [to![0] - from![0], to![1] - from![1]]);
    // Source: 4 in = 101.6 mm.
    for (const long of [100, 101.6]) {
      expect(lengths.some(([x, y]) => Math.abs(x! - long) < 0.001 && y === 0)).toBe(true);
      expect(lengths.some(([x, y]) => x === 0 && Math.abs(y! - long) < 0.001)).toBe(true);
    }
  });

  it('says on itself what it is and which face is up, and beside it what is traced from it', () => {
    const print = composed({ shoulder: outlines.shoulder });
    const said = allPages(print.pages()).flatMap((page) =>
      page.marks.flatMap((mark) => (mark.kind === 'words' ? [mark.text] : [])),
    );
    expect(said).toContain('kept and traced, not built in');
    expect(said).toContain('left hand: this face up');
    expect(said).toContain('measure me before you cut:');
    expect(said.join(' ')).toMatch(/4 × A shoulder .*left hand/);
    expect(said.join(' ')).toMatch(/2 × B shoulder .*right hand/);
    expect(said.join(' ')).toMatch(/at most 0\.005 mm off/);
    const roles = new Set(allPages(print.pages()).flatMap((page) => page.marks.map((mark) => mark.role)));
    expect(roles).toContain('grain');
    expect(roles).toContain('centre line');
  });
});

describe('a printer that is off', () => {
  it('gets pages that are longer by as much, each way by its own', async () => {
    const bars = { across: mm(992, 10), up: mm(101) };
    const print = composed({ shoulder: outlines.shoulder }, { bars });
    const [page] = await drawnIn(print);
    const found = extents(edgesOf(page!));
    const { across, up } = exact(outlines.shoulder);
    // What this printer makes of it: 99.2 and 101 hundredths of what the page says.
    expect(Math.abs(found.across * 0.992 - across)).toBeLessThan(0.01);
    expect(Math.abs(found.up * 1.01 - up)).toBeLessThan(0.01);
    const bar = page!.filter(({ role, points }) => role === 'scale bar' && points.length === 2);
    expect(Math.max(...bar.map(({ points: [a, b] }) => b![0] - a![0]))).toBeCloseTo(101.6 / 0.992, 2);
    const said = allPages(print.pages())[0]!.marks.flatMap((mark) =>
      mark.kind === 'words' ? [mark.text] : [],
    );
    expect(said.join(' ')).toMatch(/across by 125\/124, for a bar of 99\.2 mm; up by 100\/101/);
  });

  it('leaves the paper as large as it is', async () => {
    const bars = { across: mm(98), up: mm(102) };
    const paper = { value: a4, from: 'option' } as const;
    const { pages } = await readBack(pdfOf(composed({ board: outlines.board }, { bars, paper })));
    expect(pages[0]!.box[2]! * mmPerPt).toBeCloseTo(210, 3);
    expect(pages[0]!.box[3]! * mmPerPt).toBeCloseTo(297, 3);
  });
});

describe('a master over several pages', () => {
  const papers = { a4, letter } as const;
  it.each(Object.entries(papers))('is the same outline when its pages of %s are joined', async (_, paper) => {
    const print = composed({ long: outlines.long }, { paper: { value: paper, from: 'option' } });
    const joined = joinedByCrosses(print, await drawnIn(print));
    const found = extents(joined);
    expect(Math.abs(found.across - exact(outlines.long).across)).toBeLessThan(0.01);
    expect(Math.abs(found.up - exact(outlines.long).up)).toBeLessThan(0.01);
    expect(farthest(joined, outlines.long)).toBeLessThan(0.01);
    expect(uncovered(joined, outlines.long)).toBeLessThan(0.05);
  });

  it('has a plan with the page of each piece, and says which page joins where', () => {
    const pages = allPages(composed({ long: outlines.long }).pages());
    const said = pages.map((page) =>
      page.marks.flatMap((mark) => (mark.kind === 'words' ? [mark.text] : [])),
    );
    expect(said[0]).toContain('Which page goes where');
    for (let page = 2; page <= pages.length; page++) expect(said[0]).toContain(`${page}`);
    const others = said.slice(1).map((texts) => texts.filter((it) => /joins here/.test(it)));
    // Two by two: each has a neighbour beside it and one above or below it.
    for (const it of others) expect(it.length).toBe(2);
  });

  it('has no page where nothing is drawn, and says so', async () => {
    // A slope from corner to corner, 20 mm high: most of its box is empty.
    const rail = made(polygon([at(0, 0), at(20, 0), at(520, 560), at(520, 580), at(500, 580)]));
    const print = composed({ rail }, { paper: { value: a4, from: 'option' } });
    const drawn = await drawnIn(print);
    const said = allPages(print.pages())[0]!.marks.flatMap((mark) =>
      mark.kind === 'words' ? [mark.text] : [],
    );
    expect(said).toContain('What has no number is empty, and has no page.');
    for (const page of drawn.slice(1)) expect(edgesOf(page)).not.toEqual([]);
    // Source: by hand: on paper of 210 × 297 three pages across and three up, of which the slope meets seven at most.
    expect(drawn.length - 1).toBeLessThan(9);
    const joined = joinedByCrosses(print, drawn);
    expect(farthest(joined, rail)).toBeLessThan(0.01);
    expect(uncovered(joined, rail)).toBeLessThan(0.05);
  });

  it('of more pages than are joined is refused with their number', () => {
    const asked = mastersMade({ field: made(rectangle(mm(5000), mm(3000))) });
    const { value, diagnostics } = composeMasters(
      asked,
      { name: undefined, bars: trueBars, mayTurn: true },
      program,
    );
    expect(value).toBeUndefined();
    expect(diagnostics.map(({ code }) => code)).toEqual(['O24']);
  });
});

/** Lays each page to one before it by the two crosses of one name that both have. */
function joinedByCrosses(print: Composed, drawn: readonly (readonly Drawn[])[]): readonly Drawn[] {
  const sheets = allPages(print.pages()).map((page, i) => ({
    crosses: crossesOn(page, drawn[i]!),
    edges: edgesOf(drawn[i]!),
  }));
  const pieces = sheets.slice(1); // the first is the plan
  const placed = new Map<number, readonly [number, number]>([[0, [0, 0]]]);
  for (let round = 0; round < pieces.length; round++) {
    for (const [i, { crosses }] of pieces.entries()) {
      if (placed.has(i)) continue;
      for (const [j, [dx, dy]] of placed) {
        const shared = [...crosses].filter(([name]) => pieces[j]!.crosses.has(name));
        if (shared.length === 0) continue;
        const shifts = shared.map(([name, [x, y]]) => {
          const [otherX, otherY] = pieces[j]!.crosses.get(name)!;
          return [otherX + dx - x, otherY + dy - y] as const;
        });
        // Both crosses want the same shift, or the pages would have to be turned.
        expect(shared.length).toBe(2);
        expect(Math.hypot(shifts[0]![0] - shifts[1]![0], shifts[0]![1] - shifts[1]![1])).toBeLessThan(0.002);
        placed.set(i, shifts[0]!);
        break;
      }
    }
  }
  expect(placed.size).toBe(pieces.length);
  return pieces.flatMap(({ edges }, i) => {
    const [dx, dy] = placed.get(i)!;
    return edges.map((it) => ({ ...it, points: it.points.map(([x, y]) => [x + dx, y + dy] as const) }));
  });
}

/** The middles of the crosses by their names, which stand right above them. */
function crossesOn(page: Page, drawn: readonly Drawn[]): ReadonlyMap<string, readonly [number, number]> {
  const arms = drawn.filter(({ role }) => role === 'register mark');
  const middles = arms
    .filter((_, i) => i % 2 === 0)
    .map(({ points: [a, b] }) => [(a![0] + b![0]) / 2, (a![1] + b![1]) / 2] as const);
  const names = page.marks.flatMap((mark) => (mark.kind === 'words' && mark.role === 'key' ? [mark] : []));
  return new Map(
    names.map(({ text, at }) => {
      const near = middles.find(
        ([x, y]) => Math.abs(at.x - 1 - x) < 0.01 && Math.abs(page.heightMm - at.y - 1 - y) < 0.01,
      );
      expect(near).toBeDefined();
      return [text, near!] as const;
    }),
  );
}

/** How far any point that was drawn is from the exact outline, laid over it by their left bottom corners. */
function farthest(joined: readonly Drawn[], outline: Outline): number {
  const sides = exactSides(outline);
  return Math.max(
    ...aligned(joined)
      .flat()
      .map((at) => Math.min(...sides.map((side) => away(at, side)))),
  );
}

/** How far any point of the exact outline is from what was drawn. */
function uncovered(joined: readonly Drawn[], outline: Outline): number {
  const drawn = aligned(joined).flatMap((points) => points.slice(1).map((to, i): Side => [points[i]!, to]));
  const probes = exactSides(outline)
    .filter((_, i) => i % 7 === 0)
    .flatMap(([a, b]) => [a, [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2] as const]);
  return Math.max(...probes.map((at) => Math.min(...drawn.map((side) => away(at, side)))));
}

type Spot = readonly [number, number];
type Side = readonly [Spot, Spot];

/** Straight sides that are off by a tenth of what is allowed. */
function exactSides(outline: Outline): readonly Side[] {
  return flattened(outline, 'along', mm(1, 1000)).flatMap((loop) =>
    loop.map(({ x, y }, i): Side => {
      const next = loop[(i + 1) % loop.length]!;
      return [
        [float(x), float(y)],
        [float(next.x), float(next.y)],
      ];
    }),
  );
}

function aligned(joined: readonly Drawn[]): readonly (readonly Spot[])[] {
  const all = joined.flatMap(({ points }) => points);
  const [left, low] = [Math.min(...all.map(([x]) => x)), Math.min(...all.map(([, y]) => y))];
  return joined.map(({ points }) => points.map(([x, y]) => [x - left, y - low] as const));
}

function away([x, y]: Spot, [[ax, ay], [bx, by]]: Side): number {
  const [dx, dy] = [bx - ax, by - ay];
  const along = dx === 0 && dy === 0 ? 0 : ((x - ax) * dx + (y - ay) * dy) / (dx * dx + dy * dy);
  const share = Math.min(1, Math.max(0, along));
  return Math.hypot(x - ax - share * dx, y - ay - share * dy);
}

describe('any rectangle on any paper', () => {
  it('is as large as it is once its pages are joined', async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.integer({ min: 4, max: 5000 }),
        fc.integer({ min: 4, max: 5000 }),
        fc.constantFrom(a4, letter),
        async (tenthsLong, tenthsWide, paper) => {
          const board = made(rectangle(mm(tenthsLong, 10), mm(tenthsWide, 10)));
          const print = composed({ board }, { paper: { value: paper, from: 'option' } });
          const drawn = await drawnIn(print);
          const joined = drawn.length === 1 ? edgesOf(drawn[0]!) : joinedByCrosses(print, drawn);
          const found = extents(joined);
          expect(Math.abs(found.across - tenthsLong / 10)).toBeLessThan(0.01);
          expect(Math.abs(found.up - tenthsWide / 10)).toBeLessThan(0.01);
        },
      ),
      { numRuns: 8 },
    );
  });
});

describe('the files', () => {
  const print = composed(small);
  let read: ReadBack;

  it('ask the printer not to scale, on pages of exactly the paper', async () => {
    read = await readBack(pdfOf(print));
    // Source: ISO 32000-1:2008, 12.2, table 150 (PrintScaling).
    expect(read.viewerPreferences.PrintScaling).toBe('None');
    // What A4 and Letter share: 210 mm × 11 in.
    for (const { box } of read.pages) {
      expect(box[2]! * mmPerPt).toBeCloseTo(210, 3);
      expect(box[3]! * mmPerPt).toBeCloseTo(279.4, 3);
    }
  });

  it('are in SVG in millimetres, each page and each master whole', () => {
    const files = svgFilesOf(print);
    expect(files.map(({ name }) => name)).toEqual([
      ...[1, 2, 3, 4].map((n) => `page-${n}.svg`),
      ...[1, 2, 3, 4].map((n) => `master-${n}.svg`),
    ]);
    for (const { name, text } of files) {
      const { width, height, viewBox, paths } = readSvg(text);
      const [, , across, up] = viewBox.split(' ');
      expect([width, height]).toEqual([`${across}mm`, `${up}mm`]);
      if (!name.startsWith('master')) continue;
      const rim = paths
        .filter(({ className }) => className === 'part-outline')
        .flatMap(({ points }) => points);
      const outline = Object.values(small)[Number(name.slice(7, 8)) - 1]!;
      const xs = rim.map(([x]) => x);
      const ys = rim.map(([, y]) => y);
      expect(Math.abs(Math.max(...xs) - Math.min(...xs) - exact(outline).across)).toBeLessThan(0.01);
      expect(Math.abs(Math.max(...ys) - Math.min(...ys) - exact(outline).up)).toBeLessThan(0.01);
    }
  });

  it('are the same bytes each time', async () => {
    expect(pdfOf(composed(small))).toEqual(pdfOf(print));
  });
});
