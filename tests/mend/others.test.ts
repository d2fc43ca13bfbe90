import { describe, expect, it } from 'vitest';
import { checkUp } from '../../src/checkUp.ts';
import { expand } from '../../src/expand/index.ts';
import type { Diagnostic } from '../../src/model/index.ts';
import { runToEnd } from '../../src/pipeline.ts';
import { readSpec } from '../../src/spec/index.ts';

function specOf(text: string) {
  const file = { path: 'it.yaml', bytes: new TextEncoder().encode(text) };
  return readSpec([file], () => ({ kind: 'missing', reason: 'there is none' })).value;
}

function fixesOf(text: string): readonly (string | undefined)[] {
  const spec = specOf(text);
  const said: readonly Diagnostic[] = spec === undefined ? [] : runToEnd(checkUp(spec, {})).diagnostics;
  return said.filter(({ code }) => code === 'F01').map(({ fix }) => fix?.text);
}

const head = `cardwright: session
units: mm
materials: { card: { thickness: 2 } }
sheets: { card: [{ size: [400, 300] }] }
`;

/** 60 across are to be filled by a bar of 57, which the second tile shares in one way or another. */
const bar = (more: string) => `${head}${more}`;

describe('what a fix does to other tiles', () => {
  it('is offered where the size is one tile’s own', () => {
    const text = bar(`tiles:
  one: { footprint: [60, 2], parts: { bar: { of: card, size: [57, 9] } }, build: { along: [bar] } }
  other: { footprint: [57, 2], parts: { bar: { of: card, size: [57, 9] } }, build: { along: [bar] } }
`);
    expect(fixesOf(text)).toEqual(['60']);
  });

  it('is not offered where a variant would not close any more', () => {
    const text = bar(`tiles:
  one: { footprint: [60, 2], parts: { bar: { of: card, size: [57, 9] } }, build: { along: [bar] } }
  other: { like: one, footprint: [57, 2] }
`);
    expect(fixesOf(text)).toEqual([undefined]);
  });

  it('is not offered where a tile that shares the part would not close any more', () => {
    const text = bar(`parts: { bar: { of: card, size: [57, 9] } }
tiles:
  one: { footprint: [60, 2], parts: { bar: { like: bar } }, build: { along: [bar] } }
  other: { footprint: [57, 2], parts: { bar: { like: bar } }, build: { along: [bar] } }
`);
    expect(fixesOf(text)).toEqual([undefined]);
  });

  it('is not offered where a length under a name is another tile’s, too', () => {
    const text = bar(`lengths: { span: 57 }
tiles:
  one: { footprint: [60, 2], parts: { bar: { of: card, size: [span, 9] } }, build: { along: [bar] } }
  other: { footprint: [57, 2], parts: { bar: { of: card, size: [span, 9] } }, build: { along: [bar] } }
`);
    expect(fixesOf(text)).toEqual([undefined]);
  });

  it('works out no tiles but those that are asked for', () => {
    const spec = specOf(`${head}tiles:
  one: { footprint: [60, 2], parts: { bar: { of: card, size: [60, 9] } }, build: { along: [bar] } }
  other: { footprint: [57, 2], parts: { bar: { of: card, size: [57, 9] } }, build: { along: [bar] } }
`);
    const batch = spec && expand(spec, { only: new Set(['other']) }).value;
    expect(batch?.builds.map(({ tile }) => tile)).toEqual(['other']);
  });
});
