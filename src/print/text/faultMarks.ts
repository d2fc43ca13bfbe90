import { compare, isNegative, larger, minus, opposite, smaller, sum, zero } from '../../measure/index.ts';
import type {
  Build,
  Fault,
  Length,
  LevelSide,
  StandingMember,
  StandingPart,
  StandingRow,
  TileSide,
  Way,
} from '../../model/index.ts';
import { clean } from '../columns/index.ts';

/** How a length stands in the drawing. */
export type ShowBriefly = (length: Length) => string;

/** What is to be seen of one fault in a drawing of its tile. */
export interface Mark {
  /** The dimension that is off: from where to where, and its size; undefined where no dimension is. */
  readonly dimension:
    | { readonly way: Way; readonly from: Length; readonly to: Length; readonly text: string }
    | undefined;
  /** What is wrong with it. */
  readonly note: string;
  /** The pieces that a section should go through. */
  readonly pieces: readonly StandingPart[];
  /** The level direction in which a section should be seen. */
  readonly seen: 'across' | 'along' | undefined;
}

/** Undefined for what a drawing can't show. */
export function markOf(fault: Fault, build: Build, show: ShowBriefly): Mark | undefined {
  switch (fault.kind) {
    case 'does not close':
    case 'does not close as marked':
      return unclosed(fault, build, show);
    case 'sticks out': {
      const { part, side, by, limit } = fault;
      const { way, isLow } = ends[side];
      const [from, to] = isLow ? [part.block.low[way], limit] : [limit, part.block.high[way]];
      const note = `${clean(part.name)} sticks out at the ${side}`;
      return { dimension: { way, from, to, text: show(by) }, note, pieces: [part], seen: level(way) };
    }
    case 'overlaps': {
      const { part, other, way, shared } = fault;
      const from = larger(part.block.low[way], other.block.low[way]);
      const to = smaller(part.block.high[way], other.block.high[way]);
      const note = `${clean(part.name)} and ${clean(other.name)} in one place`;
      const dimension = { way, from, to, text: show(shared[way]) };
      return { dimension, note, pieces: [part, other], seen: level(way) };
    }
    case 'floats':
      return {
        dimension: undefined,
        note: `${clean(fault.part.part)} touches nothing`,
        pieces: [fault.part],
        seen: undefined,
      };
    case 'level is off': {
      const { part, side, declared, found } = fault;
      const apart = minus(found, declared);
      const miss = isNegative(apart) ? `${show(opposite(apart))} too low` : `${show(apart)} too high`;
      return {
        dimension: { way: 'up', from: zero, to: found, text: show(found) },
        note: `floor at the ${side}: ${miss}`,
        pieces: [part],
        seen: inward(side),
      };
    }
    case 'no floor':
      return {
        dimension: undefined,
        note: `no floor at the ${fault.side}`,
        pieces: [],
        seen: inward(fault.side),
      };
    case 'not closed': {
      const { side, from, to } = fault;
      const way = inward(side) === 'along' ? 'across' : 'along';
      const dimension = { way, from, to, text: show(minus(to, from)) } as const;
      return { dimension, note: `open at the ${side}`, pieces: [], seen: inward(side) };
    }
    case 'does not fit the rack': {
      const { way, needs, has, rack } = fault;
      const from = build.parts.map(({ block }) => block.low[way]).reduce(smaller, zero);
      const dimension = { way, from, to: sum(from, needs), text: show(needs) };
      return { dimension, note: `${show(has)} in ${clean(rack)}`, pieces: [], seen: level(way) };
    }
    case 'habit':
      return undefined;
  }
}

function unclosed(
  fault: Extract<Fault, { kind: 'does not close' | 'does not close as marked' }>,
  build: Build,
  show: ShowBriefly,
): Mark {
  const { way, extent, room } = fault;
  const by = minus(extent, room);
  const miss = compare(by, zero) > 0 ? `${show(by)} over` : `${show(opposite(by))} short`;
  const row = rowAtFault(fault, build) ?? build.row;
  const from = row.block.low[way];
  const text = fault.kind === 'does not close' ? show(extent) : `${show(extent)} as marked`;
  return {
    dimension: { way, from, to: sum(from, extent), text },
    note: `${show(room)} to fill: ${miss}`,
    pieces: piecesIn(row),
    seen: level(way),
  };
}

/** The row that the fault is told of; the outermost for the tile as a whole. */
function rowAtFault(
  { at, way, what }: Extract<Fault, { kind: 'does not close' | 'does not close as marked' }>,
  build: Build,
): StandingRow | undefined {
  if (what === 'the tile') return undefined;
  const isIt = (row: StandingRow): boolean =>
    [row.at, row.duty?.at].some((it) => it?.source === at.source && it.start === at.start);
  return [build.row, ...build.added].flatMap(rowsIn).find((row) => row.way === way && isIt(row));
}

const ends: Readonly<Record<TileSide, { readonly way: Way; readonly isLow: boolean }>> = {
  left: { way: 'across', isLow: true },
  right: { way: 'across', isLow: false },
  front: { way: 'along', isLow: true },
  back: { way: 'along', isLow: false },
  bottom: { way: 'up', isLow: true },
  top: { way: 'up', isLow: false },
};

function level(way: Way): 'across' | 'along' | undefined {
  return way === 'up' ? undefined : way;
}

/** The direction from a side into the tile. */
function inward(side: LevelSide): 'across' | 'along' {
  return side === 'left' || side === 'right' ? 'across' : 'along';
}

function rowsIn(member: StandingMember): readonly StandingRow[] {
  return member.kind === 'row' ? [member, ...member.members.flatMap(rowsIn)] : [];
}

function piecesIn(member: StandingMember): readonly StandingPart[] {
  if (member.kind === 'part') return [member];
  return member.kind === 'row' ? member.members.flatMap(piecesIn) : [];
}
