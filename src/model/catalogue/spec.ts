import { entry } from './entry.ts';

/** The codes of `spec/`. A code is never reused or renumbered. */
export const specCodes = {
  S01: entry({ severity: 'error', title: 'to be written', say: (_: { found: string }) => 'to be written' }),
} as const;
