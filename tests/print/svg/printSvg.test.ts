import { readFileSync } from 'node:fs';
import { create, type Font } from 'fontkit';
import { describe, expect, it } from 'vitest';
import type { Made } from '../../../src/model/index.ts';
import { type Composed, choosePages, compose } from '../../../src/print/paged/index.ts';
import { demand, inch, kind, member, mm, sheet } from '../../plan/byHand.ts';
import { svgFilesOf } from '../drawn.ts';
import { a4, letter, madeOf, vineyard } from '../page/evening.ts';
import { boxAround, type DrawnSheet, labelled, untruths } from '../truth.ts';
import { type ReadSvg, readSvg } from './readSvg.ts';

const program = {
  version: '0.0.0',
  readFont: (name: string) => readFileSync(new URL(`../../../shared/fonts/${name}`, import.meta.url)),
};

function composed(made: Made): Composed {
  const { value } = compose(made, [], program);
  if (value === undefined) throw new Error('nothing was composed');
  return value;
}

const made = vineyard();
const files = svgFilesOf(composed(made));
const read = files.map(({ name, text }) => ({ name, svg: readSvg(text) }));
const pages = read.filter(({ name }) => name.startsWith('page-')).map(({ svg }) => svg);
const layouts = read.filter(({ name }) => name.startsWith('layout-')).map(({ svg }) => svg);
const sheets = made.plans.flatMap((it) => it.sheets);

