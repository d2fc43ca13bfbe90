/** Pages composed in millimetres, of marks with meaning; renderers draw them. */

export { digestOf, digestOfTexts } from './digest.ts';
export { cross, drawnMark } from './drawnMarks.ts';
export { footMmOf, headMm, surround } from './furniture.ts';
export { type LayoutDrawing, layoutsOf } from './layouts.ts';
export {
  type Area,
  line,
  lines,
  type Mark,
  moved,
  type Page,
  type Patch,
  type Path,
  type Point,
  rectangle,
  type Stroke,
  type StrokeRole,
  type Weight,
  type Words,
  type WordsRole,
} from './mark.ts';
export { type SheetWishes, sheetsOf } from './pages.ts';
export { paperFault } from './paper.ts';
export { grainMark } from './patterns.ts';
export { scaleBars } from './scaleBars.ts';
export { type Sizes, sizesOf, withFractions } from './sizes.ts';
export { type LineType, lineTypes } from './strokes.ts';
export { crossName, registerMark, type Stretch, stretchesOf } from './tiling.ts';
export {
  areaOf,
  heightOf,
  leadingOf,
  leastFractionPt,
  leastPt,
  mmPerPt,
  shortened,
  type Typeface,
  widthOf,
  words,
  wordsAround,
  wordsEndingAt,
  wrapped,
} from './type.ts';
