import { compare, minus, rational, sum, times, toFraction } from '../../measure/index.ts';
import {
  atSpan,
  type DrawnFolds,
  diagnose,
  type Length,
  type LevelSide,
  type NonEmpty,
  type StandingPart,
} from '../../model/index.ts';
import { type Fold, foldedBlank, foldedStrip, type Strip } from '../../outline/index.ts';
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
  const made = isNonEmpty(panels) ? foldedTo(panels, folded, part, sizing) : undefined;
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
      grain: unsaid('grain') ? 'width' : part.grain,
      flutes: unsaid('flutes') ? 'width' : part.flutes,
    },
  };
  return { ...row, members: row.members.map((it) => (it === member ? strip : it)) };
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
  };
  return {
    body: { outline: value.body, ...value.box, laps: { from: value.base.height, thickness } },
    blank: { length, folds, blank: (width) => foldedBlank(strip, value, by, { length, width }).value },
  };
}

/**
 * The blank of a part that stands as walls folded round rooms; undefined where it is none.
 *
 * @errors T39 rooms that ask for other strips, or pieces that stand flat
 */
export function drawnAsStrip(
  { name, drawn, at }: OpenPart,
  standings: readonly StandingPart[],
  { faults }: Workings,
): WorkedPart['drawn'] {
  const strip = standings.find((it) => it.strip !== undefined)?.strip;
  if (strip === undefined) return undefined;
  const key = (it: StandingPart['strip']) => it?.folds.panels.map(toFraction).join(' ');
  if (standings.some((it) => key(it.strip) !== key(strip))) {
    faults.report(diagnose('T39', atSpan(at), { why: 'elsewhere', parts: [name] }));
  }
  const plain = { master: undefined, isMirrored: false, leave: undefined, roundedTo: undefined };
  return { ...plain, ...drawn, outline: strip.blank, folds: strip.folds };
}

function isNonEmpty<T>(all: readonly T[]): all is NonEmpty<T> {
  return all.length > 0;
}
