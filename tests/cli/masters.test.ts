import { describe, expect, it } from 'vitest';
import { run } from './memoryWorld.ts';

const kit = `cardwright: kit
units: in
materials: { card: { thickness: 1/16 } }
sheets: { card: [{ size: [12, 9] }] }
masters:
  drain: { arched: { width: 1 1/2, sides: 2, rise: 1/2 } }
  cheek: { polygon: [[0, 0], [3, 0], [3, 1], [0, 2]] }
tiles:
  wall:
    footprint: none
    parts:
      left: { of: card, outline: { master: cheek } }
      right: { of: card, outline: { master: cheek, mirrored: yes }, count: 2 }
`;
const files = {
  'kit.yaml': kit,
  'plain.yaml': kit
    .replace(/masters:[\s\S]*?tiles/, 'tiles')
    .replace(/, outline: [^}]*\}/g, ', size: [3, 2]'),
};

async function codes(...argv: readonly string[]): Promise<readonly string[]> {
  const { stderr, code } = await run(['masters', ...argv], { files });
  return [`${code}`, ...[...stderr.matchAll(/error ([A-Z]\d\d)/g)].map(([, it]) => it!)];
}

describe('masters as text', () => {
  it('sets a compass with the error of each mark, and below the base says down', async () => {
    const flat = kit.replace('{ width: 1 1/2, sides: 2, rise: 1/2 }', '{ width: 3, sides: 1/8, rise: 7/16 }');
    const { stdout } = await run(['masters', 'flat.yaml', 'drain'], { files: { 'flat.yaml': flat } });
    // Worked out by hand: radius (1.5² + 0.4375²) / (2 x 0.4375) = 2.7902, 2 13/16 less 0.0223; its middle lies
    // 2.7902 below the crest at 0.5625, so 2.2277 down, 2 1/4 less 0.0223.
    expect(stdout.replace(/\s+/g, ' ')).toContain(
      'point at 1 1/2 along, 2 1/4 scant (-0.022) down; open to 2 13/16 scant (-0.022); from 3 along, 1/8 up',
    );
  });

  it('lists size, parts in both hands, offsets and compass steps', async () => {
    const { stdout, code } = await run(['masters', 'kit.yaml', '--pitch', '1 in'], { files });
    expect(code).toBe(0);
    expect(stdout).toMatch(/^drain, 1 1\/2 . 2 1\/2$/m);
    expect(stdout).toMatch(/1 . WA left .*left hand/);
    expect(stdout).toMatch(/2 . WA right .*right hand/);
    // Worked out by hand: the cheek's top falls by 1/3 in each inch: 2, 1 2/3 (1 11/16 less 0.0208), 1 1/3, 1.
    const rows = stdout
      .slice(stdout.indexOf('cheek,'))
      .split('\n')
      .map((it) => it.trim().replace(/ {2,}/g, ' | '));
    expect(rows).toContain('* 0 | 2');
    expect(rows).toContain('1 | 1 11/16 scant (-0.021)');
    expect(rows).toContain('2 | 1 5/16 full (+0.021)');
    expect(rows).toContain('* 3 | 1');
    // A segment of chord c and rise h has the radius (c² / 4 + h²) / 2h = (9/16 + 1/4) / 1 = 13/16.
    expect(stdout).toMatch(/open to 13\/16;/);
  });

  it('names the parts that a master is cut away from, though none is traced from it', async () => {
    const arch =
      '{ whole: { rectangle: [3, 4] }, cut away: { master: drain }, at: [3/4, 0], clearance: 1/32 }';
    const vault = kit.replace(
      'left: { of: card, outline: { master: cheek } }',
      `left: { of: card, outline: ${arch} }`,
    );
    const { stdout } = await run(['masters', 'a.yaml', 'drain'], { files: { 'a.yaml': vault } });
    expect(stdout).toContain('Nothing is traced from it; it is part of the drawing of WA left.');
    const idle = await run(['masters', 'kit.yaml', 'drain'], { files });
    expect(idle.stdout).toContain('No part of this batch is traced from it.');
  });

  it('lists what is made as often as it fits, with the most that is asked for', async () => {
    const scraps = kit.replace(
      'count: 2 }',
      'count: 2 }\n      chip: { of: card, outline: { master: drain }, count: as fits up to 12 }',
    );
    const loose = 'loose: { bit: { of: card, outline: { master: drain }, count: as fits } }\n';
    const session = `${scraps.replace(': kit', ': session')}${loose}make: { wall: 3 }\n`;
    const given = { files: { 's.yaml': session } };
    const { stdout } = await run(['masters', 's.yaml', 'drain'], given);
    // Up to 12 for each of three tiles.
    expect(stdout).toMatch(/^ +as many as fit, up to 36: WA chip \(chip of wall\), of card$/m);
    expect(stdout).toMatch(/^ +as many as fit: bit, of card$/m);
    const { result } = JSON.parse((await run(['masters', 's.yaml', 'drain', '--json'], given)).stdout);
    expect(
      result.masters[0].parts.map(({ label, count, asFits }: Record<string, unknown>) => [
        label,
        count,
        asFits,
      ]),
    ).toEqual([
      ['WA chip', 0, { most: 36 }],
      ['bit', 0, { most: null }],
    ]);
  });

  it('counts holes that are traced from a master', async () => {
    const holed = kit.replace(
      '{ of: card, outline: { master: cheek } }',
      '{ of: card, size: [6, 4], cuts: [{ hole: { master: drain }, bottom: 1/2 }, { hole: { circle: 1/4 }, top: 1/4 }] }',
    );
    const { stdout, code } = await run(['masters', 'kit.yaml', 'drain'], { files: { 'kit.yaml': holed } });
    expect(code).toBe(0);
    expect(stdout).toMatch(/a hole in each of 1 . WA left/);
  });

  it('of one name leaves the others out', async () => {
    const { stdout } = await run(['masters', 'kit.yaml', 'cheek'], { files });
    expect(stdout).not.toMatch(/drain/);
  });

  it('fits 40 columns', async () => {
    const { stdout } = await run(['masters', 'kit.yaml'], { files, environment: { COLUMNS: '40' } });
    for (const line of stdout.split('\n')) expect([...line].length, line).toBeLessThanOrEqual(40);
  });
});

