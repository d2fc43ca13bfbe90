import { describe, expect, it } from 'vitest';
import { explainPage } from '../../src/cli/explain/index.ts';
import type { Example } from '../../src/cli/explainPage.ts';
import { type Code, catalogue } from '../../src/model/index.ts';
import { type Ran, run, type Setting } from './memoryWorld.ts';

const codes = Object.keys(catalogue) as readonly Code[]; // its keys are what `Code` is made of

/** An example of a page, run as it says in a folder that holds its files alone. */
async function play({ files: given, before = [], run: argv, stdin, meanwhile }: Example): Promise<Ran> {
  let files: Readonly<Record<string, string | Uint8Array>> = given;
  for (const earlier of before) {
    const ran = await run(earlier, { files });
    expect(ran.code, ran.stderr).toBe(0);
    files = Object.fromEntries(ran.files);
  }
  const setting: Setting = {
    files,
    ...(stdin === undefined ? {} : { stdin }),
    ...(meanwhile === 'Ctrl-C is pressed' ? { signal: 'SIGINT' } : {}),
    ...(meanwhile === 'the process is asked to end' ? { signal: 'SIGTERM' } : {}),
    ...(meanwhile === 'a fault of our own' ? { bug: true } : {}),
    ...(meanwhile === 'standard output is a terminal' ? { terminal: { stdout: true } } : {}),
    ...(meanwhile === 'standard output is full' ? { full: true } : {}),
    ...(meanwhile === 'an editor saves the file' ? { savedMeanwhile: editedIn(given) } : {}),
  };
  return run(argv, setting);
}

/** Every file with a remark more, as an editor would leave it. */
function editedIn(files: Example['files']): Readonly<Record<string, string>> {
  return Object.fromEntries(Object.entries(files).map(([path, text]) => [path, `${text}# saved\n`]));
}

interface Said {
  readonly errors: readonly string[];
  readonly all: readonly string[];
}

function saidBy({ stderr, stdout }: Ran): Said {
  const written = [...stderr.matchAll(/: (error|warning|note) ([A-Z]\d\d): /g)];
  const inJson: readonly { severity: string; code: string }[] = stdout.startsWith('{\n')
    ? (JSON.parse(stdout).diagnostics ?? [])
    : [];
  const said = [
    ...written.map(([, severity = '', code = '']) => ({ severity, code })),
    ...inJson.map(({ severity, code }) => ({ severity: severity === 'fatal' ? 'error' : severity, code })),
  ];
  return {
    errors: said.filter(({ severity }) => severity === 'error').map(({ code }) => code),
    all: said.map(({ code }) => code),
  };
}

/** What can't be said without another fault that it is about. */
const causes: Partial<Record<string, string>> = { N02: 'F01' };

describe('each code', () => {
  it.each(codes)(
    '%s: its failing example says so and nothing worse, its mended one does not',
    async (code) => {
      const failing = await play((await explainPage(code)).failing);
      const failed = saidBy(failing);
      expect(failed.all, failing.stderr).toContain(code);
      expect(
        failed.errors.filter((it) => it !== code && it !== causes[code]),
        failing.stderr,
      ).toEqual([]);

      const mended = await play((await explainPage(code)).mended);
      const said = saidBy(mended);
      expect(said.all, mended.stderr).not.toContain(code);
      expect(said.errors, mended.stderr).toEqual([]);
      expect(mended.code, mended.stderr).toBe(0);
    },
  );

  it.each(codes)('%s has a page that can be read', async (code) => {
    const { stdout, code: end } = await run(['explain', code.toLowerCase()]);
    expect(end).toBe(0);
    expect(stdout).toContain(`${code}  ${catalogue[code].title}`);
    expect((await explainPage(code)).why).toMatch(/^\S.{20,}[.?!]$/s);
    for (const heading of ['Fails', 'Mended']) expect(stdout).toContain(`\n${heading}\n`);
  });

  it.each(codes)('%s is worded as its neighbours are', (code) => {
    expect(catalogue[code].title).toMatch(/^\S.*[^.]$/);
    expect(catalogue[code].title).not.toMatch(/to be written|invalid|oops|please/i);
  });
});

describe('explain', () => {
  it('lists all codes by room', async () => {
    const { stdout } = await run(['explain']);
    const listed = [...stdout.matchAll(/^ {2}([A-Z]\d\d) /gm)].map(([, code]) => code);
    expect([...listed].sort()).toEqual([...codes].sort());
    expect(stdout).toMatch(/^Measures$/m);
  });

  it('gives them as JSON', async () => {
    const { stdout } = await run(['explain', 'C01', '--json']);
    expect(JSON.parse(stdout)).toMatchObject({
      schema: 'cardwright/explain',
      codes: [{ code: 'C01', severity: 'fatal', page: { why: (await explainPage('C01')).why } }],
    });
  });
});
