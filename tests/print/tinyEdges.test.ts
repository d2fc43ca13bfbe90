import { describe, expect, it } from 'vitest';
import { pipeline, runToEnd } from '../../src/pipeline.ts';
import { printText } from '../../src/print/text/index.ts';
import { readSpec } from '../../src/spec/index.ts';

/** Half a millimetre of clearance round an arch leaves a chamfer of 0.05 × 0.1 mm where the arch springs. */
const bridge = (ruler: string): string => `cardwright: session
units: mm
print: { ruler: ${ruler} }
materials: { foam: { thickness: 6 } }
sheets: { foam: [{ size: [500, 350] }] }
masters: { barrel: { arched: { width: 45, sides: 6, rise: 14 } } }
tiles:
  arch:
    parts:
      infill:
        of: foam
        outline: { whole: { rectangle: [75, 28.5] }, cut away: { master: barrel }, at: [15, 0], clearance: 0.5 }
`;

describe('corners that no rule tells apart', () => {
  it('are one row and no slope', () => {
    const text = shapesOf(bridge('0.5'));
    expect(text).toContain('Rip the blank, then cut the curve last.');
    expect(text.match(/^ +\* \S+/gm)?.map((it) => it.replace(/\D+/, ''))).toEqual([
      '0',
      '14.5',
      '60.5',
      '75',
    ]);
    expect(text.replace(/\s+/g, ' ')).toContain(
      '14.5 along, 6 full (+0.12) up; 60.5 along, 6 full (+0.12) up; 60.5 along, 0 up;',
    );
  });

  it('are two where the rule is finer', () => {
    const text = shapesOf(bridge('0.05'));
    expect(text).toContain('cut what slopes');
    expect(text.match(/^ +\* \S+/gm)).toHaveLength(6);
  });
});

function shapesOf(yaml: string): string {
  const { value } = readSpec([{ path: 'a.yaml', bytes: new TextEncoder().encode(yaml) }], () => ({
    kind: 'missing',
    reason: 'none',
  }));
  const made = runToEnd(pipeline(value!, {})).value!;
  const text = printText(made, { width: 80, ascii: false });
  return text.slice(text.indexOf('Shapes  '));
}
