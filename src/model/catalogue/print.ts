import { entry } from './entry.ts';

/**
 * The codes of `print/`, letter O: O01–O19 text and JSON (none can occur: every batch can be written down),
 * O20–O39 pages (PDF and SVG). A code is never reused or renumbered.
 */
export const printCodes = {
  O20: entry({
    severity: 'warning',
    title: 'character that the printing font lacks',
    say: (it: { text: string; characters: string; mark: string }) =>
      `"${it.text}" holds ${it.characters}, not in the font of the printed sheets; ${it.mark} stands there instead`,
    hint: () => 'give it a label in letters, or take the text form of the sheets',
  }),
  O21: entry({
    severity: 'error',
    title: 'paper too small for the sheets',
    say: (it: { room: string; needed: string }) =>
      `within its margins the paper leaves ${it.room}; the printed sheets and their scale bars need ${it.needed}`,
    hint: () => 'take larger paper (--paper), or narrower margins (--margin)',
  }),
  O23: entry({
    severity: 'error',
    title: 'paper larger than a PDF page can be',
    say: (it: { paper: string; most: string }) =>
      `the paper is ${it.paper}; most readers show no page longer than ${it.most}`,
    hint: () => 'take smaller paper: pictures are drawn to scale, and long lists go over several pages',
  }),
  O24: entry({
    severity: 'error',
    title: 'a master over more pages than can be joined',
    say: (it: { name: string; pages: string; most: string }) =>
      `"${it.name}" takes ${it.pages} pages of this paper; more than ${it.most} are not joined true`,
    hint: () => 'take larger paper, e.g. --paper a0',
  }),
} as const;
