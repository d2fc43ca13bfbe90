import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { inches, rational } from '../../src/measure/index.ts';
import type { DrawerEntry } from '../../src/model/index.ts';
import {
  type Change,
  entryFor,
  lastToUndo,
  type OpenDrawer,
  openDrawer,
  readJournal,
  settled,
  takenBack,
  withChanges,
  writeJournal,
} from '../../src/stock/index.ts';

function opened(text: string): OpenDrawer {
  const { value, diagnostics } = openDrawer('drawer.yaml', new TextEncoder().encode(text));
  if (value === undefined)
    throw new Error(`${diagnostics.map(({ message }) => message).join('; ')}\n${text}`);
  return value;
}

function textAfter(text: string, changes: readonly Change[]): string {
  const made = withChanges(opened(text), changes);
  if ('why' in made) throw new Error(`${made.why}\n${text}`);
  return made.text;
}

function offcut(material: string, length: bigint, width: bigint, label?: string): DrawerEntry {
  return {
    kind: 'offcut',
    material,
    length: inches(rational(length, 16n)),
    width: inches(rational(width, 16n)),
    grain: undefined,
    flutes: undefined,
    count: 1,
    label,
    where: undefined,
    note: undefined,
    price: undefined,
    trim: undefined,
    trueEdges: true,
  };
}

/** The piece with this label, to be taken out. */
function taking(text: string, label: string, count = 1): Change {
  const entry = opened(text).drawer.entries.find((it) => it.label === label);
  if (entry === undefined) throw new Error(`no ${label}`);
  return { kind: 'take', entry, count };
}

const putting = (entry: DrawerEntry): Change => ({ kind: 'put', entry });

const block = `cardwright: drawer
units: in
# what is left
offcuts:
  card:
    # the first is bent
    - { size: [8, 5], label: G1 }  # at the corner
    - size: [7, 4]      # long one
      label: G2
      count: 3
  foam:
    - { size: [5, 5], label: F1 }
# the end
`;

describe('the file of a drawer', () => {
  it('loses an entry with the remark behind it, and nothing else', () => {
    expect(textAfter(block, [taking(block, 'G1')])).toBe(
      block.replace('    - { size: [8, 5], label: G1 }  # at the corner\n', ''),
    );
    expect(textAfter(block, [taking(block, 'G2', 3)])).toBe(
      block.replace('    - size: [7, 4]      # long one\n      label: G2\n      count: 3\n', ''),
    );
  });

  it('counts down where more are left, and empties a list with the last of it', () => {
    expect(textAfter(block, [taking(block, 'G2')])).toBe(block.replace('count: 3', 'count: 2'));
    expect(textAfter(block, [taking(block, 'F1')])).toBe(
      block.replace('  foam:\n    - { size: [5, 5], label: F1 }\n', '  foam: []\n'),
    );
  });

  it('gains an entry behind the last of its material, else a material of its own', () => {
    expect(textAfter(block, [putting(offcut('card', 96n, 33n, 'keep 1'))])).toBe(
      block.replace('count: 3\n', 'count: 3\n    - { size: [6, 2 1/16], label: keep 1 }\n'),
    );
    expect(textAfter(block, [putting(offcut('felt', 96n, 33n))])).toBe(
      block.replace('label: F1 }\n', 'label: F1 }\n  felt:\n    - { size: [6, 2 1/16] }\n'),
    );
    const bare = 'cardwright: drawer\nunits: mm';
    expect(textAfter(bare, [putting(offcut('felt', 96n, 33n))])).toBe(
      `${bare}\noffcuts:\n  felt:\n    - { size: [152.4, 52.3875] }\n`,
    );
  });

  it.each([
    [
      'offcuts: { card: [{ size: [8, 5], label: A }, { size: [7, 4], label: B }] }',
      'A',
      '{ card: [{ size: [7, 4], label: B }] }',
    ],
    [
      'offcuts: { card: [{ size: [8, 5], label: A }, { size: [7, 4], label: B }] }',
      'B',
      '{ card: [{ size: [8, 5], label: A }] }',
    ],
    ['offcuts: { card: [{ size: [8, 5], label: A }] }', 'A', '{ card: [] }'],
    [
      'offcuts: { card: [ # mine\n  { size: [8, 5], label: A },  # one\n  { size: [7, 4], label: B }\n  ] }',
      'B',
      '{ card: [ # mine\n  { size: [8, 5], label: A },  # one\n  ] }',
    ],
  ])('edits lists in brackets: %j without %s', (list, label, after) => {
    const text = `cardwright: drawer\nunits: in\n${list}\n`;
    const made = withChanges(opened(text), [taking(text, label)]);
    // A remark between two items may stand in the way: then nothing is touched.
    if ('why' in made) expect(list).toContain('# one');
    else expect(made.text).toBe(`cardwright: drawer\nunits: in\noffcuts: ${after}\n`);
  });

  it('keeps line ends as they are', () => {
    const text = block.replaceAll('\n', '\r\n');
    expect(textAfter(text, [putting(offcut('card', 96n, 32n)), taking(text, 'F1')])).toBe(
      textAfter(block, [putting(offcut('card', 96n, 32n)), taking(block, 'F1')]).replaceAll('\n', '\r\n'),
    );
  });

  it('is left alone where two entries are one text', () => {
    const text = 'cardwright: drawer\nunits: in\noffcuts: { card: [&a { size: [8, 5], label: A }, *a] }\n';
    expect(withChanges(opened(text), [taking(text, 'A')])).toMatchObject({ why: 'not in place' });
  });

  it('says so where what is to go out is not there', () => {
    const change = { kind: 'take', entry: offcut('card', 16n, 16n), count: 1 } as const;
    expect(withChanges(opened(block), [change])).toMatchObject({ why: 'not there' });
    expect(withChanges(opened(block), [{ ...taking(block, 'G1'), count: 2 } as Change])).toMatchObject({
      why: 'not there',
    });
  });
});

