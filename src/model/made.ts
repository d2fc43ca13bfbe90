import type { Batch } from './batch.ts';
import type { MaterialLayouts } from './layout.ts';
import type { MaterialPlan } from './plan.ts';
import type { Spec } from './spec.ts';

/** Everything one run made, by phase. */
export interface Made {
  readonly spec: Spec;
  readonly batch: Batch;
  readonly layouts: readonly MaterialLayouts[];
  readonly plans: readonly MaterialPlan[];
}
