/** What would mend a build: the one size to change, shims, another layer. */
export type { ChangedTrait, NewFault, PartChange } from './changes.ts';
export { asMarked } from './marks.ts';
export type { Run } from './mend.ts';
export { withMends } from './saying.ts';
export { type Limit, type Sensitivity, sensitivities, type Trial } from './sensitivity.ts';
export { type OtherLayer, type Shims, shimsFor } from './shims.ts';
