/** What would mend a build: the one size to change, shims, another layer. */
export { asMarked } from './marks.ts';
export { fixOf, type Run } from './mend.ts';
export { withMends } from './saying.ts';
export { type Limit, type Sensitivity, sensitivities } from './sensitivity.ts';
export { type OtherLayer, type Shims, shimsFor } from './shims.ts';
export { type ConvertedKit, convertKit, type Reread } from './units/convertKit.ts';
export { ownUnitOf } from './units/sorts.ts';
export type { BoardWish, ConversionWishes, Texts } from './units/wishes.ts';
