import { equal, minus } from '../measure/index.ts';
import {
  type Build,
  type Fault,
  type Length,
  levelSides,
  type NonEmpty,
  type StandingPart,
  type TileFit,
} from '../model/index.ts';
import { unclosed, unclosedWays } from './closing.ts';
import { Visible, visibleFaces } from './faces.ts';
import { glueSteps } from './glueing.ts';
import { habitFaults } from './habits.ts';
import { holesIn } from './holes.ts';
import { stickingOut } from './inside.ts';
import { letting } from './lettingPass.ts';
import { levelFaults } from './levels.ts';
import { marking, wanderCases } from './marking.ts';
import { turningsOf } from './mating.ts';
import { rackFaults, rackFill } from './racks.ts';
import { floating, touchingOf } from './touching.ts';
import { wallFaults } from './walls.ts';

/** The bench that a tile is made at. */
export interface Bench {
  /** Graduations of the rules at hand, the one used first comes first. */
  readonly ruler: NonEmpty<Length>;
  /** How far the knife may wander; undefined where nobody said. */
  readonly wander: Length | undefined;
}

/**
 * How one tile stands, and all that is wrong with it. Everything is exact.
 *
 *   Build ─→ closes ─→ as marked
 *        ├─→ stays inside
 *        ├─→ touching: overlaps, floats ─→ faces, habits, order of gluing
 *        └─→ levels, walls, turns, rack, holes for fittings
 *
 * @param unmet  what is let into its sides and meets nothing at those of other tiles
 */
export function judge(build: Build, { ruler, wander }: Bench, unmet: readonly Fault[] = []): TileFit {
  const closing = unclosed(build);
  const toldWays = unclosedWays(closing);
  const { marks, faults: unmarked } = marking(build, ruler);
  const touching = touchingOf(build);
  const { contacts, overlaps } = touching;
  const visible = new Visible(contacts);
  const faces = later(() => visibleFaces(build, visible));
  const holes = holesIn(build);
  const glueing = later(() => glueSteps(build, contacts));
  const found: readonly Fault[] = [
    ...closing,
    ...unmarked,
    ...stickingOut(build, toldWays),
    ...overlaps.filter((it) => !isToldOfItsCore(it, overlaps)),
    ...touching.doubts,
    ...floating(build, touching),
    ...levelFaults(build, toldWays).filter((it) => !isToldByTheSum(it, closing)),
    ...wallFaults(build, toldWays),
    ...rackFaults(build),
    ...habitFaults(build, contacts, visible),
    ...holes.faults,
    ...unmet,
  ];
  const { told: faults, letPass } = letting(found, build.lets ?? []);
  return {
    build,
    faults,
    letPass,
    extent: build.row.extent,
    marks,
    contacts,
    get faces() {
      return faces();
    },
    get glueing() {
      return glueing();
    },
    unchecked: levelSides.filter((side) =>
      faults.some((it) => it.kind === 'hangs on a curve' && it.side === side),
    ),
    turns: turningsOf(build),
    rack: rackFill(build),
    thinnestWall: holes.thinnestWall,
    wander: wander === undefined ? [] : wanderCases(build, marks, wander),
  };
}

type Overlap = Extract<Fault, { kind: 'overlaps' }>;

/** What stands on layers that come out short is low by as much, and is right again when they are. */
function isToldByTheSum(fault: Fault, closing: readonly Fault[]): boolean {
  return (
    fault.kind === 'level is off' &&
    closing.some(
      (it) =>
        it.kind === 'does not close' &&
        it.way === 'up' &&
        equal(minus(it.extent, it.room), minus(fault.found, fault.declared)),
    )
  );
}

/** A strip lies over a side of its part: where the part itself is in the way, the strip is no news. */
function isToldOfItsCore({ part, other }: Overlap, overlaps: readonly Overlap[]): boolean {
  const isTold = (strip: StandingPart, inTheWay: StandingPart): boolean =>
    strip.clads !== undefined &&
    overlaps.some(
      (it) =>
        (it.part.part === strip.clads && it.other === inTheWay) ||
        (it.other.part === strip.clads && it.part === inTheWay),
    );
  return isTold(part, other) || isTold(other, part);
}

/** Worked out when it is first asked for: of a kit that is only checked nobody asks for it. */
function later<T>(give: () => T): () => T {
  let given: { readonly value: T } | undefined;
  return () => {
    given ??= { value: give() };
    return given.value;
  };
}
