import { readFileSync } from 'node:fs';
import { create, type Font } from 'fontkit';
import { mmPerPt, type Typeface } from '../../../src/print/page/index.ts';

const read = (name: string): Font =>
  create(readFileSync(new URL(`../../../shared/fonts/${name}`, import.meta.url))) as Font;

const fonts = {
  regular: read('IBMPlexSans-Regular.woff'),
  semibold: read('IBMPlexSans-SemiBold.woff'),
};

const ems = new Map<string, number>();

/** The fonts of the project measured by fontkit itself, without the renderer. */
export const face: Typeface = {
  widthMm: (text, weight, sizePt) => {
    const key = `${weight} ${text}`;
    const em = ems.get(key) ?? fonts[weight].layout(text).advanceWidth / fonts[weight].unitsPerEm;
    ems.set(key, em);
    return em * sizePt * mmPerPt;
  },
  has: (codePoint) => fonts.regular.hasGlyphForCodePoint(codePoint),
};
