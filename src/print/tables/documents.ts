import { type ReferenceTable, toFraction } from '../../measure/index.ts';
import type { Diagnostic } from '../../model/index.ts';
import { describeDiagnostic } from '../json/diagnostics.ts';
import { type FileOut, versions } from '../json/documents.ts';
import { describeLength } from '../json/length.ts';
import type { Document } from '../json/schema.ts';
import type { AxisBox, Twin } from './twin.ts';

export function tableDocument(
  { step, unit, to, halves, rows }: ReferenceTable,
  files: readonly FileOut[] = [],
): Document<'table'> {
  return {
    schema: 'cardwright/table',
    version: versions.table,
    diagnostics: [],
    step: describeLength(step),
    unit,
    rounding: { to: describeLength(to), halves },
    rows: rows.map(({ size, onRule, exact, nearest, mark }) => ({
      size: describeLength(size),
      text: onRule,
      exact,
      nearest,
      mark: describeLength(mark),
    })),
    files: files.map(({ path, written }) => ({ path, written })),
  };
}

/** @param twin undefined where nothing could be made; the diagnostics then say why */
export function twinDocument(
  twin: Twin | undefined,
  title: string,
  diagnostics: readonly Diagnostic[],
  files: readonly FileOut[] = [],
): Document<'twin'> {
  return {
    schema: 'cardwright/twin',
    version: versions.twin,
    diagnostics: diagnostics.map(describeDiagnostic),
    result: twin === undefined ? null : described(twin, title),
    files: files.map(({ path, written }) => ({ path, written })),
  };
}

function described({ wishes, tiles }: Twin, title: string): NonNullable<Document<'twin'>['result']> {
  const { left, right, front, back, bottom, top } = wishes.clearance;
  return {
    title,
    origin: wishes.origin,
    up: wishes.up,
    axes: wishes.axes,
    step: describeLength(wishes.step),
    clearance: {
      left: describeLength(left),
      right: describeLength(right),
      front: describeLength(front),
      back: describeLength(back),
      bottom: describeLength(bottom),
      top: describeLength(top),
    },
    tiles: tiles.map(({ tile, envelope, printable, pieces, loose }) => ({
      tile,
      envelope: box(envelope),
      printable: box(printable),
      parts: pieces.map(({ name, material, exact, rounded, facing, hand, isShaped }) => ({
        name,
        material,
        exact: box(exact),
        rounded: box(rounded),
        facing,
        turnedOver: hand === 'turned over',
        shaped: isShaped,
      })),
      byEye: loose.map(({ part, count, size }) => ({ part, count, size: size.map(describeLength) })),
    })),
  };
}

function box({ low, high }: AxisBox): { low: string[]; high: string[] } {
  return { low: low.map(toFraction), high: high.map(toFraction) };
}
