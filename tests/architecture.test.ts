import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, normalize, relative, sep } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';

/** Holds what DEVELOPERS.md says of rooms, by reading the imports of src. */

const root = fileURLToPath(new URL('..', import.meta.url));
const src = join(root, 'src');

/** The order of the pipeline; what stands in no room yet has its place kept. */
const order = [
  'model',
  'measure',
  'outline',
  'spec',
  'expand',
  'fit',
  'mend',
  'blank',
  'pack',
  'plan',
  'stock',
  'solid',
  'print',
  'checkUp.ts',
  'pipeline.ts',
  'cli',
];

const heavy: Readonly<Record<string, string>> = {
  yaml: 'spec',
  mathjs: 'spec',
  zod: 'print',
  pdfkit: 'print',
  fflate: 'print',
  commander: 'cli',
  chalk: 'cli',
};

interface Import {
  readonly from: string;
  /** As written. */
  readonly names: string;
  readonly isTypeOnly: boolean;
  /** The file in src, or undefined for a package. */
  readonly file: string | undefined;
}

const files = readdirSync(src, { recursive: true, encoding: 'utf8' })
  .map((it) => it.split(sep).join('/'))
  .filter((it) => it.endsWith('.ts'))
  .sort();

const texts = new Map(files.map((file) => [file, readFileSync(join(src, file), 'utf8')]));
const imports = files.flatMap((file) => importsOf(file, texts.get(file) ?? ''));

function importsOf(file: string, text: string): readonly Import[] {
  const code = withoutComments(text);
  const statements = [
    ...code.matchAll(/^\s*(?:import|export)\s+(type\s+)?(?:[\w*\s{},$]+?\s+from\s+)?'([^']+)'/gm),
    ...code.matchAll(/\bimport\s*(\(\s*)'([^']+)'/g),
  ];
  return statements.map(([, type, names = '']) => ({
    from: file,
    names,
    isTypeOnly: type?.startsWith('type') ?? false,
    file: names.startsWith('.')
      ? toPosix(relative(src, normalize(join(src, dirname(file), names))))
      : undefined,
  }));
}

function toPosix(path: string): string {
  return path.split(sep).join('/');
}

