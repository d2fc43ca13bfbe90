import { exactDecimal, showExact, toFraction } from '../../measure/index.ts';
import type { Batch, FittingDemand, Length } from '../../model/index.ts';

const headings = [
  ...['material', 'thickness mm', 'tile', 'part', 'label', 'length mm', 'width mm', 'length in', 'width in'],
  ...['grain', 'flutes', 'good side', 'each', 'spares', 'count', 'fitting'],
];

/**
 * The parts as a table for other programs: a row for each part of each tile. Behind them a row for each fitting and
 * what takes it, and one for its spares.
 *
 * @source RFC 4180: lines end with CR LF, the last one too; a field with a comma, a quote or a line end is quoted,
 *         and quotes in it are doubled; the first line names the columns
 */
export function printCountCsv({ materials, fittings = [] }: Batch): string {
  const rows = materials.flatMap(({ material, parts }) =>
    parts.flatMap(({ length, width, grain, flutes, goodSide, members }) =>
      members.map((it) => {
        const [long, wide] = it.isTurned ? [width, length] : [length, width];
        return [
          ...[material.name, mm(material.thickness), it.tile ?? '', it.part, it.label],
          ...[mm(long), mm(wide), inch(long), inch(wide)],
          ...[turned(grain, it.isTurned), turned(flutes, it.isTurned), goodSide ? 'yes' : 'no'],
          ...[`${it.each}`, `${it.spares ?? 0}`, `${it.count}`, ''],
        ];
      }),
    ),
  );
  return [headings, ...rows, ...fittings.flatMap(fittingRows)]
    .map((row) => `${row.map(field).join(',')}\r\n`)
    .join('');
}

/** The same columns; what a fitting has not is left empty. */
function fittingRows({ name, label, uses, spares }: FittingDemand): readonly (readonly string[])[] {
  const row = (tile: string, part: string, counts: readonly number[]): readonly string[] => [
    ...['', '', tile, part, label],
    ...Array.from({ length: 7 }, () => ''),
    ...counts.map(String),
    name,
  ];
  return [
    ...uses.map(({ tile, part, each, count }) => row(tile ?? '', part ?? '', [each, 0, count])),
    ...(spares === 0 ? [] : [row('', '', [0, spares, spares])]),
  ];
}

function turned(side: 'length' | 'width' | 'any', isTurned = false): string {
  return !isTurned || side === 'any' ? side : side === 'length' ? 'width' : 'length';
}

/** Exact: a decimal where it ends, else a fraction. */
function mm(length: Length): string {
  return exactDecimal(length) ?? toFraction(length);
}

function inch(length: Length): string {
  return showExact(length, 'in').replace(/ in$/, '');
}

function field(text: string): string {
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}
