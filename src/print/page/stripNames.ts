import type { SheetPlan } from '../../model/index.ts';
import type { Frame } from './frame.ts';
import type { Pointers } from './keys.ts';
import { type Area, type Mark, patch, type Words } from './mark.ts';
import { inflated, type Room } from './room.ts';
import { areaOf, type Typeface, wordsAround } from './type.ts';

/** A strip that reaches the far edge has its letter there, between the numbers of the cuts. */
export function stripsAtEdges(face: Typeface, plan: SheetPlan, frame: Frame, room: Room): readonly Words[] {
  const { sheet, squared } = frame;
  return plan.strips.flatMap(({ name, box }) => {
    const area = frame.area(box);
    const isWide = area.right > squared.right - 0.01 && area.left < squared.left + 0.01;
    const isHigh = area.top < squared.top + 0.01 && area.bottom > squared.bottom - 0.01;
    if (!isWide && !isHigh) return [];
    const middle = { x: (area.left + area.right) / 2, y: (area.top + area.bottom) / 2 };
    const at = isWide ? { x: sheet.right + 3.8, y: middle.y } : { x: middle.x, y: sheet.top - 3.6 };
    const written = wordsAround(face, 'strip name', letterOf(name), at);
    if (!room.isFree(areaOf(written))) return [];
    room.take(areaOf(written));
    return [written];
  });
}

/** Other strips have their letter in their own scrap: once for all that are alike. */
export function stripsInScrap(
  face: Typeface,
  plan: SheetPlan,
  frame: Frame,
  room: Room,
  named: readonly Mark[],
): readonly Mark[] {
  const scrap = plan.leftovers.filter(({ keep }) => keep === undefined).map(({ box }) => frame.area(box));
  return namelessIn(plan, frame, named).flatMap(({ letter, alike }): readonly Mark[] => {
    const written = firstIn(face, letter, scrap.filter(isInOneOf(alike)), room);
    return written === undefined ? [] : [patch('clear', inflated(areaOf(written), 0.35)), written];
  });
}

/** What has none has it outside, if it is near, else beside the words of one of its pieces, else outside after all. */
export function stripsPointedAt(
  face: Typeface,
  plan: SheetPlan,
  frame: Frame,
  room: Room,
  pointers: Pointers,
  named: readonly Mark[],
): readonly Mark[] {
  const nameless = namelessIn(plan, frame, named);
  if (nameless.length === 0) return [];
  const pieces = plan.pieces.map(({ box }) => frame.area(box));
  return nameless.flatMap(({ letter, alike }): readonly Mark[] => {
    const close = pointers.closeTo('strip name', letter, alike);
    if (close.length > 0) return close;
    const written = firstIn(face, letter, pieces.filter(isInOneOf(alike)), {
      ...room,
      isFree: (area) => pointers.isClear(area) && room.isFree(area),
    });
    return written === undefined ? pointers.to('strip name', letter, alike) : [written];
  });
}

interface Nameless {
  readonly letter: string;
  readonly alike: readonly Area[];
}

/** Strips whose letter is not among these marks. */
function namelessIn({ strips }: SheetPlan, frame: Frame, named: readonly Mark[]): readonly Nameless[] {
  const known = new Set(named.flatMap((mark) => (mark.kind === 'words' ? [mark.text] : [])));
  const areas = new Map<string, Area[]>();
  for (const { name, box } of strips) {
    const letter = letterOf(name);
    if (known.has(letter)) continue;
    const alike = areas.get(letter);
    if (alike === undefined) areas.set(letter, [frame.area(box)]);
    else alike.push(frame.area(box));
  }
  return [...areas].map(([letter, alike]) => ({ letter, alike }));
}

function letterOf(name: string): string {
  return name.replace(/^strip /, '');
}

function isInOneOf(strips: readonly Area[]): (area: Area) => boolean {
  return (area) => strips.some((strip) => isIn(area, strip));
}

function isIn(inner: Area, outer: Area): boolean {
  const hair = 0.01;
  return (
    inner.left > outer.left - hair &&
    inner.right < outer.right + hair &&
    inner.top > outer.top - hair &&
    inner.bottom < outer.bottom + hair
  );
}

/** In the first of these areas that has room for it, in its middle or in a corner. */
function firstIn(face: Typeface, letter: string, areas: readonly Area[], room: Room): Words | undefined {
  for (const { left, right, top, bottom } of areas) {
    const whole = areaOf(wordsAround(face, 'strip name', letter, { x: 0, y: 0 }));
    const halfX = (whole.right - whole.left) / 2 + 0.7;
    const [up, down] = [0.7 - whole.top, 0.7 + whole.bottom];
    if (right - left < 2 * halfX || bottom - top < up + down) continue;
    for (const at of [
      { x: (left + right) / 2, y: (top + up + bottom - down) / 2 },
      { x: left + halfX, y: top + up },
      { x: right - halfX, y: top + up },
      { x: left + halfX, y: bottom - down },
      { x: right - halfX, y: bottom - down },
    ]) {
      const written = wordsAround(face, 'strip name', letter, at);
      if (!room.isFree(inflated(areaOf(written), 0.35))) continue;
      room.take(areaOf(written));
      return written;
    }
  }
  return undefined;
}
