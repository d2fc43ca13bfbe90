import highsLoader from 'highs';

/** References for small batches: every way of cutting, tried one by one, and integer programs over them. */

/** A part by its two sides, which may not be swapped, and how many are wanted. */
export interface Want {
  readonly size: readonly [number, number];
  readonly count: number;
}

/**
 * Which numbers of each part go onto a piece together, by trying every cut from edge to edge. No kerf, no turning.
 */
export function fitting(wants: readonly Want[]) {
  const known = new Map<string, boolean>();
  const fits = (counts: readonly number[], l: number, w: number): boolean => {
    const all = counts.reduce((sum, it) => sum + it, 0);
    if (all === 0) return true;
    const area = counts.reduce((sum, n, i) => sum + n * wants[i]!.size[0] * wants[i]!.size[1], 0);
    if (area > l * w || l < 1 || w < 1) return false;
    if (all === 1) {
      const [a, b] = wants[counts.findIndex((n) => n > 0)]!.size;
      return a <= l && b <= w;
    }
    const key = `${counts} ${l} ${w}`;
    const before = known.get(key);
    if (before !== undefined) return before;
    let found = false;
    for (const near of selections(counts)) {
      const some = near.some((n) => n > 0) && near.some((n, i) => n < counts[i]!);
      if (!some) continue;
      const far = counts.map((n, i) => n - near[i]!);
      for (let at = 1; at < l && !found; at++) found = fits(near, at, w) && fits(far, l - at, w);
      for (let at = 1; at < w && !found; at++) found = fits(near, l, at) && fits(far, l, w - at);
      if (found) break;
    }
    known.set(key, found);
    return found;
  };
  return fits;
}

/** Every choice of as many of each as there are, or fewer. */
export function selections(counts: readonly number[]): readonly (readonly number[])[] {
  return counts.reduce<readonly (readonly number[])[]>(
    (all, most) => all.flatMap((it) => Array.from({ length: most + 1 }, (_, n) => [...it, n])),
    [[]],
  );
}

/** As many of each as go onto one sheet of a kind, where not one more would. */
export function fullest(
  wants: readonly Want[],
  size: readonly [number, number],
): readonly (readonly number[])[] {
  const fits = fitting(wants);
  const all = selections(wants.map(({ count }) => count)).filter((it) => fits(it, ...size));
  return all.filter((it) => !all.some((other) => other !== it && other.every((n, i) => n >= it[i]!)));
}

export interface Highs {
  solve(text: string, options: object): { readonly Status: string; readonly ObjectiveValue: number };
}

/** HiGHS (package highs), an integer solver that shares nothing with the program. */
export function loadHighs(): Promise<Highs> {
  // Its types describe the CommonJS build, in which the loader itself is what is exported.
  return (highsLoader as unknown as () => Promise<Highs>)();
}

/** A sum as such programs are written. */
export function termsOf(terms: readonly (readonly [number, string])[]): string {
  return terms.map(([factor, name]) => `${factor < 0 ? '-' : '+'} ${Math.abs(factor)} ${name}`).join(' ');
}
