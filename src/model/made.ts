import type { Batch } from './batch.ts';
import type { MaterialLayouts } from './layout.ts';
import type { MaterialPlan } from './plan.ts';
import type { Savings } from './saving.ts';
import type { Spec } from './spec.ts';
import type { TileFit } from './verdict.ts';

/** Everything one run made, by phase. */
export interface Made {
  readonly spec: Spec;
  readonly batch: Batch;
  /** All that is asked for, where `batch` is what a job has left of it. */
  readonly asked?: Batch;
  /** How each tile stands that has a build, in the order of the batch. */
  readonly fits: readonly TileFit[];
  readonly layouts: readonly MaterialLayouts[];
  readonly plans: readonly MaterialPlan[];
  /** In the order of the layouts; absent where nobody asked why. */
  readonly savings?: readonly Savings[];
}
