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
  N03: entry({
    severity: 'note',
    title: 'measures that keep their own unit',
    say: (it: { count: number; path: string; lines: string }) =>
      `${it.count === 1 ? 'one measure' : `${it.count} measures`} in "${it.path}" ${it.count === 1 ? 'names a unit of its own and keeps it' : 'name units of their own and keep them'}: ${it.lines}`,
  }),
  N04: entry({
    severity: 'note',
    title: 'remarks with figures',
    say: (it: { count: number; path: string; lines: string }) =>
      `${it.count === 1 ? 'a remark' : `${it.count} remarks`} in "${it.path}" may still speak of the old measures: ${it.lines}`,
  }),
  N05: entry({
    severity: 'error',
    title: 'a measure with more digits than are read',
    say: (it: { found: string; text: string }) =>
      `"${it.found}" is exactly ${it.text}, which is longer than any measure that is read`,
    hint: () => 'a shorter measure, or a step to round to, as in --round 0.1mm',
  }),
} as const;
