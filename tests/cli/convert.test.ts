import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { run } from './memoryWorld.ts';

const root = new URL('../../', import.meta.url);
const file = (path: string): string => readFileSync(new URL(path, root), 'utf8');
const demos = Object.fromEntries(
  [
    'specs/hillside.yaml',
    'specs/tram-stop.yaml',
    'shared/card-and-foam.yaml',
    'examples/vineyard.yaml',
    'examples/drawer.yaml',
    'examples/tram-stop.yaml',
  ].map((path) => [path, file(path)]),
);
const wall = `cardwright: kit
units: in
grid: { square: 3 }
materials: { greyboard: { thickness: 1/16 }, foam: { thickness: 1/2 } }
sheets: { greyboard: [{ size: [16, 12] }], foam: [{ size: [24, 12] }] }
tiles:
  wall:
    parts:
      face: { of: greyboard, size: [square, 1] }
      core: { of: foam, size: [square, 2 7/8], lies: yes }
    build: { along: [face, core, face] }
`;

describe('convert, as people type lengths', () => {
  // Each spelling, and what it is in exact millimetres: worked out by hand from 1 in = 25.4 mm.
  it.each([
    ['2 3/8"', '60.325'],
    ['2-3/8"', '60.325'],
    ['2⅜"', '60.325'],
    ['2 ⅜ in', '60.325'],
    ['2 3/8 in', '60.325'],
    ['2 3/8 inches', '60.325'],
    ['2 3/8 Inch', '60.325'],
    ['2.375"', '60.325'],
    ['2.375in', '60.325'],
    ['2 3/8″', '60.325'],
    ["2 3/8''", '60.325'],
    ['2 3/8”', '60.325'],
    ['2 3/8 IN.', '60.325'],
    ['2 3/8inch', '60.325'],
    ['19/8 in', '60.325'],
    ['.25"', '6.35'],
    ['½"', '12.7'],
    ['1 ½ in', '38.1'],
    ['2375 thou', '60.325'],
    ['1 ft', '304.8'],
    ["1'", '304.8'],
    ['1\' 2 3/8"', '365.125'],
    ['1\'-2 3/8"', '365.125'],
    ['1ft 2 3/8in', '365.125'],
    ['1 foot 2 inches', '355.6'],
    ['60.325mm', '60.325'],
    ['60.325 mm', '60.325'],
    ['6.0325 cm', '60.325'],
    ['0.060325 m', '60.325'],
    ['350 micron', '0.35'],
    ['350 µm', '0.35'],
    ['007 mm', '7'],
  ])('%s is %s mm', async (typed, millimetres) => {
    const { stdout, code } = await run(['convert', typed, '--to', 'mm']);
    expect(stdout.split('\n')[0]).toBe(`${typed} = ${millimetres} mm`);
    expect(code).toBe(0);
  });

  it('refuses line by line what could be two things, and converts the rest', async () => {
    const stdin = '1 in\n2,5 mm\n60 mil\n3/16ths\n2 in\n';
    const { stdout, stderr, code } = await run(['convert', '-'], { stdin });
    expect(stdout).toBe('1 in = 25.4 mm\n2 in = 50.8 mm\n');
    expect([...stderr.matchAll(/error (M\d\d)/g)].map(([, it]) => it)).toEqual(['M08', 'M04', 'M03']);
    expect(stderr).toContain('try   3/16 in');
    expect(code).toBe(1);
  });

  it('tells what it refuses in the order of the lines', async () => {
    const { stderr } = await run(['convert', '-'], { stdin: '3/8ths\nok\n1 in\n1.5pt\nhalf inch\n' });
    expect(
      [...stderr.matchAll(/<stdin>:(\d+):(\d+)/g)].map(([, line, column]) => `${line}:${column}`),
    ).toEqual(['1:4', '2:1', '4:4', '5:1']);
  });

  it('answers in feet and inches and in thousandths, several at once', async () => {
    const feet = await run(['convert', '2 ft', '3 in', '1 m', '--to', 'ft']);
    expect(feet.stdout).toContain('2 ft = 2\'\n3 in = 3"\n1 m = 3\' 3 47/127"\n');
    const thou = await run(['convert', '3/8 in', '60 mm', '--to', 'thou']);
    expect(thou.stdout).toContain('3/8 in = 375 thou\n');
    // Computed: 60 / 0.0254 = 2362.2047…
    expect(thou.stdout).toContain('60 mm on a 1 thou rule: 2362 thou full (+0.2)');
  });

  // Source: NIST SP 811, B.7.1: exactly half goes to the even digit. 3/4 in is 19.05 mm, 1/4 in is 6.35 mm.
  it('names its rounding rule, and takes halves to the even mark on request', async () => {
    const up = await run(['convert', '3/4 in', '--ruler', '0.1mm']);
    expect(up.stdout).toContain('half up');
    expect(up.stdout).toContain('19.1 mm scant (-0.05)');
    const even = await run(['convert', '3/4 in', '1/4 in', '--ruler', '0.1mm', '--half', 'even']);
    expect(even.stdout).toContain('half to even (NIST SP 811, B.7.1)');
    expect(even.stdout).toContain('19 mm full (+0.05)');
    expect(even.stdout).toContain('6.4 mm scant (-0.05)');
  });
});

