import type { Length, MaterialDemand, PlannedPiece, SheetPlan } from '../../model/index.ts';
import type { Frame } from './frame.ts';
import { type Area, circle, line, type Mark, type Point, patch, type Words, type WordsRole } from './mark.ts';
import { flutesMark, grainMark } from './patterns.ts';
import { inflated, overlap, type Room } from './room.ts';
import type { Sizes } from './sizes.ts';
import { areaOf, heightOf, shortened, type Typeface, widthOf, wordsAround } from './type.ts';

/** What a letter in the picture stands for. */
export interface Keyed {
  readonly key: string;
  readonly label: string;
  readonly size: string;
  readonly count: number;
}

/** Between the words and the outline they stand in. */
const inset = 0.9;

/**
 * Writes each piece's label and size into it, and names what is left over. What has no room for words gets
 * a letter, explained beside the picture; what has no room for a letter gets it outside, with a leader.
 */
export function placePieceWords(
  face: Typeface,
  sizes: Sizes,
  demand: MaterialDemand,
  plan: SheetPlan,
  frame: Frame,
  room: Room,
  outer: Area,
): { readonly marks: readonly Mark[]; readonly keyed: readonly Keyed[] } {
  const marks: Mark[] = [];
  const wordless: PlannedPiece[] = [];
  for (const piece of plan.pieces) {
    const area = frame.area(piece.box);
    const { member, box } = piece;
    const written = writeInto(face, room, area, [
      { role: 'part label', text: member.label },
      { role: 'part size', text: sizes.pair(box.length, box.width) },
    ]);
    if (written === undefined) wordless.push(piece);
    else {
      marks.push(...written);
      marks.push(...directionMarks(demand, piece, plan, area, room));
    }
  }
  for (const { box, keep } of plan.leftovers) {
    if (keep === undefined) continue;
    marks.push(...nameLeftover(face, room, frame.area(box), keep, sizes.pair(box.length, box.width)));
  }
  const keys = keyPieces(face, sizes, wordless, demand.rules.kerf, frame, room, outer);
  return { marks: [...marks, ...keys.marks], keyed: keys.keyed };
}

interface Row {
  readonly role: WordsRole;
  readonly text: string;
}

