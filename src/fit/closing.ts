import {
  compare,
  divide,
  isPositive,
  isZero,
  larger,
  minus,
  rational,
  scaled,
  sum,
  zero,
} from '../measure/index.ts';
import {
  type Build,
  type Fault,
  type Follows,
  type Length,
  type Misshared,
  type RightSize,
  type StandingMember,
  type StandingPart,
  type StandingRow,
  type Term,
  type Way,
  ways,
} from '../model/index.ts';
import { asDrawn, cutSizeAlong, extentOf, laps, missBy, rowsOf } from './extent.ts';

type Unclosed = Extract<Fault, { kind: 'does not close' }>;

/** What has to fill what: each row with a duty, then the tile as a whole. */
export interface Sum {
  readonly what: string;
  readonly at: Unclosed['at'];
  readonly row: StandingRow;
  readonly isWhole: boolean;
  readonly way: Way;
  readonly room: Length;
  readonly from: Unclosed['from'];
}

/**
 * Every sum that has to come out: innermost rows first.
 *
 *      along: │face│      core      │back│  ← the row's duty: the footprint
 *             │    ├────────────────┤    │
 *             ├────┴────────────────┴────┤
 *                      room
 */
export function sumsOf(build: Build): readonly Sum[] {
  const rows = [build.row, ...build.added].flatMap(rowsOf).reverse();
  const ofRows = rows.flatMap((row): readonly Sum[] => {
    if (row.duty === undefined) return [];
    const { room, from, at } = row.duty;
    return [
      {
        what: nameOfRow(row),
        at: from === 'to' ? at : row.at,
        row,
        isWhole: false,
        way: row.way,
        room,
        from,
      },
    ];
  });
  const { row, footprint } = build;
  const height = standsHigher(build) ? undefined : build.height;
  const whole = (way: Way, room: Length, from: Unclosed['from'], at: Unclosed['at']): Sum => ({
    what: 'the tile',
    at,
    row,
    isWhole: true,
    way,
    room,
    from,
  });
  return [
    ...ofRows,
    whole('across', footprint.across, 'footprint', row.at),
    whole('along', footprint.along, 'footprint', row.at),
    ...(height === undefined ? [] : [whole('up', height.value, 'height', row.at)]),
  ];
}

/** True where what was added stands above the rows, so that the height isn't theirs to make. */
function standsHigher({ row, parts }: Build): boolean {
  return parts.some(({ block }) => compare(block.high.up, row.block.high.up) > 0);
}

/** Where added pieces make the height, how far they fall short of it; over it they stick out, which is told there. */
function notHighEnough(build: Build): readonly Unclosed[] {
  const { height, row, slack, parts } = build;
  if (height === undefined || !standsHigher(build)) return [];
  const extent = parts.map(({ block }) => block.high.up).reduce(larger, zero);
  if (missBy(extent, height.value, slack) >= 0) return [];
  return [
    {
      kind: 'does not close',
      at: row.at,
      what: 'the tile',
      isWhole: true,
      way: 'up',
      extent,
      room: height.value,
      from: 'height',
      slack,
      sum: [],
      right: [],
      isOnlyThickness: false,
      misshared: undefined,
      rows: 1,
      follows: [],
      pieces: undefined,
      lapping: undefined,
    },
  ];
}

/**
 * The sums that don't come out: short by more than the slack, or over at all. A fault is told once: of two
 * rows one inside the other the inner, of courses and repeats that come to the same the first, and of the tile only
 * what no row has told in that direction.
 */
export function unclosed(build: Build): readonly Unclosed[] {
  const faults: Unclosed[] = [];
  const told: StandingRow[] = [];
  for (const sumUp of sumsOf(build)) {
    const { row, way, room, isWhole } = sumUp;
    const extent = extentOf(row, way, asDrawn);
    const miss = missBy(extent, room, build.slack);
    if (miss === 0) continue;
    const inside = rowsOf(row).filter((it) => it.way === way && it !== row);
    if (told.some((it) => inside.includes(it) || (isWhole && it.way === way))) continue;
    told.push(row);
    const fault: Unclosed = {
      kind: 'does not close',
      at: sumUp.at,
      what: sumUp.what,
      isWhole,
      way,
      extent,
      room,
      from: sumUp.from,
      slack: build.slack,
      sum: termsOf(row, way),
      right: rightSizes(row, way, minus(room, extent)),
      isOnlyThickness: !isCut(row, way),
      misshared: misshared(row, way),
      rows: 1,
      follows: followsIn(row, way),
      pieces: rightCount(row, way, minus(room, extent), build.glueLine),
      lapping: miss < 0 ? lappingIn(row, way) : undefined,
    };
    const same = faults.findIndex((it) => areAlike(it, fault));
    const known = faults[same];
    if (known === undefined) faults.push(fault);
    else faults[same] = together(known, fault);
  }
  return [...faults, ...notHighEnough(build)];
}