const materials = ['card', 'packet card', 'foam'] as const;
const aPiece = fc.record({
  material: fc.constantFrom(...materials),
  length: fc.integer({ min: 16, max: 256 }),
  width: fc.integer({ min: 16, max: 256 }),
  count: fc.integer({ min: 1, max: 3 }),
});
const aDrawer = fc.record({
  pieces: fc.array(aPiece, { maxLength: 8 }),
  style: fc.constantFrom('block', 'block maps', 'brackets', 'all in brackets'),
  lineEnd: fc.constantFrom('\n', '\r\n'),
});

/** A drawer's text in one of the ways that people write them, with remarks in it. */
function drawerText({
  pieces,
  style,
  lineEnd,
}: typeof aDrawer extends fc.Arbitrary<infer T> ? T : never): string {
  const inMap = (it: (typeof pieces)[number], i: number) =>
    `{ size: [${it.length}/16, ${it.width}/16], label: P${i}${it.count === 1 ? '' : `, count: ${it.count}`} }`;
  const lists = materials.flatMap((material) => {
    const own = pieces.flatMap((it, i) => (it.material === material ? [{ it, i }] : []));
    if (own.length === 0) return [];
    if (style === 'block maps') {
      const items = own.map(
        ({ it, i }) =>
          `    # about P${i}\n    - size: [${it.length}/16, ${it.width}/16]\n      label: P${i}\n      count: ${it.count}\n`,
      );
      return [`  ${material}:\n${items.join('')}`];
    }
    if (style === 'block')
      return [`  ${material}:\n${own.map(({ it, i }) => `    - ${inMap(it, i)}  # P${i}\n`).join('')}`];
    return [
      `${style === 'brackets' ? '  ' : ''}${material}: [${own.map(({ it, i }) => inMap(it, i)).join(', ')}]${style === 'brackets' ? '  # kept\n' : ''}`,
    ];
  });
  const body =
    lists.length === 0
      ? ''
      : style === 'all in brackets'
        ? `offcuts: { ${lists.join(', ')} }\n`
        : `offcuts:\n${lists.join('')}`;
  return `cardwright: drawer\nunits: in\n# at hand\n${body}`.replaceAll('\n', lineEnd);
}

/** Source: the `yaml` library, as an independent reader of what the file says. */
function listedBy(text: string): readonly string[] {
  const read: { offcuts?: Record<string, { size: (string | number)[]; label?: string; count?: number }[]> } =
    parse(text);
  return Object.entries(read.offcuts ?? {})
    .flatMap(([material, list]) =>
      list.map((it) => `${material} ${it.size.join(' x ')} ${it.label} ${it.count ?? 1}`),
    )
    .sort();
}

describe('any drawer', () => {
  it('changes by exactly what is taken and put, whichever way it is written, and back to its very bytes', () => {
    fc.assert(
      fc.property(aDrawer, fc.array(fc.nat(), { maxLength: 6 }), (drawer, picks) => {
        let text = drawerText(drawer);
        const first = text;
        const journal = [];
        for (const [turn, pick] of picks.entries()) {
          const { entries } = opened(text).drawer;
          const before = listedBy(text);
          const entry = entries[pick % (entries.length + 1)];
          const change: Change =
            entry === undefined
              ? putting(offcut(materials[pick % 3] ?? 'card', 32n, 48n, `N${turn}`))
              : { kind: 'take', entry, count: 1 };
          const after = textAfter(text, [change]);
          const gone = before.filter((it) => !listedBy(after).includes(it));
          const come = listedBy(after).filter((it) => !before.includes(it));
          expect(gone.length + come.length).toBe(change.kind === 'put' || entry?.count === 1 ? 1 : 2);
          const remarks = (it: string) => it.match(/#[^\r\n]*/gu) ?? [];
          expect(remarks(text).length - remarks(after).length).toBeLessThanOrEqual(
            change.kind === 'take' ? 1 : 0,
          );
          const about = { number: turn + 1, what: 'a change', job: undefined, undoes: undefined };
          journal.push(entryFor({ before: text, after }, about, String));
          text = after;
        }
        const read = readJournal(writeJournal(journal));
        expect(read).toEqual(journal);
        for (const entry of [...journal].reverse()) text = takenBack(entry, text, String) ?? 'not taken back';
        expect(text).toBe(first);
      }),
      { numRuns: 60 },
    );
  });
});

describe('a journal', () => {
  const texts = { before: 'a: 1\n', after: 'a: 2\n' };
  const about = { what: 'x', job: undefined, undoes: undefined };
  const first = entryFor(texts, { ...about, number: 1 }, String);

  it('drops its last entry where the drawer says that it did not come to be', () => {
    expect(settled([first], texts.after, String)).toEqual([first]);
    expect(settled([first], texts.before, String)).toEqual([]);
    expect(settled([first], 'edited since', String)).toEqual([first]);
  });

  it('undoes the last change that is not undone', () => {
    const undone = { ...first, number: 3, undoes: 2 };
    expect(lastToUndo([first, { ...first, number: 2 }, undone])?.number).toBe(1);
    expect(lastToUndo([])).toBe(undefined);
  });

  it('says which line is none of it', () => {
    expect(readJournal(`${writeJournal([first])}{ "schema": "card`)).toEqual({ line: 2, isNewer: false });
    expect(readJournal(writeJournal([first]).replace('"version":1', '"version":2'))).toEqual({
      line: 1,
      isNewer: true,
    });
    expect(readJournal(writeJournal([first, first]))).toEqual({ line: 2, isNewer: false });
  });
});
