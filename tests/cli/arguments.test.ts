import { describe, expect, it } from 'vitest';
import { readArguments } from '../../src/cli/arguments.ts';
import { run, soundKit } from './memoryWorld.ts';

const files = { 'kit.yaml': soundKit };

/** The codes that a command line is refused with. */
async function refusal(...argv: string[]): Promise<readonly string[]> {
  const { code, stdout, stderr } = await run(argv, { files });
  expect(code).toBe(2);
  expect(stdout).toBe('');
  return [...stderr.matchAll(/error (C\d\d):/g)].map(([, it]) => it ?? '');
}

function request(...argv: string[]) {
  const { intent, diagnostics } = readArguments(argv);
  expect(diagnostics).toEqual([]);
  if (intent?.kind !== 'run') throw new Error('no run');
  return intent.request;
}

describe('--make', () => {
  it('is shown with the tile that was typed', async () => {
    const { stderr } = await run(['count', 'kit.yaml', '--make', 'dry wall'], { files });
    expect(stderr).toContain(`try   --make 'dry wall=1'`);
  });
});

describe('arguments', () => {
  it('takes no file for the value of an option before it', () => {
    expect(request('check', '--json', 'a.yaml').operands).toEqual(['a.yaml']);
    expect(request('count', '--units', 'mm', 'a.yaml').operands).toEqual(['a.yaml']);
    expect(request('cut', '--make', 'a=1', '--make=b=2', 'a.yaml')).toMatchObject({
      operands: ['a.yaml'],
      make: ['a=1', 'b=2'],
    });
    expect(request('cut', '-o', 'x.pdf', 'a.yaml', 'b.yaml', '-o', 'y.txt')).toMatchObject({
      operands: ['a.yaml', 'b.yaml'],
      output: ['x.pdf', 'y.txt'],
    });
  });

  it('takes what follows -- for files', () => {
    expect(request('check', '--', '-dash.yaml', '--json')).toMatchObject({
      operands: ['-dash.yaml', '--json'],
      json: false,
    });
  });

  it('takes options before the command', () => {
    expect(request('--units', 'mm', 'count', 'a.yaml')).toMatchObject({ units: 'mm', operands: ['a.yaml'] });
  });

  it('lets a measure below zero be a measure', () => {
    expect(request('convert', '-2').operands).toEqual(['-2']);
    expect(request('convert', '--', '-1/4in').operands).toEqual(['-1/4in']);
  });

  it('takes paper and the way it lies', () => {
    expect(request('cut', 'a.yaml', '--paper', 'A4', '--landscape')).toMatchObject({
      paper: 'a4',
      landscape: true,
    });
    expect(request('cut', 'a.yaml')).toMatchObject({ paper: undefined, landscape: false });
  });

  it.each([
    ['C01', ['chekc', 'kit.yaml']],
    ['C02', ['cut', '--nope', 'kit.yaml']],
    ['C02', ['cut', '-x', 'kit.yaml']],
    ['C03', ['cut', 'kit.yaml', '-o']],
    ['C04', ['cut', 'kit.yaml', '--units', 'cm']],
    ['C04', ['cut', 'kit.yaml', '--paper', 'a9']],
    ['C04', ['cut', 'kit.yaml', '--color', 'mauve']],
    ['C05', ['cut']],
    ['C06', ['check', 'kit.yaml', '-o', 'x.pdf']],
    ['C07', ['gauge', 'kit.yaml', 'mesh.stl']],
    ['C15', ['cut', 'kit.yaml', '-o', 'parts.csv']],
    ['C22', ['cut', 'kit.yaml', '-o', 'a.pdf', '--pages', '']],
    ['C22', ['cut', 'kit.yaml', '-o', 'a.pdf', '--pages', '1,']],
    ['C22', ['cut', 'kit.yaml', '-o', 'a.pdf', '--pages', '0']],
    ['C22', ['cut', 'kit.yaml', '-o', 'a.pdf', '--pages', '4-2']],
    ['C22', ['cut', 'kit.yaml', '-o', 'a.pdf', '--pages', 'first']],
    ['C23', ['cut', 'kit.yaml', '--pages', '1']],
    ['C24', ['cut', 'kit.yaml', '-o', 'a.pdf', '--pages', '1,7']],
    ['C09', ['schema', 'cut', 'count']],
    ['C10', ['check', '-', '-']],
    ['C11', ['count', 'kit.yaml', '--make', 'floor=1.5']],
    ['C11', ['count', 'kit.yaml', '--make', '=2']],
    ['C26', ['check', 'kit.yaml', '--with', 'card']],
    ['C26', ['check', 'kit.yaml', '--with', 'card=thin']],
    ['C26', ['check', 'kit.yaml', '--with', 'card=1.45']],
    ['C26', ['check', 'kit.yaml', '--with', 'card=0 mm']],
    ['C26', ['check', 'kit.yaml', '--with', '=1 mm']],
    ['C26', ['check', 'kit.yaml', '--with', 'card=1 mm', '--with', 'card=1 mm']],
    ['C28', ['check', '-', '--watch']],
    ['C12', ['cut', 'kit.yaml', '--ruler', '1/3mm/2']],
    ['C12', ['cut', 'kit.yaml', '--ruler', '2/3']],
    ['C12', ['cut', 'kit.yaml', '--ruler', '0']],
    ['C13', ['cut', 'kit.yaml', '--effort', '-1']],
    ['C14', ['cut', 'kit.yaml', '-o', 'sheets']],
    ['C15', ['cut', 'kit.yaml', '--format', 'csv']],
    ['C18', ['explain', 'Z99']],
    ['C19', ['schema', 'nothing']],
    ['C20', ['completion', 'tcsh']],
    ['C36', ['convert', 'kit.yaml', '60mm']],
  ])('refuses with %s: %j', async (code, argv) => {
    expect(await refusal(...argv)).toEqual([code]);
  });

  it('tells of every fault of a line at once', async () => {
    expect(await refusal('cut', '--nope', '--units', 'cm', '--rulre', '1/8')).toEqual(['C02', 'C02', 'C04']);
    expect(await refusal('cut', 'kit.yaml', '--ruler', '7', '--make', 'x', '-o', 'a.b')).toEqual(
      expect.arrayContaining(['C11', 'C12', 'C14']),
    );
  });

  it.each([
    [['chekc', 'kit.yaml'], 'did you mean "check"?'],
    [['cut', '--rulre', '1/16', 'kit.yaml'], 'did you mean "--ruler"?'],
    [['cut', '--efort=quick', 'kit.yaml'], 'did you mean "--effort"?'],
    [['count', 'kit.yaml', '--units', 'boht'], 'did you mean "both"?'],
    [['cut', 'kit.yaml', '--effort', 'quikc'], 'did you mean "quick"?'],
    [['schema', 'chek'], 'did you mean "check"?'],
  ])('guesses what %j was meant to be', async (argv, guess) => {
    expect((await run(argv, { files })).stderr).toContain(guess);
  });

  it('guesses nothing where nothing is near', async () => {
    expect((await run(['zzzzqqq'])).stderr).not.toContain('did you mean');
    expect((await run(['cut', '--zzzzqqq'])).stderr).not.toContain('did you mean');
  });

  it('gives a JSON document also when the line is not understood', async () => {
    const { code, stdout, stderr } = await run(['cut', '--nope', '--json']);
    expect(code).toBe(2);
    expect(stderr).toBe('');
    expect(JSON.parse(stdout)).toMatchObject({
      schema: 'cardwright/failure',
      version: 1,
      exitCode: 2,
      diagnostics: [{ code: 'C02' }],
    });
  });
});
