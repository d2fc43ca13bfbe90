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
  N06: entry({
    severity: 'error',
    title: 'no rounding with which all tiles stand as before',
    say: (it: { step: string; tiles: string; instead: string | undefined }) =>
      `no choice of sizes in steps of ${it.step} lets every tile stand as before: each was ruled out (rounded one by one: ${it.tiles})`,
    hint: (it) => it.instead ?? 'no finer step in common use does either; without --round all is exact',
  }),
  N07: entry({
    severity: 'error',
    title: 'no rounding found with which all tiles stand as before',
    say: (it: { step: string; tiles: string; together: number; most: number; instead: string | undefined }) =>
      `no choice of sizes in steps of ${it.step} was found that lets every tile stand as before; ${it.together} sizes lean on each other, and ${it.most} at most are decided for sure (rounded one by one: ${it.tiles})`,
    hint: (it) => it.instead ?? 'without --round all is exact',
  }),
  N08: entry({
    severity: 'error',
    title: 'a tile that would not stand as before',
    say: (it: { tiles: string; why: string }) => `${it.tiles} would not stand as before: ${it.why}`,
    hint: () => '--partial   writes it all the same, to be mended by hand',
  }),
  N09: entry({
    severity: 'error',
    title: 'no such material to be replaced',
    say: (it: { name: string; meant: string }) => `no material is called "${it.name}"${it.meant}`,
  }),
  N10: entry({
    severity: 'error',
    title: 'a material that is defined in a file that is only used',
    say: (it: { name: string; path: string }) =>
      `"${it.name}" is defined in "${it.path}", which was not named, so it is not written`,
    hint: (it) => `name ${it.path} as well, with -o FOLDER/ for both`,
  }),
  N11: entry({
    severity: 'error',
    title: 'a board that has been measured',
    say: (it: { name: string }) => `"${it.name}" has been measured, and what was measured stays as it is`,
    hint: () => 'take the reading out of the file if it is of the old board',
  }),
  N12: entry({
    severity: 'note',
    title: 'what a file left unsaid is written out',
    say: (it: { path: string; text: string }) =>
      `"${it.path}" now says   ${it.text}   since unsaid it would be another, and a tile would stand otherwise`,
  }),
} as const;
