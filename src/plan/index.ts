import type { MaterialLayouts, MaterialPlan, Settings } from '../model/index.ts';
export function plan(_layouts: readonly MaterialLayouts[], _settings: Settings): readonly MaterialPlan[] {
  throw new Error('to be written');
}
