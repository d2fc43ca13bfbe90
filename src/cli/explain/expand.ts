import type { expandCodes } from '../../model/catalogue/expand.ts';
import { type ExplainPage, kit } from '../explainPage.ts';

/** A page for each code of `expand/`; the type holds it complete. */
export const expandPages: Readonly<Record<keyof typeof expandCodes, ExplainPage>> = {
  E01: { why: 'To be written.', failing: kit(''), mended: kit('') },
};
