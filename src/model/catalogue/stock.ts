import { entry } from './entry.ts';

type None = Record<string, never>;

/**
 * The codes of `stock/`: K01 to K19 the drawer, K20 to K39 the job, K40 to K49 their files on the disk. A code is
 * never reused or renumbered.
 */
export const stockCodes = {
  K01: entry({
    severity: 'error',
    title: 'not in the drawer',
    say: ({ wanted, there }: { wanted: string; there: string; meant: string }) =>
      `${wanted} is to go out, but the drawer has ${there}`,
    hint: ({ meant }) => (meant === '' ? 'cardwright drawer FILE   lists what is there' : meant),
  }),
  K02: entry({
    severity: 'error',
    title: 'a label that is on something else',
    say: ({ label, what }: { label: string; what: string }) => `"${label}" is on ${what} in the drawer`,
    hint: () => 'a label of its own, or none',
  }),
  K03: entry({
    severity: 'error',
    title: 'a piece that is not told as pieces are',
    say: ({ found, why }: { found: string; why: string }) => `"${found}": ${why}`,
    hint: () => "--add 'greyboard: 8 x 5'   the material, a colon, length and width",
  }),
  K04: entry({
    severity: 'error',
    title: 'a drawer that can not be edited in place',
    say: ({ what }: { what: string }) =>
      `${what} can't be written into the drawer without touching something else in it`,
    hint: () =>
      'change the file by hand; one entry a line, without anchors and aliases, is what can be edited',
  }),
  K05: entry({
    severity: 'error',
    title: 'nothing to undo',
    say: (_: None) => 'the journal of this drawer holds no change that is not undone',
  }),
  K06: entry({
    severity: 'error',
    title: 'a drawer that was changed since',
    say: ({ what }: { what: string }) =>
      `"${what}" can't be undone: the drawer was changed by other hands since`,
    hint: () => 'put it right by hand, or take the other change back first',
  }),
  K07: entry({
    severity: 'error',
    title: 'a file that is no drawer',
    say: ({ path, kind }: { path: string; kind: string }) => `"${path}" is a ${kind}, not a drawer`,
    hint: () => 'a file that begins with  cardwright: drawer',
  }),
  K40: entry({
    severity: 'error',
    title: 'a file that another run holds',
    say: ({ path, by }: { path: string; by: string; lock: string }) => `"${path}" is being changed by ${by}`,
    hint: ({ lock }) => `wait until it is done; if no run is under way, delete "${lock}"`,
  }),
  K41: entry({
    severity: 'error',
    title: 'a file that changed meanwhile',
    say: ({ path }: { path: string }) =>
      `"${path}" was changed by another program while this run worked on it`,
    hint: () => 'nothing was written; run it again',
  }),
  K42: entry({
    severity: 'error',
    title: 'a journal that can not be read',
    say: ({ path, line, isNewer }: { path: string; line: number; isNewer: boolean }) =>
      isNewer
        ? `line ${line} of "${path}" is of a newer format than this version knows`
        : `line ${line} of "${path}" is no entry of a journal`,
    hint: ({ isNewer }) =>
      isNewer
        ? 'a newer version of cardwright'
        : 'move the journal away to begin a new one; older changes can not be undone then',
  }),
} as const;
