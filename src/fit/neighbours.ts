import { compare, isZero, sum } from '../measure/index.ts';
import { type Block, type Length, type Way, ways } from '../model/index.ts';

/**
 * Every pair of blocks that share at least a point, once, where each block is taken `reach` further on its
 * high side. The cost is near-linear in blocks and pairs.
 *
 * Space is halved where it parts the blocks best, again and again; a block that lies on both sides of a
 * halving plane goes down both ways. A pair is told only in the region that holds the low corner of what
 * the two share, so never twice.
 *
 *      ┌──────┐ m                          low corner of the shared box: ●
 *      │  a ┌─┼────┐        left of m:  a b
 *      │    ●─┼──┐ │        right of m: a b      told on the left only
 *      └────┼─┘  │ │
 *           └────┼─┘ b
 *
 * @returns indices, the smaller first, in ascending order
 */
export function neighbours(blocks: readonly Block[], reach: Length): readonly (readonly [number, number])[] {
  const ranked = rankedBlocks(blocks, reach);
  const pairs: [number, number][] = [];
  const everywhere: Region = { low: [-1, -1, -1], high: [Infinity, Infinity, Infinity] };
  part(ranked, everywhere, (a, b) => pairs.push(a < b ? [a, b] : [b, a]), 0);
  return pairs.sort((p, q) => p[0] - q[0] || p[1] - q[1]);
}

/** Coordinates by their order alone: exact, however long their fractions are, and quick to compare. */
interface Ranked {
  readonly index: number;
  readonly low: readonly [number, number, number];
  readonly high: readonly [number, number, number];
}

interface Region {
  readonly low: readonly [number, number, number];
  readonly high: readonly [number, number, number];
}

function rankedBlocks(blocks: readonly Block[], reach: Length): readonly Ranked[] {
  const [across, along, up] = ways.map((way) => ranksIn(blocks, reach, way));
  return blocks.map((_, index) => {
    const low = [across, along, up].map((it) => it?.[index]?.[0] ?? 0);
    const high = [across, along, up].map((it) => it?.[index]?.[1] ?? 0);
    // Three ways, three ranks.
    return { index, low: low as never, high: high as never };
  });
}

function ranksIn(blocks: readonly Block[], reach: Length, way: Way): readonly (readonly [number, number])[] {
  const further = (high: Length): Length => (isZero(reach) ? high : sum(high, reach));
  const ends = blocks.flatMap(({ low, high }) => [low[way], further(high[way])]);
  const rankOf = ranks(ends);
  return blocks.map((_, index) => [rankOf(ends[2 * index]!), rankOf(ends[2 * index + 1]!)]);
}

/** Few of a build's ends differ, so each is told from the others by its text, and only those are put in order. */
function ranks(ends: readonly Length[]): (end: Length) => number {
  const textOf = ({ numerator, denominator }: Length): string => `${numerator}/${denominator}`;
  const distinct = new Map(ends.map((end) => [textOf(end), end]));
  const order = [...distinct].sort(([, a], [, b]) => compare(a, b));
  const rank = new Map(order.map(([text], index) => [text, index]));
  return (end) => rank.get(textOf(end)) ?? 0;
}

const fewEnough = 8;
const deepest = 40;

function part(
  blocks: readonly Ranked[],
  region: Region,
  tell: (a: number, b: number) => void,
  depth: number,
): void {
  const split = blocks.length <= fewEnough || depth >= deepest ? undefined : bestSplit(blocks);
  if (split === undefined) {
    compareAll(blocks, region, tell);
    return;
  }
  const { way, at } = split;
  const left = blocks.filter(({ low }) => low[way]! < at);
  const right = blocks.filter(({ high }) => high[way]! >= at);
  part(left, { low: region.low, high: replaced(region.high, way, at) }, tell, depth + 1);
  part(right, { low: replaced(region.low, way, at), high: region.high }, tell, depth + 1);
}

/** The plane that leaves the fewest blocks on the fuller side; undefined where none parts them well. */
function bestSplit(blocks: readonly Ranked[]): { readonly way: number; readonly at: number } | undefined {
  let best: { readonly way: number; readonly at: number } | undefined;
  let fewest = blocks.length * 0.9;
  for (const way of [0, 1, 2]) {
    const lows = blocks.map(({ low }) => low[way]!).sort((a, b) => a - b);
    const at = lows[lows.length >> 1]!;
    const left = blocks.filter(({ low }) => low[way]! < at).length;
    const right = blocks.filter(({ high }) => high[way]! >= at).length;
    const fuller = Math.max(left, right);
    if (fuller < fewest) [best, fewest] = [{ way, at }, fuller];
  }
  return best;
}

function compareAll(blocks: readonly Ranked[], region: Region, tell: (a: number, b: number) => void): void {
  for (const [index, a] of blocks.entries()) {
    for (let other = index + 1; other < blocks.length; other++) {
      const b = blocks[other]!;
      if (meetIn(a, b, region)) tell(a.index, b.index);
    }
  }
}

function meetIn(a: Ranked, b: Ranked, region: Region): boolean {
  for (const way of [0, 1, 2]) {
    const corner = Math.max(a.low[way]!, b.low[way]!);
    if (corner > a.high[way]! || corner > b.high[way]!) return false;
    if (corner < region.low[way]! || corner >= region.high[way]!) return false;
  }
  return true;
}

function replaced(corner: Region['low'], way: number, at: number): Region['low'] {
  return [way === 0 ? at : corner[0], way === 1 ? at : corner[1], way === 2 ? at : corner[2]];
}
