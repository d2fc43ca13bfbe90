import type { NonEmpty } from '../../model/index.ts';
import type { Area, Words, WordsRole } from './mark.ts';
import { inflated, type Room } from './room.ts';
import { areaOf, centred, heightOf, shortened, type Typeface, words } from './type.ts';

/** Between the words and the outline they stand in. */
const inset = 0.9;

export interface Row {
  readonly role: WordsRole;
  readonly text: string;
}

/** What is shorter than this says nothing without its middle: a letter of the list tells it better. */
const leastShortened = 14;

/** Puts rows into the areas of one picture. */
export interface Writer {
  /**
   * The label, its size and what follows it; then the first two, upright or turned, the label in two lines where that
   * helps; then with the label set tighter; then the label alone; last shortened in the middle.
   */
  readonly write: (area: Area, rows: NonEmpty<Row>) => readonly Words[] | undefined;
}

export function writerIn(face: Typeface, room: Room): Writer {
  const known = knownWays.get(face) ?? new Map<string, Ways>();
  knownWays.set(face, known);
  return {
    write: (area, rows) => {
      const name = rows.map(({ role, text }) => `${role}\n${text}`).join('\n');
      const ways = known.get(name) ?? waysOf(face, rows);
      known.set(name, ways);
      const placed =
        firstFree(room, area, ways.asTheyStand()) ??
        firstFree(room, area, ways.otherwise()) ??
        firstFree(room, area, ways.shortened(area.right - area.left, area.bottom - area.top, false)) ??
        firstFree(room, area, ways.shortened(area.bottom - area.top, area.right - area.left, true));
      for (const it of placed ?? []) room.take(areaOf(it));
      return placed;
    },
  };
}

/** What many pieces bear is measured once. */
const knownWays = new WeakMap<Typeface, Map<string, Ways>>();

function firstFree(room: Room, area: Area, ways: readonly Stack[]): readonly Words[] | undefined {
  for (const stack of ways) {
    const placed = placeIn(room, area, stack);
    if (placed !== undefined) return placed;
  }
  return undefined;
}

/** Best first. Most rows stand as they are: what else could be tried is measured only where they don't. */
interface Ways {
  readonly asTheyStand: () => readonly Stack[];
  readonly otherwise: () => readonly Stack[];
  /** @param acrossMm what they have from row to row */
  readonly shortened: (alongMm: number, acrossMm: number, turned: boolean) => readonly Stack[];
}

function waysOf(face: Typeface, rows: NonEmpty<Row>): Ways {
  const [label, ...more] = rows;
  // What stands below the size is told in the list as well: it goes first.
  const others = more.slice(0, 1);
  const tight: Row = label.role === 'part label' ? { ...label, role: 'tight label' } : label;
  const upright = (it: readonly Row[]): Stack => stackOf(face, it, false);
  const turned = (it: readonly Row[]): Stack => stackOf(face, it, true);
  return {
    asTheyStand: once(() =>
      more.length > 1 ? [upright(rows), turned(rows), upright([label, ...others])] : [upright(rows)],
    ),
    otherwise: once(() => {
      const folded = [label, tight].flatMap((it) => folds(it).map((lines) => [...lines, ...others]));
      return [
        ...folded.map(upright),
        turned(rows),
        ...folded.map(turned),
        upright([tight, ...others]),
        turned([tight, ...others]),
        upright([label]),
        turned([label]),
        ...folds(tight).map(upright),
      ];
    }),
    shortened: (alongMm, acrossMm, isTurned) => {
      if (label.text.length < leastShortened || acrossMm < heightOf(tight.role)) return [];
      const text = shortened(face, tight.role, label.text, alongMm - 2 * inset);
      if (text === undefined) return [];
      const clipped = { ...tight, text };
      return [[clipped, ...others], [clipped]].map((it) => stackOf(face, it, isTurned));
    },
  };
}

function once<Value>(make: () => Value): () => Value {
  let made: { readonly value: Value } | undefined;
  return () => {
    made ??= { value: make() };
    return made.value;
  };
}

/** A label in two lines, parted at the space nearest its middle; none for a single word. */
function folds({ role, text }: Row): readonly (readonly Row[])[] {
  let space = -1;
  for (let at = text.indexOf(' '); at >= 0; at = text.indexOf(' ', at + 1)) {
    if (space < 0 || Math.abs(at - text.length / 2) < Math.abs(space - text.length / 2)) space = at;
  }
  if (space <= 0 || space === text.length - 1) return [];
  return [
    [
      { role, text: text.slice(0, space) },
      { role, text: text.slice(space + 1) },
    ],
  ];
}

/** Rows one under the other, measured; they have no place yet. */
export interface Stack {
  readonly rows: readonly Words[];
  readonly heights: readonly number[];
  readonly widthMm: number;
  readonly heightMm: number;
  readonly turned: boolean;
}

const betweenRows = 0.3;

export function stackOf(face: Typeface, rows: readonly Row[], turned: boolean): Stack {
  const set = rows.map(({ role, text }) => words(face, role, text, { x: 0, y: 0 }, turned));
  const heights = rows.map(({ role, text }) => heightOf(role, text));
  return {
    rows: set,
    heights,
    widthMm: Math.max(...set.map(({ widthMm }) => widthMm)),
    heightMm: heights.reduce((all, it) => all + it + betweenRows, -betweenRows),
    turned,
  };
}

/** About the middle of an area, or about a place near it that is still free. */
export function placeIn(
  room: Room,
  area: Area,
  { rows, heights, widthMm, heightMm, turned }: Stack,
): readonly Words[] | undefined {
  const [spanX, spanY] = turned ? [heightMm, widthMm] : [widthMm, heightMm];
  const slackX = (area.right - area.left - spanX) / 2 - inset;
  const slackY = (area.bottom - area.top - spanY) / 2 - inset;
  if (slackX < 0 || slackY < 0) return undefined;
  const middle = { x: (area.left + area.right) / 2, y: (area.top + area.bottom) / 2 };
  for (const [shareX, shareY] of nearMiddle) {
    const centre = { x: middle.x + shareX * slackX, y: middle.y + shareY * slackY };
    let done = -heightMm / 2;
    const placed: Words[] = [];
    for (const [index, row] of rows.entries()) {
      const half = (heights[index] ?? 0) / 2;
      const across = done + half;
      done += 2 * half + betweenRows;
      const at = turned ? { x: centre.x + across, y: centre.y } : { x: centre.x, y: centre.y + across };
      const words = centred(row, at);
      if (!room.isFree(inflated(areaOf(words), 0.25))) break;
      placed.push(words);
    }
    if (placed.length === rows.length) return placed;
  }
  return undefined;
}

const nearMiddle: readonly (readonly [number, number])[] = [0, -0.5, 0.5, -1, 1]
  .flatMap((y) => [0, -0.4, 0.4, -0.8, 0.8, -1, 1].map((x) => [x, y] as const))
  .sort(([ax, ay], [bx, by]) => Math.abs(ax) + Math.abs(ay) - Math.abs(bx) - Math.abs(by));
