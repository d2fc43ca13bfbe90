/** A stretch along one axis that must keep room between its two ends. */
export interface Stretch {
  readonly from: number;
  readonly to: number;
}

/** Where each distinct coordinate is drawn, in whole cells; and how far the worst of them is off. */
export interface Ticks {
  readonly at: (coordinate: number) => number;
  readonly cells: number;
  readonly worstShift: number;
}

/**
 * Sets coordinates out in proportion, and moves them on only where a stretch would otherwise have no room
 * for words: then what follows falls back to its true place as soon as it can.
 *
 *   true      0 1  2            8        12
 *   cells     ├─┼──┼────────────┼─────────┤
 *   least 3   ├──┼──┼───────────┼─────────┤
 *
 * @param perUnit  cells for one unit of the coordinates
 * @param least    cells between the ends of every stretch
 */
export function setOut(stretches: readonly Stretch[], perUnit: number, least: number): Ticks {
  const coordinates = [...new Set(stretches.flatMap(({ from, to }) => [round(from), round(to)]))].sort(
    (a, b) => a - b,
  );
  const endingAt = new Map<number, number[]>();
  for (const { from, to } of stretches) {
    const starts = endingAt.get(round(to)) ?? [];
    starts.push(round(from));
    endingAt.set(round(to), starts);
  }
  const cells = new Map<number, number>();
  let before = 0;
  let worstShift = 0;
  for (const coordinate of coordinates) {
    const proportional = Math.round(coordinate * perUnit);
    const needed = (endingAt.get(coordinate) ?? []).map((from) => (cells.get(from) ?? 0) + least);
    const cell = Math.max(before, proportional, ...needed);
    worstShift = Math.max(worstShift, cell - proportional);
    cells.set(coordinate, cell);
    before = cell;
  }
  return { at: (coordinate) => cells.get(round(coordinate)) ?? 0, cells: before, worstShift };
}

/** Two edges that a kerf keeps apart meet in its middle; a hundredth of a millimetre is no difference. */
function round(coordinate: number): number {
  return Math.round(coordinate * 100) / 100;
}
