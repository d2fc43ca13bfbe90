/** A rectangle that lies somewhere, in whole cells. */
export interface Placed {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** Checks of free placements, that is of rectangles without a cut tree. Shares nothing with the packer. */
export function flawsOf(placed: readonly Placed[], sheet: { width: number; height: number }): string[] {
  const flaws: string[] = [];
  placed.forEach((a, i) => {
    if (a.x < 0 || a.y < 0 || a.x + a.width > sheet.width || a.y + a.height > sheet.height) {
      flaws.push(`${i} leaves the sheet`);
    }
    placed.slice(i + 1).forEach((b, j) => {
      const apart =
        a.x + a.width <= b.x || b.x + b.width <= a.x || a.y + a.height <= b.y || b.y + b.height <= a.y;
      if (!apart) flaws.push(`${i} and ${i + 1 + j} overlap`);
    });
  });
  if (flaws.length === 0 && !canBeCutApart(placed)) flaws.push('no row of cuts from edge to edge frees all');
  return flaws;
}

/**
 * True if cuts from edge to edge of the piece in hand free every rectangle. Any cut that hits none may be
 * made first: it only ever makes the pieces smaller.
 */
export function canBeCutApart(placed: readonly Placed[]): boolean {
  if (placed.length < 2) return true;
  const across = partedAt(placed, (it) => [it.x, it.x + it.width]);
  const halves = across ?? partedAt(placed, (it) => [it.y, it.y + it.height]);
  return halves?.every(canBeCutApart) ?? false;
}

function partedAt(
  placed: readonly Placed[],
  spanOf: (it: Placed) => [number, number],
): [Placed[], Placed[]] | undefined {
  for (const candidate of placed) {
    const [, line] = spanOf(candidate);
    const before = placed.filter((it) => spanOf(it)[1] <= line);
    const behind = placed.filter((it) => spanOf(it)[0] >= line);
    if (behind.length > 0 && before.length + behind.length === placed.length) return [before, behind];
  }
  return undefined;
}
