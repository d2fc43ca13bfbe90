import { describe, expect, it } from 'vitest';
import { type Ran, run } from './memoryWorld.ts';

const session = `cardwright: session
units: in
materials: { card: { thickness: 1/16 }, foam: { thickness: 1/2, kerf: 1/32 } }
sheets: { card: [{ size: [16, 12], price: 1.10 EUR }], foam: [{ size: [24, 12] }] }
loose:
  floor: { of: card, size: [3, 3], count: 9 }
  core: { of: foam, size: [3, 3], count: 4 }
drawer: drawer.yaml
cutting: { worth keeping: [3, 2] }
`;
const drawer = `cardwright: drawer
units: in
sheets:
  card:
    - { size: [16, 12], count: 2 }  # behind the door
offcuts:
  card: [{ size: [8, 2], label: G1 }]
`;

type Folder = Readonly<Record<string, string | Uint8Array>>;

/** Runs one command after the other in one folder. */
async function inTurn(files: Folder, ...commands: readonly (readonly string[])[]): Promise<readonly Ran[]> {
  const done: Ran[] = [];
  let folder = files;
  for (const argv of commands) {
    const ran = await run(argv, { files: folder });
    done.push(ran);
    folder = Object.fromEntries(ran.files);
  }
  return done;
}

const begin = ['cut', 'evening.yaml', '--job', 'evening.json'];
const files: Folder = { 'evening.yaml': session, 'drawer.yaml': drawer };

