import type { Batch } from '../../model/index.ts';
import { clean, type Look, paragraph, signsOf, table, wrap } from '../columns/index.ts';
import type { Work } from '../count/index.ts';
import { countSheet } from './countTables.ts';

/**
 * What a batch needs. Its own signs are ASCII everywhere, since such lists are piped into tools that count bytes.
 *
 * @param work    what only the layouts tell, or why nothing was laid out
 * @param remark  what there is to say of how it was laid out
 */
export function printCount(batch: Batch, { width }: Look, work?: Work | string, remark?: string): string {
  const look: Look = { width, ascii: true };
  const { title, notes, tables } = countSheet(batch, work, look, remark);
  const lines = [
    ...wrap(clean(title), width),
    ...notes.flatMap((note) => paragraph(clean(note), width)),
    ...tables.flatMap(({ title: heading, notes: own, columns, rows, below = [] }) => [
      '',
      ...(heading === undefined ? [] : paragraph(heading, width)),
      ...own.flatMap((it) => paragraph(it, width)),
      ...(rows.length === 0 ? [] : table(columns, rows, { columns: width, rule: signsOf(look).rule })),
      ...below.flatMap((it) => paragraph(it, width)),
    ]),
  ];
  return `${lines.map((line) => line.trimEnd()).join('\n')}\n`;
}
