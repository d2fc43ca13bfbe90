import type { Code } from '../../model/index.ts';
import type { ExplainPage } from '../explainPage.ts';
import { cliPages } from './cli.ts';
import { expandPages } from './expand.ts';
import { fitPages } from './fit.ts';
import { measurePages } from './measure.ts';
import { mendPages } from './mend.ts';
import { outlinePages } from './outline.ts';
import { packPages } from './pack.ts';
import { planPages } from './plan.ts';
import { printPages } from './print.ts';
import { specPages } from './spec.ts';
import { stockPages } from './stock.ts';

/** A page for every code there is. */
export const explainPages: Readonly<Record<Code, ExplainPage>> = {
  ...measurePages,
  ...outlinePages,
  ...specPages,
  ...expandPages,
  ...fitPages,
  ...mendPages,
  ...packPages,
  ...planPages,
  ...stockPages,
  ...printPages,
  ...cliPages,
};