describe('a job', () => {
  it('tells a drawer of millimetres in millimetres, whatever the size', async () => {
    // 160 mm is 6 38/127 in, which is short enough to be taken for inches.
    const [, , away] = await inTurn(
      {
        'evening.yaml': `cardwright: session
units: mm
materials: { foam: { thickness: 6 } }
sheets: { foam: [{ size: [500, 350] }] }
drawer: drawer.yaml
loose: { pad: { of: foam, size: [75, 75] } }
`,
        'drawer.yaml':
          'cardwright: drawer\nunits: mm\noffcuts: { foam: [{ size: [160, 160], label: B1 }] }\n',
      },
      begin,
      ['job', 'evening.json', '--cut', 'all'],
      ['job', 'evening.json', '--put-away'],
    );
    expect(away?.stdout).toMatch(/^out: 1 x foam 160 x 160 mm \(B1\)$/m);
  });

  it('is told what is cut and puts away what is left, and all of it can be undone', async () => {
    const [, , away, , , undone] = await inTurn(
      files,
      begin,
      ['job', 'evening.json', '--cut', 'card', '--cut', 'foam 1'],
      ['job', 'evening.json', '--put-away'],
      ['job', 'evening.json'],
      ['cut', 'evening.yaml'],
      ['job', 'evening.json', '--undo'],
    );
    expect(away?.code).toBe(0);
    // Source: computed: 9 floors take 3 columns of 3 on a sheet of 16 x 12; foam comes from a sheet that is bought.
    expect(away?.stdout).toMatch(/^out: 1 x card 16 x 12 in$/m);
    expect(away?.stdout).toMatch(/^in: 1 x foam /m);
    expect(away?.text('drawer.yaml')).toContain('- { size: [16, 12], count: 1 }  # behind the door');
    expect(undone?.text('drawer.yaml')).toBe(drawer);
    expect(undone?.text('drawer.yaml.journal').trim().split('\n')).toHaveLength(2);
  });

  it('that a run was stopped at is caught up with, once, and what is done is no fault', async () => {
    const [, cut, away] = await inTurn(
      files,
      begin,
      ['job', 'evening.json', '--cut', 'all'],
      ['job', 'evening.json', '--put-away'],
    );
    // As it is where a run is killed between writing the drawer and writing the job.
    const between = {
      ...Object.fromEntries(away?.files ?? []),
      'evening.json': cut?.text('evening.json') ?? '',
    };
    const [first, second] = await inTurn(
      between,
      ['job', 'evening.json', '--put-away'],
      ['job', 'evening.json', '--put-away'],
    );
    expect([first?.code, first?.stdout]).toEqual([0, 'put away: the run that was interrupted had done it\n']);
    expect(first?.stderr).toContain('put away by a run that was interrupted: out: 1 x card');
    expect(first?.text('drawer.yaml')).toBe(away?.text('drawer.yaml'));
    expect(second?.code).toBe(1);
    expect(second?.stderr).toContain('K28: all is cut and put away already');
    expect(second?.stderr).not.toContain('--cut all');
    expect(second?.stderr).not.toContain('interrupted');
    // Also where the run that finds it ends in an error.
    const [wrong, next] = await inTurn(
      between,
      ['job', 'evening.json', '--cut', '9'],
      ['job', 'evening.json'],
    );
    expect([wrong?.code, next?.code, next?.stderr]).toEqual([1, 0, '']);
    expect(next?.stdout).toContain('all is cut and put away');
  });

  it('follows what was undone in the drawer itself, which no interrupted run did', async () => {
    const [, , , , ran, again] = await inTurn(
      files,
      begin,
      ['job', 'evening.json', '--cut', 'all'],
      ['job', 'evening.json', '--put-away'],
      ['drawer', 'drawer.yaml', '--undo'],
      ['job', 'evening.json'],
      ['job', 'evening.json'],
    );
    expect(ran?.stderr).toMatch(/^undone in the drawer: out: 1 x card .*$/m);
    expect(ran?.stderr).not.toContain('interrupted');
    expect(again?.stderr).toBe('');
  });

  it('takes back no more than was asked, where the drawer has undone it already', async () => {
    const [, cut, away, undone] = await inTurn(
      files,
      begin,
      ['job', 'evening.json', '--cut', 'all'],
      ['job', 'evening.json', '--put-away'],
      ['job', 'evening.json', '--undo'],
    );
    // As it is where the run that undoes is killed between writing the drawer and writing the job.
    const between = {
      ...Object.fromEntries(undone?.files ?? []),
      'evening.json': away?.text('evening.json') ?? '',
    };
    const [again, next] = await inTurn(
      between,
      ['job', 'evening.json', '--undo'],
      ['job', 'evening.json', '--undo'],
    );
    expect([again?.code, again?.stdout]).toEqual([
      0,
      expect.stringMatching(/^undone in the drawer already: out: 1 x card/),
    ]);
    expect(JSON.parse(again?.text('evening.json') ?? '').events).toEqual(
      JSON.parse(cut?.text('evening.json') ?? '').events,
    );
    expect(again?.text('drawer.yaml')).toBe(drawer);
    expect(next?.stdout).toMatch(/^undid: cut card 1/);
  });

  it('marks several sheets at once, parted by commas as they are told', async () => {
    const many = session.replace('count: 9', 'count: 80').replace('count: 4', 'count: 40');
    const folder = { 'evening.yaml': many, 'drawer.yaml': drawer };
    const cut = async (sheets: string): Promise<Ran | undefined> =>
      (await inTurn(folder, begin, ['job', 'evening.json', '--cut', sheets]))[1];
    expect((await cut('card 1, 3-4, foam'))?.stdout).toBe('cut: card 1, card 3, card 4, foam 1, foam 2\n');
    expect((await cut('foam 2,1'))?.stdout).toBe('cut: foam 2, foam 1\n');
    expect((await cut('foam, 3'))?.stdout).toBe('cut: foam 1, foam 2, card 3\n');
    const wrong = await cut('card 1, 77, lead 2');
    expect(wrong?.stderr).toContain('K24: "card 77": there is no such sheet');
    expect(wrong?.stderr).toContain('K24: "lead 2": there is no such sheet');
    expect((await cut('1, 2'))?.stderr).toContain('K24: "1": card and foam have one');
    expect((await cut(''))?.stderr).toContain('K24: "": there is no such sheet');
  });

  it.each([
    ['job', 'evening.json', '--put-away'],
    ['recut', 'evening.json', 'floor'],
    ['drawer', 'drawer.yaml', '--take', 'G1'],
  ])('changes nothing and leaves no lock where Ctrl-C comes first: %s', async (...argv) => {
    const [, cut] = await inTurn(files, begin, ['job', 'evening.json', '--cut', 'all']);
    const folder = Object.fromEntries(cut?.files ?? []);
    for (const [signal, code] of [
      ['SIGINT', 130],
      ['SIGTERM', 143],
    ] as const) {
      const ran = await run(argv, { files: folder, signal });
      expect([ran.code, ran.stderr]).toEqual([code, expect.stringContaining('nothing was written')]);
      expect(Object.fromEntries(ran.files)).toEqual(folder);
    }
  });

  it('undoes putting away alone, and says no more, where sheets were marked as cut by the same run', async () => {
    const [, done, undone, state] = await inTurn(
      files,
      begin,
      ['job', 'evening.json', '--cut', 'all', '--put-away'],
      ['job', 'evening.json', '--undo'],
      ['job', 'evening.json'],
    );
    expect(done?.stdout).toMatch(/^cut: card 1, foam 1\nout: /);
    expect(JSON.parse(done?.text('drawer.yaml.journal') ?? '').what).toMatch(/^out: /);
    expect(undone?.stdout).toMatch(/^undid: out: /);
    expect(undone?.text('drawer.yaml')).toBe(drawer);
    expect(state?.stdout).toMatch(/^ +1 +cut /m);
    expect(state?.stdout).not.toContain('to cut');
  });

  it('says what is missing where the journal is gone, and what is where a piece is', async () => {
    const commands = [begin, ['job', 'evening.json', '--cut', 'all'], ['job', 'evening.json', '--put-away']];
    const [, cut, away] = await inTurn(files, ...commands);
    const { 'drawer.yaml.journal': _, ...without } = Object.fromEntries(away?.files ?? []);
    const undo = await run(['job', 'evening.json', '--undo'], { files: without });
    expect(undo.stderr).toContain(
      "K31: change 1 of the drawer can't be undone: its journal does not hold it",
    );
    const empty = {
      ...Object.fromEntries(cut?.files ?? []),
      'drawer.yaml': 'cardwright: drawer\nunits: in\n',
    };
    const put = await run(['job', 'evening.json', '--put-away'], { files: empty });
    expect(put.stderr).toContain('K35: 1 x card 16 x 12 in was cut');
  });

  it('says which material a number means where several have it', async () => {
    const [, ran] = await inTurn(files, begin, ['job', 'evening.json', '--cut', '1']);
    expect(ran?.code).toBe(1);
    expect(ran?.stderr).toContain('K24: "1": card and foam have one');
  });

  it('cuts spoiled pieces again from its own leftovers first, then keeps these out of the drawer', async () => {
    const [, again, state, , away] = await inTurn(
      files,
      begin,
      ['recut', 'evening.json', 'floor', '2'],
      ['job', 'evening.json', '--json'],
      ['job', 'evening.json', '--cut', 'all'],
      ['job', 'evening.json', '--put-away'],
    );
    expect(again?.stdout).toContain('offcut "keep 1"');
    const { sheets } = JSON.parse(state?.stdout ?? '').result.materials[0];
    expect(sheets).toHaveLength(2);
    expect(sheets[1]).toMatchObject({ number: 2, cutAgain: true, labels: [{ label: 'floor', count: 2 }] });
    const labels = [...(away?.stdout ?? '').matchAll(/^in: 1 x card .*\((keep \d)\)$/gm)].map(
      ([, label]) => label,
    );
    expect(labels.length).toBeGreaterThan(0);
    expect(labels).not.toContain('keep 1');
  });

  it('says in a dry run where they would come from', async () => {
    const [, dry, state] = await inTurn(
      files,
      begin,
      ['recut', 'evening.json', 'floor', '2', '--dry-run'],
      ['job', 'evening.json', '--json'],
    );
    // Source: computed: 9 floors of 3 x 3 in leave a strip of 16 - 3 x (3 in and a cut) by 12 in, more or less.
    expect(dry?.stdout).toMatch(/^card 2: 2 × floor from leftover "keep 1" .* in, to keep: keep \d/m);
    expect(dry?.stdout).toContain('would write to standard output');
    expect(JSON.parse(state?.stdout ?? '').result.materials[0].sheets).toHaveLength(1);
  });

  it('goes to the drawer, and then to what can be bought, where its own leftovers are too small', async () => {
    const big = session.replace('count: 9', 'count: 20');
    const [, one] = await inTurn({ ...files, 'evening.yaml': big }, begin, [
      'recut',
      'evening.json',
      'floor',
      '17',
    ]);
    // Source: computed: 20 floors fill a sheet of 16 x 12 in, the second sheet of the drawer takes 17 more.
    expect(one?.stdout).toContain('1 sheet at hand');
    const [, two] = await inTurn({ ...files, 'evening.yaml': big }, begin, [
      'recut',
      'evening.json',
      'floor',
      '30',
    ]);
    expect(two?.stdout).toMatch(/1 sheet \(1\.10 EUR\)/);
  });

  it('is whole where the disk is full', async () => {
    const [, cut] = await inTurn(files, begin, ['job', 'evening.json', '--cut', 'all']);
    const folder = Object.fromEntries(cut?.files ?? []);
    for (const path of ['drawer.yaml', 'drawer.yaml.journal', 'evening.json', '.']) {
      const unwritable =
        path === '.' ? { '': 'no space is left on the disk' } : { [path]: 'no space is left on the disk' };
      const ran = await run(['job', 'evening.json', '--put-away'], { files: folder, unwritable });
      expect([path, ran.code]).toEqual([path, 3]);
      const isDrawerDone = path === 'evening.json';
      if (!isDrawerDone) expect(ran.text('drawer.yaml')).toBe(drawer);
      expect([path, ran.stderr.includes('the drawer is changed already')]).toEqual([path, isDrawerDone]);
      // Once there is room again, it is done, once.
      const [next] = await inTurn(Object.fromEntries(ran.files), ['job', 'evening.json', '--put-away']);
      expect(next?.text('drawer.yaml')).toContain('count: 1 }  # behind the door');
      const [state] = await inTurn(Object.fromEntries(next?.files ?? []), ['job', 'evening.json']);
      expect(state?.stdout).toContain('all is cut and put away');
    }
  });

  it('keeps what another program saved meanwhile', async () => {
    const [, cut] = await inTurn(files, begin, ['job', 'evening.json', '--cut', 'all']);
    const saved = `${drawer}# mine\n`;
    const folder = Object.fromEntries(cut?.files ?? []);
    // The first reading of a run is to see whether the drawer is there, the second one counts.
    const ran = await run(['drawer', 'drawer.yaml', '--take', 'G1'], {
      files: folder,
      savedMeanwhile: { 'drawer.yaml': saved },
    });
    expect(ran.code).toBe(3);
    expect(ran.text('drawer.yaml')).toBe(saved);
  });

  it.each([
    ['cut short', (text: string) => text.slice(0, 400), 'K20'],
    ['of a newer format', (text: string) => text.replace('"version": 1', '"version": 7'), 'K21'],
    [
      'with a size changed by hand',
      (text: string) => text.replace('"rounded": 76.2', '"rounded": 76.3'),
      'K22',
    ],
    [
      'with an event of a sheet that is not there',
      (text: string) =>
        text.replace(
          '"events": []',
          '"events": [{ "kind": "cut", "sheets": [{ "material": "card", "number": 9 }] }]',
        ),
      'K22',
    ],
    ['without its plan', (text: string) => text.replace('"plan"', '"plain"'), 'K22'],
  ])('%s is refused, and nothing is written', async (_, spoil, code) => {
    const [made] = await inTurn(files, begin);
    const spoilt = spoil(made?.text('evening.json') ?? '');
    expect(spoilt).not.toBe(made?.text('evening.json'));
    const ran = await run(['job', 'evening.json', '--cut', 'all'], {
      files: { ...files, 'evening.json': spoilt },
    });
    expect([ran.code, /error (K\d\d)/.exec(ran.stderr)?.[1]]).toEqual([1, code]);
    expect(ran.text('evening.json')).toBe(spoilt);
  });
});

