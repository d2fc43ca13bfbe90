import type { printCodes } from '../../model/catalogue/print.ts';
import type { ExplainPage } from '../explainPage.ts';

/** A page for each code of `print/`; the type holds it complete. */
export const printPages: Readonly<Record<keyof typeof printCodes, ExplainPage>> = {};
