import type { MaterialDemand, PlannedPiece, SheetPlan } from '../../model/index.ts';
import type { Frame } from './frame.ts';
import { type Keyed, keyPieces } from './keys.ts';
import { type Area, type Mark, type Point, patch } from './mark.ts';
import { flutesMark, grainMark } from './patterns.ts';
import { inflated, type Room } from './room.ts';
import { writeInto } from './rowsInside.ts';
import type { Sizes } from './sizes.ts';
import { areaOf, type Typeface } from './type.ts';

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
