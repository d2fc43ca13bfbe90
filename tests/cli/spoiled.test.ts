import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import { type Ran, run } from './memoryWorld.ts';

/**
 * Drawers, journals and jobs that were cut short, or edited by hand into nonsense: a clear fault, no crash, and not a
 * byte of what is there is changed by a run that fails.
 */

const session = `cardwright: session
units: in
materials: { card: { thickness: 1/16 } }
sheets: { card: [{ size: [16, 12] }] }
fittings: { disc magnet: { pack: 10 } }
loose:
  floor: { of: card, size: [3, 3], count: 22, takes: { disc magnet: 1 } }
  bit: { of: card, size: [1/2, 1/2], count: as fits up to 9 }
drawer: drawer.yaml
cutting: { worth keeping: [3, 2], effort: quick }
`;
const drawer = `cardwright: drawer
units: in
fittings: { disc magnet: 20 }
sheets: { card: [{ size: [16, 12], count: 2 }] }
offcuts:
  card:
    - { size: [8, 2], label: G1, count: 2 }  # bent
    - { size: [7, 4], thick: 1, where: shoe box }
`;
type Folder = Readonly<Record<string, string | Uint8Array>>;

async function after(files: Folder, ...commands: readonly (readonly string[])[]): Promise<Folder> {
  let folder = files;
  for (const argv of commands) {
    const ran = await run(argv, { files: folder });
    expect(ran.code, ran.stderr).toBe(0);
    folder = Object.fromEntries(ran.files);
  }
  return folder;
}

const textIn = (files: Folder, path: string): string => {
  const it = files[path];
  return typeof it === 'string' ? it : new TextDecoder().decode(it);
};

/** Runs it on these files; a run that fails says so and leaves every one of them as it was. */
async function attacked(files: Folder, argv: readonly string[], about: string): Promise<Ran> {
  const ran = await run(argv, { files });
  expect([0, 1, 2, 3], `${about}: ${ran.stderr}`).toContain(ran.code);
  if (ran.code === 0) return ran;
  expect(ran.stderr, about).toMatch(/error [A-Z]\d\d: /u);
  expect([...ran.files.keys()].sort(), about).toEqual(Object.keys(files).sort());
  for (const path of Object.keys(files)) expect(ran.text(path), about).toBe(textIn(files, path));
  return ran;
}

describe('a drawer', () => {
  it('that is cut short at any character is changed rightly, or not at all', async () => {
    let changed = 0;
    for (let end = 0; end <= drawer.length; end++) {
      const files = { 'drawer.yaml': drawer.slice(0, end) };
      for (const change of [
        ['--add', 'card: 3 in x 2 in', '--label', 'N1'],
        ['--take', 'G1'],
      ]) {
        const ran = await attacked(files, ['drawer', 'drawer.yaml', ...change], `${end}`);
        if (ran.code !== 0) continue;
        changed++;
        const undone = await run(['drawer', 'drawer.yaml', '--undo'], {
          files: Object.fromEntries(ran.files),
        });
        expect(undone.text('drawer.yaml'), `${end}`).toBe(files['drawer.yaml']);
      }
    }
    expect(changed).toBeGreaterThan(30);
  }, 120_000);

  it.each([
    ['count: 2 }]', 'count: -2 }]'],
    ['count: 2 }]', 'count: 1/2 }]'],
    ['count: 2 }]', 'count: 2.5 }]'],
    ['count: 2 }]', 'count: [2] }]'],
    ['count: 2 }]', 'count: 99999999999999999999 }]'],
    ['[8, 2]', '[-8, 2]'],
    ['[8, 2]', '[8]'],
    ['[8, 2]', 'large'],
    ['size: [8, 2], ', ''],
    ['label: G1', 'lable: G1'],
    ['label: G1', 'label: [a]'],
    ['label: G1', 'label: G1, label: G2'],
    ['thick: 1', 'thick: -1'],
    ['disc magnet: 20', 'disc magnet: -1'],
    ['disc magnet: 20', 'disc magnet: many'],
    ['disc magnet: 20', 'disc magnet: 20, disc magnet: 21'],
    ['offcuts:', 'make:'],
    ['cardwright: drawer', 'cardwright: drawer 2'],
    ['cardwright: drawer', 'cardwright: kit'],
    ['units: in', 'units: [in'],
    [drawer, '\u0000'],
    [drawer, ''],
  ])('in which %j has become %j is told what is wrong', async (was, became) => {
    expect(drawer).toContain(was);
    const files = { 'drawer.yaml': drawer.replace(was, became), 'evening.yaml': session };
    for (const argv of [
      ['drawer', 'drawer.yaml', '--add', 'card: 3 in x 2 in'],
      ['cut', 'evening.yaml'],
    ]) {
      expect((await attacked(files, argv, became)).code).not.toBe(0);
    }
  });

  it.each([
    ['with a byte order mark', (text: string) => `\ufeff${text}`],
    ['with line ends of another system', (text: string) => text.replaceAll('\n', '\r\n')],
    ['with both', (text: string) => `\ufeff${text.replaceAll('\n', '\r\n')}`],
    ['without a line end behind it', (text: string) => text.trimEnd()],
    ['with remarks at both ends', (text: string) => `# mine\n\n${text}# the end`],
  ])('%s is changed in place, and back to the byte', async (_, of) => {
    const files = { 'drawer.yaml': of(drawer) };
    for (const change of [
      ['--add', 'card: 3 x 2'],
      ['--take', 'G1'],
      ['--add', 'card: 24 x 12 x 2', '--uncut'],
      ['--add', 'nail', '--fitting'],
    ]) {
      const ran = await run(['drawer', 'drawer.yaml', ...change], { files });
      expect(ran.code, ran.stderr).toBe(0);
      expect(ran.text('drawer.yaml')).toContain('# bent');
      const undone = await run(['drawer', 'drawer.yaml', '--undo'], { files: Object.fromEntries(ran.files) });
      expect(Buffer.from(undone.files.get('drawer.yaml') ?? [])).toEqual(Buffer.from(files['drawer.yaml']));
    }
  });
});

