import type { cliCodes } from '../../model/catalogue/cli.ts';
import { type ExplainPage, kit } from '../explainPage.ts';

/** A page for each code of `cli/`; the type holds it complete. */
export const cliPages: Readonly<Record<keyof typeof cliCodes, ExplainPage>> = {
  C01: { why: 'To be written.', failing: kit(''), mended: kit('') },
};
