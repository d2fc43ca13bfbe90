import { compare, larger, minus, sum, zero } from '../measure/index.ts';
import type { Length, StandingMember, StandingPart, StandingRow, Way } from '../model/index.ts';

/** The size that a piece has, or would have if it were cut to a mark. */
export type SizeOf = (part: StandingPart, size: 'length' | 'width') => Length;

export const asDrawn: SizeOf = (part, size) => part.size[size];

/**
 * Which of the sizes that a part is cut to runs that way; undefined where it is its thickness, or where it slopes, is
 * bent or folded.
 */
export function cutSizeAlong(part: StandingPart, way: Way): 'length' | 'width' | undefined {
  const { stance, profile } = part;
  if (profile?.along !== way && !standsAsCut(part)) return undefined;
  return stance.length === way ? 'length' : stance.width === way ? 'width' : undefined;
}

/** False for what slopes, is bent or folded: its length, width and thickness run no single way. */
export function standsAsCut({ profile, inclined, bevels, rebates }: StandingPart): boolean {
  return profile === undefined || (inclined === undefined && (bevels !== undefined || rebates !== undefined));
}

/** True for what is folded and whose sides go past what it lies on: its row counts its panel alone. */
export function laps({ isFolded, block, stance: { thickness: way }, size }: StandingPart): boolean {
  return isFolded === true && compare(minus(block.high[way], block.low[way]), size.thickness) > 0;
}

/** How much room of its row a part takes. */
export function spanOf(part: StandingPart, way: Way, sizeOf: SizeOf = asDrawn): Length {
  const size = cutSizeAlong(part, way);
  const span = size === undefined ? fixedSpanOf(part, way) : sizeOf(part, size);
  // What goes into corners lies outside the row, or beside its walls.
  return part.reach === undefined || part.stance.length !== way ? span : minus(span, part.reach);
}

/** What slopes or bends is as long as its block; of a folded part what laps over its neighbours doesn't count. */
function fixedSpanOf({ block, inclined, size, stance }: StandingPart, way: Way): Length {
  if (inclined !== undefined) return minus(block.high[way], block.low[way]);
  return stance.thickness === way ? size.thickness : stance.length === way ? size.length : size.width;
}

/**
 * How far a member reaches in one direction, with every size as `sizeOf` says: a row adds its members up in
 * its own direction and is as large as the largest in the two others.
 */
export function extentOf(member: StandingMember, way: Way, sizeOf: SizeOf): Length {
  if (member.kind === 'gap') return member.way === way ? member.size : zero;
  // As drawn it has been worked out already, when the row was put up.
  if (member.kind === 'row' && sizeOf === asDrawn) return member.extent[way];
  if (member.kind === 'part') return spanOf(member, way, sizeOf);
  return member.way === way ? lengthOfRow(member, sizeOf) : largestIn(member, way, sizeOf);
}

function lengthOfRow(row: StandingRow, sizeOf: SizeOf): Length {
  const stretches = row.members.some((it) => it.kind === 'gap' && it.takesRest);
  const stated = row.members.filter((it) => it.kind !== 'gap' || !it.takesRest);
  const total = sum(row.glue, ...stated.map((it) => extentOf(it, row.way, sizeOf)));
  // A gap that takes the rest gives way to what its neighbours are cut to, until nothing is left of it.
  return stretches ? larger(total, row.extent[row.way]) : total;
}

function largestIn(row: StandingRow, way: Way, sizeOf: SizeOf): Length {
  const largest = (of: SizeOf) =>
    row.members
      .filter((it) => it.kind !== 'gap' && !it.overhangs.includes(way))
      .reduce((most, it) => larger(most, extentOf(it, way, of)), zero);
  // Members that climb reach higher than each of them is.
  const climbed = way === 'up' ? minus(row.extent.up, largest(asDrawn)) : zero;
  return sum(largest(sizeOf), larger(climbed, zero));
}

/** How much `extent` is over its room (above zero), or short of it by more than the slack (below); else 0. */
export function missBy(extent: Length, room: Length, slack: Length): -1 | 0 | 1 {
  if (compare(extent, room) > 0) return 1;
  return compare(sum(extent, slack), room) < 0 ? -1 : 0;
}

/** All rows of a member, the outer before the inner. */
export function rowsOf(member: StandingMember): readonly StandingRow[] {
  return member.kind === 'row' ? [member, ...member.members.flatMap(rowsOf)] : [];
}
