/** The language: from the bytes of YAML files to a `Spec` whose sums are not worked out yet. */
export { namesIn } from './kinds.ts';
export { amountsIn, type Literal, type Literals, literalsOf } from './literals.ts';
export { type Loaded, type Loader, readSpec } from './readSpec.ts';
export { spliced } from './splice.ts';
