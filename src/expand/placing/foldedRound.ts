import { compare, minus, rational, sum, times, toFraction, zero } from '../../measure/index.ts';
import {
  atSpan,
  type DrawnFolds,
  diagnose,
  type Length,
  type LevelSide,
  type NonEmpty,
  type Outline,
  type Side,
  type StandingPart,
  type WallInFlat,
} from '../../model/index.ts';
import { type Fold, type FoldedStrip, foldedBlank, foldedStrip, type Strip } from '../../outline/index.ts';
import type { WallsInFlat } from '../drawing.ts';
import type { FoldedBody } from '../folds.ts';
import type { OpenPart, WorkedPart } from '../parts.ts';
import type { Workings } from '../workings.ts';
import type { FoldedWalls, PartMember, PartToStand, Room, Row, StripToStand } from './rows.ts';
import { type Sizing, statedIn } from './sizing.ts';

/** Round against the clock from the front, and so from the left to the right for whoever walks round outside. */
const round: readonly LevelSide[] = ['front', 'right', 'back', 'left'];

/**
 * A strip begins where the one before it has no wall; round a whole room, at the front.
 *
 *      ┌───────────┐           ┌───────────┐        ┌
 *      │           │           │           │        │
 *      │           │           │           │        │
 *      ├───────────┘           └                    └───────────┘
 *      seam: the last ends
 *      on the first
 */
export function stripRound(has: (side: LevelSide) => boolean): readonly LevelSide[] {
  const start = round.findIndex((side, i) => has(side) && !has(round[(i + 3) % 4] ?? side));
  return round.map((_, i) => round[(Math.max(start, 0) + i) % 4] ?? 'front').filter(has);
}

/**
 * The row of folded walls with its strip as long as the room asks: outer sizes of the sides are its panels.
 *
 * @returns undefined where the room is not known, or leaves a wall nothing
 * @errors E42 walls as thick as the room, E44 a stated length that is not that of the strip, E53 no room known,
 *         T30 a wall that its folds leave nothing of
 */
export function withStrip(
  row: Row,
  folded: FoldedWalls,
  rooms: Readonly<Record<'across' | 'along', Room | undefined>>,
  sizing: Sizing,
): Row | undefined {
  const member = row.members.find((it) => it.kind === 'part');
  if (member?.kind !== 'part') return undefined;
  const { part } = member;
  const sizeIn = (way: 'across' | 'along'): Length | undefined => {
    const size = rooms[way]?.size ?? statedIn(row, way, row, sizing.glueLine);
    if (typeof size !== 'string') return size;
    sizing.report(diagnose('E53', atSpan(member.at), { part: part.name, size: 'length', way }));
    return undefined;
  };
  const [across, along] = [sizeIn('across'), sizeIn('along')];
  if (across === undefined || along === undefined || !isWide(row, folded, part, { across, along }, sizing)) {
    return undefined;
  }
  const panels = panelsOf(folded, part, { across, along }, sizing.glueLine);
  const made = isNonEmpty(panels) ? foldedTo(panels, folded, part, { across, along }, sizing) : undefined;
  if (made === undefined) return undefined;
  const { body, blank } = made;
  if (part.length !== 'rest' && compare(part.length, blank.length) !== 0) {
    const [stated, wanted] = [part.length, blank.length].map((it) => sizing.show(it, member.at)) as [
      string,
      string,
    ]; // two of two
    sizing.report(diagnose('E44', atSpan(member.at), { part: part.name, stated, wanted, isFolded: true }));
    return undefined;
  }
  const unsaid = (what: 'grain' | 'flutes') => part.unsaid?.includes(what) === true;
  const strip: PartMember = {
    ...member,
    part: {
      ...part,
      length: body.length,
      folded: body,
      strip: blank,
      outline: undefined,
      drawnLater: undefined,
      blank: (width) => cutBlank(part, blank, width),
      grain: unsaid('grain') ? 'width' : part.grain,
      flutes: unsaid('flutes') ? 'width' : part.flutes,
    },
  };
  return { ...row, members: row.members.map((it) => (it === member ? strip : it)) };
}

/** With what is cut into it. */
function cutBlank(
  { drawnLater, thickness }: PartToStand,
  strip: StripToStand,
  width: Length,
): Outline | undefined {
  const { length, walls } = strip;
  const blank = strip.blank(width);
  const drawn = blank && drawnLater?.({ length, width, strip: { blank, walls, thickness } });
  return drawn === undefined ? blank : drawn.outline;
}

type Sizes = Readonly<Record<'across' | 'along', Length>>;

const wayAlong = { front: 'across', back: 'across', left: 'along', right: 'along' } as const;

