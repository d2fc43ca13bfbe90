import { lines, type Mark, type Point } from './mark.ts';

/**
 * One row of pages: each shows its own stretch and half of the overlap beyond it.
 *
 *   page 1 ├──────────────┼──┤
 *   page 2             ├──┼──────────────┼──┤
 *   page 3                            ├──┼──────────────┤
 *                         joint          joint
 */
export interface Stretch {
  /** Its own, from joint to joint. */
  readonly own: Reach;
  /** What is drawn on its page. */
  readonly shown: Reach;
}

export interface Reach {
  readonly from: number;
  readonly to: number;
}

export const overlapMm = 12;
/** Around the outline, so that no line of it lies on the edge of what is shown. */
export const aroundMm = 1;

/** @param roomMm for what is shown on one page, above the overlap */
export function stretchesOf(lengthMm: number, roomMm: number): readonly Stretch[] {
  const whole = lengthMm + 2 * aroundMm;
  const count = whole <= roomMm ? 1 : Math.ceil(whole / (roomMm - overlapMm));
  const ownMm = whole / count;
  return Array.from({ length: count }, (_, i): Stretch => {
    const [from, to] = [i * ownMm - aroundMm, (i + 1) * ownMm - aroundMm];
    const shown = {
      from: i === 0 ? from : from - overlapMm / 2,
      to: i === count - 1 ? to : to + overlapMm / 2,
    };
    return { own: { from, to }, shown };
  });
}

/**
 *      │
 *    ╱─┼─╲
 *   ─┼─┼─┼─
 *    ╲─┼─╱
 *      │
 */
export function registerMark({ x, y }: Point): readonly Mark[] {
  return lines('register mark', [
    [
      { x: x - crossArmMm, y },
      { x: x + crossArmMm, y },
    ],
    [
      { x, y: y - crossArmMm },
      { x, y: y + crossArmMm },
    ],
  ]);
}

const crossArmMm = 4;

/** A … Z, AA, AB, … */
export function crossName(index: number): string {
  const letter = String.fromCharCode(65 + (index % 26));
  return index < 26 ? letter : `${crossName(Math.floor(index / 26) - 1)}${letter}`;
}
