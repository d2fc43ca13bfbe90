import { mmPerPt, type Typeface, type Weight } from '../page/index.ts';
import { type Font, fontOf } from './shaping.ts';

/** Gives the bytes of a file in `shared/fonts`; the caller owns the files. */
export type ReadFont = (name: string) => Uint8Array;

/** The two fonts of the project, by weight. */
export type Fonts = Readonly<Record<Weight, Font>>;

export function readFonts(read: ReadFont): Fonts {
  return {
    regular: fontOf(read('IBMPlexSans-Regular.woff')),
    semibold: fontOf(read('IBMPlexSans-SemiBold.woff')),
  };
}

/** Widths as the renderers set them. */
export function typefaceOf(fonts: Fonts): Typeface {
  return {
    widthMm: (text, weight, sizePt) => {
      const font = fonts[weight];
      return (font.widthOf(text) / font.unitsPerEm) * sizePt * mmPerPt;
    },
    has: fonts.regular.has,
  };
}
