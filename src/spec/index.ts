/** The language: from the bytes of YAML files to a `Spec` whose sums are not worked out yet. */
export { type Loaded, type Loader, readSpec } from './readSpec.ts';
