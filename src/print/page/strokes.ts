import type { StrokeRole } from './mark.ts';

/** How a line looks: its width, and the lengths of dashes and gaps in turn (none: continuous). */
export interface LineType {
  readonly widthMm: number;
  readonly dashesMm: readonly number[];
}

/**
 * One look for each meaning, told apart by width and pattern in black alone.
 *
 * Wide to narrow is 2 : 1 with widths from the series 0.25 0.35 0.5 0.7 1.0: continuous wide for outlines
 * and cuts, continuous narrow for dimensions, leaders and hatching.
 * Source: ISO 128 as told in Manual of Engineering Drawing (second-hand). Which dashes stand for what of
 * ours has no source.
 */
export const lineTypes: Readonly<Record<StrokeRole, LineType>> = {
  'part outline': { widthMm: 0.5, dashesMm: [] },
  cut: { widthMm: 0.5, dashesMm: [] },
  'sheet outline': { widthMm: 0.25, dashesMm: [] },
  'keep outline': { widthMm: 0.25, dashesMm: [3, 1] },
  'keep hatch': { widthMm: 0.13, dashesMm: [] },
  'scrap hatch': { widthMm: 0.13, dashesMm: [] },
  'trim hatch': { widthMm: 0.13, dashesMm: [] },
  grain: { widthMm: 0.35, dashesMm: [] },
  flutes: { widthMm: 0.35, dashesMm: [] },
  'datum edge': { widthMm: 1, dashesMm: [] },
  'rule tick': { widthMm: 0.18, dashesMm: [] },
  'running mark': { widthMm: 0.25, dashesMm: [] },
  'step ring': { widthMm: 0.25, dashesMm: [] },
  leader: { widthMm: 0.18, dashesMm: [] },
  'page rule': { widthMm: 0.5, dashesMm: [] },
  'table rule': { widthMm: 0.13, dashesMm: [] },
  'tick box': { widthMm: 0.35, dashesMm: [] },
  'scale bar': { widthMm: 0.25, dashesMm: [] },
};