describe('a drawer on the command line', () => {
  it.each([
    [['--add', 'card: 8 x 5'], '{ size: [8, 5] }'],
    [['--add', 'card: 8 x 5 in'], '{ size: [8, 5] }'],
    [['--add', 'card: 2 3/8 × 1-1/2"'], '{ size: [2 3/8, 1 1/2] }'],
    [['--add', 'card: 80mm x 50 mm'], '{ size: [80 mm, 50 mm] }'],
    [['--add', 'card: 80 by 50 mm'], '{ size: [80 mm, 50 mm] }'],
    [['--add', 'card: 80mmx50mm'], '{ size: [80 mm, 50 mm] }'],
    [['--add', 'card: 8x5'], '{ size: [8, 5] }'],
    [['--add', 'card: A5'], '{ size: [210 mm, 148 mm] }'], // Source: ISO 216.
    [
      ['--add', 'card: 8 x 5', '--label', 'G9', '--where', 'shoe box', '--count', '3', '--grain', 'width'],
      '{ size: [8, 5], grain: width, count: 3, label: G9, where: shoe box }',
    ],
  ])('takes a piece as people write it: %j', async (argv, item) => {
    const ran = await run(['drawer', 'drawer.yaml', ...argv], { files });
    expect(ran.stderr).not.toContain('error');
    expect(ran.text('drawer.yaml')).toBe(drawer.replace('label: G1 }]', `label: G1 }, ${item}]`));
  });

  it('gives out what has no label by its size', async () => {
    const one = await run(['drawer', 'drawer.yaml', '--take', 'card: 16x12'], { files });
    expect([one.code, one.stdout]).toEqual([0, 'took out 1 x card 16 x 12 in\n']);
    expect(one.text('drawer.yaml')).toBe(drawer.replace('count: 2', 'count: 1'));
    const three = await run(['drawer', 'drawer.yaml', '--take', 'card: 16 x 12', '--count', '3'], { files });
    expect(three.stderr).toContain('K01: 3 of "card: 16 x 12" is to go out, but the drawer has 2');
    const none = await run(['drawer', 'drawer.yaml', '--take', 'card: 16 x 13'], { files });
    expect(none.stderr).toContain('the drawer has none of that size');
    expect([three, none].map((it) => it.text('drawer.yaml'))).toEqual([drawer, drawer]);
  });

  it('is told a size in either order, the one that is listed first', async () => {
    const turned = await run(['drawer', 'drawer.yaml', '--take', 'card: 12 x 16'], { files });
    expect([turned.code, turned.text('drawer.yaml')]).toEqual([0, drawer.replace('count: 2', 'count: 1')]);
    // Grain goes by the sizes as they are typed: along the 8 in of [8, 5] is along the width of 5 x 8.
    const grained = `cardwright: drawer
units: in
offcuts:
  card: [{ size: [8, 5], grain: length }, { size: [8, 5], grain: width }]
`;
    const take = (...words: readonly string[]) =>
      run(['drawer', 'drawer.yaml', '--take', ...words], { files: { 'drawer.yaml': grained } });
    expect((await take('card: 5 x 8', '--grain', 'width')).text('drawer.yaml')).toBe(
      grained.replace('{ size: [8, 5], grain: length }, ', ''),
    );
    expect((await take('card: 8 x 5', '--grain', 'width')).text('drawer.yaml')).toBe(
      grained.replace(', { size: [8, 5], grain: width }', ''),
    );
  });

  it('asks which is meant where several kinds are of a size', async () => {
    const alike = drawer.replace('size: [8, 2], label: G1', 'size: [16, 12]');
    const several = await run(['drawer', 'drawer.yaml', '--take', 'card: 16 x 12'], {
      files: { 'drawer.yaml': alike },
    });
    expect(several.stderr).toContain('K08');
    const uncut = await run(['drawer', 'drawer.yaml', '--take', 'card: 16 x 12', '--uncut'], {
      files: { 'drawer.yaml': alike },
    });
    expect(uncut.text('drawer.yaml')).toBe(alike.replace('count: 2', 'count: 1'));
  });

  it('doubts a material that is almost another, and a piece that says less than its like', async () => {
    const slip = await run(['drawer', 'drawer.yaml', '--add', 'crad: 8 x 5'], { files });
    expect([slip.code, slip.text('drawer.yaml')]).toEqual([0, expect.stringContaining('crad:')]);
    expect(slip.stderr).toContain('K09: the drawer lists nothing else of "crad"; did you mean "card"?');
    const grained = drawer
      .replace('16, 12],', '16, 12], grain: length,')
      .replace('8, 2],', '8, 2], grain: width,');
    const less = await run(['drawer', 'drawer.yaml', '--add', 'card: 8 x 5'], {
      files: { 'drawer.yaml': grained },
    });
    expect([less.code, less.stderr]).toEqual([
      0,
      expect.stringContaining('K10: how its grain runs is said of all else of'),
    ]);
    const fresh = await run(['drawer', 'drawer.yaml', '--add', 'foam: 8 x 5'], { files });
    expect(fresh.stderr).not.toMatch(/K09|K10/);
  });

  it('begins a drawer that is not there, in the unit that is asked for', async () => {
    const ran = await run(['drawer', 'new.yaml', '--units', 'mm', '--add', 'card: 80 x 50', '--uncut']);
    expect(ran.text('new.yaml')).toBe(
      'cardwright: drawer\nunits: mm\nsheets:\n  card:\n    - { size: [80, 50] }\n',
    );
  });

  it('takes no decimal comma for a third size, and writes out what would be read', async () => {
    const added = (text: string, ...more: readonly string[]) =>
      run(['drawer', 'drawer.yaml', '--add', text, ...more], { files });
    const comma = await added('card: 6,5 x 5');
    expect([comma.code, comma.text('drawer.yaml')]).toEqual([1, drawer]);
    expect(comma.stderr).toContain('error K03: "card: 6,5 x 5": "6,5" could be one size or two');
    expect(comma.stderr).toMatch(/^ {2}try {3}--add 'card: 6\.5 x 5'$/m);
    expect((await added('card: 8,5')).stderr).toMatch(/^ {2}try {3}--add 'card: 8 x 5'$/m);
    expect((await added('card: 8, 5')).stdout).toContain('put in 1 x card 8 x 5 in');
    const bare = await run(['drawer', 'new.yaml', '--add', 'card: 8 x 5']);
    expect(bare.stderr).toMatch(/^ {2}try {3}--add 'card: 8 x 5 in'$/m);
    const again = await run(['drawer', 'new.yaml', '--add', 'card: 8 x 5 in']);
    expect(again.stdout).toContain('put in 1 x card 8 x 5 in');
  });

  it('says what it found in place of a number, and what an option would tell of', async () => {
    for (const count of ['0', '-2', '1.5', '1000000', 'two']) {
      const ran = await run(['drawer', 'drawer.yaml', '--add', 'card: 8 x 5', `--count=${count}`], { files });
      expect([ran.code, ran.text('drawer.yaml')]).toEqual([2, drawer]);
      expect(ran.stderr).toContain(`"--count" takes a whole number from 1 to 999999, found "${count}"`);
    }
    for (const option of ['--where=box', '--count=2', '--uncut']) {
      const ran = await run(['drawer', 'drawer.yaml', option], { files });
      expect([ran.code, ran.stderr]).toEqual([
        2,
        expect.stringContaining('has nothing to tell of: it tells of'),
      ]);
    }
  });

  it('says how to take one of two pieces that bear the same label', async () => {
    const twice = drawer.replace('label: G1 }]', 'label: G1 }, { size: [4, 2], label: G1 }]');
    const [refused, taken] = await inTurn(
      { 'drawer.yaml': twice },
      ['drawer', 'drawer.yaml', '--take', 'G1'],
      ['drawer', 'drawer.yaml', '--take', 'card: 8 x 2 in'],
    );
    expect(refused?.stderr).toContain("  try   --take 'card: 8 x 2 in'   says which");
    expect(taken?.text('drawer.yaml')).toContain('card: [{ size: [4, 2], label: G1 }]');
  });

  it.each([
    ['kit', 'cardwright: kit\nunits: in\nuses: [shelf.yaml]\n'],
    ['session', 'cardwright: session\nunits: in\ndrawer: drawer.yaml\n'],
  ])('says of a %s that it is one, whatever that uses', async (kind, text) => {
    const ran = await run(['drawer', 'other.yaml'], { files: { 'other.yaml': text } });
    expect([ran.code, ran.stderr.match(/error/gu)?.length]).toEqual([1, 2]);
    expect(ran.stderr).toContain(`other.yaml: error K07: "other.yaml" is a ${kind}`);
  });

  it('writes nothing in a dry run', async () => {
    const ran = await run(['drawer', 'drawer.yaml', '--take', 'G1', '--dry-run'], { files });
    expect(ran.stdout).toContain('would do  took out 1 x card 8 x 2 in (G1)');
    expect([...ran.files.keys()].sort()).toEqual(['drawer.yaml', 'evening.yaml']);
  });
});

