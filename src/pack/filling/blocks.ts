import type { JobRules, JobSheet } from '../job.ts';
import type { Lying } from '../patterns/pattern.ts';
import { lineOf, Shape } from '../search/tree.ts';
import { type Candidate, lineAlong } from './fewBlocks.ts';

/**
 * Blocks of no more than so many parts, for a leftover that holds more. As square by number as may be, so that what
 * stays free lies together and no line is long; else over the whole side.
 *
 *   ┌──────────────┐
 *   │              │
 *   ├─┬─┬─┐        │
 *   ├─┼─┼─┼─┐      │
 *   ├─┼─┼─┼─┤      │
 *   └─┴─┴─┴─┴──────┘
 */
export function blocks(
  sheet: JobSheet,
  ways: readonly Lying[],
  rules: JobRules,
  most: number,
): readonly Candidate[] {
  return ways.flatMap((way) => {
    const along = Math.floor(sheet.length / way.width);
    const up = Math.floor(sheet.width / way.height);
    return [
      { shape: Shape.column, inLine: up, lines: along },
      { shape: Shape.row, inLine: along, lines: up },
    ].flatMap(({ shape, inLine, lines }) => {
      if (inLine === 0 || lines === 0) return [];
      const square = Math.max(Math.ceil(Math.sqrt(most)), Math.ceil(most / lines));
      return [square, mostInLine].flatMap((each) =>
        blocksOf(way, { shape, each: Math.min(each, inLine, most), lines }, rules, most),
      );
    });
  });
}

/** A line nests as deep as it has parts. */
const mostInLine = 1000;

interface Lines {
  readonly shape: Shape;
  /** So many in a line, and so many lines at most. */
  readonly each: number;
  readonly lines: number;
}

/** With a shorter last line, where one is wanted, and without it: what lies beside that may be too narrow. */
function blocksOf(
  way: Lying,
  { shape, each, lines }: Lines,
  rules: JobRules,
  most: number,
): readonly Candidate[] {
  const across = shape === Shape.row ? Shape.column : Shape.row;
  const whole = Math.min(lines, Math.floor(most / each));
  const rest = whole < lines ? most - whole * each : 0;
  return [...(rest > 0 ? [rest] : []), 0].map((last) => ({
    count: whole * each + last,
    tree: () => {
      const all = Array.from({ length: whole }, () => lineAlong(way, shape, each, rules));
      if (last > 0) all.push(lineAlong(way, shape, last, rules));
      return lineOf(across, all, rules);
    },
  }));
}
