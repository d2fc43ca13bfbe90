import { entry } from './entry.ts';

/** The codes of `cli/`. A code is never reused or renumbered. */
export const cliCodes = {
  C01: entry({
    severity: 'fatal',
    title: 'no such command',
    say: (it: { command: string; meant: string }) => `there is no command "${it.command}"${it.meant}`,
    hint: () => 'cardwright help   lists the commands',
  }),
  C02: entry({
    severity: 'fatal',
    title: 'no such option',
    say: (it: { option: string; meant: string; help: string }) =>
      `there is no option "${it.option}"${it.meant}`,
    hint: (it) => `${it.help}   lists the options; a file of that name goes behind --`,
  }),
  C03: entry({
    severity: 'fatal',
    title: 'an option without its value',
    say: (it: { option: string; value: string }) => `"${it.option}" wants a value behind it`,
    hint: (it) => `${it.option} ${it.value}`,
  }),
  C04: entry({
    severity: 'fatal',
    title: 'a value that the option does not take',
    say: (it: { option: string; value: string; choices: string; meant: string }) =>
      `"${it.option}" takes ${it.choices}, found "${it.value}"${it.meant}`,
  }),
  C05: entry({
    severity: 'fatal',
    title: 'nothing to work on',
    say: (it: { command: string; what: string; help: string }) =>
      `"${it.command}" wants at least one ${it.what}, found none`,
    hint: (it) => `${it.help}   shows examples`,
  }),
  C06: entry({
    severity: 'fatal',
    title: 'an option of another command',
    say: (it: { command: string; option: string; others: string }) =>
      `"${it.command}" has no use for "${it.option}"; it belongs to ${it.others}`,
  }),
  C07: entry({
    severity: 'fatal',
    title: 'a command that is not built yet',
    say: (it: { command: string }) => `"${it.command}" is not built yet`,
    hint: () => 'cardwright help   lists the commands that are',
  }),
  C09: entry({
    severity: 'fatal',
    title: 'more than the command takes',
    say: (it: { command: string; extra: string; most: string; what: string }) =>
      `"${it.command}" takes ${it.most} ${it.what} at most, found "${it.extra}" as well`,
  }),
  C10: entry({
    severity: 'fatal',
    title: 'standard input named twice',
    say: (_: Record<string, never>) => 'standard input can be read only once, found "-" twice',
  }),
  C11: entry({
    severity: 'fatal',
    title: 'a count of tiles that is not understood',
    say: (it: { found: string; why: string }) => `"--make" wants TILE=COUNT, found "${it.found}"; ${it.why}`,
    hint: (it) => {
      const [tile = ''] = it.found.split('=');
      return tile.trim() === ''
        ? 'cardwright count FILE   lists the tiles'
        : `--make '${tile.trim()}=1'   makes one of it`;
    },
  }),
  C26: entry({
    severity: 'fatal',
    title: 'a thickness to be tried that is not understood',
    say: (it: { found: string; why: string }) =>
      `"--with" wants MATERIAL=THICKNESS, found "${it.found}"; ${it.why}`,
    hint: () => `--with 'greyboard=1.45 mm'`,
  }),
  C27: entry({
    severity: 'fatal',
    title: 'a fix for what is no file',
    say: (_: Record<string, never>) => 'standard input is no file, so nothing can be mended in place',
    hint: () => 'save it as a file first, and name that',
  }),
  C28: entry({
    severity: 'fatal',
    title: 'what does not go with --watch',
    say: (it: { other: string; why: string }) => `"--watch" does not go with "${it.other}": ${it.why}`,
    hint: (it) => `leave "${it.other}" or "--watch" out`,
  }),
  C39: entry({
    severity: 'fatal',
    title: 'an option that does not go so',
    say: (it: { option: string; other: string | undefined; why: string }) =>
      it.other === undefined
        ? `"${it.option}" has nothing to tell of: ${it.why}`
        : `"${it.option}" does not go so with "${it.other}": ${it.why}`,
    hint: () => undefined,
  }),
  C29: entry({
    severity: 'fatal',
    title: 'nothing to cut',
    say: (it: { path: string; why: string }) => `"${it.path}" asks for nothing to be cut: ${it.why}`,
    hint: () => 'name a kit or a session; a shelf only says what there is to cut from',
  }),
  C12: entry({
    severity: 'fatal',
    title: 'a rule that is not understood',
    say: (it: { found: string; why: string }) =>
      `"--ruler" wants a step that divides 1 in or 1 mm, found "${it.found}"; ${it.why}`,
    hint: () => '--ruler 1/16, --ruler 0.5mm',
  }),
  C13: entry({
    severity: 'fatal',
    title: 'an effort that is not understood',
    say: (it: { found: string; meant: string }) =>
      `"--effort" takes quick, normal, thorough or a whole number of steps, found "${it.found}"${it.meant}`,
  }),
  C14: entry({
    severity: 'fatal',
    title: 'an ending that names no form of output',
    say: (it: { path: string; forms: string }) =>
      `the ending of "${it.path}" names no form that can be written`,
    hint: (it) => `${it.forms}, or say it with --format`,
  }),
  C15: entry({
    severity: 'fatal',
    title: 'a form that the command does not make',
    say: (it: { command: string; form: string; forms: string }) =>
      `"${it.command}" makes no ${it.form}; it makes ${it.forms}`,
  }),
  C16: entry({
    severity: 'fatal',
    title: 'one output named twice',
    say: (it: { path: string }) => `"${it.path}" is named twice, and would be written over at once`,
  }),
  C17: entry({
    severity: 'fatal',
    title: 'a PDF on the screen',
    say: (_: Record<string, never>) => 'a PDF on a terminal is noise',
    hint: () => '-o sheets.pdf',
  }),
  C18: entry({
    severity: 'fatal',
    title: 'no such code',
    say: (it: { code: string; meant: string }) => `there is no code "${it.code}"${it.meant}`,
    hint: () => 'cardwright explain   lists them',
  }),
  C19: entry({
    severity: 'fatal',
    title: 'no such schema',
    say: (it: { name: string; names: string; meant: string }) => `there is no schema "${it.name}"${it.meant}`,
    hint: (it) => `one of ${it.names}`,
  }),
  C20: entry({
    severity: 'fatal',
    title: 'no such shell',
    say: (it: { shell: string; meant: string }) =>
      `there are completions for bash, zsh and fish, found "${it.shell}"${it.meant}`,
  }),
  C22: entry({
    severity: 'fatal',
    title: 'a choice of pages that is not understood',
    say: (it: { found: string; why: string }) => `"${it.found}" chooses no pages: ${it.why}`,
    hint: () => '--pages 2-4,7   single pages and runs, 5- for all from page 5',
  }),
  C23: entry({
    severity: 'fatal',
    title: 'a choice of pages without pages',
    say: (it: { forms: string }) => `--pages chooses from pages, and ${it.forms} has none`,
    hint: () => '-o sheets.pdf, or -o sheets/ for SVG',
  }),
  C24: entry({
    severity: 'fatal',
    title: 'a page that the print does not have',
    say: (it: { page: string; count: string }) =>
      `there is no page ${it.page}; the print has ${it.count === '1' ? 'one page' : `pages 1 to ${it.count}`}`,
  }),
  C25: entry({
    severity: 'fatal',
    title: 'several pages for one SVG file',
    say: (it: { count: string }) => `an SVG file holds one page, and these are ${it.count}`,
    hint: () => '-o sheets/   for a folder of them, or one page with --pages',
  }),
  C30: entry({
    severity: 'fatal',
    title: 'no such master',
    say: (it: { name: string; names: string; meant: string }) => `there is no master "${it.name}"${it.meant}`,
    hint: (it) => `one of ${it.names}`,
  }),
  C31: entry({
    severity: 'fatal',
    title: 'no masters at all',
    say: (it: { path: string }) => `"${it.path}" names no masters`,
    hint: () => 'masters: { NAME: OUTLINE }   and on a part   outline: { master: NAME }',
  }),
  C32: entry({
    severity: 'fatal',
    title: 'a bar that is not understood',
    say: (it: { found: string; why: string }) =>
      `"--bar" wants AXIS=MEASURE, what the bar of 100 mm measures on paper; found "${it.found}": ${it.why}`,
    hint: () => '--bar across=99.2mm --bar up=99.4mm',
  }),
  C33: entry({
    severity: 'fatal',
    title: 'a pitch that is not understood',
    say: (it: { found: string; why: string }) =>
      `"--pitch" wants a measure, how far apart offsets stand; found "${it.found}": ${it.why}`,
    hint: () => '--pitch 1/4in, --pitch 5mm',
  }),
  C34: entry({
    severity: 'fatal',
    title: 'story sticks without pages',
    say: (it: { forms: string }) => `--story-stick prints strips of paper, and ${it.forms} has no pages`,
    hint: () => '-o sheets.pdf, or -o sheets/ for SVG',
  }),
  C35: entry({
    severity: 'fatal',
    title: 'a wish for a conversion that is not understood',
    say: (it: { option: string; found: string; wanted: string; why: string }) =>
      `"${it.option}" wants ${it.wanted}; found "${it.found}": ${it.why}`,
  }),
  C36: entry({
    severity: 'fatal',
    title: 'what does not go together in a conversion',
    say: (it: { one: string; other: string; why: string }) =>
      `"${it.one}" does not go with ${it.other}: ${it.why}`,
  }),
  C37: entry({
    severity: 'fatal',
    title: 'several files for one output',
    say: (it: { count: number }) => `${it.count} files are converted, and they can't all go to one place`,
    hint: () => '-o mm/   a folder that is there; each goes into it under its own name',
  }),
  C38: entry({
    severity: 'fatal',
    title: 'a margin that is not understood',
    say: (it: { found: string; why: string }) =>
      `"--margin" wants a measure, how much of the paper stays free on each side; found "${it.found}": ${it.why}`,
    hint: () => '--margin 8mm, --margin 1/4in',
  }),
  C40: entry({
    severity: 'fatal',
    title: 'a file that cannot be read',
    say: (it: { path: string; reason: string }) => `"${it.path}" can't be read: ${it.reason}`,
  }),
  C41: entry({
    severity: 'fatal',
    title: 'a file that is in the way',
    say: (it: { path: string }) => `"${it.path}" exists, and is not written over unasked`,
    hint: () => '--force   writes over it',
  }),
  C42: entry({
    severity: 'fatal',
    title: 'a file that cannot be written',
    say: (it: { path: string; reason: string }) => `"${it.path}" can't be written: ${it.reason}`,
    hint: () => 'what stood there before stands there still',
  }),
  C43: entry({
    severity: 'fatal',
    title: 'an output that is also an input',
    say: (it: { path: string }) => `"${it.path}" is read in this run, and would be lost`,
    hint: () => 'another name behind -o',
  }),
  C44: entry({
    severity: 'fatal',
    title: 'standard output that takes no more',
    say: (it: { reason: string }) => `what goes to standard output can't be written: ${it.reason}`,
    hint: () => 'what came through is not whole; write it elsewhere, or with -o PATH',
  }),
  C45: entry({
    severity: 'fatal',
    title: 'a folder that holds other things',
    say: (it: { path: string; other: string }) =>
      `the folder "${it.path}" holds "${it.other}", which is not of an earlier print`,
    hint: () => 'a folder that is empty, or one that is not there yet',
  }),
  C70: entry({
    severity: 'fatal',
    title: 'a fault of our own',
    say: (it: { what: string }) => `this is a bug in cardwright, not in your files: ${it.what}`,
    hint: () => 'report it with the command line, the files and the lines below; nothing was written',
  }),
  C71: entry({
    severity: 'fatal',
    title: 'stopped by Ctrl-C',
    say: (it: { where: string; left: string }) => `interrupted ${it.where}; ${it.left}`,
  }),
  C72: entry({
    severity: 'fatal',
    title: 'asked to end',
    say: (it: { where: string; left: string }) => `ended on request ${it.where}; ${it.left}`,
  }),
} as const;