/** Two rows, one row, both turned upright; then the label alone, last shortened in the middle. */
function writeInto(
  face: Typeface,
  room: Room,
  area: Area,
  rows: readonly Row[],
): readonly Words[] | undefined {
  const [label] = rows;
  if (label === undefined) return undefined;
  const clip = (widthMm: number): readonly (readonly Row[])[] => {
    const short = shortened(face, label.role, label.text, widthMm - 2 * inset);
    return short === undefined
      ? []
      : [[{ ...label, text: short }, ...rows.slice(1)], [{ ...label, text: short }]];
  };
  const ways: readonly (readonly [readonly Row[], boolean])[] = [
    [rows, false],
    [rows, true],
    [[label], false],
    [[label], true],
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

/** Rows one under the other about the middle of an area, or about a place near it that is still free. */
function stack(
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

/** Grain and flutes of a piece that is bound to them, where there is room beside its words. */
function directionMarks(
  demand: MaterialDemand,
  { member }: PlannedPiece,
  { sheet }: SheetPlan,
  area: Area,
  room: Room,
): readonly Mark[] {
  const kind = demand.parts.find(({ members }) => members.includes(member));
  const marks: Mark[] = [];
  const put = (runs: 'length' | 'width', draw: typeof grainMark): void => {
    const way = runs === 'length' ? 'across' : 'up';
    const [halfX, halfY] = way === 'across' ? [4, 2.2] : [2.2, 4];
    const corners: readonly Point[] = [
      { x: area.right - halfX - 0.8, y: area.bottom - halfY - 0.8 },
      { x: area.left + halfX + 0.8, y: area.bottom - halfY - 0.8 },
      { x: area.right - halfX - 0.8, y: area.top + halfY + 0.8 },
      { x: area.left + halfX + 0.8, y: area.top + halfY + 0.8 },
    ];
    const free = corners.find(({ x, y }) => {
      const reach = { left: x - halfX, right: x + halfX, top: y - halfY, bottom: y + halfY };
      const isInside =
        reach.left > area.left &&
        reach.top > area.top &&
        reach.right < area.right &&
        reach.bottom < area.bottom;
      return isInside && room.isFree(reach);
    });
    if (free === undefined) return;
    room.take({ left: free.x - halfX, right: free.x + halfX, top: free.y - halfY, bottom: free.y + halfY });
    marks.push(...draw(free, 7, way));
  };
  if (kind?.grain !== undefined && kind.grain !== 'any' && isSide(sheet.grain)) put(sheet.grain, grainMark);
  if (kind?.flutes !== undefined && kind.flutes !== 'any' && isSide(sheet.flutes))
    put(sheet.flutes, flutesMark);
  return marks;
}

function isSide(runs: SheetPlan['sheet']['grain']): runs is 'length' | 'width' {
  return runs === 'length' || runs === 'width';
}

/** `keep 3` and its size, on ground cleared of the hatching. */
function nameLeftover(face: Typeface, room: Room, area: Area, name: string, size: string): readonly Mark[] {
  const written = writeInto(face, room, inflated(area, -0.8), [
    { role: 'left over', text: name },
    { role: 'left over', text: size },
  ]);
  if (written === undefined) return [];
  return [...written.map((it) => patch('clear', inflated(areaOf(it), 0.35))), ...written];
}

/** Letters for pieces without room for words: one letter for all that are alike. */
function keyPieces(
  face: Typeface,
  sizes: Sizes,
  pieces: readonly PlannedPiece[],
  kerf: Length,
  frame: Frame,
  room: Room,
  outer: Area,
): { readonly marks: readonly Mark[]; readonly keyed: readonly Keyed[] } {
  const alike = new Map<string, PlannedPiece[]>();
  for (const piece of pieces) {
    const name = `${piece.member.label}\n${sizes.pair(piece.box.length, piece.box.width)}`;
    const before = alike.get(name);
    if (before === undefined) alike.set(name, [piece]);
    else before.push(piece);
  }
  const marks: Mark[] = [];
  const keyed: Keyed[] = [];
  for (const [name, group] of alike) {
    const key = letterOf(keyed.length);
    const [label = '', size = ''] = name.split('\n');
    keyed.push({ key, label, size, count: group.length });
    const outside = group.filter((piece) => {
      const written = stack(
        face,
        room,
        inflated(frame.area(piece.box), 0.6),
        [{ role: 'key', text: key }],
        false,
      );
      for (const it of written ?? []) room.take(areaOf(it));
      marks.push(...(written ?? []));
      return written === undefined;
    });
    for (const one of clustersOf(outside, frame, frame.size(kerf))) {
      marks.push(...leaderTo(face, key, one, frame, room, outer));
    }
  }
  return { marks, keyed };
}

/** `a` … `z`, `aa` … */
function letterOf(index: number): string {
  const letter = String.fromCharCode(97 + (index % 26));
  return index < 26 ? letter : `${letterOf(Math.floor(index / 26) - 1)}${letter}`;
}

/** Pieces that lie side by side, no farther apart than a kerf: one leader for all, to the middle one. */
function clustersOf(pieces: readonly PlannedPiece[], frame: Frame, kerfMm: number): readonly Area[] {
  const waiting = pieces.map(({ box }) => inflated(frame.area(box), kerfMm / 2 + 0.05));
  const found: Area[] = [];
  while (waiting.length > 0) {
    const cluster = waiting.splice(0, 1);
    for (const member of cluster) {
      for (let index = waiting.length - 1; index >= 0; index--) {
        const other = waiting[index];
        if (other !== undefined && overlap(member, other)) cluster.push(...waiting.splice(index, 1));
      }
    }
    cluster.sort((a, b) => a.left - b.left || a.top - b.top);
    const middle = cluster[Math.floor(cluster.length / 2)];
    if (middle !== undefined) found.push(middle);
  }
  return found;
}

/** A letter outside the sheet with a straight leader to the piece, crossing no words. */
function leaderTo(
  face: Typeface,
  key: string,
  piece: Area,
  { sheet }: Frame,
  room: Room,
  outer: Area,
): readonly Mark[] {
  const end = { x: (piece.left + piece.right) / 2, y: (piece.top + piece.bottom) / 2 };
  const starts: Point[] = [];
  for (let away = 0; away < 60; away += 1.5) {
    for (const side of [-1, 1]) {
      starts.push(
        { x: end.x + side * away, y: sheet.top - 3 },
        { x: sheet.right + 5, y: end.y + side * away },
        { x: end.x + side * away, y: sheet.bottom + 5.6 },
      );
    }
  }
  // The shortest leader first.
  starts.sort((a, b) => Math.hypot(a.x - end.x, a.y - end.y) - Math.hypot(b.x - end.x, b.y - end.y));
  const half = widthOf(face, 'key', key) / 2 + 0.4;
  for (const start of starts) {
    const place = { left: start.x - half, right: start.x + half, top: start.y - 2, bottom: start.y + 2 };
    const isOnPicture =
      place.left > outer.left &&
      place.right < outer.right &&
      place.top > outer.top &&
      place.bottom < outer.bottom;
    const from =
      start.y < sheet.top
        ? { x: start.x, y: start.y + 2 }
        : start.y > sheet.bottom
          ? { x: start.x, y: start.y - 2 }
          : { x: start.x - half, y: start.y };
    if (!isOnPicture || !room.isFree(place) || !isClearPath(from, end, room)) continue;
    room.take(place);
    const written = wordsAround(face, 'key', key, start);
    return [
      line('leader', from, end),
      { kind: 'patch', role: 'leader end', points: circle(end, 0.45) },
      written,
    ];
  }
  return [];
}

function isClearPath(from: Point, to: Point, room: Room): boolean {
  const steps = Math.ceil(Math.hypot(to.x - from.x, to.y - from.y));
  for (let step = 1; step <= steps; step++) {
    const share = step / steps;
    const at = { x: from.x + (to.x - from.x) * share, y: from.y + (to.y - from.y) * share };
    if (!room.isFree({ left: at.x - 0.3, right: at.x + 0.3, top: at.y - 0.3, bottom: at.y + 0.3 }))
      return false;
  }
  return true;
}
