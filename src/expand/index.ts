/** Works a spec out: what has to be cut, from which sheets, by which rules. */
export { drawerIn } from './drawer.ts';
export { expand } from './expand.ts';
export { type CutPart, cutToMarks, kindsOf, partsOf } from './kinds.ts';
export { paperNamed, paperSize, paperSizeCalled } from './paper.ts';
export { bareAsMillimetres } from './quantity.ts';
export { effortSteps } from './settings.ts';
export { slicesOf } from './slices.ts';
