import { type Column, type Lines, type Look, paragraph, signsOf, table } from '../columns/index.ts';
import type { OffsetTable } from '../shapeWork.ts';

/** A table of offsets to mark an edge out by. */
export function offsetTable({ lead, headings, rows }: OffsetTable, look: Look): Lines {
  const columns = headings.map((heading): Column => ({ heading, align: 'right', wraps: false }));
  return [
    ...paragraph(lead, look.width),
    ...table(columns, rows, { columns: look.width, rule: signsOf(look).rule }),
  ];
}
