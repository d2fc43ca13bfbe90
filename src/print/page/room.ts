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
      for (const square of squaresOf(area)) {
        for (const taken of filed.get(square) ?? []) if (overlap(taken, area)) return false;
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
  for (let x = Math.floor(left / squareMm); x <= Math.floor(right / squareMm); x++) {
    for (let y = Math.floor(top / squareMm); y <= Math.floor(bottom / squareMm); y++) {
      squares.push(x * 4096 + y);
    }
  }
  return squares;
}
