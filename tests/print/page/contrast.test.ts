import { readFileSync } from 'node:fs';
import { getDocument, OPS } from 'pdfjs-dist/legacy/build/pdf.mjs';
import { describe, expect, it } from 'vitest';
import { compose } from '../../../src/print/paged/index.ts';
import { pdfOf, svgFilesOf } from '../drawn.ts';
import { readSvg } from '../svg/readSvg.ts';
import { vineyard } from './evening.ts';

/**
 * Contrast of two colours.
 *
 * Source: WCAG 2.2, "relative luminance" and "contrast ratio"; success criteria 1.4.3 (text: 4.5 : 1) and 1.4.11
 * (graphics: 3 : 1).
 */
function contrast(a: Colour, b: Colour): number {
  const [darker, lighter] = [luminance(a), luminance(b)].sort((x, y) => x - y);
  return (lighter! + 0.05) / (darker! + 0.05);
}

type Colour = readonly [red: number, green: number, blue: number];

function luminance(colour: Colour): number {
  const [red, green, blue] = colour.map((share) =>
    share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4,
  );
  return 0.2126 * red! + 0.7152 * green! + 0.0722 * blue!;
}

function colourOf(hex: string): Colour {
  const six = hex.length === 4 ? hex.replace(/[0-9a-f]/gi, '$&$&') : hex;
  const shares = [1, 3, 5].map((at) => Number.parseInt(six.slice(at, at + 2), 16) / 255);
  return shares as unknown as Colour; // three of them
}

const program = {
  version: '0.0.0',
  readFont: (name: string) => readFileSync(new URL(`../../../shared/fonts/${name}`, import.meta.url)),
};
const composed = compose(vineyard(), [], program).value!;

describe('the formula', () => {
  it.each([
    ['#000', '#fff', 21],
    ['#fff', '#fff', 1],
    // Source: WCAG technique G18 speaks of 4.5 : 1; #767676 on white is its well-known border, computed 4.54.
    ['#767676', '#ffffff', 4.54],
  ])('gives for %s on %s %f', (ink, ground, ratio) => {
    expect(contrast(colourOf(ink), colourOf(ground))).toBeCloseTo(ratio, 2);
  });
});

describe('ink and ground', () => {
  it('of every line, letter and patch in SVG stand out from each other', () => {
    const inks = new Set<string>();
    const grounds = new Set<string>();
    for (const { text } of svgFilesOf(composed)) {
      const { style, paths } = readSvg(text);
      for (const [, stroke] of style.matchAll(/stroke:(#[0-9a-f]+)/g)) inks.add(stroke!);
      for (const [, fill] of text.matchAll(/<rect [^>]*fill="(#[0-9a-f]+)"/g)) grounds.add(fill!);
      // Letters have no colour of their own: the initial one is black (SVG 2, 13.2 "fill").
      expect(style).not.toMatch(/text\{[^}]*fill/);
      inks.add('#000');
      for (const { fill, className } of paths) {
        if (fill === undefined) continue;
        if (/corner|end/.test(className)) inks.add(fill);
        else grounds.add(fill);
      }
    }
    expect(inks.size * grounds.size).toBeGreaterThan(0);
    for (const ink of inks)
      for (const ground of grounds)
        expect(contrast(colourOf(ink), colourOf(ground)), `${ink} on ${ground}`).toBeGreaterThanOrEqual(4.5);
  });

  it('so in PDF: what is drawn is black, what clears is the white of the paper', async () => {
    const task = getDocument({ data: pdfOf(composed), verbosity: 0 });
    const document = await task.promise;
    const fills = new Set<string>();
    const setters: readonly number[] = [OPS.setFillRGBColor, OPS.setStrokeRGBColor];
    for (let number = 1; number <= document.numPages; number++) {
      const { fnArray, argsArray } = await (await document.getPage(number)).getOperatorList();
      fnArray.forEach((operator, index) => {
        if (setters.includes(operator)) fills.add(String(argsArray[index][0]));
      });
    }
    await task.destroy();
    expect([...fills].sort()).toEqual(['#000000', '#ffffff']);
    expect(contrast(colourOf('#000000'), colourOf('#ffffff'))).toBeGreaterThan(20);
  });
});