function withoutComments(text: string): string {
  return text.replace(/\/\*[\s\S]*?\*\//g, '').replace(/(^|\s)\/\/.*$/gm, '$1');
}

function roomOf(file: string): string {
  return file.includes('/') ? (file.split('/')[0] ?? '') : file;
}

function told({ from, names }: Import): string {
  return `${from} imports ${names}`;
}

describe('rooms', () => {
  it('sees the imports at all', () => {
    expect(imports.length).toBeGreaterThan(200);
    expect(imports.some(({ names }) => names === 'yaml')).toBe(true);
    expect(imports.some(({ file }) => file === 'cli/commands/cut.ts')).toBe(true);
  });

  it('are those that the map names', () => {
    expect(files.map(roomOf).filter((it) => !order.includes(it))).toEqual([]);
  });

  it('import only from rooms before them', () => {
    const wrong = imports.filter(({ from, file }) => {
      if (file === undefined || roomOf(from) === roomOf(file)) return false;
      return order.indexOf(roomOf(file)) > order.indexOf(roomOf(from));
    });
    expect(wrong.map(told)).toEqual([]);
  });

  it("enter another room by its index only, or by a folder's within it", () => {
    const wrong = imports.filter(({ from, file }) => {
      if (file === undefined || roomOf(from) === roomOf(file) || roomOf(file) === file) return false;
      // Each page of `explain` is tied by its type to the room's part of the catalogue.
      if (from.startsWith('cli/explain/') && file.startsWith('model/catalogue/')) return false;
      return !file.endsWith('/index.ts');
    });
    expect(wrong.map(told)).toEqual([]);
  });

  it('import what exists', () => {
    const wrong = imports.filter(({ file }) => file !== undefined && !texts.has(file));
    expect(wrong.map(told)).toEqual([]);
  });

  it('have names that say what they hold', () => {
    const wrong = files.filter((it) => /(^|\/)(utils?|helpers?|common|misc|shared|lib)(\/|\.|$)/i.test(it));
    expect(wrong).toEqual([]);
  });
});

describe('libraries', () => {
  it.each(Object.entries(heavy))('%s is imported by one file at most, in %s/', (library, room) => {
    const users = imports.filter(({ names, isTypeOnly }) => isOf(names, library) && !isTypeOnly);
    const usersFiles = [...new Set(users.map(({ from }) => from))];
    expect(usersFiles.length, usersFiles.join(', ')).toBeLessThanOrEqual(1);
    expect(usersFiles.filter((it) => roomOf(it) !== room)).toEqual([]);
  });

  it('are only those that the map names', () => {
    const wrong = imports.filter(({ names, file, from }) => {
      if (file !== undefined || Object.keys(heavy).some((it) => isOf(names, it))) return false;
      return !(names.startsWith('node:') && roomOf(from) === 'cli');
    });
    expect(wrong.map(told)).toEqual([]);
  });

  it('reach no network', () => {
    const network = /^node:(?:https?|http2|net|tls|dgram|dns|inspector|child_process|worker_threads)$/;
    expect(imports.filter(({ names }) => network.test(names)).map(told)).toEqual([]);
    const calls = [...texts].filter(([, text]) =>
      /\b(?:fetch|WebSocket|XMLHttpRequest)\s*\(/.test(withoutComments(text)),
    );
    expect(calls.map(([file]) => file)).toEqual([]);
  });
});

function isOf(names: string, library: string): boolean {
  return names === library || names.startsWith(`${library}/`);
}

describe('phases', () => {
  const phases = [...texts].filter(([file]) => roomOf(file) !== 'cli');

  it.each([
    ['the clock', /\bDate\b|\bperformance\b|\bsetTimeout\b|\bsetInterval\b|\bsetImmediate\b/],
    ['chance', /\bMath\.random\b|\bcrypto\b/],
    ['the process', /\bprocess\.|\bglobalThis\b|\bconsole\./],
    ['the locale', /\btoLocale\w*\(|\blocaleCompare\(|\bIntl\./],
  ])('know nothing of %s', (_, pattern) => {
    const wrong = phases.filter(([file, text]) => !isWriter(file) && pattern.test(withoutComments(text)));
    expect(wrong.map(([file]) => file)).toEqual([]);
  });

  // They may differ in the last bit between machines; what is drawn is rounded, so print/ may have them.
  it('know no inexact functions before they print', () => {
    const inexact = /\bMath\.(?:exp|log|log2|log10|pow|sin|cos|tan|cbrt|expm1|log1p|sinh|cosh|tanh)\b/;
    const wrong = phases.filter(
      ([file, text]) => roomOf(file) !== 'print' && inexact.test(withoutComments(text)),
    );
    expect(wrong.map(([file]) => file)).toEqual([]);
  });

  it('wait for nothing', () => {
    const wrong = phases.filter(
      ([file, text]) => !isWriter(file) && /\bawait\b|\basync\b/.test(withoutComments(text)),
    );
    expect(wrong.map(([file]) => file)).toEqual([]);
  });
});

/** What makes bytes may wait for its library, and gives a PDF its fixed date. */
function isWriter(file: string): boolean {
  return file.startsWith('print/pdf/') || file === 'print/json/jsonSchema.ts';
}

describe('the checkers of layouts', () => {
  it.each(['pack/verify.ts', 'pack/verifyFilling.ts'])('%s shares no file with the packer', (checker) => {
    const seen = reachedFrom(checker);
    expect(texts.has(checker)).toBe(true);
    expect(
      seen.filter((it) => it.startsWith('pack/') && !it.startsWith('pack/verify') && it !== 'pack/faults.ts'),
    ).toEqual([]);
  });
});

function reachedFrom(start: string): readonly string[] {
  const seen = new Set<string>([start]);
  for (const file of seen) {
    for (const it of imports)
      if (it.from === file && it.file !== undefined && !it.isTypeOnly) seen.add(it.file);
  }
  return [...seen];
}

describe('the shape of the code', () => {
  it('exports by name only', () => {
    const wrong = [...texts].filter(([, text]) => /^export default/m.test(withoutComments(text)));
    expect(wrong.map(([file]) => file)).toEqual([]);
  });

  it('tells of no work of ours that is not done', () => {
    const wrong = [...texts].filter(([, text]) => /\b(?:TODO|FIXME|XXX)\b|'to be written'/i.test(text));
    expect(wrong.map(([file]) => file)).toEqual([]);
  });
});
