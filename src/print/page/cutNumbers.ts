import type { SheetPlan } from '../../model/index.ts';
import type { Frame } from './frame.ts';
import { type Area, circle, type Mark, type Point } from './mark.ts';
import { filed, inflated, overlap, type Room } from './room.ts';
import { type Typeface, widthOf, wordsAround } from './type.ts';

interface DrawnCut {
  readonly step: number;
  readonly isRip: boolean;
  readonly from: Point;
  readonly to: Point;
}

const radius = 2.3;

/**
 * Puts the numbers of the steps at the cuts: past the far edge of the sheet where the cut runs that far,
 * else on the first cut of each row that has room for it and comes near no other line. A row without room
 * goes without where its like carry the number; each step has its number somewhere.
 */
export function placeCutNumbers(face: Typeface, plan: SheetPlan, frame: Frame, room: Room): readonly Mark[] {
  const cuts = cutsOf(plan, frame);
  const near = filed([...plan.pieces, ...plan.leftovers].map(({ box }) => frame.area(box)));
  const numbered = new Set<number>();
  const marks: Mark[] = [];
  const put = (cut: DrawnCut, at: Point): void => {
    const text = `${cut.step}`;
    const area = tagArea(face, text, at);
    room.take(inflated(area, 0.35));
    numbered.add(cut.step);
    marks.push(...tag(face, text, at));
  };
  const rows = new Set<string>();
  const inARow = closeToLike(cuts, frame);
  for (const cut of cuts) {
    if (inARow.has(cut)) continue;
    const past = pastTheEdge(cut, frame);
    if (past !== undefined && room.isFree(tagArea(face, `${cut.step}`, past))) {
      put(cut, past);
      continue;
    }
    const row = `${cut.step} ${cut.isRip ? cut.from.x : cut.from.y}`;
    // A ring on a cut that is shorter than it lies on the outlines at the cut's ends.
    if (rows.has(row) || lengthOf(cut) < 2 * radius) continue;
    const free = placesOn(cut).find((at) => {
      const area = tagArea(face, `${cut.step}`, at);
      return room.isFree(inflated(area, 0.4)) && isClearOfOthers(area, cut, near);
    });
    if (free === undefined) continue;
    rows.add(row);
    put(cut, free);
  }
  // What is left has no clear place on any of its cuts: then on the line wherever no other number is.
  for (const cut of cuts) {
    if (numbered.has(cut.step) || inARow.has(cut)) continue;
    const free = placesOn(cut).find((at) => room.isFree(tagArea(face, `${cut.step}`, at)));
    if (free !== undefined) put(cut, free);
  }
  return marks;
}

/** Cuts nearer than this to one of the same step need no number of their own. */
const closeMm = 9;

/** The cuts between two of the same step that stand close together along the far edge: those two say it all. */
function closeToLike(cuts: readonly DrawnCut[], frame: Frame): ReadonlySet<DrawnCut> {
  const close = new Set<DrawnCut>();
  const ends = cuts.filter((cut) => pastTheEdge(cut, frame) !== undefined);
  let shown: number | undefined;
  for (const [index, cut] of ends.entries()) {
    const [before, after] = [ends[index - 1], ends[index + 1]];
    const at = placeOf(cut);
    if (before?.step !== cut.step) shown = undefined;
    const isLast = after?.step !== cut.step;
    if (shown !== undefined && !isLast && Math.abs(at - shown) < closeMm) close.add(cut);
    else shown = at;
  }
  return close;
}

function lengthOf({ from, to }: DrawnCut): number {
  return Math.hypot(to.x - from.x, to.y - from.y);
}

function placeOf({ isRip, from }: DrawnCut): number {
  return isRip ? from.y : from.x;
}

/** The number in its ring, as at a cut; the same ring stands before the step's words. */
export function tag(face: Typeface, text: string, at: Point): readonly Mark[] {
  const outline = tagOutline(face, text, at);
  return [
    { kind: 'patch', role: 'step ground', points: outline },
    { kind: 'stroke', role: 'step ring', paths: [{ points: outline, closed: true }] },
    wordsAround(face, 'step number', text, at),
  ];
}

/** A circle, drawn out sideways where the number is wider. */
function tagOutline(face: Typeface, text: string, at: Point): ReturnType<typeof circle> {
  const stretch = stretchOf(face, text);
  const [first, ...rest] = circle(at, radius).map(({ x, y }) => ({
    x: x > at.x ? x + stretch : x < at.x ? x - stretch : x,
    y,
  }));
  return [first ?? at, ...rest];
}

function stretchOf(face: Typeface, text: string): number {
  return Math.max(0, widthOf(face, 'step number', text) / 2 - radius + 0.8);
}

export function tagArea(face: Typeface, text: string, at: Point): Area {
  const half = radius + stretchOf(face, text);
  return { left: at.x - half, right: at.x + half, top: at.y - radius, bottom: at.y + radius };
}

function cutsOf(plan: SheetPlan, frame: Frame): readonly DrawnCut[] {
  return plan.steps.flatMap((step) => {
    if (step.kind !== 'rip' && step.kind !== 'crosscut') return [];
    return step.lines.map(({ from, to }) => ({
      step: step.number,
      isRip: step.kind === 'rip',
      from: frame.point(from),
      to: frame.point(to),
    }));
  });
}

/** Beyond the far edge of the sheet, where the cut runs up to it. */
function pastTheEdge({ isRip, from, to }: DrawnCut, { sheet, squared }: Frame): Point | undefined {
  if (isRip) {
    return Math.max(from.x, to.x) > squared.right - 0.01 ? { x: sheet.right + 3.8, y: from.y } : undefined;
  }
  return Math.min(from.y, to.y) < squared.top + 0.01 ? { x: from.x, y: sheet.top - 3.6 } : undefined;
}

/** Best first. */
function placesOn({ from, to }: DrawnCut): readonly Point[] {
  return [0.5, 0.25, 0.75, 0.35, 0.65, 0.15, 0.85].map((share) => ({
    x: from.x + (to.x - from.x) * share,
    y: from.y + (to.y - from.y) * share,
  }));
}

const hair = 0.1;

/** True where the tag meets no outline but the one its own cut makes. */
function isClearOfOthers(area: Area, { isRip, from }: DrawnCut, near: ReturnType<typeof filed>): boolean {
  const clear = hair * 3;
  const [before, behind] = isRip
    ? [
        { ...area, bottom: from.y - clear },
        { ...area, top: from.y + clear },
      ]
    : [
        { ...area, right: from.x - clear },
        { ...area, left: from.x + clear },
      ];
  const reach = inflated(area, hair);
  return !near(reach).some((piece) => {
    if (!overlap(piece, reach)) return false;
    const { left, right, top, bottom } = piece;
    const isHit = (edge: Area): boolean => overlap(edge, before) || overlap(edge, behind);
    const upright = [left, right].map((x) => ({ left: x - hair, right: x + hair, top, bottom }));
    const level = [top, bottom].map((y) => ({ left, right, top: y - hair, bottom: y + hair }));
    const [across, along] = isRip ? [upright, level] : [level, upright];
    return across.some((edge) => overlap(edge, area)) || along.some(isHit);
  });
}
