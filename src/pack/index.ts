import type { MaterialDemand, MaterialLayouts, Outcome, SearchProgress } from '../model/index.ts';
export function* pack(
  _demand: MaterialDemand,
  _steps: number,
): Generator<SearchProgress, Outcome<MaterialLayouts>> {
  throw new Error('to be written');
}
