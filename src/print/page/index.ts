/** Pages composed in millimetres, of marks with meaning; renderers draw them. */

export { digestOf, digestOfTexts } from './digest.ts';
export { type LayoutDrawing, layoutsOf } from './layouts.ts';
export type {
  Area,
  Mark,
  Page,
  Patch,
  Path,
  Point,
  Stroke,
  StrokeRole,
  Weight,
  Words,
  WordsRole,
} from './mark.ts';
export { sheetsOf } from './pages.ts';
export { type LineType, lineTypes } from './strokes.ts';
export { areaOf, leastFractionPt, leastPt, mmPerPt, type Typeface } from './type.ts';
