import { runToEnd } from '../../src/pipeline.ts';
import { plan as planning } from '../../src/plan/index.ts';

/** Plans without looking up. */
export function plan(...asked: Parameters<typeof planning>) {
  return runToEnd(planning(...asked));
}