/** True for rows that one place of the text says, and that miss by as much. */
function areAlike(a: Unclosed, b: Unclosed): boolean {
  return (
    a.at.source === b.at.source &&
    a.at.start === b.at.start &&
    a.what === b.what &&
    a.way === b.way &&
    a.isWhole === b.isWhole &&
    compare(a.extent, b.extent) === 0 &&
    compare(a.room, b.room) === 0
  );
}

/** One fault for both, with the sizes that close both. */
function together(known: Unclosed, next: Unclosed): Unclosed {
  const closesBoth = (it: RightSize): boolean =>
    next.right.some((other) => compare(it.right, other.right) === 0 && nameOfSize(it) === nameOfSize(other));
  return {
    ...known,
    rows: known.rows + next.rows,
    right: known.right.filter(closesBoth),
    isOnlyThickness: known.isOnlyThickness && next.isOnlyThickness,
    pieces:
      known.pieces?.part === next.pieces?.part && known.pieces?.more === next.pieces?.more
        ? known.pieces
        : undefined,
  };
}

function nameOfSize({ parts }: RightSize): string {
  return parts.map(({ part, size }) => `${part} ${size}`).join(' | ');
}

/**
 * Extent less room of the sum that a fault is about, in the build as it is now; undefined where it is gone.
 */
export function missIn(build: Build, fault: Unclosed): Length | undefined {
  const same = sumsOf(build).find(
    ({ what, way, isWhole, row, at }) =>
      what === fault.what &&
      way === fault.way &&
      isWhole === fault.isWhole &&
      (at.start === fault.at.start || row.at.start === fault.at.start),
  );
  return same && minus(extentOf(same.row, same.way, asDrawn), same.room);
}

/** Extent less room of every sum, in a fixed order. */
export function missesOf(build: Build): readonly Length[] {
  return sumsOf(build).map(({ row, way, room }) => minus(extentOf(row, way, asDrawn), room));
}

function nameOfRow(row: StandingRow): string {
  return row.name ?? `row ${row.way}`;
}

/** What a row adds up, equal members put together; in another direction, its largest member. */
function termsOf(row: StandingRow, way: Way): readonly Term[] {
  if (row.way !== way) {
    const largest = row.members.find(
      (it) => it.kind !== 'gap' && compare(extentOf(it, way, asDrawn), row.extent[way]) === 0,
    );
    if (largest?.kind === 'row') return termsOf(largest, way);
    return largest === undefined ? [] : [{ name: nameOf(largest), count: 1, size: row.extent[way] }];
  }
  const terms: Term[] = [];
  for (const member of row.members.flatMap((it) => withStrips(it, way))) {
    const term = { name: nameOf(member), count: 1, size: extentOf(member, way, asDrawn) };
    const same = terms.findIndex((it) => it.name === term.name && compare(it.size, term.size) === 0);
    const known = terms[same];
    if (known === undefined) terms.push(term);
    else terms[same] = { ...known, count: known.count + 1 };
  }
  const glue = sum(row.glue, ...row.members.map((it) => glueOfStrips(it, way)));
  return isZero(glue) ? terms : [...terms, { name: 'glue', count: 1, size: glue }];
}

/** A clad part and its strips, each for itself, where they lie one behind the other in that direction. */
function withStrips(member: StandingMember, way: Way): readonly StandingMember[] {
  if (member.kind !== 'row' || member.core === undefined) return [member];
  if (member.way === way) return member.members.flatMap((it) => withStrips(it, way));
  const inner = member.members.find((it) => it.kind === 'row' && it.core !== undefined);
  return inner === undefined ? [member] : withStrips(inner, way);
}

function glueOfStrips(member: StandingMember, way: Way): Length {
  if (member.kind !== 'row' || member.core === undefined) return zero;
  const inner = member.members.map((it) => glueOfStrips(it, way));
  return member.way === way ? sum(member.glue, ...inner) : inner.reduce(larger, zero);
}

