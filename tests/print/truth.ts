import { toDrawnMm } from '../../src/measure/index.ts';
import type { SheetPlan } from '../../src/model/index.ts';

/** A drawing of one sheet as it was read back, in millimetres on paper, y runs down. */
export interface DrawnSheet {
  readonly scale: number;
  /** The sheet as bought. */
  readonly sheet: Box;
  /** What stands around parts. */
  readonly outlines: readonly Box[];
  /** Words, each by a point at its baseline. */
  readonly texts: readonly { readonly text: string; readonly x: number; readonly y: number }[];
}

export interface Box {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

const closeMm = 0.05;

/**
 * Holds a drawing against the plan it was made from: the sheet's size, each piece's place from the datum corner
 * and its size, and that a label stands in a piece of that name. Nothing of what placed them is used.
 *
 * @returns a sentence for each fault, none for a true drawing
 */
export function untruths(plan: SheetPlan, drawn: DrawnSheet): readonly string[] {
  const { scale, sheet, outlines, texts } = drawn;
  const onPaper = (length: Parameters<typeof toDrawnMm>[0]): number => toDrawnMm(length) / scale;
  const faults: string[] = [];
  if (
    !isClose(sheet.right - sheet.left, onPaper(plan.sheet.length)) ||
    !isClose(sheet.bottom - sheet.top, onPaper(plan.sheet.width))
  ) {
    faults.push('the sheet has another size');
  }
  // The datum corner lies inside the sheet as bought by what is trimmed off.
  const datum = {
    x: sheet.left + onPaper(plan.inside.left),
    y: sheet.bottom - onPaper(plan.inside.bottom),
  };
  const left = [...outlines];
  for (const { member, box } of plan.pieces) {
    const wanted: Box = {
      left: datum.x + onPaper(box.left),
      right: datum.x + onPaper(box.left) + onPaper(box.length),
      bottom: datum.y - onPaper(box.bottom),
      top: datum.y - onPaper(box.bottom) - onPaper(box.width),
    };
    const at = left.findIndex((it) => isSame(it, wanted));
    if (at < 0) {
      faults.push(`"${member.label}" is not drawn at ${JSON.stringify(wanted)}`);
      continue;
    }
    left.splice(at, 1);
    for (const other of namesOtherThan(member.label, plan)) {
      const strange = texts.find(({ text, x, y }) => text === other && isInside(wanted, x, y));
      if (strange !== undefined) faults.push(`"${other}" stands in "${member.label}"`);
    }
  }
  if (left.length > 0) faults.push(`${left.length} outlines belong to no piece`);
  return faults;
}

/** How many pieces have their whole label in them, in one line or in two. */
export function labelled(plan: SheetPlan, { outlines, texts }: DrawnSheet): number {
  const names = new Set(plan.pieces.map(({ member }) => member.label));
  return outlines.filter((box) => {
    const inside = texts.filter(({ x, y }) => isInside(box, x, y)).map(({ text }) => text);
    return inside.some((text) => names.has(text) || inside.some((next) => names.has(`${text} ${next}`)));
  }).length;
}

function namesOtherThan(label: string, { pieces }: SheetPlan): readonly string[] {
  return [...new Set(pieces.map(({ member }) => member.label))].filter((it) => it !== label);
}

function isClose(a: number, b: number): boolean {
  return Math.abs(a - b) <= closeMm;
}

function isSame(a: Box, b: Box): boolean {
  return (
    isClose(a.left, b.left) &&
    isClose(a.right, b.right) &&
    isClose(a.top, b.top) &&
    isClose(a.bottom, b.bottom)
  );
}

function isInside({ left, right, top, bottom }: Box, x: number, y: number): boolean {
  return left < x && x < right && top < y && y < bottom;
}

export function boxAround(points: readonly (readonly [number, number])[]): Box {
  const [xs, ys] = [points.map(([x]) => x), points.map(([, y]) => y)];
  return { left: Math.min(...xs), right: Math.max(...xs), top: Math.min(...ys), bottom: Math.max(...ys) };
}
