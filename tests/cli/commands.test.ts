import { readFileSync } from 'node:fs';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { beforeAll, describe, expect, it } from 'vitest';
import { brokenKit, type Ran, run, type Setting, soundKit } from './memoryWorld.ts';

const shipped = [
  'examples/vineyard.yaml',
  'examples/drawer.yaml',
  'examples/tram-stop.yaml',
  'specs/hillside.yaml',
  'specs/tram-stop.yaml',
  'shared/card-and-foam.yaml',
];
const demo = Object.fromEntries(
  shipped.map((path) => [path, readFileSync(new URL(`../../${path}`, import.meta.url), 'utf8')]),
);
const session = 'examples/vineyard.yaml';
/** Where any kit will do, one that is soon cut. */
const small = 'kit.yaml';

function play(argv: readonly string[], setting: Setting = {}): Promise<Ran> {
  return run(argv, { files: { ...demo, 'kit.yaml': soundKit, 'broken.yaml': brokenKit }, ...setting });
}

/** What stands on the last file of a run. */
function written({ files }: Ran): readonly string[] {
  return [...files.keys()].filter((it) => !shipped.includes(it) && it !== 'kit.yaml' && it !== 'broken.yaml');
}

async function validate(name: string, document: unknown): Promise<void> {
  const { stdout } = await run(['schema', name]);
  const check = new Ajv2020({ strict: false }).compile(JSON.parse(stdout));
  expect(check(document), JSON.stringify(check.errors)).toBe(true);
}

describe('exit codes and streams', () => {
  it('0: all is well, the product on stdout, nothing on stderr', async () => {
    for (const argv of [
      ['check', session],
      ['count', session],
      ['cut', session, '--effort', 'quick'],
    ]) {
      const { code, stdout, stderr } = await play(argv);
      expect(stderr).toBe('');
      expect(code).toBe(0);
      expect(stdout.length).toBeGreaterThan(100);
    }
  });

  it('1: the spec is wrong, with nothing on stdout', async () => {
    for (const command of ['check', 'count', 'cut']) {
      const { code, stdout, stderr } = await play([command, 'broken.yaml']);
      expect(code).toBe(1);
      expect(stdout).toBe('');
      expect(stderr.match(/:\d+:\d+: error/g)).toEqual([':3:9: error', ':4:1: error']);
      expect(stderr).toMatch(/^ *\| {9}\^{6}$/m);
      expect(stderr.trimEnd().split('\n').at(-1)).toBe('2 errors');
    }
  });

  it('3: a file can not be read', async () => {
    for (const path of ['none.yaml', 'examples']) {
      const { code, stderr } = await play(['check', path]);
      expect(code).toBe(3);
      expect(stderr).toContain(`${path}: error C40:`);
    }
  });

  it('70: a bug of ours, told as one', async () => {
    const { code, stderr, stdout } = await play(['check', 'kit.yaml'], { bug: true });
    expect(code).toBe(70);
    expect(stdout).toBe('');
    expect(stderr).toContain('error C70: this is a bug in cardwright');
    expect(stderr).toContain('the sky fell down');
  });

  it('70 also in JSON, with the same code', async () => {
    const { code, stdout } = await play(['check', 'kit.yaml', '--json'], { bug: true });
    expect(code).toBe(70);
    expect(JSON.parse(stdout)).toMatchObject({ exitCode: 70, diagnostics: [{ code: 'C70' }] });
  });

  it.each([
    ['SIGINT', 130],
    ['SIGTERM', 143],
  ] as const)('%s ends a run with %d and nothing written', async (signal, expected) => {
    const ran = await play(['cut', session, '-o', 'x.pdf'], { signal });
    expect(ran.code).toBe(expected);
    expect(written(ran)).toEqual([]);
    expect(ran.stderr).toMatch(/nothing was written/);
  });

  it('--quiet leaves errors only', async () => {
    expect((await play(['cut', session, '-o', 'a.txt', '--quiet'])).stderr).toBe('');
    expect((await play(['check', 'broken.yaml', '--quiet'])).stderr).toContain('error S');
  });
});

