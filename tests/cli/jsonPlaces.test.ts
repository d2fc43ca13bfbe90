import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { scanJson } from '../../src/cli/jsonPlaces.ts';

/** Every way into a value, as long as it is short. */
function* waysInto(value: unknown, way: readonly (string | number)[] = []): Generator<(string | number)[]> {
  yield [...way];
  if (typeof value !== 'object' || value === null) return;
  const entries = Array.isArray(value) ? value.map((it, i) => [i, it] as const) : Object.entries(value);
  for (const [key, inner] of entries) yield* waysInto(inner, [...way, key]);
}

const valueAt = (value: unknown, way: readonly (string | number)[]): unknown =>
  way.reduce((of, key) => (of as Record<string, unknown>)[key], value);

describe('places in a JSON text', () => {
  // Source: the JSON parser of the system (ECMA-404), which knows values but no places.
  it('are where each value begins, however it is written', () => {
    const plainKeys = fc.dictionary(fc.stringMatching(/^[a-z ]{0,5}$/), fc.jsonValue({ maxDepth: 2 }));
    const property = fc.property(plainKeys, fc.constantFrom(0, 2, '\t'), (value, indent) => {
      const text = JSON.stringify(value, undefined, indent);
      const whole: unknown = JSON.parse(text);
      for (const way of waysInto(whole)) {
        // A name with an escape in it is not looked into.
        if (way.some((it) => JSON.stringify(it).includes('\\'))) continue;
        const { found, brokenAt } = scanJson(text, way);
        expect(brokenAt).toBeUndefined();
        const there = valueAt(whole, way);
        const word = text.slice(found.start, found.end);
        if (typeof there === 'object' && there !== null) expect(word).toBe(Array.isArray(there) ? '[' : '{');
        else expect(JSON.parse(word)).toEqual(there);
      }
    });
    fc.assert(property, { numRuns: 200 });
  });

  it('break where the parser of the system takes no more, and nowhere in what it takes', () => {
    const property = fc.property(
      fc.jsonValue({ maxDepth: 3 }),
      fc.nat(),
      fc.constantFrom('', ',', ']', '}', '{', '[', ':', 'x', '"', ' 1'),
      (value, place, insert) => {
        const whole = JSON.stringify(value, undefined, 1);
        const at = place % (whole.length + 1);
        const text = insert === '' ? whole.slice(0, at) : whole.slice(0, at) + insert + whole.slice(at);
        let isJson = true;
        try {
          JSON.parse(text);
        } catch {
          isJson = false;
        }
        expect(scanJson(text).brokenAt === undefined, text).toBe(isJson);
      },
    );
    fc.assert(property, { numRuns: 2000 });
    expect(scanJson('['.repeat(200_000)).brokenAt).toEqual({ start: 199_999, end: 200_000 });
  });
});
