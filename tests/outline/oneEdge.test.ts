import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { toFraction } from '../../src/measure/index.ts';
import type { Outline } from '../../src/model/index.ts';
import { arched, difference, laid, outlineKey, rectangle, shiftBy } from '../../src/outline/index.ts';
import { takenOverOneEdge } from '../../src/outline/oneEdge.ts';
import { curved, notchedBoard, round, star, whole } from './anyOutline.ts';
import { at, made, mm } from './drawing.ts';

// Expected: what cutting all edges where they cross gives, whose own reference is another library.
describe('what is cut in over one straight edge', () => {
  const boards = fc.oneof(notchedBoard, round, star, curved);
  const aways: fc.Arbitrary<Outline> = fc
    .tuple(whole(1, 30), whole(1, 40), fc.boolean(), whole(-20, 70), whole(-20, 70))
    .map(([a, b, isArch, x, y]) => {
      const shape = isArch ? arched({ width: mm(a), rise: mm(a, 3) }, mm(b)) : rectangle(mm(a), mm(b));
      return laid(made(shape), shiftBy(at(x, y)));
    });
  it('is as with all edges cut, to the last figure and in the same order', () => {
    let found = 0;
    fc.assert(
      fc.property(boards, aways, (board, away) => {
        const plain = takenOverOneEdge(board, away);
        if (plain === undefined) return;
        found++;
        const [other, ...others] = difference(board, away);
        expect(others).toEqual([]);
        expect(outlineKey(plain)).toBe(outlineKey(other!));
        expect(toFraction(plain.within)).toBe(toFraction(other!.within));
        expect(plain.rim).toEqual(other!.rim);
      }),
      { numRuns: 400 },
    );
    expect(found).toBeGreaterThan(20);
  });
});