describe('outputs', () => {
  it('take their form from their ending', async () => {
    const ran = await play(['cut', small, '-o', 'a.txt', '-o', 'b.PDF', '-o', 'c.json', '--effort', 'quick']);
    expect(ran.code).toBe(0);
    expect(ran.stdout).toBe('');
    expect(ran.text('a.txt')).toContain('floor');
    expect(ran.text('b.PDF')).toMatch(/^%PDF-1\.\d[\s\S]*%%EOF\n?$/);
    expect(JSON.parse(ran.text('c.json'))).toMatchObject({ schema: 'cardwright/cut' });
  });

  it('are never written over unasked, and all are looked at before any is written', async () => {
    const files = { [small]: soundKit, 'b.pdf': 'mine' };
    const refused = await play(['cut', small, '-o', 'a.txt', '-o', 'b.pdf'], { files });
    expect(refused.code).toBe(3);
    expect(refused.stderr).toContain('--force');
    expect(refused.text('b.pdf')).toBe('mine');
    expect(refused.files.has('a.txt')).toBe(false);

    const forced = await play(['cut', small, '-o', 'b.pdf', '--force'], { files });
    expect(forced.code).toBe(0);
    expect(forced.text('b.pdf')).toMatch(/^%PDF/);
  });

  it('that can not be written leave the old file, with exit code 3', async () => {
    const ran = await play(['cut', small, '-o', 'full/a.pdf', '--force'], {
      files: { [small]: soundKit, 'full/a.pdf': 'old' },
      unwritable: { full: 'no space is left on the disk' },
    });
    expect(ran.code).toBe(3);
    expect(ran.stderr).toContain('no space is left on the disk');
    expect(ran.text('full/a.pdf')).toBe('old');
  });

  it('never take the place of what is read', async () => {
    const ran = await play(['cut', 'kit.yaml', '--format', 'text', '-o', './kit.yaml', '--force']);
    expect(ran.code).toBe(3);
    expect(ran.text('kit.yaml')).toBe(soundKit);
  });

  it('are only named in a dry run, which ends as the run would', async () => {
    const dry = await play(['cut', small, '-o', 'd.pdf', '--dry-run']);
    expect(dry).toMatchObject({ code: 0, stdout: 'would write d.pdf\n' });
    expect(written(dry)).toEqual([]);
    const refused = await play(['cut', small, '-o', 'd.pdf', '--dry-run'], {
      files: { [small]: soundKit, 'd.pdf': 'mine' },
    });
    expect(refused.code).toBe(3);
    expect(refused.stderr).toContain('d.pdf');
    expect((await play(['cut', 'broken.yaml', '-o', 'd.pdf', '--dry-run'])).code).toBe(1);
  });

  it('are not written when something is wrong, unless --partial asks for what can be made', async () => {
    const files = { 'k.yaml': soundKit.replace('[12, 9] }', '[12, 9], count: 1 }') };
    const argv = ['cut', 'k.yaml', '--make', 'floor=30', '-o', 'x.txt'];
    const whole = await run(argv, { files });
    expect(whole.code).toBe(1);
    expect(whole.files.has('x.txt')).toBe(false);
    expect(whole.stderr).toContain('cut --partial');
    const partial = await run([...argv, '-o', 'x.pdf', '--partial'], { files });
    expect(partial.code).toBe(1);
    expect(partial.text('x.txt')).toContain('NOT AS ASKED');
    expect(partial.text('x.txt')).toContain('P04');
    // It was asked for already.
    expect(partial.text('x.txt') + partial.stderr).not.toContain('--partial');
    expect(partial.text('x.pdf')).toMatch(/^%PDF/);
  });

  it('are the same bytes whatever the terminal and the locale', async () => {
    const argv = ['cut', small, '-o', 'a.txt', '-o', 'a.pdf', '--effort', 'quick'];
    const one = await play(argv);
    const other = await play(argv, { environment: { LC_ALL: 'C', COLUMNS: '40', TZ: 'Asia/Tokyo' } });
    expect(other.text('a.txt')).toBe(one.text('a.txt'));
    expect(other.files.get('a.pdf')).toEqual(one.files.get('a.pdf'));
  });
});

