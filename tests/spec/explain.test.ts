import { describe, expect, it } from 'vitest';
import { specPages } from '../../src/cli/explain/spec.ts';
import type { Example } from '../../src/cli/explainPage.ts';
import { expand } from '../../src/expand/index.ts';
import { read } from './check.ts';

/** The codes of all faults of an example, read and worked out; the whole program is run elsewhere. */
function codesOf({ files }: Example): readonly string[] {
  const { 'kit.yaml': kit = '', ...others } = files;
  const { value, diagnostics } = read(kit, others);
  const worked = value === undefined ? [] : expand(value, {}).diagnostics;
  return [...diagnostics, ...worked].map(({ code }) => code);
}

describe('the pages of explain', () => {
  // What only a conversion meets is not met by reading; tests/cli/explain.test.ts runs those.
  const met = Object.entries(specPages).filter(([, { failing }]) => failing.run[0] !== 'convert');
  it.each(met)('%s fails as it says, and is mended', (code, { failing, mended }) => {
    expect(codesOf(failing)).toEqual([code]);
    expect(codesOf(mended)).toEqual([]);
  });
});