function nameOf(member: StandingMember): string {
  switch (member.kind) {
    case 'part':
      return member.part;
    case 'gap':
      return 'gap';
    case 'row':
      return member.name ?? member.core?.part ?? nameOfItsParts(member);
  }
}

function nameOfItsParts(row: StandingRow): string {
  const names = new Set(row.members.filter((it) => it.kind !== 'gap').map(nameOf));
  const [first, ...others] = names;
  return others.length === 0 ? (first ?? 'row') : `${first} and others`;
}

/**
 * Sizes that would close the row, each alone: what is missing is shared by all members that have the size.
 *
 * @param missing  room less extent; below zero where the row is over
 */
function rightSizes(row: StandingRow, way: Way, missing: Length): readonly RightSize[] {
  const groups = new Map<
    string,
    { parts: Map<string, RightSize['parts'][number]>; now: Length; count: number }
  >();
  const members = row.way === way ? flattened(row, way) : [row];
  for (const member of members) {
    const group = sharedSize(member, way);
    if (group === undefined) continue;
    const key = [...group.parts.keys()].join(' | ');
    const known = groups.get(key);
    if (known === undefined) groups.set(key, { ...group, count: 1 });
    else known.count++;
  }
  return [...groups.values()].flatMap(({ parts, now, count }) => {
    const right = sum(now, scaled(missing, rational(1n, BigInt(count))));
    return isPositive(right) ? [{ parts: [...parts.values()], now, right }] : [];
  });
}

/** How many more of the pieces that a row repeats fill what is missing, where a whole number of them does. */
function rightCount(row: StandingRow, way: Way, missing: Length, glueLine: Length): Unclosed['pieces'] {
  if (row.way !== way) return undefined;
  const counts = new Map<string, { size: Length; count: number }>();
  for (const it of row.members) {
    if (it.kind !== 'part') continue;
    const known = counts.get(it.part);
    counts.set(it.part, { size: extentOf(it, way, asDrawn), count: (known?.count ?? 0) + 1 });
  }
  for (const [part, { size, count }] of counts) {
    const each = sum(size, glueLine);
    if (count < 2 || !isPositive(each)) continue;
    const more = divide(missing, each);
    if (more.denominator === 1n && BigInt(count) + more.numerator > 0n) {
      return { part, more: Number(more.numerator) };
    }
  }
  return undefined;
}

/** A row's members, and in place of rows of its own direction theirs. */
function flattened(row: StandingRow, way: Way): readonly StandingMember[] {
  return row.members.flatMap((it) => (it.kind === 'row' && it.way === way ? flattened(it, way) : [it]));
}

/**
 * The parts that make a member as large as it is, if it is by a size that is cut and not by a thickness. What
 * is clad grows as its part does.
 */
function sharedSize(member: StandingMember, way: Way): Shared | undefined {
  if (member.kind === 'gap') return undefined;
  if (member.kind === 'part') {
    const run = statedRun(member, way);
    const size = run === undefined ? cutSizeAlong(member, way) : 'run';
    if (size === undefined) return undefined;
    const part: RightSize['parts'][number] = { part: member.part, size };
    return {
      parts: new Map([[`${member.part} ${size}`, part]]),
      now: size === 'run' ? (run ?? zero) : member.size[size],
    };
  }
  if (member.way === way) return member.core && sharedSize(member.core, way);
  const now = extentOf(member, way, asDrawn);
  const largest = member.members
    .filter((it) => it.kind !== 'gap' && !it.overhangs.includes(way))
    .filter((it) => compare(extentOf(it, way, asDrawn), now) === 0)
    .filter((it) => it.kind !== 'part' || (it.clads === undefined && !takesItsRun(it, way)));
  const shared = largest.map((it) => sharedSize(it, way));
  const [first] = shared;
  if (first === undefined) return undefined;
  const parts = new Map<string, RightSize['parts'][number]>();
  for (const it of shared) {
    if (it === undefined || compare(it.now, first.now) !== 0) return undefined;
    for (const [key, part] of it.parts) parts.set(key, part);
  }
  return { parts, now: first.now };
}

interface Shared {
  readonly parts: Map<string, RightSize['parts'][number]>;
  readonly now: Length;
}

/**
 * Why a row with a `gap rest` is over all the same: a `rest` in one of its members has been given a share
 * like the gaps, and something beside it is larger than that.
 *
 *      across: │ gap │side│      front       │side│ gap │
 *                         │ core  │                        ← as long as a gap, and `front` was not reckoned with
 */