describe('a job that is gone on with after an edit', () => {
  it('keeps what was cut, plans the rest, and says what no longer fits', async () => {
    const more = session
      .replace('count: 9', 'count: 12')
      .replace('core: { of: foam, size: [3, 3]', 'core: { of: foam, size: [3, 2]');
    const [, cut] = await inTurn(files, begin, ['job', 'evening.json', '--cut', 'card', '--cut', 'foam']);
    const folder = { ...Object.fromEntries(cut?.files ?? []), 'evening.yaml': more };
    const [resumed, state, away] = await inTurn(
      folder,
      ['cut', 'evening.yaml', '--job', 'evening.json', '--resume'],
      ['job', 'evening.json', '--json'],
      ['job', 'evening.json', '--cut', 'all', '--put-away'],
    );
    // Source: computed: 12 floors are asked for, 9 are cut; the cores have another size now.
    expect(resumed?.stdout).toContain('3 × floor');
    const told = '4 x core cut, but the part is another now (3 x 3 in before, 3 x 2 in now): of no use';
    expect(resumed?.stdout.replace(/\s+/g, ' ')).toContain(told);
    expect(resumed?.stderr).toContain(told);
    const { materials } = JSON.parse(state?.stdout ?? '').result;
    const sheets = materials.find(({ name }: { name: string }) => name === 'card').sheets;
    expect(sheets.map(({ number, cut: isCut }: { number: number; cut: boolean }) => [number, isCut])).toEqual(
      [
        [1, true],
        [2, false],
      ],
    );
    expect(away?.code).toBe(0);
    const [done] = await inTurn(Object.fromEntries(away?.files ?? []), [
      'cut',
      'evening.yaml',
      '--job',
      'evening.json',
      '--resume',
    ]);
    expect([done?.code, done?.stdout]).toEqual([0, 'all that is asked for is cut\n']);
  });

  it('tells sizes that have no mark in inches in millimetres', async () => {
    const mixed = (wide: string): string => `cardwright: session
units: in
materials: { card: { thickness: 1/16 } }
sheets: { card: [{ size: [16, 12] }] }
loose: { rib: { of: card, size: [60 mm, ${wide}] } }
`;
    const [, cut] = await inTurn({ 'evening.yaml': mixed('14 mm') }, begin, [
      'job',
      'evening.json',
      '--cut',
      'all',
    ]);
    const folder = { ...Object.fromEntries(cut?.files ?? []), 'evening.yaml': mixed('1 1/2') };
    const [on] = await inTurn(folder, ['cut', 'evening.yaml', '--job', 'evening.json', '--resume']);
    expect(on?.stderr).toContain('(60 x 14 mm before, 60 x 38.1 mm now)');
  });

  it('says which pieces go by another label since, and knows them by it', async () => {
    const walls = `cardwright: session
units: in
materials: { card: { thickness: 1/16 } }
sheets: { card: [{ size: [16, 12] }] }
tiles: { retaining wall: { footprint: none, parts: { face: { of: card, size: [3, 2] } } } }
make: { retaining wall: 4 }
`;
    const rough = walls
      .replace(
        ' } } } }\n',
        ' } } }, rough wall: { footprint: none, parts: { face: { of: card, size: [3, 2] } } } }\n',
      )
      .replace('wall: 4', 'wall: 5, rough wall: 1');
    const resume = ['cut', 'evening.yaml', '--job', 'evening.json', '--resume'];
    const [, cut] = await inTurn({ 'evening.yaml': walls }, begin, ['job', 'evening.json', '--cut', 'all']);
    const [first, state, , last] = await inTurn(
      { ...Object.fromEntries(cut?.files ?? []), 'evening.yaml': rough },
      resume,
      ['job', 'evening.json'],
      ['job', 'evening.json', '--cut', 'all'],
      resume,
    );
    expect(first?.stdout.replace(/\s+/g, ' ')).toContain(
      '4 x RW face cut, called REW face from now on: the old label stands on them',
    );
    expect(state?.stdout).toMatch(/4 × REW face/);
    expect(last?.stdout).toBe('all that is asked for is cut\n');
  });

  it('counts what is of no use neither the first time nor any other', async () => {
    const other = session.replace('core: { of: foam, size: [3, 3]', 'core: { of: foam, size: [3, 2]');
    const resume = ['cut', 'evening.yaml', '--job', 'evening.json', '--resume'];
    const [, , cut] = await inTurn(
      files,
      begin,
      ['recut', 'evening.json', 'floor', '2'],
      ['job', 'evening.json', '--cut', 'all'],
    );
    const more = other.replace('count: 9', 'count: 11');
    const [first, second, state] = await inTurn(
      { ...Object.fromEntries(cut?.files ?? []), 'evening.yaml': more },
      resume,
      resume,
      ['job', 'evening.json'],
    );
    // Source: computed: 9 floors of 11 are good, two of those on the sheets were spoiled; no core is 3 x 2 in.
    for (const ran of [first, second]) {
      expect(ran?.stdout).toMatch(/2 × floor/);
      expect(ran?.stdout).toMatch(/4 × core/);
    }
    expect(state?.stdout.replace(/\s+/g, ' ')).toMatch(/4 × core \(of no use\)/);
    expect(state?.stdout.replace(/\s+/g, ' ')).toMatch(/2 × floor \(of no use\)/);
  });

  it('counts what was cut two in one blank, and sees that a drawing is another of the same size', async () => {
    const braces = (walls: number, drawn: string) => `cardwright: session
units: mm
materials: { card: { thickness: 1 } }
sheets: { card: [{ size: [420, 297] }] }
tiles: { wall: { footprint: none, parts: { brace: { of: card, outline: { polygon: ${drawn} }, count: 2 } } } }
make: { wall: ${walls} }
cutting: { worth keeping: [60, 40] }
`;
    const [wedge, other] = ['[[0, 0], [30, 0], [0, 20]]', '[[0, 0], [30, 0], [30, 20]]'];
    const resume = ['cut', 'evening.yaml', '--job', 'evening.json', '--resume', '-o', 'next.txt', '--force'];
    const [, , cut] = await inTurn(
      { 'evening.yaml': braces(2, wedge) },
      begin,
      ['job', 'evening.json', '--cut', 'all'],
      ['recut', 'evening.json', 'WA brace'],
    );
    expect(cut?.code).toBe(0);
    const edited = async (walls: number, drawn: string) => {
      const kept = { ...Object.fromEntries(cut?.files ?? []), 'evening.yaml': braces(walls, drawn) };
      const [on, again, state] = await inTurn(kept, resume, resume, ['job', 'evening.json']);
      expect([on?.code, again?.code]).toEqual([0, 0]);
      return { stderr: on?.stderr ?? '', state: state?.stdout ?? '' };
    };
    // Four are cut in two blanks, and one of them is spoiled: of six, three are still to be cut.
    const more = await edited(3, wedge);
    expect(more.state).toMatch(/^ +1 +cut .* 2 × pair of WA brace +keep/mu);
    // The next one wraps its pieces: `WA brace,` and below it `pair of WA brace`.
    expect(more.state).toMatch(
      /^ +\d+ +to cut +leftover "keep 2" +WA brace, .*\n +400 × 60 +pair of WA brace$/mu,
    );
    const turned = await edited(3, other);
    expect(turned.stderr).toContain('3 x WA brace cut, but the part is another now: of no use');
    expect(turned.state.replace(/\s+/gu, ' ')).toContain('2 × pair of WA brace (of keep 2, keep 1 no use)');
    expect(turned.state).toMatch(/3 × pair of WA brace/u);
  });

  it('is one of the same evening, by its number or its title', async () => {
    const two = `${session}grid: { square: 3 }
make: { tile: 2 }
tiles: { tile: { parts: { top: { of: card, size: [2, 2] } } } }
evenings: [{ title: early, make: { tile: 1 } }, { title: late, make: rest }]
`;
    const cut = (...more: readonly string[]) => ['cut', 'evening.yaml', ...more, '--job', 'evening.json'];
    const late = await inTurn(
      { ...files, 'evening.yaml': two },
      cut('--evening', '2'),
      cut('--evening', 'late', '--resume'),
      cut('--evening', 'early', '--resume'),
      cut('--resume'),
    );
    expect(late.map(({ code, stderr }) => [code, /error (\w+)/.exec(stderr)?.[1]])).toEqual([
      [0, undefined],
      [0, undefined],
      [1, 'K37'],
      [1, 'K37'],
    ]);
    expect(late[2]?.stderr).toContain('K37: the job makes evening 2, but evening 1 is asked for');
    expect(late[3]?.stderr).toContain('K37: the job makes evening 2, but all evenings together are');
  });

  it('is a job that is there', async () => {
    const ran = await run(['cut', 'evening.yaml', '--job', 'none.json', '--resume'], { files });
    expect([ran.code, /error (\w+)/.exec(ran.stderr)?.[1]]).toEqual([3, 'C40']);
    expect((await run(['cut', 'evening.yaml', '--resume'], { files })).code).toBe(2);
  });
});

