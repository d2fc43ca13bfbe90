import { compare, sum, toDrawnMm } from '../../measure/index.ts';
import type { Box, Length, SheetPlan } from '../../model/index.ts';

/** What is drawn as one outline, in drawn millimetres to the middle of the kerfs around it. */
export interface Block {
  readonly left: number;
  readonly right: number;
  readonly bottom: number;
  readonly top: number;
  readonly what: 'part' | 'keep' | 'scrap';
  readonly name: string;
  /** Sizes of one piece, as it lies. */
  readonly length: Length;
  readonly width: Length;
  /** How many equal pieces stand in the outline, in a row or in rows. */
  readonly across: number;
  readonly up: number;
  /** Index of the strip that it comes from, or -1 where it comes straight off the sheet. */
  readonly strip: number;
}

export function blocksOf(sheet: SheetPlan, kerf: Length): readonly Block[] {
  const half = toDrawnMm(kerf) / 2;
  const whole = { length: toDrawnMm(sheet.inside.length), width: toDrawnMm(sheet.inside.width) };
  const outline = (box: Box) => {
    const left = toDrawnMm(box.left);
    const bottom = toDrawnMm(box.bottom);
    const right = left + toDrawnMm(box.length);
    const top = bottom + toDrawnMm(box.width);
    return {
      left: left <= 0 ? 0 : left - half,
      bottom: bottom <= 0 ? 0 : bottom - half,
      right: Math.min(right + half, whole.length),
      top: Math.min(top + half, whole.width),
      length: box.length,
      width: box.width,
      across: 1,
      up: 1,
      strip: stripAround(box, sheet),
    };
  };
  return [
    ...sheet.pieces.map(({ box, member }) => ({
      ...outline(box),
      what: 'part' as const,
      name: member.label,
    })),
    ...sheet.leftovers.map(({ box, keep }) => ({
      ...outline(box),
      what: keep === undefined ? ('scrap' as const) : ('keep' as const),
      name: keep ?? 'scrap',
    })),
  ];
}

/** The last, so innermost, of the strips that hold the box. */
function stripAround(box: Box, { strips }: SheetPlan): number {
  const holds = (outer: Box) =>
    compare(outer.left, box.left) <= 0 &&
    compare(outer.bottom, box.bottom) <= 0 &&
    compare(sum(outer.left, outer.length), sum(box.left, box.length)) >= 0 &&
    compare(sum(outer.bottom, outer.width), sum(box.bottom, box.width)) >= 0;
  return strips.findLastIndex((strip) => holds(strip.box));
}

/**
 * Joins equal neighbours of one strip that have no room for their words into one outline with a count.
 *
 *   ├┬┬┬┬┬┬┬┬┬┬┬┤        ├───────────┤
 *   ││││││││││││││   ═▶   │12 × stone │
 *   ├┴┴┴┴┴┴┴┴┴┴┴┤        ├───────────┤
 */
export function joinSmall(blocks: readonly Block[], hasRoom: (block: Block) => boolean): readonly Block[] {
  const inRows = join(blocks, hasRoom, {
    from: 'left',
    to: 'right',
    count: 'across',
    low: 'bottom',
    high: 'top',
  });
  return join(inRows, hasRoom, { from: 'bottom', to: 'top', count: 'up', low: 'left', high: 'right' });
}

interface Way {
  readonly from: 'left' | 'bottom';
  readonly to: 'right' | 'top';
  readonly count: 'across' | 'up';
  readonly low: 'left' | 'bottom';
  readonly high: 'right' | 'top';
}

function join(blocks: readonly Block[], hasRoom: (block: Block) => boolean, way: Way): readonly Block[] {
  const joined: Block[] = [];
  const sorted = [...blocks].sort((a, b) => a[way.low] - b[way.low] || a[way.from] - b[way.from]);
  for (const block of sorted) {
    const before = joined[joined.length - 1];
    if (before !== undefined && follows(before, block, way) && !hasRoom(block)) {
      joined[joined.length - 1] = {
        ...before,
        [way.to]: block[way.to],
        [way.count]: before[way.count] + block[way.count],
      };
    } else joined.push(block);
  }
  return joined;
}

function follows(before: Block, block: Block, { from, to, low, high, count }: Way): boolean {
  const near = (a: number, b: number) => Math.abs(a - b) < 0.01;
  const otherCount = count === 'across' ? 'up' : 'across';
  return (
    before.name === block.name &&
    before.what === 'part' &&
    block.what === 'part' &&
    before.strip === block.strip &&
    before[otherCount] === 1 &&
    block[otherCount] === 1 &&
    near(before[to], block[from]) &&
    near(before[low], block[low]) &&
    near(before[high], block[high])
  );
}
