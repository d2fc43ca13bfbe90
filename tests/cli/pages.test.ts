import { describe, expect, it } from 'vitest';
import { type Ran, run } from './memoryWorld.ts';

const kit = `cardwright: kit
units: in
grid: { square: 3 }
materials: { card: { thickness: 1/16 } }
sheets: { card: [{ size: [12, 9] }] }
print: { paper: A5 }
tiles:
  floor: { parts: { top: { of: card, size: [square, square] } } }
`;

const cut = (argv: readonly string[], files: Readonly<Record<string, string>> = {}): Promise<Ran> =>
  run(['cut', 'kit.yaml', ...argv], { files: { 'kit.yaml': kit, ...files } });

const written = ({ files }: Ran): readonly string[] =>
  [...files.keys()].filter((it) => it !== 'kit.yaml').sort();

describe('a folder of SVG', () => {
  it.each([
    ['by its slash', ['-o', 'sheets/'], {}],
    ['by --format', ['-o', 'sheets', '--format', 'svg'], {}],
  ])('is written %s', async (_, argv, files) => {
    const ran = await cut(argv, files);
    expect([ran.code, ran.stderr]).toEqual([0, expect.stringContaining('wrote sheets')]);
    expect(written(ran)).toEqual(['sheets/layout-1.svg', 'sheets/page-1.svg', 'sheets/page-2.svg']);
    expect(ran.text('sheets/page-1.svg')).toMatch(/^<\?xml version="1.0" encoding="UTF-8"\?>\n<svg /);
  });

  it('that holds pages is replaced with --force only, and then holds no old page', async () => {
    const before = { 'sheets/page-7.svg': '<svg/>' };
    const kept = await cut(['-o', 'sheets/'], before);
    expect(kept.code).toBe(3);
    expect(kept.stderr).toContain('error C41: ');
    expect(written(kept)).toEqual(['sheets/page-7.svg']);
    const replaced = await cut(['-o', 'sheets/', '--force'], before);
    expect(replaced.code).toBe(0);
    expect(written(replaced)).not.toContain('sheets/page-7.svg');
  });

  it('that holds anything else is left alone, with --force too', async () => {
    for (const more of [[], ['--force']]) {
      const ran = await cut(['-o', 'sheets/', ...more], { 'sheets/a.txt': 'mine' });
      expect(ran.code).toBe(3);
      expect(ran.stderr).toContain('error C45: ');
      expect(written(ran)).toEqual(['sheets/a.txt']);
    }
  });

  it('is not written where a file is, nor into a folder that is missing', async () => {
    expect((await cut(['-o', 'notes/'], { notes: 'mine' })).stderr).toContain('error C42: ');
    expect((await cut(['-o', 'none/sheets/'])).stderr).toContain('there is no folder "none"');
  });

  it('is not what a name with the ending of a file asks for', async () => {
    const ran = await cut(['-o', 'sheets.pdf'], { 'sheets.pdf/page-1.svg': '<svg/>' });
    expect([ran.code, ran.stderr]).toEqual([3, expect.stringContaining('error C42: ')]);
    expect(written(ran)).toEqual(['sheets.pdf/page-1.svg']);
  });

  it('is only named in a dry run', async () => {
    const ran = await cut(['-o', 'sheets/', '--dry-run']);
    expect([ran.code, ran.stdout]).toEqual([0, 'would write sheets/\n']);
    expect(written(ran)).toEqual([]);
  });

  it('is told of in the JSON document', async () => {
    const { stdout } = await cut(['-o', 'sheets/', '--json']);
    expect(JSON.parse(stdout).files).toEqual([{ path: 'sheets/', written: true }]);
  });
});

