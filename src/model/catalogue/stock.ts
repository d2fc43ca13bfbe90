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
    say: ({ label, what }: { label: string; what: string; would: string | undefined }) =>
      `"${label}" is on ${what} in the drawer`,
    hint: ({ would }) => (would === undefined ? 'a label of its own, or none' : `${would}   says which`),
  }),
  K03: entry({
    severity: 'error',
    title: 'a piece that is not told as pieces are',
    say: ({ found, why }: { found: string; why: string; would: string | undefined }) => `"${found}": ${why}`,
    hint: ({ would }) =>
      would !== undefined
        ? `--add '${would}'`
        : "--add 'greyboard: 8 x 5'   the material, a colon, length and width; a fitting that is not counted yet with --fitting",
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
  K08: entry({
    severity: 'error',
    title: 'a size that several pieces have',
    say: ({ found }: { found: string; known: string }) => `the drawer has several kinds of "${found}"`,
    hint: ({ known }) => known,
  }),
  K09: entry({
    severity: 'warning',
    title: 'a material that looks misspelt',
    say: ({ material, meant }: { material: string; meant: string }) =>
      `the drawer lists nothing else of "${material}"${meant}`,
    hint: () => 'drawer FILE --undo   takes it back',
  }),
  K10: entry({
    severity: 'warning',
    title: 'a piece of which less is said than of others',
    say: ({ material, what }: { material: string; what: 'grain' | 'flutes' }) =>
      `how its ${what === 'grain' ? 'grain runs' : 'flutes run'} is said of all else of "${material}", but not of this`,
    hint: ({ what }) => `drawer FILE --undo, and then again with  --${what} length, width or unknown`,
  }),
  K20: entry({
    severity: 'error',
    title: 'a file that is no job',
    say: ({ path, why }: { path: string; why: string }) => `"${path}" is not a job: ${why}`,
    hint: () => 'cardwright cut FILE --job JOB   makes one',
  }),
  K21: entry({
    severity: 'error',
    title: 'a job of a newer version',
    say: ({ path, version, known }: { path: string; version: number; known: number }) =>
      `"${path}" is a job of format ${version}; this version reads format ${known}`,
    hint: () => 'a newer version of cardwright',
  }),
  K22: entry({
    severity: 'error',
    title: 'a job that was changed by hand',
    say: ({ path, what }: { path: string; what: string }) => `"${path}" is not as it was written: ${what}`,
    hint: () => 'take it from a copy, or make the job anew with  cut --job',
  }),
  K23: entry({
    severity: 'warning',
    title: 'files that changed since a job was made',
    say: ({ paths }: { paths: string }) =>
      `${paths} changed since the job was made; what is printed still holds`,
    hint: () => 'cut FILE --job JOB --resume   keeps what was cut, and plans the rest anew',
  }),
  K24: entry({
    severity: 'error',
    title: 'a sheet that the job does not have',
    say: ({ found, why }: { found: string; why: string; known: string }) => `"${found}": ${why}`,
    hint: ({ known }) => `all, or of these: ${known}`,
  }),
  K25: entry({
    severity: 'error',
    title: 'a sheet that is cut already',
    say: ({ found }: { found: string }) => `"${found}" is marked as cut already`,
    hint: () => 'cardwright job JOB   shows what is cut',
  }),
  K26: entry({
    severity: 'error',
    title: 'a label that the job does not have',
    say: ({ label, meant }: { label: string; meant: string }) =>
      `no part of the job is labelled "${label}"${meant}`,
  }),
  K27: entry({
    severity: 'error',
    title: 'nothing to cut a piece from again',
    say: ({ label, material }: { label: string; material: string }) =>
      `there is nothing left of "${material}" that "${label}" could be cut from`,
    hint: () => 'a sheet in the drawer, or under sheets: and the job planned anew',
  }),
  K28: entry({
    severity: 'error',
    title: 'nothing to put away',
    say: ({ isOver }: { isOver: boolean }) =>
      isOver ? 'all is cut and put away already' : 'nothing that is cut is still to be put away',
    hint: ({ isOver }) => (isOver ? undefined : 'job JOB --cut all   once it is cut'),
  }),
  K29: entry({
    severity: 'error',
    title: 'a job without a drawer',
    say: (_: None) => 'the session of this job names no drawer, so there is nowhere to put things away',
    hint: () => 'drawer: drawer.yaml   in the session, and the job planned anew',
  }),
  K30: entry({
    severity: 'error',
    title: 'nothing done that could be undone',
    say: (_: None) => 'nothing has been done of this job yet',
  }),
  K31: entry({
    severity: 'error',
    title: 'a change that can not be undone any more',
    say: ({ what, isKnown }: { what: string; isKnown: boolean }) =>
      isKnown
        ? `"${what}" can't be undone: the drawer was changed again since`
        : `${what} can't be undone: its journal does not hold it`,
    hint: ({ isKnown }) =>
      isKnown
        ? 'drawer FILE --undo   takes the later changes back first'
        : 'put the journal back beside the drawer, or put the drawer right by hand',
  }),
  K32: entry({
    severity: 'warning',
    title: 'an offcut that no drawer lists',
    say: ({ what, where }: { what: string; where: string }) =>
      `${what} was cut, but is listed in "${where}", which is never written`,
    hint: () => 'take it out of that file yourself, or keep it in the drawer',
  }),
  K34: entry({
    severity: 'error',
    title: 'a count of spoiled pieces that is none',
    say: ({ found }: { found: string }) => `"${found}" is not a number of pieces`,
    hint: () => 'a whole number from 1 to 9999',
  }),
  K35: entry({
    severity: 'error',
    title: 'what was cut is not in the drawer',
    say: ({ what }: { what: string }) => `${what} was cut, but the drawer does not list it any more`,
    hint: () => 'list it again as it was, or put the rest right by hand',
  }),
  K36: entry({
    severity: 'error',
    title: 'nothing at hand for a single one',
    say: ({ what, material }: { what: string; material: string }) =>
      `what is at hand of "${material}" is not enough for one "${what}"`,
    hint: () => 'a number in place of most, or more in the drawer',
  }),
  K37: entry({
    severity: 'error',
    title: 'a job of another evening',
    say: ({ makes, wanted }: { makes: string; wanted: string; evening: string | undefined }) =>
      `the job makes ${makes}, but ${wanted} ${wanted.startsWith('all') ? 'are' : 'is'} asked for`,
    hint: ({ evening }) =>
      `${evening === undefined ? 'no --evening' : `--evening ${JSON.stringify(evening)}`}, or a job of its own`,
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
