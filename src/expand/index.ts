import type { Batch, Outcome, Overrides, Spec } from '../model/index.ts';
export function expand(_spec: Spec, _overrides: Overrides): Outcome<Batch> {
  throw new Error('to be written');
}