describe('--json', () => {
  it.each([
    ['cut', ['cut', session, '--json', '--effort', 'quick']],
    ['count', ['count', session, '--json']],
    ['check', ['check', session, '--json']],
    ['cut', ['cut', 'broken.yaml', '--json']],
    ['count', ['count', 'broken.yaml', '--json']],
    ['check', ['check', 'broken.yaml', '--json']],
    ['failure', ['check', 'none.yaml', '--json']],
    ['failure', ['cut', '--nope', '--json']],
    ['convert', ['convert', '2 3/8 in', '2,5', '--json']],
    ['explain', ['explain', '--json']],
    ['explain', ['explain', 'C01', '--json']],
    ['new', ['new', '--json']],
    ['version', ['--version', '--json']],
  ])('gives one document of the schema %s: %j', async (name, argv) => {
    const { stdout, stderr } = await play(argv);
    expect(stderr).toBe('');
    const document = JSON.parse(stdout);
    expect(document).toMatchObject({ schema: `cardwright/${name}`, version: 1 });
    await validate(name, document);
  });

  it('names the files beside the document', async () => {
    const ran = await play(['cut', small, '--json', '-o', 'a.pdf']);
    expect(JSON.parse(ran.stdout).files).toEqual([{ path: 'a.pdf', written: true }]);
    expect(ran.files.has('a.pdf')).toBe(true);
  });

  it('says where each setting comes from', async () => {
    const settings = async (...argv: string[]) =>
      JSON.parse((await play([...argv, '--json'])).stdout).settings;
    expect((await settings('count', session, '--units', 'mm')).units).toEqual({
      value: 'mm',
      from: 'option',
    });
    expect((await settings('count', 'kit.yaml')).units).toMatchObject({ value: 'in', from: 'kit' });
  });
});

describe('input', () => {
  it('may come from standard input, whose faults are named so', async () => {
    expect((await play(['check', '-'], { stdin: soundKit })).code).toBe(0);
    const { stderr } = await play(['check', '-'], { stdin: brokenKit });
    expect(stderr).toContain('<stdin>:3:9: error');
    const uses = soundKit.replace('units: in', 'units: in\nuses: [shared/card-and-foam.yaml]');
    expect(await play(['check', '-'], { stdin: uses })).toMatchObject({ code: 0, stderr: '' });
  });

  it('may begin with a byte order mark and end its lines with CRLF', async () => {
    const plain = await play(['count', 'kit.yaml']);
    const files = { 'kit.yaml': `\ufeff${soundKit.replaceAll('\n', '\r\n')}` };
    expect((await run(['count', 'kit.yaml'], { files })).stdout).toBe(plain.stdout);
    const broken = { 'k.yaml': `\ufeff${brokenKit.replaceAll('\n', '\r\n')}` };
    const { stderr } = await run(['check', 'k.yaml'], { files: broken });
    expect(stderr).toContain('k.yaml:3:9: error');
    expect(stderr).toMatch(/^ *\| {9}\^{6}$/m);
  });

  it.each([
    ['an empty file', ''],
    ['bytes that are no text', new Uint8Array([0x89, 0x50, 0x4e, 0x47, 0, 1, 2, 255])],
    ['a tab', 'cardwright: kit\n\tunits: in\n'],
    ['an open quote', 'cardwright: kit\ntitle: "vine\n'],
    ['a list', '- 1\n- 2\n'],
    ['a deep nest', `cardwright: kit\ntitle: ${'['.repeat(100_000)}\n`],
    ['a duplicate key', 'cardwright: kit\nunits: in\nunits: mm\n'],
  ])('of %s is refused with a code and a place', async (_, bytes) => {
    const { code, stderr } = await run(['cut', 'k.yaml', '-o', 'x.pdf'], { files: { 'k.yaml': bytes } });
    expect(code).toBe(1);
    expect(stderr).toMatch(/^k\.yaml(:\d+:\d+)?: error [A-Z]\d\d: /m);
  });

  it('with paths of spaces and accents is named whole', async () => {
    const path = 'my tiles ü/kit 1.yaml';
    expect((await run(['check', path], { files: { [path]: soundKit } })).code).toBe(0);
    expect((await run(['check', path], { files: { [path]: brokenKit } })).stderr).toContain(
      `${path}:3:9: error`,
    );
  });
});