describe('convert of whole files', () => {
  it('writes the kit to standard output, or to a file that is not there yet', async () => {
    const files = { 'kit.yaml': wall };
    const out = await run(['convert', 'kit.yaml'], { files });
    expect(out.stdout).toBe(
      wall
        .replace('units: in', 'units: mm')
        .replace('square: 3', 'square: 76.2')
        .replace('1/16', '1.5875')
        .replace('1/2', '12.7')
        .replace('[16, 12]', '[406.4, 304.8]')
        .replace('[24, 12]', '[609.6, 304.8]')
        .replace('[square, 1]', '[square, 25.4]')
        .replace('2 7/8', '73.025'),
    );
    const written = await run(['convert', 'kit.yaml', '-o', 'mm.yaml'], { files });
    expect(written.text('mm.yaml')).toBe(out.stdout);
    const again = { files: { ...files, 'mm.yaml': 'mine' } };
    const refused = await run(['convert', 'kit.yaml', '-o', 'mm.yaml'], again);
    expect([refused.code, refused.text('mm.yaml')]).toEqual([3, 'mine']);
    expect(refused.stderr).toContain('C41');
    const forced = await run(['convert', 'kit.yaml', '-o', 'mm.yaml', '--force'], again);
    expect(forced.text('mm.yaml')).toBe(out.stdout);
    const over = await run(['convert', 'kit.yaml', '-o', 'kit.yaml', '--force'], { files });
    expect([over.code, over.text('kit.yaml')]).toEqual([3, wall]);
    const dry = await run(['convert', 'kit.yaml', '-o', 'mm.yaml', '--dry-run'], { files });
    expect(dry.files.has('mm.yaml')).toBe(false);
  });

  it('keeps a byte order mark and line ends', async () => {
    const crlf = `\ufeff${wall.replaceAll('\n', '\r\n')}`;
    const { text } = await run(['convert', 'kit.yaml', '-o', 'mm.yaml'], { files: { 'kit.yaml': crlf } });
    expect(text('mm.yaml').startsWith('\ufeffcardwright: kit\r\nunits: mm\r\n')).toBe(true);
    expect(text('mm.yaml').replaceAll('\r\n', '')).not.toContain('\n');
  });

  it('rounds so that the kit still closes, where each size by itself would not', async () => {
    const files = { 'kit.yaml': wall };
    const { stdout, text, code } = await run(['convert', 'kit.yaml', '--round', '0.5mm', '-o', 'mm.yaml'], {
      files,
    });
    expect(code).toBe(0);
    expect(stdout).toContain('with each size rounded by itself, half up, "wall" would not stand');
    expect(stdout).toContain('largest drift 0.3 mm');
    const check = await run(['check', 'mm.yaml'], { files: { 'mm.yaml': text('mm.yaml') } });
    expect(check.code).toBe(0);
    const naive = wall
      .replace('units: in', 'units: mm')
      .replace('square: 3', 'square: 76')
      .replace('1/16', '1.5875')
      .replace('1/2', '12.7')
      .replace('[16, 12]', '[406.4, 304.8]')
      .replace('[24, 12]', '[609.6, 304.8]')
      .replace('[square, 1]', '[square, 25.5]')
      .replace('2 7/8', '73');
    const fallen = await run(['check', 'mm.yaml'], { files: { 'mm.yaml': naive } });
    expect(fallen.code).toBe(1);
  });

  it('names each size that was rounded by where it stands in the file that was read', async () => {
    const levels = wall.replace(
      'grid: { square: 3 }',
      'grid: { square: 3 }\nlevels: { low: 3/8, up: 1 1/8 }',
    );
    const round = ['--round', '0.5mm', '--material', 'foam=12 mm', '-o', 'mm.yaml'];
    const { stdout } = await run(['convert', 'kit.yaml', ...round], { files: { 'kit.yaml': levels } });
    const table = stdout.slice(stdout.indexOf('base size  '), stdout.indexOf('part  '));
    const named = [...table.matchAll(/^(\d+):(\d+) (.+?) {2,}/gm)].map(([, ...it]) => it);
    const lines = levels.split('\n');
    for (const [line, column, text = ''] of named) {
      const read = lines[Number(line) - 1] ?? '';
      expect(read.includes(text.replace('…', ''))).toBe(true);
      expect(read.indexOf(text.replace('…', '')) + text.replace('…', '').length).toBeGreaterThan(
        Number(column) - 1,
      );
    }
    expect(named).toContainEqual(['4', '16', 'levels: { low: 3/8']);
    expect(named).toContainEqual(['4', '25', 'levels: { low: 3/8, up: 1 1/8']);
  });

  it('prints tables that go by several inches or millimetres at a time', async () => {
    // Computed: 5 mm is 0.19685… in, 40 of them 200 mm; 2 in are 50.8 mm exactly.
    const mm = await run(['convert', '--table', '5mm']);
    expect(mm.stdout).toMatch(/^ *5 +~0\.1969 /m);
    expect(mm.stdout).toMatch(/^ *200 +~7\.8740 /m);
    const inches = await run(['convert', '--table', '2in', '--upto', '6']);
    expect(inches.stdout).toContain('Inches to millimetres');
    expect(inches.stdout).toMatch(/^ *2 .* 50\.8 /m);
    expect(inches.stdout).toMatch(/^ *6 .* 152\.4 /m);
  });

  it('says what lets a tile stand that was scaled without its boards', async () => {
    const files = { 'kit.yaml': wall };
    const refused = await run(['convert', 'kit.yaml', '--scale', '7/8'], { files });
    expect(refused.stderr).toContain('try   --boards scaled');
    expect(refused.stderr).toContain('--round STEP');
    for (const more of [
      ['--boards', 'scaled'],
      ['--round', '1/16'],
    ])
      expect((await run(['convert', 'kit.yaml', '--scale', '7/8', ...more], { files })).code).toBe(0);
  });

  it('writes nothing where no choice of sizes does', async () => {
    const files = { 'kit.yaml': wall };
    const ran = await run(['convert', 'kit.yaml', '--round', '1mm', '-o', 'mm.yaml'], { files });
    expect([ran.code, ran.files.has('mm.yaml')]).toEqual([1, false]);
    expect(ran.stderr).toContain('--round 0.5mm   does');
    const partial = await run(['convert', 'kit.yaml', '--round', '1mm', '--partial', '-o', 'mm.yaml'], {
      files,
    });
    expect([partial.code, partial.files.has('mm.yaml')]).toEqual([1, true]);
    expect(partial.stderr).toContain('N08');
  });

  it('tells a part that no longer fits its sheet', async () => {
    const lid = wall
      .replace('[24, 12]', '[3, 3]')
      .replace(
        /tiles:.*/su,
        'tiles: { lid: { footprint: none, parts: { top: { of: foam, size: [3, 3] } } } }\n',
      );
    const files = { 'kit.yaml': lid };
    // 3 in is 76.2 mm, and 76.25 mm to the nearest quarter: more than the sheet, which stays 76.2 mm.
    const up = await run(['convert', 'kit.yaml', '--round', '0.25mm', '-o', 'mm.yaml'], { files });
    expect([up.code, up.files.has('mm.yaml')]).toEqual([1, false]);
    expect(up.stderr).toContain('P01');
    expect((await run(['convert', 'kit.yaml', '--round', '1mm', '-o', 'mm.yaml'], { files })).code).toBe(0);
  });

  it.each([
    ['specs/hillside.yaml', 'mm', []],
    ['specs/hillside.yaml', 'mm', ['--round', '0.1mm']],
    ['specs/tram-stop.yaml', 'in', []],
    ['specs/tram-stop.yaml', 'in', ['--round', '1/64']],
  ] as const)('%s to %s %j is checked and cut', async (path, to, more) => {
    const out = `specs/${to}.yaml`;
    const ran = await run(['convert', path, '--to', to, ...more, '-o', out], { files: demos });
    expect([ran.code, ran.stderr]).toEqual([0, expect.any(String)]);
    const files = { ...demos, [out]: ran.text(out) };
    const check = await run(['check', out], { files });
    expect([check.code, check.stderr]).toEqual([0, '']);
    const cut = await run(['cut', out, '--effort', 'quick'], { files });
    expect(cut.code).toBe(0);
  });

  it('converts a session with its kit and its shelf into a folder, where they find each other', async () => {
    const files = { ...demos, 'mm/it.txt': '' };
    const named = [
      'examples/vineyard.yaml',
      'examples/drawer.yaml',
      'specs/hillside.yaml',
      'shared/card-and-foam.yaml',
    ];
    const ran = await run(['convert', ...named, '-o', 'mm/', '--to', 'mm'], { files });
    expect(ran.code).toBe(0);
    expect(ran.text('mm/vineyard.yaml')).toContain('uses: [hillside.yaml]');
    expect(ran.text('mm/hillside.yaml')).toContain('uses: [card-and-foam.yaml]');
    const all = Object.fromEntries(
      ['vineyard', 'drawer', 'hillside', 'card-and-foam'].map((it) => [
        `mm/${it}.yaml`,
        ran.text(`mm/${it}.yaml`),
      ]),
    );
    const [was, is] = [
      await run(['count', 'examples/vineyard.yaml', '--units', 'mm'], { files: demos }),
      await run(['count', 'mm/vineyard.yaml', '--units', 'mm'], { files: all }),
    ];
    expect(is.stdout).toBe(was.stdout);
    const alone = await run(['convert', ...named], { files });
    expect([alone.code, alone.stderr]).toEqual([2, expect.stringContaining('C37')]);
  });

  it.each([
    [['convert', 'kit.yaml', '--round', '0'], 'C35'],
    [['convert', 'kit.yaml', '--round', '0.5'], 'C35'],
    [['convert', 'kit.yaml', '--scale', '2 in'], 'C35'],
    [['convert', 'kit.yaml', '--material', 'foam'], 'C35'],
    [['convert', 'kit.yaml', '--to', 'thou'], 'C35'],
    [['convert', '--table', '0.3mm'], 'C35'],
    [['convert', '--table', '0'], 'a step is above zero'],
    [['convert', '--table', '-5'], 'a step is above zero'],
    [['convert', '--table', '5.5mm'], 'C35'],
    [['convert', '60mm', '--ruler', '0'], 'a step is above zero'],
    [['convert', '60mm', '--ruler', '0mm'], 'a step is above zero'],
    [['convert', 'kit.yaml', '--round', '0'], 'a step is above zero'],
    [['convert', 'kit.yaml', '--scale', '-1'], 'found "-1": it is below zero'],
    [['convert', 'kit.yaml', '--scale', '0'], 'nothing would be left'],
    [['convert', 'drawer.yaml', '--twin'], '"drawer.yaml" does not go with --twin: there is no tile in it'],
    [['convert', 'heap.yaml', '--twin'], 'none of the tiles that are made has a   build:'],
    [['convert', '--table', '1/16', '--upto', '9 m'], 'C35'],
    [['convert', 'kit.yaml', '--twin', '--clearance', 'roof=1'], 'C35'],
    [['convert', 'kit.yaml', '60mm'], 'C36'],
    [['convert', '60mm', '--round', '0.5mm'], 'C36'],
    [['convert', 'kit.yaml', '--table', '1/16'], 'C36'],
    [['convert', 'kit.yaml', '--origin', 'centre'], 'C36'],
    [['convert'], 'C05'],
    [['convert', '60mm', '--ruler', '0.3mm'], 'C12'],
  ])('%j is refused as %s', async (argv, expected) => {
    const drawer = 'cardwright: drawer\nunits: in\nsheets: { card: [{ size: [16, 12], count: 1 }] }\n';
    const heap = wall.slice(0, wall.indexOf('    build:'));
    const files = { 'kit.yaml': wall, 'drawer.yaml': drawer, 'heap.yaml': heap };
    const { stdout, stderr, code } = await run(argv, { files });
    expect(stderr).toContain(expected);
    expect([stdout, code]).toEqual(['', 2]);
  });
});
