import { parse } from 'csv-parse/sync';
import fc from 'fast-check';
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

const aPart = fc.record({
  length: fc.integer({ min: 20, max: 200 }),
  width: fc.integer({ min: 20, max: 150 }),
  count: fc.integer({ min: 1, max: 9 }),
});

describe('a count that says nothing of a search', () => {
  // Source: the cutting sheets themselves, which are what is printed and cut.
  it('tells the work of the very layouts that cut prints', async () => {
    const seen = { told: 0, silent: 0 };
    const aNight = fc.record({
      parts: fc.array(aPart, { minLength: 1, maxLength: 4 }),
      offcuts: fc.array(aPart, { maxLength: 4 }),
      whole: fc.integer({ min: 0, max: 2 }),
    });
    const property = fc.asyncProperty(aNight, async ({ parts, offcuts, whole }) => {
      const size = (it: { length: number; width: number }): string => `size: [${it.length}, ${it.width}]`;
      const loose = parts.map((it, i) => `p${i}: { of: card, ${size(it)}, count: ${it.count} }`);
      const listed = offcuts.map((it, i) => `{ ${size(it)}, label: B${i} }`);
      const kept = whole === 0 ? '' : `sheets: { card: [{ size: [420, 297], count: ${whole} }] }\n`;
      const files = {
        'd.yaml': `cardwright: drawer\nunits: mm\n${kept}offcuts: { card: [${listed.join(', ')}] }\n`,
        's.yaml': `cardwright: session
units: mm
materials: { card: { thickness: 1 } }
sheets: { card: [{ size: [420, 297] }] }
loose: { ${loose.join(', ')} }
drawer: d.yaml
cutting: { worth keeping: [60, 40] }
`,
      };
      const [said, listedWork, cut] = await Promise.all([
        run(['count', 's.yaml'], { files }),
        run(['count', 's.yaml', '--json'], { files }),
        run(['cut', 's.yaml', '--json'], { files }),
      ]);
      if (said.stdout.includes('cut may do better')) {
        seen.told++;
        return;
      }
      seen.silent++;
      const { work } = JSON.parse(listedWork.stdout).result;
      const [card] = JSON.parse(cut.stdout).result.materials;
      const lines = card.layouts.flatMap(({ times, steps }: Laid) =>
        steps.flatMap(({ lines: of = [] }) => of.map(() => times)),
      );
      expect(work.materials[0]).toMatchObject({
        sheets: card.layouts.reduce((all: number, { times }: Laid) => all + times, 0),
        settings: card.settings,
        cuts: lines.reduce((all: number, times: number) => all + times, 0),
      });
    });
    await fc.assert(property, { numRuns: 30 });
    expect(seen.silent).toBeGreaterThan(0);
    expect(seen.told).toBeGreaterThan(0);
  }, 60_000);
});

interface Laid {
  readonly times: number;
  readonly steps: readonly { readonly lines?: readonly unknown[] }[];
}