describe('text on the screen', () => {
  let wide: Record<number, string> = {};
  beforeAll(async () => {
    for (const columns of [40, 80, 200]) {
      const { stdout } = await play(['count', session], { environment: { COLUMNS: `${columns}` } });
      wide = { ...wide, [columns]: stdout };
    }
  });

  it.each([40, 80, 200])('of count keeps within %d columns', (columns) => {
    const lines = (wide[columns] ?? '').split('\n');
    expect(lines.length).toBeGreaterThan(20);
    expect(lines.filter((it) => [...it].length > columns)).toEqual([]);
  });

  it('follows the terminal before COLUMNS', async () => {
    const setting = { terminal: { stdout: true, columns: 40 }, environment: { COLUMNS: '200' } };
    expect((await play(['count', session], setting)).stdout).toBe(wide[40]);
  });

  it('is ASCII where no more is promised', async () => {
    const folded = `cardwright: kit
units: mm
materials: { board: { thickness: 1.5 } }
sheets: { board: [{ size: A3 }] }
tiles:
  box:
    footprint: none
    parts:
      lid: { of: board, folds: { tray: [60, 40], high: 12, tab: 8 } }
      duct: { of: board, folds: { panels: [20, 10, 20], angles: [90, { rise: 3, run: 4 }], width: 60, tab: 6 } }
      leaf with a long name: { of: board, size: [20, 3.3] }
  kiosk:
    footprint: [60, 40]
    parts: { wall: { of: board, size: [rest, 30] }, leaf: { of: board, size: [3, 4] } }
    build: { frame: { front: wall, right: wall, back: wall, left: wall }, corners: fold }
`;
    const signs: readonly (readonly [readonly string[], RegExp])[] = [
      [['count', session], / x /],
      [['cut', session, '--effort', 'quick'], / x /],
      [['check', session], / x /],
      [['explain'], /E01/],
      [['count', 'folded.yaml'], / x /],
      [['check', 'folded.yaml'], / x /],
      [['cut', 'folded.yaml', '--effort', 'quick'], /a tray of 60 x 40 x 12 outside/],
      [['cut', 'folded.yaml', '--effort', 'quick'], /folds to walls of 60 \(front\)/],
      [['convert', '--twin', 'folded.yaml'], /xxyxz, exact[\s\S]*60x40x30 +60 x 40 x 30/],
      [['convert', '--twin', session], /envelope 76.2 x 76.2 x 38.1/],
      [['convert', '--round', '1mm', 'folded.yaml'], /\.\.\.\S.*3\.3 +3.3 +3 +-0.3/],
    ];
    for (const [argv, sign] of signs) {
      const { stdout, stderr } = await play(argv, {
        files: { ...demo, 'folded.yaml': folded },
        environment: { LC_ALL: '', LC_CTYPE: '', LANG: 'C' },
      });
      expect(`${stdout}${stderr}`).toMatch(sign);
      expect(`${stdout}${stderr}`.match(/[^\x00-\x7f]+/g) ?? []).toEqual([]);
    }
  });
});

describe('a folder that is missing', () => {
  it('is named, with the way to make it', async () => {
    const { stderr, code } = await play(['cut', small, '-o', "my sheets/o'clock/x.pdf"]);
    expect(code).toBe(3);
    expect(stderr).toContain(`there is no folder "my sheets/o'clock"`);
    expect(stderr).toContain(`mkdir -p 'my sheets/o'\\''clock'`);
  });
});

describe('convert', () => {
  it('gives no answer where an argument is not understood, since it may belong to its neighbour', async () => {
    const { stdout, stderr, code } = await run(['convert', '3', 'apples']);
    expect([code, stdout]).toEqual([1, '']);
    expect(stderr).toContain('M02');
  });

  it('says where measures below zero go', async () => {
    const refused = await run(['convert', '-1/4in']);
    expect([refused.code, refused.stdout]).toEqual([2, '']);
    expect(refused.stderr).toContain('cardwright convert -- -1/4in ');
    expect((await run(['convert', '--', '-1/4in'])).stdout).toContain('-6.35 mm');
  });

  it('answers in the other unit', async () => {
    const { stdout, code } = await run(['convert', '2 3/8"']);
    expect(code).toBe(0);
    // Source: 1 in = 25.4 mm exactly (UCUM [in_i]); 19/8 × 127/5 = 2413/40 mm, computed.
    expect(stdout).toContain('60.325 mm');
  });

  it('reads arguments that the shell took apart as one, and shows so', async () => {
    const { stdout } = await run(['convert', '2', '3/8', 'in']);
    expect(stdout).toContain('2 3/8 in');
    expect(stdout).toContain('60.325 mm');
  });

  it('gives a line of JSON for each line, to the end, whatever fails', async () => {
    const { stdout, code } = await run(['convert', '-', '--json'], { stdin: '2 3/8"\n2,5\n60 mm\r\n7' });
    const lines = stdout
      .trimEnd()
      .split('\n')
      .map((it) => JSON.parse(it));
    expect(code).toBe(1);
    expect(lines).toMatchObject([
      { input: '2 3/8"', mm: '2413/40', text: '60.325 mm' },
      { input: '2,5', error: { code: expect.stringMatching(/^M\d\d$/) } },
      { input: '60 mm', mm: '60' },
      { input: '7', error: {} },
    ]);
  });

  it('gives a text line for each, and names the lines that failed', async () => {
    const { stdout, stderr, code } = await run(['convert', '-'], { stdin: '1 in\nx\n\n2 in\n' });
    expect(code).toBe(1);
    expect(stdout.split('\n').filter((it) => it.includes(' mm'))).toHaveLength(2);
    expect(stderr).toContain('<stdin>:2:1: error');
  });
});

