import { describe, expect, it } from 'vitest';
import { pipeline, runToEnd } from '../../src/pipeline.ts';
import { printText } from '../../src/print/text/index.ts';
import { readSpec } from '../../src/spec/index.ts';

const tile = (units: string, sheet: string, size: string, cutting = ''): string => `cardwright: session
units: ${units}
materials: { card: { thickness: 1 } }
sheets: { card: [{ size: ${sheet} }] }
${cutting}
tiles: { one: { parts: { face: { of: card, size: ${size} } } } }
`;

describe('what is left and called scrap', () => {
  it('comes with how to have it kept, where some of it is large', () => {
    const text = textOf(tile('mm', '[420, 297]', '[75, 75]'));
    expect(text.match(/worth keeping/g)).toHaveLength(2);
    expect(text).toContain('cutting: { worth keeping: [100, 50] }');
    expect(textOf(tile('in', '[16, 12]', '[3, 3]'))).toContain('cutting: { worth keeping: [4, 2] }');
  });

  it('says nothing of it where all is small, or where it was said what is kept', () => {
    expect(textOf(tile('mm', '[99, 99]', '[75, 75]'))).not.toContain('worth keeping');
    const said = tile('mm', '[420, 297]', '[75, 75]', 'cutting: { worth keeping: [1000, 500] }');
    expect(textOf(said)).not.toContain('worth keeping');
  });

  it('is taken as it is written there', () => {
    const kept = textOf(tile('mm', '[420, 297]', '[75, 75]', 'cutting: { worth keeping: [100, 50] }'));
    expect(kept).toContain('keep 1');
  });
});

function textOf(yaml: string): string {
  const { value } = readSpec([{ path: 'a.yaml', bytes: new TextEncoder().encode(yaml) }], () => ({
    kind: 'missing',
    reason: 'none',
  }));
  return printText(runToEnd(pipeline(value!, {})).value!, { width: 80, ascii: false }).replace(/\s+/g, ' ');
}
