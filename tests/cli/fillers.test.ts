import { describe, expect, it } from 'vitest';
import { type Ran, run } from './memoryWorld.ts';

/** What is made as often as it fits, through whole commands: sheets, counts, jobs, evenings. */

const session = (cores: number, most: number, size = '[1/2, 1/4]') => `cardwright: session
units: in
materials: { foam: { thickness: 1/2, kerf: 1/32 } }
sheets: { foam: [{ size: [24, 12] }] }
loose:
  core: { of: foam, size: [3, 2 7/8], count: ${cores} }
  stones: { of: foam, size: ${size}, count: as fits up to ${most} }
drawer: drawer.yaml
cutting: { worth keeping: [3, 2], effort: quick }
`;
const drawer = 'cardwright: drawer\nunits: in\nsheets: { foam: [{ size: [24, 12], count: 1 }] }\n';

type Folder = Readonly<Record<string, string | Uint8Array>>;

interface Step {
  readonly argv: readonly string[];
  /** What is edited before. */
  readonly edit?: Folder;
}

async function inTurn(files: Folder, ...steps: readonly Step[]): Promise<readonly Ran[]> {
  const done: Ran[] = [];
  let folder = files;
  for (const { argv, edit } of steps) {
    const ran = await run(argv, { files: { ...folder, ...edit } });
    done.push(ran);
    folder = Object.fromEntries(ran.files);
  }
  return done;
}

interface Cut {
  readonly result: {
    readonly notes: readonly string[];
    readonly materials: readonly {
      readonly name: string;
      readonly sheets: number;
      readonly fillers: readonly {
        readonly labels: readonly string[];
        readonly count: number;
        readonly most: number;
      }[];
      readonly parts: readonly {
        readonly members: readonly { readonly label: string; readonly count: number }[];
      }[];
      readonly layouts: readonly {
        readonly times: number;
        readonly pieces: readonly { readonly label: string }[];
        readonly leftovers: readonly { readonly keep: string | null }[];
      }[];
    }[];
  };
}

async function cutOf(text: string, ...options: readonly string[]): Promise<Cut['result']> {
  const { stdout } = await run(['cut', 'evening.yaml', '--json', ...options], {
    files: { 'evening.yaml': text, 'drawer.yaml': drawer },
  });
  return (JSON.parse(stdout) as Cut).result; // the document of `cut`, held against its schema elsewhere
}

function piecesOf({ materials }: Cut['result'], label: string): number {
  return materials
    .flatMap(({ layouts }) => layouts)
    .reduce((all, { times, pieces }) => all + times * pieces.filter((it) => it.label === label).length, 0);
}

describe('a session with fillers', () => {
  it('cuts as many as it says, without a sheet more or an offcut less', async () => {
    const [plain, filled] = [
      await cutOf(session(40, 35).replace(/^ {2}stones.*$/mu, '')),
      await cutOf(session(40, 35)),
    ];
    expect(filled.materials[0]?.sheets).toBe(plain.materials[0]?.sheets);
    const kept = ({ materials }: Cut['result']) =>
      materials.flatMap(({ layouts }) =>
        layouts.flatMap(({ leftovers }) => leftovers.flatMap(({ keep }) => keep ?? [])),
      );
    expect(kept(filled)).toEqual(kept(plain));
    expect(piecesOf(filled, 'stones')).toBe(35);
    expect(piecesOf(filled, 'core')).toBe(40);
    expect(filled.materials[0]?.fillers).toEqual([
      { labels: ['stones'], count: 35, most: 35, isEnough: true, stoppedAt: null },
    ]);
    expect(filled.notes).toEqual([
      'stones: 35, as asked, fit into what is left of foam and not worth keeping',
    ]);
  });

  it('is counted after it was laid out', async () => {
    const { stdout } = await run(['count', 'evening.yaml'], {
      files: { 'evening.yaml': session(40, 1000), 'drawer.yaml': drawer },
    });
    const { count, most } = (await cutOf(session(40, 1000))).materials[0]!.fillers[0]!;
    expect(count).toBeGreaterThan(35);
    expect(count).toBe(most);
    expect(stdout).toMatch(new RegExp(`^stones\\s+foam\\s+1/2 x 1/4\\s+as fits\\s+${count}$`, 'mu'));
    expect(stdout).toContain('no more would');
  });

  it('passes a check without a word', async () => {
    const { stdout, stderr, code } = await run(['check', 'evening.yaml'], {
      files: { 'evening.yaml': session(40, 35), 'drawer.yaml': drawer },
    });
    expect([code, stderr]).toEqual([0, '']);
    expect(stdout).toBe('ok  loose parts  40 parts: 40 × foam\n');
  });

  it('is told what fits nowhere, by a check, too', async () => {
    const files = { 'evening.yaml': session(40, 35, '[25, 1/4]'), 'drawer.yaml': drawer };
    for (const command of ['check', 'cut']) {
      const { stderr, code } = await run([command, 'evening.yaml'], { files });
      expect(code).toBe(1);
      expect(stderr.match(/error P01/gu)).toHaveLength(1);
    }
  });

  it('says why a material that nothing else is cut from gives none', async () => {
    const text = `${session(4, 35)}`
      .replace('size: [3, 2 7/8]', 'size: [3, 3]')
      .replace('of: foam, size: [3', 'of: card, size: [3');
    const { notes } = await cutOf(
      text
        .replace('materials: {', 'materials: { card: { thickness: 1/16 },')
        .replace('sheets: {', 'sheets: { card: [{ size: [16, 12] }],'),
    );
    expect(notes).toEqual(['stones: none, since nothing else is cut from foam']);
  });

  it('saves with or without fillers what can be saved', async () => {
    const why = async (text: string) => {
      const { stdout } = await run(['cut', 'evening.yaml', '--json', '--why'], {
        files: { 'evening.yaml': text, 'drawer.yaml': drawer },
      });
      return JSON.parse(stdout).result.materials[0].why.savings;
    };
    expect(await why(session(57, 35))).toEqual(await why(session(57, 35).replace(/^ {2}stones.*$/mu, '')));
  });
});

