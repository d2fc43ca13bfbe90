import type { Diagnostic, Drawer, DrawerEntry, Job } from '../../model/index.ts';
import { type FrozenJob, type SheetState, sheetsOf } from '../../stock/index.ts';
import { sheetWord } from '../saying.ts';
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
            fittings: (drawer.fittings ?? []).map(({ name, count, where, note }) => ({
              name,
              count,
              where: where ?? null,
              note: note ?? null,
            })),
            changes: [...changes],
          },
    files: files.map(({ path, written }) => ({ path, written })),
  };
}

/** The file of a job. @param seal  of its plan */
export function jobDocument(job: FrozenJob, seal: string): Document<'job'> {
  return {
    schema: 'cardwright/job',
    version: versions.job,
    diagnostics: [],
    id: job.id,
    seal,
    // The codec writes what the model holds; that it obeys the schema is held by a test.
    plan: job.plan as Document<'job'>['plan'],
    events: job.events as Document<'job'>['events'],
  };
}

/** What has become of a job. */
export function stateDocument(
  told:
    | {
        readonly job: Job;
        readonly changed: readonly string[];
        readonly changes: readonly string[];
      }
    | undefined,
  diagnostics: readonly Diagnostic[],
  files: readonly FileOut[] = [],
): Document<'state'> {
  return {
    schema: 'cardwright/state',
    version: versions.state,
    diagnostics: diagnostics.map(describeDiagnostic),
    result:
      told === undefined
        ? null
        : {
            title: told.job.plan.title,
            drawer: told.job.plan.drawer ?? null,
            changed: [...told.changed],
            changes: [...told.changes],
            materials: told.job.plan.materials.map(({ demand }) => ({
              name: demand.material.name,
              sheets: sheetsOf(told.job)
                .filter(({ material }) => material === demand.material.name)
                .map(describeState),
            })),
          },
    files: files.map(({ path, written }) => ({ path, written })),
  };
}

function describeState({ number, picture, isCut, isPutAway }: SheetState) {
  const { sheet, pieces, leftovers, isOwn } = picture;
  const labels = new Map<string, number>();
  for (const { label } of pieces) labels.set(label, (labels.get(label) ?? 0) + 1);
  return {
    number,
    sheet: {
      length: describeLength(sheet.length),
      width: describeLength(sheet.width),
      label: sheet.label ?? null,
    },
    what: sheetWord(sheet) === 'offcut' ? ('offcut' as const) : ('sheet' as const),
    inDrawer: sheet.inDrawer ?? false,
    cutAgain: isOwn,
    cut: isCut,
    putAway: isPutAway,
    labels: [...labels].map(([label, count]) => ({ label, count })),
    keeps: leftovers.flatMap(({ box, keep }) =>
      keep === undefined
        ? []
        : [{ label: keep, length: describeLength(box.length), width: describeLength(box.width) }],
    ),
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
    pack: entry.pack ?? 1,
    thick: entry.thick === undefined ? null : describeLength(entry.thick),
    trueEdges: entry.trueEdges,
  };
}