describe('--pages', () => {
  const pagesOf = (ran: Ran, path: string): number =>
    new TextDecoder('latin1').decode(ran.files.get(path)).match(/\/Type \/Page\b/g)?.length ?? 0;

  it.each([
    ['1', 1],
    ['2-', 1],
    ['1-2', 2],
    ['2,1', 2],
    [' 1 , 1-2 ', 2],
  ])('%j prints so many pages: %d', async (choice, count) => {
    const ran = await cut(['-o', 'a.pdf', '--pages', choice]);
    expect([ran.code, ran.stderr]).toEqual([0, expect.stringContaining('wrote a.pdf')]);
    expect(pagesOf(ran, 'a.pdf')).toBe(count);
  });

  it('leaves the numbers as they stand on the pages, and takes no layouts along', async () => {
    const ran = await cut(['-o', 'sheets/', '--pages', '2']);
    expect(written(ran)).toEqual(['sheets/page-2.svg']);
    expect(ran.text('sheets/page-2.svg')).toContain('page 2 of 2');
  });

  it('makes one page of one SVG file, on standard output too', async () => {
    const ran = await cut(['-o', 'second.svg', '--pages', '2']);
    expect(written(ran)).toEqual(['second.svg']);
    const piped = await cut(['--format', 'svg', '--pages', '2']);
    expect(piped.stdout).toBe(ran.text('second.svg'));
  });

  it.each([
    ['1-3', 'there is no page 3; the print has pages 1 to 2'],
    ['9', 'there is no page 9'],
    ['2-1', '"2-1" runs backwards'],
    ['', 'a number is missing'],
    ['1,,2', 'a number is missing'],
    ['0', 'the first page is 1'],
    ['-2', '"-2" is neither a page nor a run of pages'],
    ['all', '"all" is neither a page nor a run of pages'],
  ])('%j is refused as a wrong command line, and nothing is written: %s', async (choice, said) => {
    const ran = await cut(['-o', 'a.pdf', `--pages=${choice}`]);
    expect(ran.code).toBe(2);
    expect(ran.stderr).toContain(said);
    expect(written(ran)).toEqual([]);
  });

  it('without anything that has pages is refused', async () => {
    const ran = await cut(['-o', 'a.txt', '--pages', '1']);
    expect([ran.code, written(ran)]).toEqual([2, []]);
    expect(ran.stderr).toContain('text has none');
  });
});

describe('the pages of several forms', () => {
  it('are composed once: what is to say of them is said once', async () => {
    const files = { 'kit.yaml': kit.replace('floor:', 'floor 🌙:') };
    const { stderr } = await run(['cut', 'kit.yaml', '-o', 'a.pdf', '-o', 'sheets/'], { files });
    const said = stderr.match(/O20: .*/g) ?? [];
    expect(said.length).toBeGreaterThan(0);
    expect(new Set(said).size).toBe(said.length);
  });
});

describe('margins', () => {
  const boxes = async (...argv: readonly string[]) => {
    const ran = await cut(['-o', 'page.svg', '--pages', '1', ...argv]);
    const text = ran.text('page.svg') ?? '';
    return { ...ran, lefts: [...text.matchAll(/<text [^>]* x="([\d.]+)"/g)].map(([, x]) => Number(x)) };
  };

  it.each([
    ['10 mm where nothing is said', [], 10],
    ['what the command line says', ['--margin', '12.5mm'], 12.5],
    ['none at all', ['--margin', '0'], 0],
    // Source: NIST SP 811 (2008), Appendix B.8: 1 inch = 25.4 mm exactly.
    ['a bare number in the unit that is asked for', ['--units', 'in', '--margin', '1/4'], 6.35],
  ])('are %s', async (_, argv, margin) => {
    const { lefts, code } = await boxes(...argv);
    expect(code).toBe(0);
    expect(Math.min(...lefts)).toBeCloseTo(margin, 3);
  });

  it.each([
    ['8', 'error C38: ', '8 in or 8 mm?'],
    ['wide', 'error C38: ', 'no measure is written as "wide"'],
    ['-5mm', 'error C38: ', 'a margin is not below zero'],
    ['60mm', 'error O21: ', 'within its margins the paper leaves 28 × 90 mm'],
    ['90mm', 'error O21: ', 'within its margins the paper leaves nothing'],
  ])('of %s are refused', async (typed, code, why) => {
    const ran = await boxes(`--margin=${typed}`);
    expect(ran.code).toBeGreaterThan(0);
    expect(ran.stderr).toContain(code);
    expect(ran.stderr).toContain(why);
    expect(written(ran)).toEqual([]);
  });
});
