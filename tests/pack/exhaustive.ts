/**
 * Every way of cutting small sheets of whole cells, as the rules are written down: a piece is a part of just
 * its size, or it is cut, or it is left over. Shares nothing with the packer.
 */
export interface AllowedCuts {
  readonly kerf: number;
  readonly leastStrip: number;
  readonly longestCut: number;
  readonly rounds: number;
}

export type Size = readonly [number, number];

/** A piece in hand, and what was done to it. */
interface Piece {
  readonly length: number;
  readonly width: number;
  readonly roundsLeft: number;
  readonly last: 'rip' | 'crosscut' | '';
  /** Ways in which it was shaved, or a piece that it was cut from. */
  readonly ripDone: boolean;
  readonly crosscutDone: boolean;
}

const enough = 40;

function wholeSheet([length, width]: Size, { rounds }: AllowedCuts): Piece {
  const roundsLeft = Math.min(rounds, enough);
  return { length, width, roundsLeft, last: '', ripDone: false, crosscutDone: false };
}

function keyOf({ length, width, roundsLeft, last, ripDone, crosscutDone }: Piece): string {
  return `${length} ${width} ${roundsLeft} ${last} ${ripDone} ${crosscutDone}`;
}

/** Both pieces of each cut that is allowed; the second is missing where nothing is left behind the cut. */
function* cutsOf(piece: Piece, allowed: AllowedCuts): Generator<readonly [Piece, Piece | undefined]> {
  const { kerf, leastStrip, longestCut } = allowed;
  for (const kind of ['rip', 'crosscut'] as const) {
    const [size, cutLength] = kind === 'rip' ? [piece.width, piece.length] : [piece.length, piece.width];
    const roundsLeft = kind === piece.last ? piece.roundsLeft : piece.roundsLeft - 1;
    const isDone = kind === 'rip' ? piece.ripDone : piece.crosscutDone;
    if (roundsLeft < 0 || cutLength > longestCut || isDone) continue;
    for (let at = Math.max(1, leastStrip); at < size; at++) {
      const far = size - at - kerf;
      if (far > 0 && far < leastStrip) continue;
      const isShaved = far <= 0 && leastStrip > 0;
      const rest: Piece = {
        ...piece,
        roundsLeft,
        last: kind,
        ripDone: piece.ripDone || (isShaved && kind === 'rip'),
        crosscutDone: piece.crosscutDone || (isShaved && kind === 'crosscut'),
      };
      const sized = (it: number): Piece =>
        kind === 'rip' ? { ...rest, width: it } : { ...rest, length: it };
      yield [sized(at), far > 0 ? sized(far) : undefined];
    }
  }
}

/**
 * Answers whether a set of parts, given by bits, can be cut out of one sheet.
 *
 * @param parts  of each, its sizes along and across the sheet, in all ways in which it may lie
 */
export function cuttableSets(
  parts: readonly (readonly Size[])[],
  sheet: Size,
  allowed: AllowedCuts,
): (set: number) => boolean {
  const known = new Map<string, boolean>();
  const areas = Array.from({ length: 1 << parts.length }, (_, set) =>
    parts.reduce((sum, [lying], i) => sum + (((set >> i) & 1) === 1 ? areaOf(lying) : 0), 0),
  );
  const fits = (set: number, piece: Piece): boolean => {
    if (set === 0) return true;
    const { length, width } = piece;
    if (areas[set]! > length * width) return false;
    const only = parts[Math.log2(set)];
    if (only?.some(([l, w]) => l === length && w === width)) return true;
    const key = `${set} ${keyOf(piece)}`;
    const before = known.get(key);
    if (before !== undefined) return before;
    let found = false;
    search: for (const [near, far] of cutsOf(piece, allowed)) {
      for (let some = set; ; some = (some - 1) & set) {
        const others = set ^ some;
        if (
          (others === 0 || far !== undefined) &&
          fits(some, near) &&
          (far === undefined || fits(others, far))
        ) {
          found = true;
          break search;
        }
        if (some === 0) break;
      }
    }
    known.set(key, found);
    return found;
  };
  const whole = wholeSheet(sheet, allowed);
  return (set) => fits(set, whole);
}

/** A part that lies in no way fits nowhere. */
function areaOf(lying: Size | undefined): number {
  return lying === undefined ? Number.POSITIVE_INFINITY : lying[0] * lying[1];
}

/** Sheets that can be had: so many of them, what one is worth, and which sets of parts go onto one. */
export interface Stock {
  readonly available: number;
  readonly price: number;
  readonly isCuttable: (set: number) => boolean;
}

/** For each set of parts, the least that sheets cost which hold it; infinite where none do. */
export function leastOf(count: number, stock: readonly Stock[]): number[] {
  let least = Array.from({ length: 1 << count }, (_, set) => (set === 0 ? 0 : Number.POSITIVE_INFINITY));
  for (const { available, price, isCuttable } of stock) {
    for (let one = 0; one < Math.min(available, count); one++) {
      least = least.map((before, set) => {
        let best = before;
        for (let some = set; some > 0; some = (some - 1) & set) {
          const cost = least[set ^ some]! + price;
          if (cost < best && isCuttable(some)) best = cost;
        }
        return best;
      });
    }
  }
  return least;
}

/** The fewest sheets of one size; infinite where some part can't be cut at all. */
export function fewestOf(
  parts: readonly Size[],
  sheet: Size,
  allowed: AllowedCuts,
  mayTurn: boolean,
): number {
  const lying = parts.map(([l, w]): Size[] =>
    mayTurn
      ? [
          [l, w],
          [w, l],
        ]
      : [[l, w]],
  );
  const isCuttable = cuttableSets(lying, sheet, allowed);
  return leastOf(parts.length, [{ available: Number.POSITIVE_INFINITY, price: 1, isCuttable }]).at(-1)!;
}

/** How many of two kinds one sheet holds at once: pairs, of which none has fewer of both than another. */
export function mostTogether(kinds: readonly Size[], sheet: Size, allowed: AllowedCuts): [number, number][] {
  const known = new Map<string, [number, number][]>();
  const held = (piece: Piece): [number, number][] => {
    const key = keyOf(piece);
    const before = known.get(key);
    if (before !== undefined) return before;
    const found: [number, number][] = [[0, 0]];
    kinds.forEach(([l, w], i) => {
      if (l === piece.length && w === piece.width) found.push(i === 0 ? [1, 0] : [0, 1]);
    });
    for (const [near, far] of cutsOf(piece, allowed)) {
      const behind: [number, number][] = far === undefined ? [[0, 0]] : held(far);
      for (const [a, b] of held(near)) for (const [c, d] of behind) found.push([a + c, b + d]);
    }
    const best = withoutLess(found);
    known.set(key, best);
    return best;
  };
  return held(wholeSheet(sheet, allowed));
}

function withoutLess(pairs: readonly [number, number][]): [number, number][] {
  const sorted = pairs.toSorted(([a, b], [c, d]) => c - a || d - b);
  let most = -1;
  return sorted.filter(([, b]) => {
    if (b <= most) return false;
    most = b;
    return true;
  });
}

/** What a generator returns in the end. */
export function runOf<T>(run: Generator<unknown, T>): T {
  let next = run.next();
  while (!next.done) next = run.next();
  return next.value;
}