describe('a job', () => {
  let files: Folder = {};
  let text = '';

  beforeAll(async () => {
    files = await after(
      { 'evening.yaml': session, 'drawer.yaml': drawer },
      ['cut', 'evening.yaml', '--job', 'job.json'],
      ['job', 'job.json', '--cut', 'card 1'],
      ['recut', 'job.json', 'floor'],
      ['job', 'job.json', '--put-away'],
      ['job', 'job.json', '--cut', 'all'],
    );
    text = textIn(files, 'job.json');
  });

  const commands = [
    ['job', 'job.json'],
    ['job', 'job.json', '--put-away'],
    ['job', 'job.json', '--undo'],
    ['recut', 'job.json', 'floor'],
    ['cut', 'evening.yaml', '--job', 'job.json', '--resume', '-o', 'next.txt'],
  ];

  it('that is cut short anywhere is none', async () => {
    const ends = fc.integer({ min: 0, max: text.trimEnd().length - 1 });
    const property = fc.asyncProperty(ends, fc.constantFrom(...commands), async (end, argv) => {
      const ran = await attacked({ ...files, 'job.json': text.slice(0, end) }, argv, `${end}`);
      expect([ran.code, ran.stderr]).toEqual([1, expect.stringContaining('error K20')]);
    });
    await fc.assert(property, { numRuns: 60 });
  });

  it('whose events were edited into nonsense is told so, or says what it says', async () => {
    const document: Readonly<Record<string, unknown>> = JSON.parse(text);
    const places = [...placesIn(document.events)].filter((it) => it.length > 0);
    const nonsense = fc.constantFrom(null, true, -1, 0, 1.5, 999_999_999, '', 'x', '1/0', '-5', [], {}, gone);
    const property = fc.asyncProperty(
      fc.constantFrom(...places),
      nonsense,
      fc.constantFrom(...commands),
      async (place, value, argv) => {
        const events = withPlace(document.events, place, value);
        const about = `${place.join('.')}: ${JSON.stringify(value)} ${argv.join(' ')}`;
        await attacked({ ...files, 'job.json': JSON.stringify({ ...document, events }) }, argv, about);
      },
    );
    await fc.assert(property, { numRuns: 400 });
  }, 120_000);

  it.each([
    [
      'a sheet that there is not',
      (it: Events) => [...it, { kind: 'cut', sheets: [{ material: 'card', number: 99 }] }],
    ],
    [
      'a material that there is not',
      (it: Events) => [{ kind: 'cut', sheets: [{ material: 'lead', number: 1 }] }, ...it],
    ],
    [
      'a part that there is not',
      (it: Events) => it.map((one) => (one.kind === 'recut' ? { ...one, label: 'roof' } : one)),
    ],
    ['a sheet that is cut twice', (it: Events) => [...it, ...it.filter(({ kind }) => kind === 'cut')]],
    [
      'a sheet that is put away and not cut',
      (it: Events) => [
        { kind: 'put away', entry: 1, sheets: [{ material: 'card', number: 1 }] },
        ...it.filter(({ kind }) => kind !== 'cut'),
      ],
    ],
    [
      'more sheets than pieces',
      (it: Events) =>
        it.map((one) =>
          one.kind === 'recut'
            ? { ...one, pictures: one.pictures?.map((of) => ({ ...of, times: 999_999_999 })) }
            : one,
        ),
    ],
    [
      'more pieces than can be asked for',
      (it: Events) => it.map((one) => (one.kind === 'recut' ? { ...one, count: 1_000_000 } : one)),
    ],
  ])('that tells of %s is not believed', async (_, edit) => {
    const document = JSON.parse(text);
    const edited = { ...files, 'job.json': JSON.stringify({ ...document, events: edit(document.events) }) };
    for (const argv of commands)
      expect((await attacked(edited, argv, argv.join(' '))).stderr).toContain('error K22');
  });

  it('says where it is amiss, what stands there and what is wanted, in words of its own', async () => {
    const told = async (edited: string): Promise<string> =>
      (await run(['job', 'job.json'], { files: { ...files, 'job.json': edited } })).stderr;
    // The lines are counted by hand in what is written here.
    const short = '{\n  "schema": "cardwright/job",\n  "version": 1,\n  "events": [1 2]\n}\n';
    expect(await told(short)).toContain(
      'job.json:4:16: error K20: "job.json" is not a job: its JSON is cut short',
    );
    expect(await told(short.replace('1 2', '{ "kind": "cut" }'))).toContain(
      'job.json:1:1: error K22: "job.json" is not as it was written: "diagnostics" is missing',
    );
    expect(await told(short.replace('job",', 'cut",').replace('1 2', ''))).toContain(
      'it says that it is cardwright/cut',
    );
    const whole = text.replace(/"events": \[\n\s+\{\n\s+"kind": "cut"/u, (it) =>
      it.replace('"cut"', '"burnt"'),
    );
    const line = whole.slice(0, whole.indexOf('"burnt"')).split('\n').length;
    const column = whole.split('\n')[line - 1]?.indexOf('"burnt"') ?? 0;
    const burnt = await told(whole);
    expect(burnt).toContain(`job.json:${line}:${column + 1}: error K22`);
    expect(burnt).toContain('"events.0.kind" can\'t be "burnt"');
    const list = text.replace(/"events": \[.*\]\n\}/su, '"events": {}\n}');
    expect(await told(list)).toContain('"events" should be a list, found {}');
  });

  it('of a newer format, or whose kit changed, says so', async () => {
    const document = JSON.parse(text);
    const newer = { ...files, 'job.json': JSON.stringify({ ...document, version: 99 }) };
    for (const argv of commands) expect((await attacked(newer, argv, 'newer')).stderr).toContain('error K21');
    const edited = { ...files, 'evening.yaml': session.replace('count: 22', 'count: 23') };
    const { code, stderr } = await run(['job', 'job.json'], { files: edited });
    expect([code, stderr]).toEqual([0, expect.stringContaining('warning K23')]);
  });

  it('whose journal is damaged is neither put away nor undone', async () => {
    const journal = textIn(files, 'drawer.yaml.journal');
    const lines = journal.trimEnd().split('\n');
    expect(lines.length).toBe(1);
    for (let end = 1; end < journal.length - 1; end += 7) {
      const spoiled = { ...files, 'drawer.yaml.journal': journal.slice(0, end) };
      for (const argv of [
        ['job', 'job.json', '--put-away'],
        ['drawer', 'drawer.yaml', '--undo'],
      ]) {
        expect((await attacked(spoiled, argv, `${end}`)).stderr).toContain('error K42');
      }
    }
  });
});

describe('a session', () => {
  it.each(['make: { wal: 2 }', 'make: { wall: -2 }', 'make: { wall: 1/2 }', 'make: { wall: 2.5 }'])(
    'that says %s is refused',
    async (make) => {
      const text = `cardwright: session
units: in
materials: { card: { thickness: 1/16 } }
sheets: { card: [{ size: [16, 12] }] }
tiles: { wall: { footprint: none, parts: { face: { of: card, size: [3, 3] } } } }
${make}
`;
      for (const command of ['cut', 'count', 'check']) {
        const ran = await attacked({ 'evening.yaml': text }, [command, 'evening.yaml'], make);
        expect([ran.code, ran.stderr]).toEqual([1, expect.stringMatching(/^evening\.yaml:6:\d+: error /u)]);
      }
    },
  );
});

interface Event {
  readonly kind: string;
  readonly pictures?: readonly object[];
}
type Events = readonly Event[];

const gone = 'taken away';

type Path = readonly (string | number)[];

function* placesIn(value: unknown, path: Path = []): Generator<Path> {
  yield path;
  if (typeof value !== 'object' || value === null) return;
  for (const [key, it] of Object.entries(value))
    yield* placesIn(it, [...path, Array.isArray(value) ? Number(key) : key]);
}

function withPlace(value: unknown, [first, ...rest]: Path, put: unknown): unknown {
  if (first === undefined) return put;
  if (Array.isArray(value)) {
    return value.flatMap((it: unknown, i) => {
      if (i !== first) return [it];
      return rest.length === 0 && put === gone ? [] : [withPlace(it, rest, put)];
    });
  }
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(
    Object.entries(value).flatMap(([key, it]) => {
      if (key !== first) return [[key, it]];
      return rest.length === 0 && put === gone ? [] : [[key, withPlace(it, rest, put)]];
    }),
  );
}
