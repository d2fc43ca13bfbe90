import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { anyKit, textOf } from './anyKit.ts';
import { convert, sizes, verdicts } from './converting.ts';

const head = 'cardwright: kit\nunits: in\n';
const body = (more: string): string => `${head}${more}\n`;

function toMm(text: string): string {
  const { texts, diagnostics } = convert({ 'kit.yaml': text }, 'mm');
  expect(diagnostics.filter(({ severity }) => severity === 'error')).toEqual([]);
  return texts[0] ?? '';
}

describe('a kit in the other unit, exactly', () => {
  it.each([
    // Source: 1 in = 25.4 mm exactly; worked out by hand.
    ['lengths: { a: 2 1/2 }', 'lengths: { a: 63.5 }'],
    ['lengths: { a: -1/4 }', 'lengths: { a: -6.35 }'],
    ['lengths: { a: 0, b: 0.0 }', 'lengths: { a: 0, b: 0.0 }'],
    ['lengths: { a: "2 3/8" }', 'lengths: { a: "60.325" }'],
    ["lengths: { a: '2⅜' }   # mine", "lengths: { a: '60.325' }   # mine"],
    ['lengths: { a: 1/3 }', 'lengths: { a: 8 7/15 }'],
    ['lengths: { a: 2, b: (a + 1/16) }', 'lengths: { a: 50.8, b: (a + 1.5875) }'],
    // What is multiplied and divided by stays what it is, and so do bare numbers that are counted.
    ['lengths: { a: 2, b: (3 x a / 4) }', 'lengths: { a: 50.8, b: (3 x a / 4) }'],
    ['lengths: { a: 2, b: ((1 + 2) x (a + 1)) }', 'lengths: { a: 50.8, b: ((1 + 2) x (a + 25.4)) }'],
    ['lengths: { a: 2, b: (a down to 1/32) }', 'lengths: { a: 50.8, b: (a down to 0.79375) }'],
    ['lengths: { b: (1/2 + 1/4) }', 'lengths: { b: (12.7 + 6.35) }'],
    ['lengths: { b: ( 1 1/2 ) }', 'lengths: { b: ( 38.1 ) }'],
    ['lengths: { b: smaller of 1 and 2 }', undefined],
    ['lengths: { b: (smaller of 1 and (2 + 1)) }', 'lengths: { b: (smaller of 25.4 and (50.8 + 25.4)) }'],
    ['numbers: { n: 3, more: (2 x 3) }', 'numbers: { n: 3, more: (2 x 3) }'],
    // A number that a length is divided into, in a place where things are counted.
    [
      'lengths: { a: 6 }\nnumbers: { n: ((a + 2) / 2 in) }',
      'lengths: { a: 152.4 }\nnumbers: { n: ((a + 50.8) / 2 in) }',
    ],
    // What names a unit of its own keeps it.
    ['lengths: { a: 1.55 mm, b: 18 thou, c: 3/8 in }', 'lengths: { a: 1.55 mm, b: 18 thou, c: 3/8 in }'],
    ['lengths: { a: &wide 2, b: *wide }', 'lengths: { a: &wide 50.8, b: *wide }'],
    ['print: { ruler: 1/16 }', 'print: { ruler: 1/16 in }'],
    ['print: { ruler: 1/16, margin: 1/2 }', 'print: { ruler: 1/16 in, margin: 12.7 }'],
  ])('%s', (inches, millimetres) => {
    const before = body(inches);
    if (millimetres === undefined) {
      expect(convert({ 'kit.yaml': before }, 'mm').kit).toBeUndefined();
      return;
    }
    const after = toMm(before);
    expect(after).toBe(body(millimetres).replace('units: in', 'units: mm'));
    // Idempotent, and back to the very bytes where the spelling is the one that we write.
    expect(toMm(after)).toBe(after);
    const isOurSpelling = !/⅜|0\.0/u.test(inches);
    if (isOurSpelling) expect(convert({ 'kit.yaml': after }, 'in').texts[0]).toBe(before);
  });

  it('leaves line ends, anchors, quotes and order alone', () => {
    const crlf = `cardwright: kit\r\n"units":   "in"  # ours\r\n\r\nlengths:\r\n    b:   2   # two\r\n    a: 1\r\n`;
    expect(toMm(crlf)).toBe(
      crlf.replace('"in"', '"mm"').replace('b:   2 ', 'b:   50.8 ').replace('a: 1', 'a: 25.4'),
    );
  });

  it('converts a file without units measure by measure, each with its unit', () => {
    const text = 'cardwright: kit\nlengths: { a: 2 3/8", b: 60 mm, c: 1 ft }\n';
    expect(toMm(text)).toBe('cardwright: kit\nlengths: { a: 60.325 mm, b: 60 mm, c: 304.8 mm }\n');
  });

  it('writes out what a grid left unsaid only where a verdict hangs on it', () => {
    // Short by 0.398 mm: more than 1/64 in (0.396875), less than 0.4 mm.
    const kit = (size: string): string =>
      body(
        `grid: { square: 3 }\nmaterials: { foam: { thickness: 1/2 } }\nsheets: { foam: [{ size: [24, 12] }] }\n` +
          `print: { ruler: [1/16, 0.001 mm] }\ntiles:\n  t:\n    parts: { a: { of: foam, size: [3, ${size}], lies: yes } }\n    build: { along: [a] }`,
      );
    expect(verdicts(kit('75.802 mm'))).toContain('F01 "t"');
    const after = toMm(kit('75.802 mm'));
    expect(after).toContain('grid: { square: 76.2, slack: 0.396875, lip: 0.396875 }');
    expect(verdicts(after)).toContain('F01 "t"');
    expect(toMm(kit('75.9 mm'))).toContain('grid: { square: 76.2 }');
  });

  it('keeps every size as a rational and every verdict, of any kit; and comes back', () => {
    fc.assert(
      fc.property(anyKit, (kit) => {
        const text = textOf(kit);
        const after = toMm(text);
        expect(sizes(after)).toEqual(sizes(text));
        expect(verdicts(after)).toEqual(verdicts(text));
        expect(toMm(after)).toBe(after);
        const back = convert({ 'kit.yaml': after }, 'in').texts[0] ?? '';
        const isUntouched = !/slack: 0\.39/u.test(after) || kit.slack === 'said';
        if (isUntouched) expect(back).toBe(text);
        else expect(sizes(back)).toEqual(sizes(text));
      }),
      { numRuns: 60 },
    );
  });

  it('is told where a number is a length here and none there', () => {
    const said = (text: string) =>
      convert({ 'kit.yaml': body(text) }, 'mm').diagnostics.map(({ code }) => code);
    expect(said('lengths: { a: &three 3 }\nnumbers: { n: *three }')).toContain('S70');
    // A shared part that leans on a name which one tile calls a length and another a number.
    const parts = 'materials: { foam: { thickness: 1/2 } }\nparts: { p: { of: foam, size: [2, (n + 1)] } }\n';
    const tile = (name: string, own: string) => `  ${name}: { ${own}, build: { up: [p] } }\n`;
    expect(
      said(`${parts}tiles:\n${tile('one', 'lengths: { n: 1 }')}${tile('two', 'numbers: { n: 1 }')}`),
    ).toContain('S70');
  });
});