describe('new', () => {
  it('writes a kit that cuts as it stands', async () => {
    const { stdout } = await run(['new']);
    const { code, stderr } = await run(['cut', 'k.yaml', '-o', 'x.pdf', '-q'], {
      files: { 'k.yaml': stdout },
    });
    expect(stderr).toBe('');
    expect(code).toBe(0);
  });

  it('never writes over a file', async () => {
    const ran = await run(['new', 'k.yaml'], { files: { 'k.yaml': 'mine' } });
    expect(ran.code).toBe(3);
    expect(ran.text('k.yaml')).toBe('mine');
  });
});

describe('files that ask for nothing', () => {
  const shelf = { 'shelf.yaml': demo['shared/card-and-foam.yaml'] ?? '' };

  it('are not cut, with a code', async () => {
    const ran = await run(['cut', 'shelf.yaml', '-o', 'x.pdf'], { files: shelf });
    expect([ran.code, ran.stdout, [...ran.files.keys()]]).toEqual([2, '', ['shelf.yaml']]);
    expect(ran.stderr).toContain('shelf.yaml: error C29: "shelf.yaml" asks for nothing to be cut');
    expect((await run(['cut', '-'], { stdin: shelf['shelf.yaml'] })).stderr).toContain('<stdin>: error C29');
  });

  it('may be checked', async () => {
    const { code, stdout } = await run(['check', 'shelf.yaml'], { files: shelf });
    expect([code, stdout]).toEqual([0, 'ok  no tiles and no loose parts here\n']);
  });
});

describe('the work that a count tells', () => {
  const floors = (count: number): string =>
    `cardwright: session\nunits: in\nmaterials: { card: { thickness: 1/16 } }\nsheets: { card: [{ size: [16, 12] }] }\nloose: { floor: { of: card, size: [3, 3], count: ${count} } }\n`;
  const listed = async (text: string, ...options: readonly string[]) =>
    run(['count', 's.yaml', ...options], { files: { 's.yaml': text } });

  const sheetsIn = (ran: Ran, pick: (result: { materials: { sheets: number }[] }) => number[]): number[] =>
    pick(JSON.parse(ran.stdout).result);

  it('is there for an evening; where it is proved to be the best, it is what cut does', async () => {
    const some = await listed(floors(20));
    expect(some.stdout).toMatch(/^area: \d+% used, \d+% kept, \d+% lost$/m);
    expect((await listed(floors(20), '--work')).stdout).toBe(some.stdout);
    const cut = await run(['cut', 's.yaml', '--json'], { files: { 's.yaml': floors(20) } });
    const counted = JSON.parse((await listed(floors(20), '--json')).stdout).result.work.materials;
    expect(counted.map((it: { sheets: number }) => it.sheets)).toEqual(
      sheetsIn(cut, ({ materials }) => materials.map(({ sheets }) => sheets)),
    );
  });

  it('says where a search may do better, and is the layout of the effort that is named', async () => {
    const { code, stdout } = await play(['count', session]);
    expect(code).toBe(0);
    const { result, settings } = JSON.parse((await play(['count', session, '--json'])).stdout);
    const isProved = result.work.toBuy.every(({ proof }: { proof: string }) => proof === 'fewest');
    expect([isProved, stdout.endsWith('count --work searches as cut does\n')]).toContain(true);
    expect(settings.effort.value.name).toBe('normal');
    const quick = await play(['count', session, '--effort', 'quick']);
    expect(quick.stdout).toBe(stdout.replace(/\nlaid out without much of a search: .*\n$/, ''));
  });

  it('is asked for where there is more than an evening has: that is said', async () => {
    const many = await listed(floors(1001));
    expect([many.code, many.stderr]).toEqual([0, '']);
    expect(many.stdout).not.toContain('area:');
    expect(many.stdout).toMatch(/count --work lays it all out\n$/);
    expect(JSON.parse((await listed(floors(1001), '--json')).stdout).result.work).toBeNull();
    expect((await listed(floors(1001), '--work')).stdout).toContain('area:');
  });

  it('is left out where not all can be cut: the list stands', async () => {
    const short = floors(4).replace('[3, 3]', '[30, 3]');
    const { code, stdout, stderr } = await listed(short);
    expect([code, stderr]).toEqual([0, '']);
    expect(stdout).toMatch(/count --work says why\n$/);
    const asked = await listed(short, '--work');
    expect([asked.code, asked.stdout]).toEqual([1, '']);
    expect(asked.stderr).toMatch(/error P\d\d/);
  });
});
