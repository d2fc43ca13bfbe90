import type { measureCodes } from '../../model/catalogue/measure.ts';
import { type ExplainPage, kit } from '../explainPage.ts';

/** A page for each code of `measure/`; the type holds it complete. */
export const measurePages: Readonly<Record<keyof typeof measureCodes, ExplainPage>> = {
  M01: { why: 'To be written.', failing: kit(''), mended: kit('') },
};