describe('fittings in the drawer', () => {
  const text = `cardwright: drawer
units: in
fittings: { disc magnet: { count: 20, where: tin box }, skewer: 8 }  # counted in May
offcuts: { card: [{ size: [8, 5], label: G1 }] }
`;
  const kept = { 'drawer.yaml': text };

  it('are counted anew in place, and nothing else changes', async () => {
    const [added, taken, undone] = await inTurn(
      kept,
      ['drawer', 'drawer.yaml', '--add', 'disc magnet', '--count', '50'],
      ['drawer', 'drawer.yaml', '--take', 'skewer', '--count', '3', '--take', 'G1'],
      ['drawer', 'drawer.yaml', '--undo'],
    );
    expect(added?.text('drawer.yaml')).toBe(text.replace('20', '70'));
    expect(added?.stdout).toContain('put in 50 x disc magnet');
    const without = text.replace('20', '70').replace('skewer: 8', 'skewer: 5');
    expect(taken?.code).toBe(1); // --count 3 is of both, and there is one G1
    expect(taken?.text('drawer.yaml')).toBe(text.replace('20', '70'));
    const [one] = await inTurn(Object.fromEntries(added?.files ?? []), [
      'drawer',
      'drawer.yaml',
      '--take',
      'skewer',
      '--count',
      '3',
    ]);
    expect(one?.text('drawer.yaml')).toBe(without);
    expect(undone?.text('drawer.yaml')).toBe(text);
  });

  it('are listed, and no more are taken than there are', async () => {
    const listed = await run(['drawer', 'drawer.yaml'], { files: kept });
    expect(listed.stdout).toMatch(/^disc magnet +20 +tin box$/m);
    const { result } = JSON.parse((await run(['drawer', 'drawer.yaml', '--json'], { files: kept })).stdout);
    expect(result.fittings).toEqual([
      { name: 'disc magnet', count: 20, where: 'tin box', note: null },
      { name: 'skewer', count: 8, where: null, note: null },
    ]);
    const many = await run(['drawer', 'drawer.yaml', '--take', 'skewer', '--count', '9'], { files: kept });
    expect([many.code, many.text('drawer.yaml')]).toEqual([1, text]);
    expect(many.stderr).toContain('K01');
  });

  it('go out with the last sheet that is put away, what was bought for it taken in, once', async () => {
    const session = `cardwright: session
units: in
materials: { card: { thickness: 1/16 } }
sheets: { card: [{ size: [16, 12] }] }
loose: { floor: { of: card, size: [3, 3], count: 22, takes: { disc magnet: 2 } } }
fittings: { disc magnet: { pack: 15 } }
cutting: { worth keeping: [3, 2] }
drawer: drawer.yaml
`;
    const [, first, last, again, away] = await inTurn(
      { ...kept, 's.yaml': session },
      ['cut', 's.yaml', '--job', 'job.json', '-o', 'a.txt'],
      ['job', 'job.json', '--cut', '1', '--put-away'],
      ['job', 'job.json', '--cut', 'all', '--put-away'],
      ['recut', 'job.json', 'floor', '-o', 'b.txt'],
      ['job', 'job.json', '--cut', 'all', '--put-away'],
    );
    expect(first?.text('drawer.yaml')).toContain('count: 20');
    // Source: computed: 44 are taken, of 20 and two packs of 15; 6 are left.
    expect(last?.stdout).toContain('out: 44 x disc magnet, 6 left with the 30 that were bought\n');
    expect(last?.text('drawer.yaml')).toContain(
      'disc magnet: { count: 6, where: tin box }, skewer: 8 }  # counted in May',
    );
    expect([again?.code, away?.code]).toEqual([0, 0]);
    expect(away?.text('drawer.yaml')).toContain('disc magnet: { count: 6,');
  });
});
