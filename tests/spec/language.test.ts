import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { expand } from '../../src/expand/index.ts';
import { readMeasure } from '../../src/measure/index.ts';
import { readSpec } from '../../src/spec/index.ts';
import { dividingWords, groundWords, takenByMeasures, takenWords } from '../../src/spec/sum/words.ts';
import { check, read } from './check.ts';

const page = readFileSync(new URL('../../specs/LANGUAGE.md', import.meta.url), 'utf8');

interface Block {
  readonly line: number;
  readonly isFaulty: boolean;
  readonly text: string;
}

const blocks: readonly Block[] = [...page.matchAll(/^```yaml(?<mood> faulty)?\n(?<text>.*?)^```$/gmsu)].map(
  (it) => ({
    line: page.slice(0, it.index).split('\n').length,
    isFaulty: it.groups?.mood !== undefined,
    text: it.groups?.text ?? '',
  }),
);

/** Whole files that say their name in a first remark, for others to use. */
const files = Object.fromEntries(
  blocks.flatMap(({ text }) => {
    const name = /^# (?<name>\S+\.yaml)\n/u.exec(text)?.groups?.name;
    return name === undefined ? [] : [[name, text]];
  }),
);

const isWhole = ({ text }: Block): boolean => /^cardwright:/mu.test(text);

describe('the blocks of the language page', () => {
  it('are found', () => {
    expect(blocks.length).toBeGreaterThan(20);
    expect(blocks.filter(({ isFaulty }) => isFaulty).length).toBeGreaterThan(8);
  });

  it.each(blocks.filter(({ isFaulty }) => isFaulty))(
    'line $line has the faults that are marked',
    ({ text }) => {
      check(text, files);
    },
  );

  it.each(blocks.filter((it) => !it.isFaulty && isWhole(it)))(
    'line $line is a file without a fault',
    ({ text }) => {
      const { value, diagnostics } = read(text, files);
      expect(diagnostics).toEqual([]);
      const isShelf = value?.files[0].kind === 'shelf';
      if (value !== undefined && !isShelf) expect(expand(value, {}).diagnostics).toEqual([]);
    },
  );

  it.each(blocks.filter((it) => !it.isFaulty && !isWhole(it)))(
    'line $line is a sound piece of a session',
    ({ text }) => {
      expect(read(`cardwright: session\nunits: in\n${text}`, files).diagnostics).toEqual([]);
    },
  );
});

describe('the page says it all', () => {
  it('gives measures that are worth what stands beside them', () => {
    const rows = page.split('\n').filter((it) => /^\| `/u.test(it));
    const start = rows.findIndex((it) => it.includes('`63.5 mm`'));
    const cells = rows
      .slice(start, start + 10)
      .flatMap((row) => [...row.matchAll(/`([^`]+)`/gu)].map(([, text]) => text ?? ''));
    expect(cells).toHaveLength(40);
    for (let i = 0; i < cells.length; i += 2) {
      const [written, is] = [cells[i] ?? '', cells[i + 1] ?? ''];
      expect([written, readMeasure(written)]).toEqual([written, readMeasure(is)]);
    }
  });

  /** Every key that a map takes, as the reader itself lists them. */
  const known = (text: string): readonly string[] =>
    (read(text).diagnostics[0]?.hints[0] ?? '').replace('known here: ', '').split(', ');
  const everywhere: readonly string[] = [
    'zzzzzzzz: 1',
    'grid: { zzzzzzzz: 1 }',
    'materials: { a: { zzzzzzzz: 1 } }',
    'sheets: { a: [{ zzzzzzzz: 1 }] }',
    'loose: { a: { zzzzzzzz: 1 } }',
    'tiles: { a: { zzzzzzzz: 1 } }',
    'cutting: { zzzzzzzz: 1 }',
    'cutting: { only: { a: { zzzzzzzz: 1 } } }',
    'cutting: { trim: { zzzzzzzz: 1 } }',
    'print: { zzzzzzzz: 1 }',
  ];

  it.each(everywhere)('names each key that is known in  %s', (text) => {
    const keys = known(`cardwright: session\n${text}\n`);
    expect(keys.length).toBeGreaterThan(3);
    for (const key of keys) expect(page).toContain(`\`${key}\``);
  });

  it('names each word that is kept', () => {
    for (const word of [...dividingWords, ...takenWords, ...takenByMeasures, ...groundWords]) {
      expect(page).toContain(`\`${word}\``);
    }
  });

  it('names just those keys as not built yet that are refused as such', () => {
    const section = page.slice(page.indexOf('## 18. Not built yet'), page.indexOf('## 19.'));
    const refused = (text: string): readonly string[] => read(text).diagnostics.map(({ code }) => code);
    const within: Readonly<Record<string, (key: string) => string>> = {
      files: (key) => `${key}: { a: 1 }`,
      materials: (key) => `materials: { a: { thickness: 1, ${key}: 1 } }`,
      sheets: (key) => `sheets: { a: [{ size: [1, 1], ${key}: 1 }] }`,
      parts: (key) => `loose: { a: { ${key}: 1 } }`,
      tiles: (key) => `tiles: { a: { ${key}: 1 } }`,
    };
    const lists = [
      ...section.matchAll(/(?:^- |; )(\w+): ((?:the key )?`[a-z ]+`(?:, `[a-z ]+`)*)(?=$|;)/gmu),
    ];
    const named = lists.flatMap(([, where = '', keys = '']) =>
      [...keys.matchAll(/`([a-z ]+)`/gu)].map(([, key = '']) => ({ where, key })),
    );
    for (const { where, key } of named) {
      expect(within[where], where).toBeDefined();
      expect(refused(`cardwright: session\n${within[where]?.(key) ?? ''}\n`), key).toEqual(['S33']);
    }
    expect(named.length).toBeGreaterThan(0);
  });
});

describe('the kits and sessions that come with it', () => {
  const root = new URL('../../', import.meta.url);
  const load = (path: string) => ({ kind: 'bytes', bytes: readFileSync(new URL(path, root)) }) as const;
  it.each([
    'specs/hillside.yaml',
    'specs/tram-stop.yaml',
    'examples/vineyard.yaml',
    'examples/tram-stop.yaml',
  ])('%s has no fault', (path) => {
    const { value, diagnostics } = readSpec([{ path, bytes: load(path).bytes }], load);
    expect(diagnostics).toEqual([]);
    expect(value).toBeDefined();
  });
});
