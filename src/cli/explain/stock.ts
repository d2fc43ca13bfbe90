import type { stockCodes } from '../../model/catalogue/stock.ts';
import type { Example, ExplainPage } from '../explainPage.ts';

const drawer = `cardwright: drawer
units: in
offcuts:
  greyboard:
    - { size: [8, 5], label: G1 }
    - { size: [7, 4], label: G2, count: 2 }
`;

const session = `cardwright: session
units: in
grid: { square: 3 }
materials: { greyboard: { thickness: 1/16 } }
sheets: { greyboard: [{ size: [16, 12] }] }
tiles: { floor: { parts: { top: { of: greyboard, size: [square, square] } } } }
make: { floor: 2 }
drawer: drawer.yaml
`;

/** A run on a job of that session, after others. */
function onJob(others: readonly (readonly string[])[], ...run: readonly string[]): Example {
  return {
    files: { 'session.yaml': session, 'drawer.yaml': drawer },
    before: [['cut', 'session.yaml', '--job', 'evening.json'], ...others],
    run,
  };
}

/** A run on that drawer. */
function onDrawer(...options: readonly string[]): Example {
  return { files: { 'drawer.yaml': drawer }, run: ['drawer', 'drawer.yaml', ...options] };
}

const inTwoEvenings = `${session}evenings: [{ make: { floor: 1 } }, { make: rest }]\n`;

const ofOneSize = `cardwright: drawer
units: in
sheets: { greyboard: [{ size: [8, 5] }] }
offcuts: { greyboard: [{ size: [8, 5] }] }
`;