describe('the files', () => {
  it('are the pages by number, then each layout', () => {
    expect(files.map(({ name }) => name)).toEqual([
      ...pages.map((_, index) => `page-${index + 1}.svg`),
      ...sheets.map(
        (_, index) => `layout-${String(index + 1).padStart(String(sheets.length).length, '0')}.svg`,
      ),
    ]);
    expect(pages.length).toBeGreaterThan(3);
  });

  it('are the same bytes on a second run', () => {
    expect(svgFilesOf(composed(vineyard()))).toEqual(files);
  });

  it('need nothing from elsewhere', () => {
    for (const { text } of files) {
      expect(text.match(/https?:[^"]*/g)).toEqual(['http://www.w3.org/2000/svg']);
      expect(text.replaceAll(/url\(data:font\/woff;base64,[A-Za-z0-9+/=]+\)/g, '')).not.toContain('url(');
      expect(text).not.toMatch(/<(?:script|image|use|foreignObject)\b|\son\w+=/);
    }
  });

  it('with pages chosen are those pages alone, under their own numbers', () => {
    const few = svgFilesOf(choosePages(composed(made), [{ first: 2, last: 3 }]));
    expect(few.map(({ name }) => name)).toEqual(['page-2.svg', 'page-3.svg']);
    expect(few).toEqual(files.slice(1, 3));
  });
});

describe('for who does not see it', () => {
  it('each page says which it is, and is text as text', () => {
    pages.forEach(({ title, texts }, index) => {
      expect(title).toBe(`Vineyard, two evenings, page ${index + 1} of ${pages.length}`);
      expect(texts.map(({ text }) => text)).toContain(`page ${index + 1} of ${pages.length}`);
    });
  });

  it('each layout says what is cut from which sheet', () => {
    layouts.forEach(({ title, about }, index) => {
      const { pieces } = sheets[index]!;
      expect(title).toMatch(/ · (?:sheet|sheets) \d/);
      for (const { member: of } of pieces) expect(about).toContain(of.label);
    });
  });
});

describe('true millimetres', () => {
  // Source: ISO 216 (A4 210 × 297 mm), ANSI/ASME Y14.1 (8 1/2 × 11 in), 1 in = 25.4 mm.
  it.each([
    ['a4', a4, 210, 297],
    ['letter', letter, 215.9, 279.4],
  ] as const)('one unit is one millimetre on %s', (_, paper, width, height) => {
    const [first] = svgFilesOf(composed(vineyard({ paper: { value: paper, from: 'option' } })));
    const svg = readSvg(first!.text);
    expect([svg.width, svg.height]).toEqual([`${width}mm`, `${height}mm`]);
    expect(svg.viewBox).toBe(`0 0 ${width} ${height}`);
  });

  it('each page has a bar of 100 mm and one of 4 in', () => {
    for (const { paths } of pages) {
      const bars = paths
        .filter(({ className, points }) => className === 'scale-bar' && points[0]![1] === points[1]![1])
        .map(({ points }) => points[1]![0] - points[0]![0]);
      expect(bars.map((it) => Math.round(it * 1000) / 1000)).toEqual([100, 101.6]);
    }
  });

  it('each layout is the plan, piece for piece, full size', () => {
    expect(layouts.length).toBe(sheets.length);
    layouts.forEach((svg, index) => {
      const [drawn] = drawingsIn(svg, () => 1);
      expect(untruths(sheets[index]!, drawn!), svg.title).toEqual([]);
      if (sheets[index]!.pieces.length > 0) expect(labelled(sheets[index]!, drawn!)).toBeGreaterThan(0);
    });
  });

  it('each picture on a page is the plan, piece for piece, at the scale that is told above it', () => {
    const drawn = pages.flatMap((svg) => drawingsIn(svg, (top) => scaleAbove(svg, top)));
    expect(drawn.length).toBe(sheets.length);
    drawn.forEach((it, index) => {
      expect(untruths(sheets[index]!, it)).toEqual([]);
    });
    expect(sum(drawn.map((it, index) => labelled(sheets[index]!, it)))).toBeGreaterThan(20);
  });

  it('and the comparison sees a piece that is 0.1 mm off, and a label in the wrong one', () => {
    const [drawn] = drawingsIn(layouts[0]!, () => 1);
    const [first, ...rest] = drawn!.outlines;
    const off = { ...first!, right: first!.right + 0.1 };
    expect(untruths(sheets[0]!, { ...drawn!, outlines: [off, ...rest] })).toHaveLength(2);
    const names = new Set(sheets.flatMap(({ pieces }) => pieces.map((it) => it.member.label)));
    const mixed = sheets.findIndex(({ pieces }) => new Set(pieces.map((it) => it.member.label)).size > 1);
    const [other] = drawingsIn(layouts[mixed]!, () => 1);
    const [a, b] = [...new Set(sheets[mixed]!.pieces.map((it) => it.member.label))];
    expect(names.size).toBeGreaterThan(1);
    const renamed = other!.texts.map((it) => ({ ...it, text: it.text === a ? b! : it.text }));
    expect(untruths(sheets[mixed]!, { ...other!, texts: renamed }).join()).toContain(
      `"${b}" stands in "${a}"`,
    );
  });
});

describe('the fonts inside', () => {
  it('set each text as long as it was composed, fractions and kerning too', () => {
    for (const { svg } of read) {
      const fonts = fontsIn(svg);
      for (const { text, className, sizeMm, lengthMm } of svg.texts) {
        const font = fonts[className.split(' ')[0] as keyof typeof fonts]!;
        for (const letter of text) expect(font.hasGlyphForCodePoint(letter.codePointAt(0)!)).toBe(true);
        const { glyphs } = font.layout(text);
        for (const { id } of glyphs) if (text.trim() !== '') expect(id).toBeGreaterThan(0);
        const plain = (font.layout(text).advanceWidth / font.unitsPerEm) * sizeMm;
        // Sizes and lengths are written to a thousandth of a millimetre; a letter is less than 1 em wide.
        expect(Math.abs(plain - lengthMm), text).toBeLessThan(0.0005 * (text.length + 2));
      }
    }
  });

  it('weigh little', () => {
    for (const { text } of files) {
      const inFonts = text.match(/base64,[^)]*/g)!.join('').length;
      expect(inFonts).toBeLessThan(50_000);
    }
  });
});

describe('names that XML knows otherwise', () => {
  it.each(['a < b & "c" > d', "it's", 'a\u0000b\u001b[31m\ufffe', 'Mauer – außen', ']]>', '&amp;'])(
    'sets %j as it is',
    (label) => {
      const of = demand([kind(mm(80), mm(50), [member(label, 2)])], [sheet(inch(12), inch(9))]);
      const texts = svgFilesOf(composed(madeOf(label, [of]))).flatMap(({ text }) => readSvg(text).texts);
      const plain = label.replaceAll(/[\p{Cc}\ufffe]/gu, '');
      expect(texts.map(({ text }) => text.replaceAll('\ufffd', '')).join('\n')).toContain(plain);
    },
  );
});

/** The sheets drawn in a file, in its order. */
function drawingsIn({ paths, texts }: ReadSvg, scaleOf: (top: number) => number): readonly DrawnSheet[] {
  const rectangles = (name: string) =>
    paths
      .filter(({ className, closed }) => className === name && closed)
      .map(({ points }) => boxAround(points));
  return rectangles('sheet-outline').map((frame) => ({
    scale: scaleOf(frame.top),
    sheet: frame,
    outlines: rectangles('part-outline').filter(
      ({ left, right, top, bottom }) =>
        left > frame.left - 0.1 &&
        right < frame.right + 0.1 &&
        top > frame.top - 0.1 &&
        bottom < frame.bottom + 0.1,
    ),
    texts,
  }));
}

function scaleAbove({ texts }: ReadSvg, top: number): number {
  const told = texts
    .filter(({ text, y }) => y < top && /^drawn (?:at 1:\d+|full size)$/.test(text))
    .sort((a, b) => b.y - a.y)[0]!;
  return Number(/\d+$/.exec(told.text)?.[0] ?? 1);
}

function fontsIn({ style }: ReadSvg): { readonly regular?: Font; readonly semibold?: Font } {
  const found: Record<string, Font> = {};
  for (const [, weight, data] of style.matchAll(
    /font-weight:(\d+);src:url\(data:font\/woff;base64,([^)]+)\)/g,
  )) {
    found[weight === '400' ? 'regular' : 'semibold'] = create(Buffer.from(data!, 'base64')) as Font;
  }
  return found;
}

function sum(numbers: readonly number[]): number {
  return numbers.reduce((all, it) => all + it, 0);
}
