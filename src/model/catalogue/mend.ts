import { entry } from './entry.ts';

/** The codes of `mend/`. A code is never reused or renumbered. */
export const mendCodes = {
  N01: entry({
    severity: 'note',
    title: 'nothing that could be mended in place',
    say: (_: Record<string, never>) =>
      'no fault here has exactly one size that would mend it; nothing is written',
  }),
  N02: entry({
    severity: 'error',
    title: 'a fix for what is no file',
    say: ({ path }: { path: string }) => `"${path}" is no file that could be written in place`,
    hint: () => 'save it as a file first, and name that',
  }),
} as const;
