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
  const squares = new Map<number, Area[]>();
  return {
    isFree: (area) => {
      // Asked very often: no list of squares is made.
      for (let x = squareAt(area.left); x <= squareAt(area.right); x++) {
        for (let y = squareAt(area.top); y <= squareAt(area.bottom); y++) {
          const taken = squares.get(numberOf(x, y));
          if (taken?.some((it) => overlap(it, area))) return false;
        }
      }
      return true;
    },
    take: (area) => fileIn(squares, area),
  };
}

/** What of these lies near an area: all that may overlap it, and little else; some of it twice. */
export function filed(areas: readonly Area[]): (area: Area) => readonly Area[] {
  const squares = new Map<number, Area[]>();
  for (const area of areas) fileIn(squares, area);
  return (area) => squaresOf(area).flatMap((square) => squares.get(square) ?? []);
}

function fileIn(squares: Map<number, Area[]>, area: Area): void {
  for (const square of squaresOf(area)) {
    const taken = squares.get(square);
    if (taken === undefined) squares.set(square, [area]);
    else taken.push(area);
  }
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
