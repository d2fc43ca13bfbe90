import { compare, floor, larger, minus, ratio, zero } from '../measure/index.ts';
import {
  type Build,
  type ByWay,
  type Fault,
  type Length,
  type Rack,
  type RackFill,
  type Way,
  ways,
} from '../model/index.ts';

/**
 * A tile in its rack, lying as it stands on the table, turned a quarter if it must be. In each direction the
 * rack's clearance is kept free once, so that a hand can lift the tiles out.
 *
 *    ┌──────────────────┐ ─┬─
 *    │ ┌──────┐┌──────┐ │  │
 *    │ │ tile ││      │ │  inside − clearance ≥ tiles
 *    │ └──────┘└──────┘ │  │
 *    └──────────────────┘ ─┴─
 */
export function rackFill(build: Build): RackFill | undefined {
  const { rack } = build;
  if (rack === undefined) return undefined;
  const size = sizeOfTile(build);
  const counts = [size, turnedQuarter(size)].map((it) => {
    const [across, along, up] = ways.map((way) => fitsIn(rack, way, it[way]));
    return { stack: up ?? 0, sideBySide: (across ?? 0) * (along ?? 0) };
  });
  const [asItLies, turned] = counts;
  const best = (turned?.sideBySide ?? 0) > (asItLies?.sideBySide ?? 0) ? turned : asItLies;
  return { rack: rack.name, stack: best?.stack ?? 0, sideBySide: best?.sideBySide ?? 0 };
}

export function rackFaults(build: Build): readonly Fault[] {
  const { rack } = build;
  const fill = rackFill(build);
  if (rack === undefined || fill === undefined || fill.stack * fill.sideBySide > 0) return [];
  const size = sizeOfTile(build);
  // The way that lacks most, of the better turn.
  const tooLarge = [size, turnedQuarter(size)].map((it) =>
    ways.filter((way) => fitsIn(rack, way, it[way]) === 0).map((way) => ({ way, needs: it[way] })),
  );
  const [asItLies = [], turned = []] = tooLarge;
  const shown = turned.length < asItLies.length ? turned : asItLies;
  return shown.map(({ way, needs }) => ({
    kind: 'does not fit the rack',
    at: rack.at,
    rack: rack.name,
    way,
    needs,
    has: larger(minus(rack.inside[way], rack.clearance), zero),
  }));
}

function fitsIn(rack: Rack, way: Way, size: Length): number {
  const room = minus(rack.inside[way], rack.clearance);
  return compare(size, room) > 0 ? 0 : Number(floor(ratio(room, size)));
}

/** The box round all pieces, and at least the footprint. */
function sizeOfTile(build: Build): ByWay<Length> {
  const reach = (way: Way): Length =>
    build.parts.reduce((most, { block }) => larger(most, block.high[way]), build.row.extent[way]);
  const low = (way: Way): Length =>
    build.parts.reduce(
      (least, { block }) => (compare(block.low[way], least) < 0 ? block.low[way] : least),
      minus(reach(way), reach(way)),
    );
  const span = (way: Way): Length => minus(reach(way), low(way));
  return {
    across: larger(span('across'), build.footprint.across),
    along: larger(span('along'), build.footprint.along),
    up: span('up'),
  };
}

function turnedQuarter({ across, along, up }: ByWay<Length>): ByWay<Length> {
  return { across: along, along: across, up };
}
