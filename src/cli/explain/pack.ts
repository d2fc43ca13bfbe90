import type { packCodes } from '../../model/catalogue/pack.ts';
import { type ExplainPage, kit } from '../explainPage.ts';

/** A page for each code of `pack/`; the type holds it complete. */
export const packPages: Readonly<Record<keyof typeof packCodes, ExplainPage>> = {
  P01: { why: 'To be written.', failing: kit(''), mended: kit('') },
};
