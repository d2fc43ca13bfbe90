import { describe, expect, it } from 'vitest';
import { specPages } from '../../src/cli/explain/spec.ts';
import type { Example } from '../../src/cli/explainPage.ts';
import { read } from './check.ts';

/** The codes of all faults of an example; only reading is run here, the whole program elsewhere. */
function codesOf({ files }: Example): readonly string[] {
  const { 'kit.yaml': kit = '', ...others } = files;
  return read(kit, others).diagnostics.map(({ code }) => code);
}

describe('the pages of explain', () => {
  it.each(Object.entries(specPages))('%s fails as it says, and is mended', (code, { failing, mended }) => {
    expect(codesOf(failing)).toEqual([code]);
    expect(codesOf(mended)).toEqual([]);
  });
});
