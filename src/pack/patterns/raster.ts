/**
 * Where cuts can matter at all. A cut is of use only where sizes of parts add up to it, and of those sums only
 * the ones that leave a different rest behind them:
 *
 *     sums     0 ├──a──┤──b──┤─a─┤        all sums of sizes up to the whole
 *     points   floor(whole − sum)         the largest sum that fits beside a sum
 *
 * Both pieces of any cut may be shrunk to such a point without losing a part. The points are closed under
 * cutting again: floor(floor(whole − m) − n) = floor(whole − (m + n)).
 *
 * @source  G. Scheithauer, J. Terno, The G4-heuristic for the pallet loading problem, J. Opl Res. Soc. 47
 *          (1996), for the reduced set; from memory, the closure is argued above and tested
 */
export function rasterPoints(whole: number, sizes: readonly number[], most: number): number[] | undefined {
  const sums = sumsOf(whole, sizes, most);
  if (sums === undefined) return undefined;
  const points = new Set<number>();
  let at = sums.length - 1;
  for (const sum of sums) {
    while (sums[at]! > whole - sum) at--;
    if (sums[at]! > 0) points.add(sums[at]!);
  }
  return [...points].sort((a, b) => a - b);
}

/**
 * All sums of sizes up to `whole`, each size as often as wanted, 0 among them; rising.
 *
 * @returns  undefined if there are more than `most`
 */
export function sumsOf(whole: number, sizes: readonly number[], most: number): number[] | undefined {
  const sums = [0];
  const seen = new Set<number>(sums);
  for (const size of [...new Set(sizes)].sort((a, b) => b - a)) {
    // The list grows while it is walked, so a size is added again and again.
    for (let i = 0; i < sums.length; i++) {
      const sum = sums[i]! + size;
      if (sum > whole || seen.has(sum)) continue;
      if (sums.length >= most) return undefined;
      seen.add(sum);
      sums.push(sum);
    }
  }
  return sums.sort((a, b) => a - b);
}

/**
 * Some of the points: sums of few sizes, and what fits beside them. A pattern over these is a real one, if
 * seldom the best.
 */
export function fewPoints(whole: number, sizes: readonly number[], most: number): number[] {
  const distinct = [...new Set(sizes)].sort((a, b) => b - a);
  const sums = new Set<number>([0]);
  let layer = [0];
  while (layer.length > 0 && sums.size < most / 2) {
    const next: number[] = [];
    for (const sum of layer) {
      for (const size of distinct) {
        if (sum + size > whole || sums.has(sum + size) || sums.size >= most / 2) continue;
        sums.add(sum + size);
        next.push(sum + size);
      }
    }
    layer = next;
  }
  const points = new Set<number>([whole]);
  for (const sum of sums) {
    if (sum > 0) points.add(sum);
    if (whole - sum > 0) points.add(whole - sum);
  }
  return [...points].sort((a, b) => a - b);
}

/** For each point the index of the largest point that is at most `point − size`; −1 for none. */
export function floorsBehind(points: readonly number[], size: number): Int32Array {
  const floors = new Int32Array(points.length);
  let at = -1;
  for (let i = 0; i < points.length; i++) {
    while (at + 1 < points.length && points[at + 1]! <= points[i]! - size) at++;
    floors[i] = at;
  }
  return floors;
}

/** Index of the first point that is at least `size`; the number of points if none is. */
export function firstNotBelow(points: ArrayLike<number>, size: number): number {
  let [low, high] = [0, points.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (points[middle]! < size) low = middle + 1;
    else high = middle;
  }
  return low;
}
