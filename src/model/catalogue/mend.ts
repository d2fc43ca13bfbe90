import { entry } from './entry.ts';

/** The codes of `mend/`. A code is never reused or renumbered. */
export const mendCodes = {
  N01: entry({
    severity: 'note',
    title: 'nothing that could be mended in place',
    say: (_: Record<string, never>) =>
      'no fault here has exactly one size that would mend it; nothing is written',
  }),
} as const;
