import { describe, expect, it } from 'vitest';
import { rational } from '../../../src/measure/index.ts';
import type { MaterialDemand, PartMember, SharedBlank } from '../../../src/model/index.ts';
import { changed } from '../../../src/pack/index.ts';
import { demandOf, mm } from '../demand.ts';

const origin = { x: mm(0), y: mm(0) };
const shared: SharedBlank = {
  labels: ['a', 'a'],
  length: mm(60),
  width: mm(20),
  at: [origin, origin],
  parting: undefined,
  saved: rational(1200n),
};

describe('tiles fewer', () => {
  // Source: by hand: 2 pairs and 1 are 5 parts, one a tile. What is left over of a pair is still cut.
  it.each([
    [1, '2 × pair'],
    [2, '2 × pair'],
    [3, '1 × pair'],
    [4, '1 × pair'],
  ])('%i fewer leave enough blanks, whether two share them or not', (count, left) => {
    const after = changed(ramps(), { kind: 'fewer tiles', tile: 'ramp', count });
    expect(counts(after!)).toEqual([left]);
  });

  it('leave nothing where there are none', () => {
    expect(changed(ramps(), { kind: 'fewer tiles', tile: 'ramp', count: 6 })).toBeUndefined();
  });
});

function ramps(): MaterialDemand {
  const demand = demandOf(
    [
      { size: [60, 20], count: 2, label: 'pair' },
      { size: [60, 10], count: 1, label: 'a' },
    ],
    [{ size: [200, 200] }],
  );
  const [pairs, single] = demand.parts;
  const member = (it: PartMember): PartMember => ({ ...it, tile: 'ramp', part: 'a', each: 1 });
  return {
    ...demand,
    parts: [
      { ...pairs, members: [{ ...member(pairs.members[0]), shared }] },
      { ...single!, members: [member(single!.members[0])] },
    ],
  };
}

function counts({ parts }: MaterialDemand): readonly string[] {
  return parts.flatMap(({ members }) => members.map(({ count, label }) => `${count} × ${label}`));
}