describe('a job with fillers', () => {
  const begin = { argv: ['cut', 'evening.yaml', '--job', 'evening.json'] };
  const files: Folder = { 'evening.yaml': session(40, 35), 'drawer.yaml': drawer };

  it('counts what was cut of them towards the most that is asked for', async () => {
    const [, , resumed, state] = await inTurn(
      files,
      begin,
      { argv: ['job', 'evening.json', '--cut', 'foam 1'] },
      {
        argv: ['cut', 'evening.yaml', '--job', 'evening.json', '--resume', '-o', 'next.txt'],
        edit: { 'evening.yaml': session(41, 33) },
      },
      { argv: ['job', 'evening.json'] },
    );
    expect(resumed?.code).toBe(0);
    expect(state?.stdout).toMatch(/^ +1 +cut .* 28 × core, 20 × stones/mu);
    // 33 less the 20 of the first sheet.
    expect(state?.stdout).toMatch(/^ +3 +to cut .* 13 × core, 13 × stones/mu);
  });

  it.each([
    // 20 of 35 are cut on the first sheet.
    [
      60,
      ['stones: up to 60 now, up to 35 before; 20 are cut', 'stones: 15 beside the 20 that are cut fit into'],
    ],
    [
      30,
      [
        'stones: up to 30 now, up to 35 before; 20 are cut',
        'stones: 10 beside the 20 that are cut, as asked,',
      ],
    ],
    [10, ['stones: up to 10 now, up to 35 before; 20 are cut, 10 more than that']],
    [
      'fits',
      ['stones: as many as fit now, up to 35 before; 20 are cut', 'stones: 15 beside the 20 that are cut'],
    ],
    [35, ['stones: 15 beside the 20 that are cut, as asked, fit into']],
  ])('says that up to %s of them are asked for now', async (most, said) => {
    const edited = session(40, 35).replace(
      'as fits up to 35',
      most === 'fits' ? 'as fits' : `as fits up to ${most}`,
    );
    const [, , resumed] = await inTurn(
      files,
      begin,
      { argv: ['job', 'evening.json', '--cut', 'foam 1'] },
      {
        argv: ['cut', 'evening.yaml', '--job', 'evening.json', '--resume', '-o', 'next.txt'],
        edit: { 'evening.yaml': edited },
      },
    );
    const lines = resumed?.stderr.split('\n').filter((it) => it.startsWith('stones')) ?? [];
    expect(lines).toEqual(said.map((it) => expect.stringContaining(it)));
    expect(new TextDecoder().decode(resumed?.files.get('next.txt')).replace(/\s+/gu, ' ')).toContain(said[0]);
  });

  it('says of one that is counted now what it was before', async () => {
    const [, , resumed, state] = await inTurn(
      files,
      begin,
      { argv: ['job', 'evening.json', '--cut', 'foam 1'] },
      {
        argv: ['cut', 'evening.yaml', '--job', 'evening.json', '--resume', '-o', 'next.txt'],
        edit: { 'evening.yaml': session(40, 35).replace('as fits up to 35', '24') },
      },
      { argv: ['job', 'evening.json'] },
    );
    expect(resumed?.stderr).toContain('stones: 24 now, up to 35 before; 20 are cut');
    expect(state?.stdout).toMatch(/^ +3 +to cut .* 12 × core, 4 × stones/mu);
  });

  it('goes on counting those that are cut, however often it is gone on with', async () => {
    const again = {
      argv: ['cut', 'evening.yaml', '--job', 'evening.json', '--resume', '-o', 'next.txt', '--force'],
      edit: { 'evening.yaml': session(41, 33) },
    };
    const [, , , first, second] = await inTurn(
      files,
      begin,
      { argv: ['job', 'evening.json', '--cut', 'foam 1'] },
      again,
      again,
      again,
    );
    expect(first?.stderr).toMatch(/^stones: 13 beside the 20 that are cut, as asked,/mu);
    expect(first?.stderr).toBe(second?.stderr);
  });

  it('cuts them anew where they are others now, and says so', async () => {
    const [, , resumed, state] = await inTurn(
      files,
      begin,
      { argv: ['job', 'evening.json', '--cut', 'foam 1'] },
      {
        argv: ['cut', 'evening.yaml', '--job', 'evening.json', '--resume', '-o', 'next.txt'],
        edit: { 'evening.yaml': session(40, 35, '[5/8, 1/4]') },
      },
      { argv: ['job', 'evening.json'] },
    );
    expect(resumed?.stderr).toContain(
      '20 x stones cut, but the part is another now (1/2 x 1/4 in before, 5/8 x 1/4 in now): of no use',
    );
    expect(state?.stdout).toMatch(/28 × core, 20 × stones\s+\(of no use\)/u);
  });

  it('cuts a spoiled one again, and puts away what was worth keeping', async () => {
    const [, , again, away] = await inTurn(
      files,
      begin,
      { argv: ['job', 'evening.json', '--cut', 'all'] },
      { argv: ['recut', 'evening.json', 'stones', '2'] },
      { argv: ['job', 'evening.json', '--cut', 'all', '--put-away'] },
    );
    expect(again?.stdout).toContain('To make  2 × stones.');
    expect(away?.code).toBe(0);
    expect(away?.stdout).toMatch(/^out: 1 x foam 24 x 12 in$/mu);
    expect(away?.stdout).toMatch(/^in: 1 x foam /mu);
  });
});

