import { cliCodes } from './cli.ts';
import { expandCodes } from './expand.ts';
import { fitCodes } from './fit.ts';
import { measureCodes } from './measure.ts';
import { mendCodes } from './mend.ts';
import { outlineCodes } from './outline.ts';
import { packCodes } from './pack.ts';
import { planCodes } from './plan.ts';
import { printCodes } from './print.ts';
import { specCodes } from './spec.ts';
import { stockCodes } from './stock.ts';

export type { Entry, Severity } from './entry.ts';

/** Every code there is. Rooms by letter, in the order of the pipeline; types hold it shut. */
export const catalogue = {
  ...measureCodes,
  ...outlineCodes,
  ...specCodes,
  ...expandCodes,
  ...fitCodes,
  ...mendCodes,
  ...packCodes,
  ...planCodes,
  ...stockCodes,
  ...printCodes,
  ...cliCodes,
} as const;

export type Catalogue = typeof catalogue;
export type Code = keyof Catalogue;
