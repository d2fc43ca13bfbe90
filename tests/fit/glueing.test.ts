import { describe, expect, it } from 'vitest';
import { judge } from '../../src/fit/index.ts';
import { millimetres, rational } from '../../src/measure/index.ts';
import { batchOf } from '../expand/check.ts';

/** `step 2 to block`, of the one tile. */
function stepsOf(parts: string, build: string): readonly string[] {
  const { builds } = batchOf(`cardwright: kit
units: in
grid: { square: 3 }
materials: { foam: { thickness: 1/2 } }
tiles:
  it:
    parts: { ${parts} }
    build: ${build}
`);
  return builds.flatMap((build) =>
    judge(build, { ruler: [millimetres(rational(1n))], wander: undefined }).glueing.map(({ what, onto }) =>
      onto.length === 0 ? what : `${what} to ${onto.join(' and ')}`,
    ),
  );
}

describe('what would be glued in the air', () => {
  it('waits for what is added beneath it', () => {
    const added = `
    added:
      - { part: block, against: top of base, flush: back }
      - { part: step, name: under the third, against: top of block, flush: back }`;
    expect(
      stepsOf(
        'base: { of: foam, size: [3, 3] }, step: { of: foam, size: [3, 1], lies: yes }, block: { of: foam, size: [3, 2] }',
        `{ up: [base, { along: [{ part: step, times: 3, every: 1, climb: 1/2 }] }] }${added}`,
      ),
    ).toEqual([
      'base',
      'step 1 to base',
      'block to base and step 1',
      'step 2 to block',
      'under the third to block and step 2',
      'step 3 to under the third',
    ]);
  });
});

describe('what is glued up first', () => {
  it('is two or more: a row of one is a part like any other', () => {
    expect(
      stepsOf(
        'a: { of: foam, size: [3, 2] }, b: { of: foam, size: [3, 2] }',
        '{ along: [a, { across: [{ up: [b] }] }, gap rest] }',
      ),
    ).toEqual(['a', 'b to a']);
  });
});
