import type { stockCodes } from '../../model/catalogue/stock.ts';
import type { Example, ExplainPage } from '../explainPage.ts';

const drawer = `cardwright: drawer
units: in
offcuts:
  greyboard:
    - { size: [8, 5], label: G1 }
    - { size: [7, 4], label: G2, count: 2 }
`;

/** A run on that drawer. */
function onDrawer(...options: readonly string[]): Example {
  return { files: { 'drawer.yaml': drawer }, run: ['drawer', 'drawer.yaml', ...options] };
}

const aliased = drawer.replace(
  '- { size: [8, 5], label: G1 }',
  '- &one { size: [8, 5], label: G1 }\n    - *one',
);

const journalOfOther = `${JSON.stringify({
  schema: 'cardwright/journal',
  version: 1,
  number: 1,
  what: 'took out 1 x greyboard 7 x 4 in (G2)',
  before: 'as it was',
  after: 'as it became',
  at: 0,
  removed: 'x',
  inserted: 'y',
  job: null,
  undoes: null,
})}\n`;

/** A page for each code of `stock/`; the type holds it complete. */
export const stockPages: Readonly<Record<keyof typeof stockCodes, ExplainPage>> = {
  K01: {
    why: 'What is to go out of the drawer is not listed there, or there are fewer of it. Nothing was changed.',
    failing: onDrawer('--take', 'G2', '--count', '3'),
    mended: onDrawer('--take', 'G2', '--count', '2'),
  },
  K02: {
    why: 'A label tells one kind of piece from all others, so that it can be asked for by its label. Pieces that are equal may share one.',
    failing: onDrawer('--add', 'greyboard: 6 x 6', '--label', 'G1'),
    mended: onDrawer('--add', 'greyboard: 6 x 6', '--label', 'G3'),
  },
  K03: {
    why: 'A piece is told by its material, a colon, and its two sizes with an x between them: greyboard: 8 x 5. Sizes without a unit are in the unit of the drawer.',
    failing: onDrawer('--add', 'greyboard 8 x 5'),
    mended: onDrawer('--add', 'greyboard: 8 x 5'),
  },
  K04: {
    why: 'Only the entry that changes is written anew, and all else in the file stays as it is, remarks too. What comes out is read again before it is written; where it would not say exactly what it should, nothing is changed. Anchors and aliases of YAML are such a case: two entries are then one text.',
    failing: { files: { 'drawer.yaml': aliased }, run: ['drawer', 'drawer.yaml', '--take', 'G1'] },
    mended: onDrawer('--take', 'G1'),
  },
  K05: {
    why: 'Each change of a drawer stands in the journal beside it and can be undone, the last one first. Here there is none, or all are undone already.',
    failing: onDrawer('--undo'),
    mended: onDrawer(),
  },
  K06: {
    why: 'A change is undone by putting back exactly what the file said before. Where the file has been edited since, that would undo the edit too, so it is left to you.',
    failing: {
      files: { 'drawer.yaml': drawer, 'drawer.yaml.journal': journalOfOther },
      run: ['drawer', 'drawer.yaml', '--undo'],
    },
    mended: onDrawer(),
  },
  K07: {
    why: 'This command lists and changes drawers: files that begin with cardwright: drawer. Sheets that could be bought stand in a shelf, and what is made in a session.',
    failing: { files: { 'shelf.yaml': 'cardwright: shelf\n' }, run: ['drawer', 'shelf.yaml'] },
    mended: onDrawer(),
  },
  K40: {
    why: 'Two runs that change one file at the same time would lose each other’s changes, so one waits for the other. A run that died leaves its mark behind; it is taken over where it can be seen that the run has ended, which can only be seen on the same computer.',
    failing: {
      files: { 'drawer.yaml': drawer, 'drawer.yaml.lock': '4711 bench\n' },
      run: ['drawer', 'drawer.yaml', '--take', 'G1'],
    },
    mended: onDrawer('--take', 'G1'),
  },
  K41: {
    why: 'Between reading the file and writing it, another program has saved it: an editor, as a rule. Its changes would have been lost, so nothing was written.',
    failing: { ...onDrawer('--take', 'G1'), meanwhile: 'an editor saves the file' },
    mended: onDrawer('--take', 'G1'),
  },
  K42: {
    why: 'The journal beside a drawer has a line for each change. A line that can not be read was cut short or edited by hand; what stands in the drawer is not touched by that.',
    failing: {
      files: { 'drawer.yaml': drawer, 'drawer.yaml.journal': '{ "schema": "cardwright/jour\n' },
      run: ['drawer', 'drawer.yaml', '--take', 'G1'],
    },
    mended: onDrawer('--take', 'G1'),
  },
};