describe('masters as files', () => {
  it('go to a PDF and a folder, and over nothing unasked', async () => {
    const argv = ['masters', 'kit.yaml', '-o', 'm.pdf', '-o', 'svg/'];
    const first = await run(argv, { files });
    expect(first.code).toBe(0);
    const names = [...first.files.keys()].filter((it) => !it.endsWith('.yaml')).sort();
    expect(names).toEqual([
      'm.pdf',
      'svg/master-1.svg',
      'svg/master-2.svg',
      'svg/page-1.svg',
      'svg/page-2.svg',
    ]);
    const again = await run(argv, { files: Object.fromEntries(first.files) });
    expect(again.code).toBe(3);
    expect(again.stderr).toMatch(/C41/);
    const forced = await run([...argv, '--force'], { files: Object.fromEntries(first.files) });
    expect(forced.code).toBe(0);
    expect(forced.files.get('m.pdf')).toEqual(first.files.get('m.pdf'));
  });

  it('in a dry run are only named', async () => {
    const { files: left, stdout } = await run(['masters', 'kit.yaml', '-o', 'm.pdf', '--dry-run'], { files });
    expect(stdout).toMatch(/m\.pdf/);
    expect(left.has('m.pdf')).toBe(false);
  });
});

describe('what is asked amiss', () => {
  it.each<readonly [readonly string[], readonly string[]]>([
    [
      ['kit.yaml', 'chek'],
      ['2', 'C30'],
    ],
    [['plain.yaml'], ['1', 'C31']],
    [
      ['kit.yaml', '--bar', 'across=0mm'],
      ['2', 'C32'],
    ],
    [
      ['kit.yaml', '--bar', 'across=94.9mm'],
      ['2', 'C32'],
    ],
    [
      ['kit.yaml', '--bar', 'across=99mm', '--bar', 'across=99mm'],
      ['2', 'C32'],
    ],
    [
      ['kit.yaml', '--bar', 'acros=99mm'],
      ['2', 'C32'],
    ],
    [
      ['kit.yaml', '--bar', '99mm'],
      ['2', 'C32'],
    ],
    [
      ['kit.yaml', '--bar', 'up=99'],
      ['2', 'C32'],
    ],
    [
      ['kit.yaml', '--bar', 'up=-99mm', '--pitch', '0in'],
      ['2', 'C32', 'C33'],
    ],
    [
      ['kit.yaml', '--pitch', '1/4'],
      ['2', 'C33'],
    ],
    [
      ['kit.yaml', '--pitch', '0.001mm'],
      ['2', 'C33'],
    ],
    [
      ['kit.yaml', '--pages', '2'],
      ['2', 'C23'],
    ],
    [
      ['kit.yaml', '-o', 'm.pdf', '--pages', '9'],
      ['2', 'C24'],
    ],
    [
      ['kit.yaml', '-o', 'm.svg'],
      ['2', 'C25'],
    ],
    [
      ['kit.yaml', 'cheek', 'drain'],
      ['2', 'C09'],
    ],
  ])('%j is told as %j', async (argv, expected) => {
    expect(await codes(...argv)).toEqual(expected);
  });

  it('is not: a bar that is off by 5 mm, one in inches, a bare number with its unit', async () => {
    expect(await codes('kit.yaml', '--bar', 'up=95mm', '--bar', 'across=3 15/16in')).toEqual(['0']);
    expect(await codes('kit.yaml', '--bar', 'up=100.4', '--units', 'mm')).toEqual(['0']);
  });
});

describe('story sticks', () => {
  it('are printed behind the sheets, and want pages', async () => {
    const plain = await run(['cut', 'plain.yaml', '-o', 'a.svg', '-o', 'pages/', '--story-stick'], { files });
    expect(plain.stderr).toMatch(/C25/);
    const folder = await run(['cut', 'plain.yaml', '-o', 'pages/', '--story-stick'], { files });
    expect(folder.code).toBe(0);
    const last = [...folder.files.keys()]
      .filter((it) => it.startsWith('pages/page'))
      .sort()
      .at(-1)!;
    expect(folder.text(last)).toMatch(/story sticks, full size/);
    const text = await run(['cut', 'plain.yaml', '--story-stick'], { files });
    expect([text.code, /C34/.test(text.stderr)]).toEqual([2, true]);
  });
});
