import type { Area } from './mark.ts';

/**
 * Remembers which areas of a page are taken, so that a thing can be put where nothing is yet. Areas are
 * filed by squares of the page: a look-up costs what stands near, not what stands on the page.
 */
export interface Room {
  readonly isFree: (area: Area) => boolean;
  readonly take: (area: Area) => void;
}

const squareMm = 8;

export function emptyRoom(): Room {
  const filed = new Map<number, Area[]>();
  return {
    isFree: (area) => {
      // Asked very often: no list of squares is made.
      for (let x = squareAt(area.left); x <= squareAt(area.right); x++) {
        for (let y = squareAt(area.top); y <= squareAt(area.bottom); y++) {
          const taken = filed.get(numberOf(x, y));
          if (taken?.some((it) => overlap(it, area))) return false;
        }
      }
      return true;
    },
    take: (area) => {
      for (const square of squaresOf(area)) {
        const taken = filed.get(square);
        if (taken === undefined) filed.set(square, [area]);
        else taken.push(area);
      }
    },
  };
}

/** Touching is not overlapping. */
export function overlap(a: Area, b: Area): boolean {
  return a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
}

export function inflated({ left, top, right, bottom }: Area, by: number): Area {
  return { left: left - by, top: top - by, right: right + by, bottom: bottom + by };
}

function squaresOf({ left, top, right, bottom }: Area): readonly number[] {
  const squares: number[] = [];
  for (let x = squareAt(left); x <= squareAt(right); x++) {
    for (let y = squareAt(top); y <= squareAt(bottom); y++) squares.push(numberOf(x, y));
  }
  return squares;
}

function squareAt(mm: number): number {
  return Math.floor(mm / squareMm);
}

function numberOf(x: number, y: number): number {
  return x * 4096 + y;
}
