import type { StrokeRole } from './mark.ts';

/** How a line looks: its width, and the lengths of dashes and gaps in turn (none: continuous). */
export interface LineType {
  readonly widthMm: number;
  readonly dashesMm: readonly number[];
}

/**
 * One look for each meaning, told apart by width and pattern in black alone.
 *
 * Wide to narrow is 2 : 1 (0.35 and 0.18 mm): continuous wide for outlines and cuts, continuous narrow for
 * dimensions, leaders and hatching. Hatching is finer still, so that names on it stand out.
 * Source: ISO 128 as told in Manual of Engineering Drawing (second-hand). Which dashes stand for what of
 * ours has no source.
 */
export const lineTypes: Readonly<Record<StrokeRole, LineType>> = {
  'part outline': { widthMm: 0.35, dashesMm: [] },
  cut: { widthMm: 0.35, dashesMm: [] },
  'sheet outline': { widthMm: 0.18, dashesMm: [] },
  'keep outline': { widthMm: 0.18, dashesMm: [3, 1] },
  'keep hatch': { widthMm: 0.13, dashesMm: [] },
  'scrap hatch': { widthMm: 0.13, dashesMm: [] },
  'trim hatch': { widthMm: 0.13, dashesMm: [] },
  grain: { widthMm: 0.35, dashesMm: [] },
  flutes: { widthMm: 0.35, dashesMm: [] },
  'datum edge': { widthMm: 0.7, dashesMm: [] },
  'rule tick': { widthMm: 0.18, dashesMm: [] },
  'running mark': { widthMm: 0.18, dashesMm: [] },
  'step ring': { widthMm: 0.25, dashesMm: [] },
  leader: { widthMm: 0.18, dashesMm: [] },
  'page rule': { widthMm: 0.35, dashesMm: [] },
  'table rule': { widthMm: 0.13, dashesMm: [] },
  'tick box': { widthMm: 0.25, dashesMm: [] },
  'scale bar': { widthMm: 0.25, dashesMm: [] },
};
