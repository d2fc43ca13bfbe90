import type { specCodes } from '../../model/catalogue/spec.ts';
import { type ExplainPage, kit } from '../explainPage.ts';

/** A page for each code of `spec/`; the type holds it complete. */
export const specPages: Readonly<Record<keyof typeof specCodes, ExplainPage>> = {
  S01: { why: 'To be written.', failing: kit(''), mended: kit('') },
};
