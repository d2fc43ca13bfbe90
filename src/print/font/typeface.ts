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

/** Widths as the renderers set them. The same words are measured many times before they have their place. */
export function typefaceOf(fonts: Fonts): Typeface {
  const ems = { regular: new Map<string, number>(), semibold: new Map<string, number>() } as const;
  return {
    widthMm: (text, weight, sizePt) => {
      let em = ems[weight].get(text);
      if (em === undefined) {
        em = fonts[weight].widthOf(text) / fonts[weight].unitsPerEm;
        ems[weight].set(text, em);
      }
      return em * sizePt * mmPerPt;
    },
    has: fonts.regular.has,
  };
}