describe('as many as what is at hand allows', () => {
  const atHand = (stones: string) => `cardwright: session
units: in
materials: { card: { thickness: 1/16 } }
sheets: { card: [{ size: [16, 12], count: 1 }] }
tiles: { floor: { footprint: none, parts: { bed: { of: card, size: [5, 5] }${stones} } } }
make: { floor: most }
`;

  it('is found without the fillers, which then take what is left', async () => {
    const plain = await cutOf(atHand(''));
    const filled = await cutOf(atHand(', stones: { of: card, size: [1, 1], count: as fits }'));
    expect(piecesOf(filled, 'FL bed')).toBe(piecesOf(plain, 'FL bed'));
    // Computed: 6 beds in 15 × 10 leave 1 × 10 and 16 × 2, or as much cut otherwise: 192 − 150 squares.
    expect(piecesOf(filled, 'FL stones')).toBe(42);
  });
});

describe('evenings', () => {
  it('fill what each of them leaves', async () => {
    const text = `cardwright: session
units: in
materials: { card: { thickness: 1/16 } }
sheets: { card: [{ size: [16, 12] }] }
tiles:
  floor: { footprint: none, parts: { bed: { of: card, size: [5, 5] } } }
  wall: { footprint: none, parts: { face: { of: card, size: [16, 11] } } }
make: { floor: 6, wall: 1 }
loose: { stones: { of: card, size: [1, 1], count: as fits } }
evenings: [{ make: { wall: 1 } }, { make: rest }]
`;
    expect(piecesOf(await cutOf(text, '--evening', '1'), 'stones')).toBe(16);
    expect(piecesOf(await cutOf(text, '--evening', '2'), 'stones')).toBe(42);
    expect(piecesOf(await cutOf(text), 'stones')).toBe(58);
  });
});
