import { clean, type Look, paragraph, signsOf, table } from '../columns/index.ts';
import type { TableSheet } from './table.ts';

export function printTables({ title, heading, notes, tables }: TableSheet, look: Look): string {
  const { rule } = signsOf(look);
  const lines = [
    ...paragraph(clean(`${title}: ${heading}`), look.width),
    ...notes.flatMap((it) => paragraph(clean(it), look.width)),
    ...tables.flatMap((it) => [
      '',
      ...(it.title === undefined ? [] : paragraph(clean(it.title), look.width)),
      ...it.notes.flatMap((note) => paragraph(clean(note), look.width, '  ')),
      ...table(
        it.columns,
        it.rows.map((row) => row.map(clean)),
        { columns: look.width, rule },
      ),
    ]),
  ];
  return `${lines.map((line) => line.trimEnd()).join('\n')}\n`;
}
