/** Pages composed in millimetres, of marks with meaning; renderers draw them. */

export { digestOf, digestOfTexts } from './digest.ts';
export { crossOfHole, drawnMarksOf } from './drawnMarks.ts';
export { type Flow, startFlow } from './flow.ts';
export { footMmOf, footOf, headMm, headOf, type Surround } from './furniture.ts';
export { type LayoutDrawing, layoutsOf } from './layouts.ts';
export {
  type Area,
  closed,
  line,
  lines,
  type Mark,
  moved,
  type OpenPage,
  type Page,
  type Pages,
  type Patch,
  type Path,
  type Pausing,
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
