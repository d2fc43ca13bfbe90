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

/**
 * The label and what follows it, upright or turned, the label in two lines where that helps; then with the
 * label set tighter; then the label alone; last shortened in the middle.
 */
export function writeInto(
  face: Typeface,
  room: Room,
  area: Area,
  rows: readonly Row[],
): readonly Words[] | undefined {
  const [label, ...others] = rows;
  if (label === undefined) return undefined;
  const tight: Row = label.role === 'part label' ? { ...label, role: 'tight label' } : label;
  const clip = (widthMm: number, turned: boolean): readonly TriedRows[] => {
    if (label.text.length < leastShortened) return [];
    const short = shortened(face, tight.role, label.text, widthMm - 2 * inset);
    if (short === undefined) return [];
    const clipped = { ...tight, text: short };
    return [
      [[clipped, ...others], turned],
      [[clipped], turned],
    ];
  };
  const folded = (): readonly (readonly Row[])[] =>
    [label, tight].flatMap((it) => folds(it).map((lines) => [...lines, ...others]));
  // Most rows stand as they are: what else could be tried is thought of only where they don't.
  const ways: readonly (() => readonly TriedRows[])[] = [
    () => [[rows, false]],
    () => [
      ...folded().map((it) => [it, false] as const),
      [rows, true],
      ...folded().map((it) => [it, true] as const),
      [[tight, ...others], false],
      [[tight, ...others], true],
      [[label], false],
      [[label], true],
      ...folds(tight).map((it) => [it, false] as const),
    ],
    () => clip(area.right - area.left, false),
    () => clip(area.bottom - area.top, true),
  ];
  for (const tried of ways) {
    for (const [candidate, turned] of tried()) {
      const placed = stack(face, room, area, candidate, turned);
      if (placed === undefined) continue;
      for (const it of placed) room.take(areaOf(it));
      return placed;
    }
  }
  return undefined;
}

type TriedRows = readonly [rows: readonly Row[], turned: boolean];

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

/** Rows one under the other about the middle of an area, or about a place near it that is still free. */
export function stack(
  face: Typeface,
  room: Room,
  area: Area,
  rows: readonly Row[],
  turned: boolean,
): readonly Words[] | undefined {
  const set = rows.map(({ role, text }) => words(face, role, text, { x: 0, y: 0 }, turned));
  const width = Math.max(...set.map(({ widthMm }) => widthMm));
  const heights = rows.map(({ role, text }) => heightOf(role, text));
  const gap = 0.3;
  const height = heights.reduce((all, it) => all + it + gap, -gap);
  const [spanX, spanY] = turned ? [height, width] : [width, height];
  const slackX = (area.right - area.left - spanX) / 2 - inset;
  const slackY = (area.bottom - area.top - spanY) / 2 - inset;
  if (slackX < 0 || slackY < 0) return undefined;
  const middle = { x: (area.left + area.right) / 2, y: (area.top + area.bottom) / 2 };
  for (const [shareX, shareY] of nearMiddle) {
    const centre = { x: middle.x + shareX * slackX, y: middle.y + shareY * slackY };
    let done = -height / 2;
    const placed = set.map((it, index) => {
      const half = (heights[index] ?? 0) / 2;
      const across = done + half;
      done += 2 * half + gap;
      const at = turned ? { x: centre.x + across, y: centre.y } : { x: centre.x, y: centre.y + across };
      return centred(it, at);
    });
    if (placed.every((it) => room.isFree(inflated(areaOf(it), 0.25)))) return placed;
  }
  return undefined;
}

const nearMiddle: readonly (readonly [number, number])[] = [0, -0.5, 0.5, -1, 1]
  .flatMap((y) => [0, -0.4, 0.4, -0.8, 0.8, -1, 1].map((x) => [x, y] as const))
  .sort(([ax, ay], [bx, by]) => Math.abs(ax) + Math.abs(ay) - Math.abs(bx) - Math.abs(by));
