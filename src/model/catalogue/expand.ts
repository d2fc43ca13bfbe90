import { entry } from './entry.ts';

/** The codes of `expand/`. A code is never reused or renumbered. */
export const expandCodes = {
  E01: entry({ severity: 'error', title: 'to be written', say: (_: { found: string }) => 'to be written' }),
} as const;
