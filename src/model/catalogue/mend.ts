import { entry } from './entry.ts';

/** The codes of `mend/`. A code is never reused or renumbered. */
export const mendCodes = {
  N01: entry({
    severity: 'note',
    title: 'nothing that could be mended in place',
    say: (_: Record<string, never>) =>
      'nothing is wrong here that exactly one size would mend; nothing is written',
  }),
  N02: entry({
    severity: 'note',
    title: 'a fix in a file that is only used',
    say: (it: { path: string; command: string }) =>
      `the size to be mended stands in "${it.path}", which was not named, so it is not written`,
    hint: (it) => `${it.command}   writes it, for all that use it`,
  }),
} as const;
