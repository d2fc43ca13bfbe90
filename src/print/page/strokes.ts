import type { StrokeRole } from './mark.ts';

/** How a line looks: its width, and the lengths of dashes and gaps in turn (none: continuous; else an even count). */
export interface LineType {
  readonly widthMm: number;
  readonly dashesMm: readonly number[];
}

/**
 * One look for each meaning, told apart by width and pattern in black alone.
 *
 * Widths are of the series 0.13, 0.18, 0.25, 0.35, 0.5, 0.7, 1 mm, wide to narrow 2 : 1: continuous wide for
 * outlines and cuts (01.2), continuous narrow for dimensions, leaders and hatching (01.1), long-dashed dotted
 * narrow for centre lines and axes of bends (04.1), dashed narrow for hidden edges (02.1), long-dashed double-dotted narrow for folds (05.1: outlines before bending).
 * Hatching is finer still, so that names on it stand out. The cuts that part the whole sheet are wider: they
 * come first.
 * Source: ISO 128 as told in Manual of Engineering Drawing and in Textbook of Engineering Drawing
 * (second-hand). Lines of kept offcuts, pencil marks, joints of pages and cuts that are made are ours, without a source.
 */
export const lineTypes: Readonly<Record<StrokeRole, LineType>> = {
  'part outline': { widthMm: 0.25, dashesMm: [] },
  'first cut': { widthMm: 0.7, dashesMm: [] },
  cut: { widthMm: 0.35, dashesMm: [] },
  'cut made': { widthMm: 0.18, dashesMm: [] },
  // Short, since a fold of a tab may be a few millimetres on the page, and must not look like a cut.
  fold: { widthMm: 0.18, dashesMm: [2.6, 0.6, 0.4, 0.6, 0.4, 0.6] },
  'valley fold': { widthMm: 0.18, dashesMm: [1.2, 0.7] },
  'bend axis': { widthMm: 0.18, dashesMm: [3.4, 0.7, 0.4, 0.7] },
  bevel: { widthMm: 0.13, dashesMm: [] },
  'bevel edge': { widthMm: 0.18, dashesMm: [] },
  'hidden edge': { widthMm: 0.18, dashesMm: [2.2, 0.6] },
  rebate: { widthMm: 0.13, dashesMm: [] },
  'centre line': { widthMm: 0.18, dashesMm: [6, 0.9, 0.5, 0.9] },
  'pencil mark': { widthMm: 0.35, dashesMm: [0.35, 1] },
  'good side': { widthMm: 0.25, dashesMm: [] },
  dimension: { widthMm: 0.18, dashesMm: [] },
  'sheet outline': { widthMm: 0.18, dashesMm: [] },
  'keep outline': { widthMm: 0.18, dashesMm: [3, 1] },
  'keep hatch': { widthMm: 0.13, dashesMm: [] },
  'scrap hatch': { widthMm: 0.13, dashesMm: [] },
  'trim hatch': { widthMm: 0.13, dashesMm: [] },
  grain: { widthMm: 0.35, dashesMm: [] },
  flutes: { widthMm: 0.35, dashesMm: [] },
  'datum edge': { widthMm: 1, dashesMm: [] },
  'rule tick': { widthMm: 0.18, dashesMm: [] },
  'running mark': { widthMm: 0.18, dashesMm: [] },
  'step ring': { widthMm: 0.25, dashesMm: [] },
  leader: { widthMm: 0.18, dashesMm: [] },
  'page rule': { widthMm: 0.35, dashesMm: [] },
  'table rule': { widthMm: 0.13, dashesMm: [] },
  'tick box': { widthMm: 0.25, dashesMm: [] },
  'scale bar': { widthMm: 0.25, dashesMm: [] },
  'register mark': { widthMm: 0.13, dashesMm: [] },
  joint: { widthMm: 0.13, dashesMm: [1, 1.5] },
};