function misshared(row: StandingRow, way: Way): Misshared | undefined {
  const gap = row.members.find((it) => it.kind === 'gap' && it.takesRest);
  if (gap?.kind !== 'gap' || row.way !== way) return undefined;
  for (const member of row.members) {
    if (member.kind !== 'row' || member.way === way) continue;
    if (compare(extentOf(member, way, asDrawn), gap.size) <= 0) continue;
    const [instead] = sharedSize(member, way)?.parts.values() ?? [];
    const sizes = new Map(
      partsOf(member).flatMap((it) => {
        const size = cutSizeAlong(it, way);
        return size !== undefined && compare(it.size[size], gap.size) === 0
          ? [[`${it.part} ${size}`, { part: it.part, size }]]
          : [];
      }),
    );
    if (instead !== undefined && sizes.size > 0) {
      return { sizes: [...sizes.values()], share: gap.size, instead };
    }
  }
  return undefined;
}

function partsOf(member: StandingMember): readonly StandingPart[] {
  if (member.kind === 'row') return member.members.flatMap(partsOf);
  return member.kind === 'part' ? [member] : [];
}

/** True where some size that is cut, and not a thickness, runs that way, or makes what does. */
function isCut(member: StandingMember, way: Way): boolean {
  if (member.kind === 'gap') return false;
  if (member.kind === 'row') return member.members.some((it) => isCut(it, way));
  return cutSizeAlong(member, way) !== undefined || whatItFollows(member, way) !== undefined;
}

/** How far a part goes that slopes that way, where that is said of its slope. */
function statedRun({ inclined, stance }: StandingPart, way: Way): Length | undefined {
  if (inclined?.how.kind !== 'slope' || stance[inclined.size] !== way) return undefined;
  return inclined.how.isRunStated ? inclined.how.run : undefined;
}

/** True for what slopes as far as its room goes: that is as large as what else stands there. */
function takesItsRun(part: StandingPart, way: Way): boolean {
  const { inclined, stance } = part;
  return (
    inclined?.how.kind === 'slope' && stance[inclined.size] === way && statedRun(part, way) === undefined
  );
}

/** What makes a part as large as it is that way, where no size of its own does. */
function whatItFollows(part: StandingPart, way: Way): Follows['from'] | undefined {
  const { inclined, stance, isFolded } = part;
  if (inclined?.how.kind === 'slope') {
    return stance[inclined.size] === way || way === 'up' ? 'its slope' : undefined;
  }
  // What laps counts as thick as its panel is.
  if (way === stance.thickness && laps(part)) return undefined;
  // Its width is what its folds are long; it alone is cut as it is stated.
  if (isFolded !== true || cutSizeAlong(part, way) !== undefined) return undefined;
  return part.walls === undefined ? 'its folds' : 'its tray';
}

/** A member of a row whose folded sides go past what the row counts of it. */
function lappingIn(row: StandingRow, way: Way): Unclosed['lapping'] {
  if (row.way !== way) return undefined;
  const part = row.members.find(
    (it): it is StandingPart => it.kind === 'part' && it.stance.thickness === way && laps(it),
  );
  return part && { part: part.part, high: minus(part.block.high[way], part.block.low[way]) };
}

/** The parts of a row that are as large as they are because of how they slope or fold, each once. */
function followsIn(row: StandingRow, way: Way): readonly Follows[] {
  const parts = new Map<string, Follows>();
  const look = (member: StandingMember): void => {
    if (member.kind === 'gap') return;
    if (member.kind === 'row') {
      // Beside each other, the largest alone makes the row as large as it is.
      const isAdded = member.way === way;
      const most = extentOf(member, way, asDrawn);
      const inIt = member.members.filter((it) => isAdded || compare(extentOf(it, way, asDrawn), most) === 0);
      for (const it of inIt) look(it);
      return;
    }
    const from = whatItFollows(member, way);
    if (from === undefined || statedRun(member, way) !== undefined || takesItsRun(member, way)) return;
    parts.set(member.part, { part: member.part, from, extent: extentOf(member, way, asDrawn) });
  };
  look(row);
  return [...parts.values()];
}

/** Directions in which some sum doesn't come out. */
export function unclosedWays(faults: readonly Fault[]): readonly Way[] {
  return ways.filter((way) => faults.some((it) => it.kind === 'does not close' && it.way === way));
}
