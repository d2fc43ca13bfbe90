import { parse } from 'csv-parse/sync';
import { beforeAll, describe, expect, it } from 'vitest';
import { run } from '../../cli/memoryWorld.ts';
import { type ReadBack, readBack } from '../pdf/readBack.ts';

/** Tiles with many parts, so that tables go over several pages. */
const session = `cardwright: session
units: in
materials: { card: { thickness: 1/16, grain: yes }, foam: { thickness: 1/2 } }
sheets: { card: [{ size: [24, 16], grain: length }], foam: [{ size: [24, 16] }] }
fittings: { disc magnet: { pack: 50, price: 4.20 EUR } }
tiles:
${Array.from(
  { length: 24 },
  (_, tile) => `  tile ${tile}:
    footprint: none
    takes: { disc magnet: ${tile % 3} }
    parts:
${Array.from(
  { length: 12 },
  (_, part) =>
    `      part ${part}: { of: ${part % 2 === 0 ? 'card' : 'foam'}, size: [${(tile % 9) + 2}/4, ${part + 2}/4], count: ${1 + ((tile + part) % 3)} }\n`,
).join('')}`,
).join('')}print: { units: both }
`;
const files = { 's.yaml': session };

let pdf: ReadBack;
let rows: readonly Record<string, string>[];

beforeAll(async () => {
  const {
    code,
    files: written,
    stdout,
  } = await run(['count', 's.yaml', '-o', 'list.pdf', '-o', 'list.csv'], { files });
  expect([code, stdout]).toEqual([0, '']);
  pdf = await readBack(written.get('list.pdf') ?? new Uint8Array());
  rows = parse(new TextDecoder().decode(written.get('list.csv')), {
    columns: true,
    record_delimiter: '\r\n',
  });
}, 60_000);

/** Words of a page, whatever lines they stand on. */
const wordsOf = ({ texts }: ReadBack['pages'][number]): string =>
  texts
    .map(({ text }) => text.trim())
    .filter((it) => it !== '')
    .join(' ')
    .replace(/\s+/g, ' ');

// Source: pdfjs-dist reads the pages, csv-parse the table; neither shares anything with what wrote them.
describe('the list on paper', () => {
  it('names every part of every tile, as the table does', () => {
    const all = pdf.pages.map(wordsOf).join(' ');
    expect(rows.length).toBeGreaterThan(24 * 12);
    for (const { label, count, fitting } of rows) {
      if (fitting === '') expect(all).toContain(count === '1' ? label : `${count} × ${label}`);
    }
    for (const material of ['card', 'foam']) {
      const sum = rows.reduce((total, it) => total + (it.material === material ? Number(it.count) : 0), 0);
      expect(all).toMatch(new RegExp(`${material} [^:]*: ${sum} parts`));
    }
    const magnets = rows.reduce((total, it) => total + (it.fitting === '' ? 0 : Number(it.count)), 0);
    expect(all).toContain(`fittings: ${magnets}`);
  });

  it('goes on over the pages, with the head of its table on each', () => {
    expect(pdf.pages.length).toBeGreaterThan(4);
    const continued = pdf.pages.filter((it) => wordsOf(it).includes(', continued'));
    expect(continued.length).toBeGreaterThan(0);
    for (const page of continued) expect(wordsOf(page)).toMatch(/, continued (?:part of|count) size, in/);
    for (const page of pdf.pages) expect(wordsOf(page)).toMatch(/size, in|to buy/);
  });

  it('keeps within the margins, and no two texts cross', () => {
    for (const { texts, box } of pdf.pages) {
      const [left = 0, bottom = 0, , top = 0] = box;
      const placed = texts.filter(({ text }) => text.trim() !== '');
      for (const { x, y } of placed) {
        expect(x).toBeGreaterThan(left + (9.9 * 72) / 25.4);
        expect(y).toBeGreaterThan(bottom + (9.9 * 72) / 25.4);
        expect(y).toBeLessThan(top - (9.9 * 72) / 25.4);
      }
      // On one line, what comes next begins where the one before it ends, or farther right.
      expect(new Set(placed.map(({ x, y }) => `${x.toFixed(2)} ${y.toFixed(2)}`)).size).toBe(placed.length);
    }
  });

  it('can be chosen from, and drawn as SVG', async () => {
    const one = await run(['count', 's.yaml', '-o', 'list.pdf', '--pages', '2'], { files });
    expect((await readBack(one.files.get('list.pdf') ?? new Uint8Array())).pages).toHaveLength(1);
    const drawn = await run(['count', 's.yaml', '-o', 'pages/'], { files });
    expect([...drawn.files.keys()].filter((it) => it.startsWith('pages/page-')).length).toBe(
      pdf.pages.length,
    );
    const text = await run(['count', 's.yaml', '--pages', '2'], { files });
    expect(text.stderr).toContain('C23');
  });
});
