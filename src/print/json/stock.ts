import type { Diagnostic, Drawer, DrawerEntry } from '../../model/index.ts';
import { describeDiagnostic } from './diagnostics.ts';
import { type FileOut, versions } from './documents.ts';
import { describeLength } from './length.ts';
import { describePrice } from './plan.ts';
import type { Document } from './schema.ts';

/** @param drawer  as it is after the changes; undefined where it could not be read or changed */
export function drawerDocument(
  drawer: Drawer | undefined,
  diagnostics: readonly Diagnostic[],
  changes: readonly string[] = [],
  files: readonly FileOut[] = [],
): Document<'drawer'> {
  return {
    schema: 'cardwright/drawer',
    version: versions.drawer,
    diagnostics: diagnostics.map(describeDiagnostic),
    result:
      drawer === undefined
        ? null
        : {
            title: drawer.title ?? null,
            units: drawer.units ?? null,
            entries: drawer.entries.map(describeEntry),
            changes: [...changes],
          },
    files: files.map(({ path, written }) => ({ path, written })),
  };
}

function describeEntry(entry: DrawerEntry) {
  return {
    kind: entry.kind,
    material: entry.material,
    length: describeLength(entry.length),
    width: describeLength(entry.width),
    grain: entry.grain ?? null,
    flutes: entry.flutes ?? null,
    count: entry.count,
    label: entry.label ?? null,
    where: entry.where ?? null,
    note: entry.note ?? null,
    price: describePrice(entry.price),
    trueEdges: entry.trueEdges,
  };
}