describe('the demo kits', () => {
  const root = new URL('../../../', import.meta.url);
  const file = (path: string): string => readFileSync(new URL(path, root), 'utf8');
  const shelf = { 'shared/card-and-foam.yaml': file('shared/card-and-foam.yaml') };

  it.each([
    ['specs/tram-stop.yaml', 'in', 'mm'],
    ['shared/card-and-foam.yaml', 'mm', 'in'],
  ] as const)('%s goes to %s and comes back to the very bytes', (path, there, back) => {
    const once = convert({ [path]: file(path) }, there).texts[0] ?? '';
    expect(once).not.toBe(file(path));
    const twice = convert({ [path]: once }, back).texts[0] ?? '';
    // A rule that was not said may stand there now; all else is as it was.
    expect(twice.replace(/^print: \{ ruler: [^}]* \}\n/mu, '')).toBe(file(path));
  });

  it('the vineyard comes back with nothing but its rule said', () => {
    const files = { 'specs/hillside.yaml': file('specs/hillside.yaml'), ...shelf };
    const once = convert(files, 'mm').texts[0] ?? '';
    expect(once).toContain('print: { ruler: 1/16 in }\n');
    const twice = convert({ ...files, 'specs/hillside.yaml': once }, 'in').texts[0] ?? '';
    expect(twice.replace('print: { ruler: 1/16 }\n', '')).toBe(file('specs/hillside.yaml'));
  });
});
