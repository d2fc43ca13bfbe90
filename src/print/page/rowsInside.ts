import type { Area, Words, WordsRole } from './mark.ts';
import { inflated, type Room } from './room.ts';
import { areaOf, heightOf, shortened, type Typeface, widthOf, wordsAround } from './type.ts';

/** Between the words and the outline they stand in. */
const inset = 0.9;

export interface Row {
  readonly role: WordsRole;
  readonly text: string;
}

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
  const clip = (widthMm: number): readonly (readonly Row[])[] => {
    const short = shortened(face, tight.role, label.text, widthMm - 2 * inset);
    return short === undefined ? [] : [[{ ...tight, text: short }, ...others], [{ ...tight, text: short }]];
  };
  const folded = [label, tight].flatMap((it) => folds(it).map((lines) => [...lines, ...others]));
  const ways: readonly (readonly [readonly Row[], boolean])[] = [
    [rows, false],
    ...folded.map((it) => [it, false] as const),
    [rows, true],
    ...folded.map((it) => [it, true] as const),
    [[tight, ...others], false],
    [[tight, ...others], true],
    [[label], false],
    [[label], true],
    ...folds(tight).map((it) => [it, false] as const),
    ...clip(area.right - area.left).map((it) => [it, false] as const),
    ...clip(area.bottom - area.top).map((it) => [it, true] as const),
  ];
  for (const [candidate, turned] of ways) {
    const placed = stack(face, room, area, candidate, turned);
    if (placed !== undefined) {
      for (const it of placed) room.take(areaOf(it));
      return placed;
    }
  }
  return undefined;
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

/** Rows one under the other about the middle of an area, or about a place near it that is still free. */
export function stack(
  face: Typeface,
  room: Room,
  area: Area,
  rows: readonly Row[],
  turned: boolean,
): readonly Words[] | undefined {
  const width = Math.max(...rows.map(({ role, text }) => widthOf(face, role, text)));
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
    const placed = rows.map(({ role, text }, index) => {
      const half = (heights[index] ?? 0) / 2;
      const across = done + half;
      done += 2 * half + gap;
      const at = turned ? { x: centre.x + across, y: centre.y } : { x: centre.x, y: centre.y + across };
      return wordsAround(face, role, text, at, turned);
    });
    if (placed.every((it) => room.isFree(inflated(areaOf(it), 0.25)))) return placed;
  }
  return undefined;
}

const nearMiddle: readonly (readonly [number, number])[] = [0, -0.5, 0.5, -1, 1]
  .flatMap((y) => [0, -0.4, 0.4, -0.8, 0.8, -1, 1].map((x) => [x, y] as const))
  .sort(([ax, ay], [bx, by]) => Math.abs(ax) + Math.abs(ay) - Math.abs(bx) - Math.abs(by));
