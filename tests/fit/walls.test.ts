import { describe, expect, it } from 'vitest';
import { judge } from '../../src/fit/index.ts';
import { toFraction } from '../../src/measure/index.ts';
import type { Edge, LevelSide } from '../../src/model/index.ts';
import { flush, here, member, mm, own, part, row, standUp } from './byHand.ts';

const bench = { ruler: [mm(1, 2)] as const, wander: undefined };
const foot = (level: number): Edge => ({ kind: 'foot', at: here, level: mm(level) });
const wall: Edge = { kind: 'wall', at: here };

const slab = part('slab', [mm(60), mm(60)], mm(5));
const free = { to: 'free' } as const;

/** A slab, and along its front edge posts of 10 mm each at these places, so high. */
function tile(edges: Partial<Record<LevelSide, Edge>>, posts: readonly (readonly [number, number])[]) {
  const none = { front: undefined, back: undefined, left: undefined, right: undefined };
  return standUp(row('up', [member(slab)]), {
    edges: { ...none, ...edges },
    added: posts.map(([at, up], index) => ({
      at: here,
      member: member(part(`post ${index}`, [mm(10), mm(10)], mm(5), { isFloor: false })),
      place: { kind: 'at', corner: { across: mm(at), along: mm(0), up: mm(up) } },
    })),
  }).build!;
}
const faults = (build: ReturnType<typeof tile>) =>
  judge(build, bench).faults.map((it) =>
    it.kind === 'not closed' ? `${it.side} ${toFraction(it.from)}..${toFraction(it.to)}` : it.kind,
  );
const all = [0, 10, 20, 30, 40, 50];

// Openings: computed by hand.
describe('a side that is to be a wall', () => {
  it('is closed where pieces go up from its foot all along', () => {
    expect(
      faults(
        tile(
          { front: foot(5) },
          all.map((at) => [at, 5]),
        ),
      ),
    ).toEqual([]);
    expect(faults(tile({ front: foot(0) }, []))).toEqual([]);
    expect(
      faults(
        tile(
          { front: foot(8) },
          all.map((at) => [at, 5]),
        ),
      ),
    ).toEqual([]);
  });

  it('is not where nothing is higher than its foot', () => {
    expect(faults(tile({ front: foot(5) }, []))).toEqual(['front 0..60']);
    expect(
      faults(
        tile(
          { front: foot(10) },
          all.map((at) => [at, 5]),
        ),
      ),
    ).toEqual(['front 0..60']);
  });

  it('is open where a piece is missing, and the first such place is told', () => {
    expect(
      faults(
        tile(
          { front: foot(5) },
          [0, 10, 40, 50].map((at) => [at, 5]),
        ),
      ),
    ).toEqual(['front 20..40']);
    expect(
      faults(
        tile(
          { front: foot(5) },
          [10, 30, 40, 50].map((at) => [at, 5]),
        ),
      ),
    ).toEqual(['front 0..10']);
  });

  it('is open under a piece that hangs above its foot, and under one that hangs above the table', () => {
    const hanging = all.map((at) => [at, at === 20 ? 6 : 5] as const);
    expect(faults(tile({ front: foot(5) }, hanging))).toEqual(['front 20..30']);
    expect(faults(tile({ front: wall }, hanging))).toEqual(['front 20..30']);
  });

  it('is closed from the table up where it says no more', () => {
    expect(faults(tile({ front: wall, left: wall }, []))).toEqual([]);
  });

  it('may fall short at its ends by the slack', () => {
    const short = part('short', [mm(596, 10), mm(60)], mm(5));
    const { build } = standUp(row('up', [member(short)]), {
      edges: { front: wall, back: undefined, left: undefined, right: undefined },
    });
    expect(faults(build!)).toEqual([]);
  });

  it('is not told of again where the tile is too short to reach it', () => {
    const { build } = standUp(
      row('up', [
        member(part('short', [mm(60), mm(50)], mm(5)), { own: { ...own, align: { along: flush('high') } } }),
      ]),
      { edges: { front: wall, back: undefined, left: undefined, right: undefined } },
    );
    expect(faults(build!)).toEqual(['does not close']);
  });

  it('is closed across a glue line', () => {
    const { build } = standUp(row('up', [member(slab), row('along', [member(slab, upright)], free)]), {
      glueLine: mm(1, 10),
      edges: { front: foot(5), back: undefined, left: undefined, right: undefined },
    });
    expect(faults(build!)).toEqual(['front 0..60']);
    const flat = standUp(row('up', [member(slab), member(slab)]), {
      glueLine: mm(1, 10),
      edges: { front: wall, back: foot(3), left: undefined, right: undefined },
    });
    expect(faults(flat.build!)).toEqual([]);
  });
});

const upright = { stance: { length: undefined, thickness: { value: 'along', at: here } } } as const;
