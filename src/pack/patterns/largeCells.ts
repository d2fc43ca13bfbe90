import type { JobRules, JobSheet } from '../job.ts';
import { Node, Shape } from '../search/tree.ts';
import type { Lying } from './pattern.ts';

/** One sheet's problem, counted in cells that may be larger than the job's. */
export interface InLargeCells {
  readonly sheet: { readonly length: number; readonly width: number };
  readonly ways: readonly Lying[];
  readonly rules: JobRules;
  /** In cells of the job. */
  readonly cell: number;
}

/** The largest cell in which kerf and sizes are whole. */
export function largestCell(
  sheets: readonly { readonly length: number; readonly width: number }[],
  ways: readonly Lying[],
  { kerf }: JobRules,
): number {
  const sizes = [...sheets.flatMap(({ length, width }) => [length, width])];
  return [kerf, ...sizes, ...ways.flatMap(({ width, height }) => [width, height])].reduce(commonDivisor);
}

/** The same rules with limits that are whole in such cells. */
export function roundedTo(cell: number, rules: JobRules, which: 'looser' | 'tighter'): JobRules {
  const isLoose = which === 'looser';
  const down = (limit: number) => cell * Math.floor(limit / cell);
  const up = (limit: number) => cell * Math.ceil(limit / cell);
  return {
    ...rules,
    leastStrip: isLoose ? down(rules.leastStrip) : up(rules.leastStrip),
    longestCut: isLoose ? up(rules.longestCut) : down(rules.longestCut),
  };
}

/**
 * The same problem in the largest cells in which kerf and sizes are whole: a least strip in millimetres beside
 * parts in inches makes the job's cells tiny, but what is cut off is still a number of large ones.
 *
 * @param limits  these are made tighter where they are not whole in such cells; or cells are chosen for them, too
 */
export function inLargeCells(
  sheet: JobSheet,
  ways: readonly Lying[],
  rules: JobRules,
  limits: 'tighter' | 'as they are',
): InLargeCells {
  const largest = largestCell([sheet], ways, rules);
  const asked = [rules.leastStrip, rules.longestCut].filter(Number.isFinite);
  const cell = limits === 'tighter' ? largest : [largest, ...asked].reduce(commonDivisor);
  const { kerf, leastStrip, longestCut, rounds } = roundedTo(cell, rules, 'tighter');
  return {
    cell,
    sheet: { length: sheet.length / cell, width: sheet.width / cell },
    ways: ways.map((way) => ({ ...way, width: way.width / cell, height: way.height / cell })),
    rules: { kerf: kerf / cell, leastStrip: leastStrip / cell, longestCut: longestCut / cell, rounds },
  };
}

/** A tree whose sizes count cells of the job again. */
export function inJobCells(node: Node, cell: number): Node {
  const kids = node.kids.map((kid) => inJobCells(kid, cell));
  const { shape, width, height, part, turned } = node;
  const copy = new Node(
    shape,
    width * cell,
    height * cell,
    part,
    turned,
    shape === Shape.part ? node.kids : kids,
  );
  copy.filled = node.filled * cell * cell;
  for (const kid of kids) kid.parent = copy;
  return copy;
}

export function commonDivisor(a: number, b: number): number {
  return b === 0 ? a : commonDivisor(b, a % b);
}