/** Told for each way in which the walls leave nothing between them. */
function isWide(
  row: Row,
  { at, sides }: FoldedWalls,
  { thickness }: PartToStand,
  sizes: Sizes,
  { report, show }: Sizing,
): boolean {
  const narrow = (['across', 'along'] as const).filter((way) => {
    const walls = times(thickness, sides.filter((side) => wayAlong[side] !== way).length);
    if (compare(walls, sizes[way]) < 0) return false;
    const facts = { way, room: show(sizes[way], at), walls: show(walls, at), inside: undefined };
    report(diagnose('E42', atSpan(row.at), facts));
    return true;
  });
  return narrow.length === 0;
}

/** The last of four ends on the first, a line of glue before it. */
function panelsOf(
  { sides, tab }: FoldedWalls,
  { thickness }: PartToStand,
  sizes: Sizes,
  glueLine: Length,
): readonly Length[] {
  const walls = sides.map((side, i) => {
    const size = sizes[wayAlong[side]];
    return i < 3 ? size : minus(size, sum(thickness, glueLine));
  });
  return tab === undefined ? walls : [...walls, tab];
}

function foldedTo(
  panels: NonEmpty<Length>,
  { sides, base, by, tab, at }: FoldedWalls,
  { thickness, name }: PartToStand,
  sizes: Sizes,
  { report, show }: Sizing,
): { readonly body: FoldedBody; readonly blank: StripToStand } | undefined {
  const square: Fold = { angle: { kind: 'degrees', degrees: rational(90n) }, way: 'away', made: by };
  const strip: Strip = {
    panels,
    folds: panels.slice(1).map(() => square),
    thickness,
    nameOf: (i) => (sides[i] === undefined ? `the tab of "${name}"` : `the ${sides[i]} of "${name}"`),
  };
  const { value, faults } = foldedStrip(strip, sides.indexOf(base));
  for (const it of faults) {
    // A fault's facts are those of its own code; the compiler can't follow one code through both.
    const facts = it.facts((length) => show(length, at)) as Parameters<typeof diagnose<typeof it.code>>[2];
    report(diagnose(it.code, atSpan(at), facts));
  }
  if (value?.base === undefined) return undefined;
  const length = value.length.hi; // Square folds leave it exact.
  const folds: DrawnFolds = {
    panels,
    isTray: false,
    tabs: tab === undefined ? [] : [sides.length],
    developed: value.length,
    walls: sides,
  };
  const { body: outline, box, base: level } = value;
  return {
    body: { outline, panels: value.panels, ...box, laps: { from: level.height, thickness } },
    blank: {
      length,
      folds,
      blank: (width) => foldedBlank(strip, value, by, { length, width }).value,
      walls: wallsInFlat(sides, panels, value, sizes),
    },
  };
}

/**
 * The corners of each wall outside, where they would lie in the blank if its folds took nothing there: half of what they
 * take lies on either side of them.
 */
function wallsInFlat(
  sides: readonly LevelSide[],
  panels: readonly Length[],
  { lines, allowances, length }: FoldedStrip,
  sizes: Sizes,
): WallsInFlat {
  const walls = sides.map((name, i): WallInFlat => {
    // Square folds leave all of these exact.
    const taken = allowances.slice(0, i).map(({ lo }) => lo);
    const low = minus(sum(...panels.slice(0, i)), sum(...taken));
    const [before, behind] = [lines[i - 1], lines[i] ?? length];
    return { name, low, high: sum(low, sizes[wayAlong[name]]), from: before?.lo ?? zero, to: behind.lo };
  });
  return new Map(walls.map((it) => [it.name, it]));
}

/**
 * The blank of a part that stands as walls folded round rooms; undefined where it is none.
 *
 * @errors T39 rooms that ask for other strips, pieces that stand flat, or a strip that would go round the other way
 */
export function drawnAsStrip(
  { name, drawn, drawnLater, at }: OpenPart,
  { length, width }: Readonly<Record<Side, Length>>,
  standings: readonly StandingPart[],
  { faults }: Workings,
): WorkedPart['drawn'] {
  const first = standings.find((it) => it.strip !== undefined);
  if (first?.strip === undefined) return undefined;
  const { strip } = first;
  // Cuts may be on walls by their names.
  const key = (it: StandingPart['strip']) =>
    it &&
    [...it.folds.panels.map(toFraction), ...(drawnLater === undefined ? [] : it.walls.keys())].join(' ');
  if (standings.some((it) => key(it.strip) !== key(strip))) {
    faults.report(diagnose('T39', atSpan(at), { why: 'elsewhere', parts: [name] }));
  }
  const { blank, folds, walls } = strip;
  const cut = drawnLater?.({ length, width, strip: { blank, walls, thickness: first.size.thickness } });
  if (cut?.isMirrored === true) faults.report(diagnose('T39', atSpan(at), { why: 'turned', parts: [name] }));
  const plain = { master: undefined, isMirrored: false, leave: undefined, roundedTo: undefined };
  return { ...plain, outline: blank, ...(cut ?? (drawn && { ...drawn, outline: blank })), folds };
}

function isNonEmpty<T>(all: readonly T[]): all is NonEmpty<T> {
  return all.length > 0;
}
