import { entry } from './entry.ts';

/** The codes of `pack/`. A code is never reused or renumbered. */
export const packCodes = {
  P01: entry({ severity: 'error', title: 'to be written', say: (_: { found: string }) => 'to be written' }),
} as const;