const withGrain = `cardwright: drawer
units: in
offcuts: { greyboard: [{ size: [7, 4], grain: length }] }
`;

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
    why: 'A piece is told by its material, a colon, and its two sizes with an x between them: greyboard: 8 x 5. A block has its thickness as a third size. Sizes without a unit are in the unit of the drawer. A fitting is told by its name alone; one that the drawer does not count yet takes --fitting beside it.',
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
  K08: {
    why: 'What has no label is taken out by its material and size. Where several kinds are of that size, it takes another word to tell them: --uncut for whole sheets, --grain, --flutes, the thickness of a block as a third size, or a label.',
    failing: {
      files: { 'drawer.yaml': ofOneSize },
      run: ['drawer', 'drawer.yaml', '--take', 'greyboard: 8 x 5'],
    },
    mended: {
      files: { 'drawer.yaml': ofOneSize },
      run: ['drawer', 'drawer.yaml', '--take', 'greyboard: 8 x 5', '--uncut'],
    },
  },
  K09: {
    why: 'The drawer lists nothing of this material, but something of one that is called almost so. It was put in as it was told; where it is a slip, no session will use it.',
    failing: onDrawer('--add', 'greybord: 8 x 5'),
    mended: onDrawer('--add', 'greyboard: 8 x 5'),
  },
  K10: {
    why: 'All else that is listed of this material says how its grain runs, or its flutes, so the material has one. The piece was put in as it was told; a session that cuts it asks how it runs.',
    failing: {
      files: { 'drawer.yaml': withGrain },
      run: ['drawer', 'drawer.yaml', '--add', 'greyboard: 8 x 5'],
    },
    mended: {
      files: { 'drawer.yaml': withGrain },
      run: ['drawer', 'drawer.yaml', '--add', 'greyboard: 8 x 5', '--grain', 'width'],
    },
  },
  K20: {
    why: 'A job is the file that cut --job writes: a JSON document that says so in its first line. This one is something else, or was cut short on its way here.',
    failing: {
      files: { 'evening.json': '{ "schema": "cardwright/job", "vers' },
      run: ['job', 'evening.json'],
    },
    mended: onJob([], 'job', 'evening.json'),
  },
  K21: {
    why: 'The file was written by a newer version, and says things that this one does not know. To go on without them could lose something, so nothing is done.',
    failing: {
      files: { 'evening.json': '{ "schema": "cardwright/job", "version": 2 }' },
      run: ['job', 'evening.json'],
    },
    mended: onJob([], 'job', 'evening.json'),
  },
  K22: {
    why: 'The plan in a job is the plan on paper, so it is sealed: where the two do not fit, it was edited or damaged, and what it says can not be trusted.',
    failing: {
      files: { 'evening.json': '{ "schema": "cardwright/job", "version": 1, "id": "1" }' },
      run: ['job', 'evening.json'],
    },
    mended: onJob([], 'job', 'evening.json'),
  },
  K23: {
    why: 'A kit or a session was edited after the job was made. What is printed is still what the file says, so you can go on cutting; or keep what is cut and have the rest planned anew.',
    failing: onJob([['new', 'session.yaml', '--force']], 'job', 'evening.json'),
    mended: onJob([], 'job', 'evening.json'),
  },
  K24: {
    why: 'Sheets are numbered within each material, as they are printed: No. 3 of greyboard is 3, or greyboard 3 where another material has a third sheet too.',
    failing: onJob([], 'job', 'evening.json', '--cut', '7'),
    mended: onJob([], 'job', 'evening.json', '--cut', '1'),
  },
  K25: {
    why: 'These sheets are marked as cut. If one of them was marked by mistake, take that back with --undo.',
    failing: onJob([['job', 'evening.json', '--cut', 'all']], 'job', 'evening.json', '--cut', '1'),
    mended: onJob([], 'job', 'evening.json', '--cut', '1'),
  },
  K26: {
    why: 'A spoiled piece is named by the label that the sheet printed for it.',
    failing: onJob([], 'recut', 'evening.json', 'FL tip'),
    mended: onJob([], 'recut', 'evening.json', 'FL top'),
  },
  K27: {
    why: 'No leftover of the job is large enough, the drawer has nothing that would do, and no more sheets can be had.',
    failing: {
      files: {
        'session.yaml': session.replace('[16, 12]', '[3, 3], count: 2').replace('drawer: drawer.yaml\n', ''),
      },
      before: [['cut', 'session.yaml', '--job', 'evening.json']],
      run: ['recut', 'evening.json', 'FL top'],
    },
    mended: onJob([], 'recut', 'evening.json', 'FL top'),
  },
  K28: {
    why: 'Only what is marked as cut is put away, and each sheet once.',
    failing: onJob([], 'job', 'evening.json', '--put-away'),
    mended: onJob([], 'job', 'evening.json', '--cut', 'all', '--put-away'),
  },
  K29: {
    why: 'Offcuts go into a drawer, a file that the session names. This one names none.',
    failing: {
      files: { 'session.yaml': session.replace('drawer: drawer.yaml\n', '') },
      before: [['cut', 'session.yaml', '--job', 'evening.json']],
      run: ['job', 'evening.json', '--cut', 'all', '--put-away'],
    },
    mended: onJob([], 'job', 'evening.json', '--cut', 'all', '--put-away'),
  },
  K30: {
    why: 'Marking sheets as cut, putting away and cutting again can be undone, the last one first. Here nothing of it has been done.',
    failing: onJob([], 'job', 'evening.json', '--undo'),
    mended: onJob([['job', 'evening.json', '--cut', '1']], 'job', 'evening.json', '--undo'),
  },
  K31: {
    why: 'The drawer was changed again after this was put away, perhaps for another job. Changes of a drawer are undone one after the other, the last one first. They stand in the journal beside the drawer; where that is gone, nothing in it can be undone.',
    failing: onJob(
      [
        ['job', 'evening.json', '--cut', 'all', '--put-away'],
        ['drawer', 'drawer.yaml', '--add', 'greyboard: 8 x 5'],
      ],
      ...['job', 'evening.json', '--undo'],
    ),
    mended: onJob([['job', 'evening.json', '--cut', 'all', '--put-away']], 'job', 'evening.json', '--undo'),
  },
  K32: {
    why: 'An offcut that stands in the session was cut. Only the drawer is ever written, so the session still lists it, and the next run would cut it again.',
    failing: {
      files: {
        'session.yaml': `${session}offcuts: { greyboard: [{ size: [6, 3], label: S1 }] }\n`,
        'drawer.yaml': drawer.replace(/ {4}- .*\n/g, '').replace('greyboard:', 'greyboard: []'),
      },
      before: [['cut', 'session.yaml', '--job', 'evening.json']],
      run: ['job', 'evening.json', '--cut', 'all', '--put-away'],
    },
    mended: onJob([], 'job', 'evening.json', '--cut', 'all', '--put-away'),
  },
  K34: {
    why: 'Behind the label stands how many pieces were spoiled.',
    failing: onJob([], 'recut', 'evening.json', 'FL top', 'two'),
    mended: onJob([], 'recut', 'evening.json', 'FL top', '2'),
  },
  K35: {
    why: 'The job was planned with a sheet or an offcut that the drawer listed then. It was cut, but now the drawer does not list it, so it can not be taken out. Nothing was changed.',
    failing: onJob(
      [
        ['job', 'evening.json', '--cut', 'all'],
        ['drawer', 'drawer.yaml', '--take', 'G1'],
        ['drawer', 'drawer.yaml', '--take', 'G2', '--count', '2'],
      ],
      ...['job', 'evening.json', '--put-away'],
    ),
    mended: onJob([['job', 'evening.json', '--cut', 'all']], 'job', 'evening.json', '--put-away'),
  },
  K36: {
    why: 'As many are asked for as what is at hand allows: what lies in the drawer, offcuts, and sheets of which there are so many. That is not enough for a single one.',
    failing: {
      files: {
        'session.yaml': session.replace('floor: 2', 'floor: most').replace('drawer: drawer.yaml\n', ''),
      },
      run: ['cut', 'session.yaml'],
    },
    mended: {
      files: { 'session.yaml': session.replace('floor: 2', 'floor: most'), 'drawer.yaml': drawer },
      run: ['cut', 'session.yaml'],
    },
  },
  K37: {
    why: 'A job is gone on with as what it is: what it has cut is taken off what its own evening makes. Taken off another evening it would leave that one short.',
    failing: {
      files: { 'session.yaml': inTwoEvenings, 'drawer.yaml': drawer },
      before: [['cut', 'session.yaml', '--evening', '2', '--job', 'evening.json']],
      run: ['cut', 'session.yaml', '--evening', '1', '--job', 'evening.json', '--resume'],
    },
    mended: {
      files: { 'session.yaml': inTwoEvenings, 'drawer.yaml': drawer },
      before: [['cut', 'session.yaml', '--evening', '2', '--job', 'evening.json']],
      run: ['cut', 'session.yaml', '--evening', '2', '--job', 'evening.json', '--resume'],
    },
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
