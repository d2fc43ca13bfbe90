import type { MaterialDemand, PartKind, PartMember, PlannedPiece, SheetPlan } from '../../model/index.ts';
import type { Frame } from './frame.ts';
import { type Keyed, keyPieces, type Pointers } from './keys.ts';
import { type Area, type Mark, type Point, patch } from './mark.ts';
import { goodSideMark, goodSideReachMm } from './partMarks.ts';
import { flutesMark, grainMark } from './patterns.ts';
import { inflated, type Room } from './room.ts';
import { roomiest } from './roomiest.ts';
import { type Row, type Writer, writerIn } from './rowsInside.ts';
import { bothOn, roomBeside } from './shapes.ts';
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
  pointers: Pointers,
  shapes: readonly Mark[],
): { readonly marks: readonly Mark[]; readonly keyed: readonly Keyed[] } {
  const marks: Mark[] = [];
  const beside = roomBeside(shapes, room);
  const writer = writerIn(face, room);
  const writerBeside = writerIn(face, beside);
  const wordless: PlannedPiece[] = [];
  const kindOf = new Map(
    demand.parts.flatMap((kind) => kind.members.map((member) => [member, kind] as const)),
  );
  const told = toldOf(plan, kindOf);
  for (const piece of plan.pieces) {
    const area = frame.area(piece.box);
    const { member, box } = piece;
    // A letter hides less of a shape than its words would.
    const written =
      labelsOfBoth(piece, frame, writerBeside) ??
      (member.drawn === undefined ? writer : writerBeside).write(area, [
        { role: 'part label', text: member.label },
        { role: 'part size', text: sizes.pair(box.length, box.width) },
        ...netOf(member, sizes),
      ]);
    if (written === undefined) wordless.push(piece);
    else {
      marks.push(...written);
      marks.push(...ownMarks(kindOf.get(member), plan, area, beside, told));
    }
  }
  for (const { box, keep } of plan.leftovers) {
    if (keep === undefined) continue;
    marks.push(...nameLeftover(writer, frame.area(box), keep, sizes.pair(box.length, box.width)));
  }
  const keys = keyPieces(face, sizes, wordless, demand.rules.kerf, frame, room, beside, pointers);
  return { marks: [...marks, ...keys.marks], keyed: keys.keyed };
}

/** Each one's label in its own half of a blank that two share; undefined where not both have room. */
function labelsOfBoth(piece: PlannedPiece, frame: Frame, writer: Writer): readonly Mark[] | undefined {
  const { shared } = piece.member;
  const both = bothOn(piece, frame);
  if (shared === undefined || both === undefined) return undefined;
  const written = shared.labels.map((text, i) => {
    const area = roomiest(both[i] ?? []);
    return area && writer.write(area, [{ role: 'part label', text }]);
  });
  const all = written.flatMap((it) => it ?? []);
  return written.includes(undefined) ? undefined : all;
}

/** What is left of a larger blank in the end: it stands below the size that is cut. */
function netOf({ drawn }: PartMember, sizes: Sizes): readonly Row[] {
  if (drawn?.leave === undefined) return [];
  return [{ role: 'part size', text: `net ${sizes.pair(drawn.net.length, drawn.net.width)}` }];
}

/** What a piece is bound to, where there is room beside its words. */
function ownMarks(
  kind: PartKind | undefined,
  { sheet }: SheetPlan,
  area: Area,
  room: Room,
  told: Told,
): readonly Mark[] {
  const marks: Mark[] = [];
  const put = (halfX: number, halfY: number, draw: (centre: Point) => readonly Mark[]): void => {
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
    marks.push(...draw(free));
  };
  const putAlong = (runs: SheetPlan['sheet']['grain'], draw: typeof grainMark): void => {
    if (runs === 'length') put(4, 2.2, (centre) => draw(centre, 7, 'across'));
    if (runs === 'width') put(2.2, 4, (centre) => draw(centre, 7, 'up'));
  };
  if (isBound(kind, 'grain') && !told.grain) putAlong(sheet.grain, grainMark);
  if (isBound(kind, 'flutes') && !told.flutes) putAlong(sheet.flutes, flutesMark);
  const reach = goodSideReachMm + 0.2;
  if (kind?.goodSide) put(reach, reach, goodSideMark);
  return marks;
}

/** What the heading of the sheet tells for all its pieces: it needs no mark in each. */
interface Told {
  readonly grain: boolean;
  readonly flutes: boolean;
}

function toldOf({ pieces }: SheetPlan, kindOf: KindOf): Told {
  const areAllBound = (to: 'grain' | 'flutes') =>
    pieces.every(({ member }) => isBound(kindOf.get(member), to));
  return { grain: areAllBound('grain'), flutes: areAllBound('flutes') };
}

type KindOf = ReadonlyMap<PartMember, PartKind>;

function isBound(kind: PartKind | undefined, to: 'grain' | 'flutes'): boolean {
  return kind !== undefined && kind[to] !== 'any';
}

/** `keep 3` and its size, on ground cleared of the hatching. */
function nameLeftover(writer: Writer, area: Area, name: string, size: string): readonly Mark[] {
  const written = writer.write(inflated(area, -0.8), [
    { role: 'left over', text: name },
    { role: 'left over', text: size },
  ]);
  if (written === undefined) return [];
  return [...written.map((it) => patch('clear', inflated(areaOf(it), 0.35))), ...written];
}
