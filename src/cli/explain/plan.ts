import type { planCodes } from '../../model/catalogue/plan.ts';
import type { ExplainPage } from '../explainPage.ts';

/** A page for each code of `plan/`; the type holds it complete. */
export const planPages: Readonly<Record<keyof typeof planCodes, ExplainPage>> = {};
