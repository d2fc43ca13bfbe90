import { parse } from 'csv-parse/sync';
import { beforeAll, describe, expect, it } from 'vitest';
import { run } from '../../cli/memoryWorld.ts';
import { readBack } from '../pdf/readBack.ts';

/** One count in all the forms that it is given in: whatever figure stands in one stands in the others. */

const session = `cardwright: session
units: in
materials: { card: { thickness: 1/16 }, foam: { thickness: 1/2, kerf: 1/32 } }
sheets:
  card: [{ size: [16, 12], price: 1.10 EUR }]
  foam: [{ size: [24, 12], price: 3.40 EUR }]
fittings: { pin: { pack: 50, price: 2 EUR } }
tiles:
  wall:
    footprint: none
    parts:
      face: { of: card, size: [3, 1 1/2], count: 2 }
      fill: { of: foam, size: [3, 2 7/8], takes: { pin: 2 } }
      stones: { of: foam, size: [1/2, 1/4], count: as fits up to 8 }
  floor: { footprint: none, parts: { top: { of: card, size: [3, 3] } } }
make: { wall: 6, floor: 5 }
loose: { chips: { of: card, size: [2, 1], count: as fits up to 33 } }
spares: { face of wall: 2, pin: 3 }
evenings: [{ make: { wall: 4 } }, { make: rest }]
cutting: { trim: 1/8 }
print: { units: in }
`;

interface Counted {
  readonly materials: readonly {
    readonly name: string;
    readonly count: number;
    readonly parts: readonly {
      readonly members: readonly { readonly label: string; readonly count: number }[];
    }[];
  }[];
  readonly fittings: readonly { readonly label: string; readonly count: number }[];
  readonly work: {
    readonly materials: readonly {
      readonly name: string;
      readonly sheets: number;
      readonly pieces: number;
      readonly settings: number;
      readonly cuts: number;
      readonly cutLength: { readonly rounded: number };
    }[];
    readonly toBuy: readonly {
      readonly material: string;
      readonly count: number;
      readonly cost: { readonly amount: string };
    }[];
  };
}

let text = '';
let csv: readonly Readonly<Record<string, string>>[] = [];
let counted: Counted;
const drawn = new Map<string, string>();
/** Paper has signs of its own for times and fractions. */
const plain = (words: string): string => words.replaceAll('×', 'x').replaceAll('⁄', '/');
const bare = (words: string): string => plain(words).replace(/\s+/gu, '');

beforeAll(async () => {
  const outputs = ['list.txt', 'list.csv', 'list.json', 'list.pdf', 'pages/'].flatMap((it) => ['-o', it]);
  const ran = await run(['count', 's.yaml', '--work', ...outputs], { files: { 's.yaml': session } });
  expect(ran.code, ran.stderr).toBe(0);
  text = ran.text('list.txt');
  csv = parse(ran.text('list.csv'), { columns: true, record_delimiter: '\r\n' });
  counted = JSON.parse(ran.text('list.json')).result;
  // Source: pdfjs-dist, which shares nothing with what wrote the pages.
  const { pages } = await readBack(ran.files.get('list.pdf') ?? new Uint8Array());
  drawn.set('PDF', bare(pages.flatMap(({ texts }) => texts.map((it) => it.text)).join('')));
  const svg = [...ran.files].filter(([path]) => path.startsWith('pages/page-'));
  const texts = svg.flatMap(([path]) => [...ran.text(path).matchAll(/<text[^>]*>([\s\S]*?)<\/text>/gu)]);
  drawn.set('SVG', bare(texts.map(([, it]) => (it ?? '').replace(/<[^>]*>/gu, '')).join('')));
}, 60_000);

const members = () =>
  counted.materials.flatMap(({ name, parts }) =>
    parts.flatMap((kind) => kind.members.map((it) => ({ ...it, material: name }))),
  );

describe('the figures of a count', () => {
  it.each(['PDF', 'SVG'])('are all in the %s, row by row as the text has them', (form) => {
    const rows = text.split('\n').filter((it) => /\d/u.test(it));
    expect(rows.length).toBeGreaterThan(25);
    for (const row of rows) expect(drawn.get(form), row).toContain(bare(row));
  });

  it('are the same in JSON and CSV: each part, each spare one, each fitting', () => {
    const ofParts = csv.filter(({ fitting }) => fitting === '');
    expect(ofParts.map(({ material, label, count }) => [material, label, Number(count)])).toEqual(
      members().map(({ material, label, count }) => [material, label, count]),
    );
    for (const { label, count } of counted.fittings) {
      const rows = csv.filter((it) => it.fitting !== '' && it.label === label);
      expect(rows.reduce((sum, it) => sum + Number(it.count), 0)).toBe(count);
    }
  });

  it('are the same in JSON and text: parts, totals, work, what is to buy', () => {
    const inText = plain(text).replace(/\s+/gu, ' ');
    for (const { label, count } of members())
      expect(inText).toContain(count === 1 ? label : `${count} x ${label}`);
    for (const { name, count, parts } of counted.materials) {
      expect(inText).toMatch(new RegExp(`${name} [^:]*: ${count} parts`, 'u'));
      expect(parts.flatMap((kind) => kind.members).reduce((sum, it) => sum + it.count, 0)).toBe(count);
    }
    for (const { name, sheets, pieces, settings, cuts, cutLength } of counted.work.materials) {
      const metres = (cutLength.rounded / 1000).toFixed(1);
      expect(inText).toContain(` ${name} ${sheets} ${pieces} ${settings} ${cuts} ${metres} `);
    }
    expect(counted.work.toBuy.length).toBe(2);
    for (const { material, count, cost } of counted.work.toBuy) {
      const [numerator = '', denominator = '1'] = cost.amount.split('/');
      const price = (Number(numerator) / Number(denominator)).toFixed(2);
      expect(inText).toMatch(new RegExp(` ${material} ${count} [^E]*${price} EUR`, 'u'));
    }
  });

  it('are of both fillers, of spares and of fittings, too', () => {
    const labels = members().map(({ label }) => label);
    expect(labels).toEqual(expect.arrayContaining(['WA stones', 'chips', 'WA face']));
    // 6 walls of two faces and the spare ones; 6 fills of two pins and the spare ones.
    expect(members().find(({ label }) => label === 'WA face')?.count).toBe(14);
    expect(counted.fittings).toEqual([expect.objectContaining({ label: 'pin', count: 15 })]);
  });
});
