import { isPositive, roundToStep } from '../../measure/index.ts';
import type { Box, DrawerEntry, Job, JobSheet, Length, SheetKind } from '../../model/index.ts';
import { type Change, isLike } from '../drawer/changing.ts';
import type { FittingsUsed } from '../drawer/fittings.ts';
import { changesOfBlocks, isLayerInDrawer } from './blocks.ts';
import { entryOf } from './entries.ts';
import { picturesOf } from './making.ts';
import { leftOfPacks } from './openPacks.ts';
import { keyOf, type SheetState, sheetsOf } from './state.ts';

/** What putting sheets away does to the drawer, and what lies elsewhere. */
export interface PuttingAway {
  readonly sheets: readonly JobSheet[];
  readonly changes: readonly Change[];
  /** What is glued in once all is cut: used with the last of the sheets that were planned. */
  readonly fittings: readonly FittingsUsed[];
  /** Sheets at hand that are listed in another file, which is never written. */
  readonly elsewhere: readonly {
    readonly sheet: SheetKind;
    readonly material: string;
    readonly count: number;
  }[];
}

/**
 * What was cut and not put away yet: sheets of the drawer go out, leftovers with a name come in, each size rounded
 * down to the first rule, so that sizes do not grow finer every evening. A leftover that something is cut again
 * from stays on the bench. What packs hold beside the sheets that were cut comes in whole.
 */
export function puttingAway(job: Job): PuttingAway {
  const step = job.plan.settings.ruler.value[0];
  const open = sheetsOf(job).filter(({ isCut, isPutAway }) => isCut && !isPutAway);
  const out = new Map<string, { entry: DrawerEntry; count: number }>();
  const put: { entry: DrawerEntry; count: number }[] = [];
  const elsewhere: PuttingAway['elsewhere'][number][] = [];
  for (const { material, picture } of open) {
    const { sheet, leftovers } = picture;
    // Layers go out by the block.
    if (sheet.inDrawer && !isLayerInDrawer(sheet)) counted(out, entryOf(sheet, material));
    else if (sheet.isOffcut && !sheet.inDrawer && !picture.isOwn)
      elsewhere.push({ sheet, material, count: 1 });
    for (const { box, keep } of leftovers) {
      if (keep === undefined) continue;
      const entry = offcutOf(box, keep, sheet, material, step);
      if (entry === undefined) continue;
      const known = put.find((it) => isLike(it.entry, entry));
      if (known === undefined) put.push({ entry, count: 1 });
      else known.count++;
    }
  }
  const reserved = keepsCutAgain(job, open);
  return {
    sheets: open.map(({ material, number }) => ({ material, number })),
    changes: [
      ...[...out.values()].map(({ entry, count }): Change => ({ kind: 'take', entry, count })),
      ...changesOfBlocks(job, open),
      ...put.flatMap(({ entry, count }): readonly Change[] => {
        const left = count - (reserved.get(`${entry.label} ${entry.material}`) ?? 0);
        return left > 0 ? [{ kind: 'put', entry: { ...entry, count: left } }] : [];
      }),
      ...leftOfPacks(job, open).map((entry): Change => ({ kind: 'put', entry })),
    ],
    fittings: isLast(job, open) ? (job.plan.fittings ?? []) : [],
    elsewhere,
  };
}

/** True where this puts the last planned sheet away; what is cut again later takes no fittings. */
function isLast(job: Job, open: readonly SheetState[]): boolean {
  const again = new Set(job.events.flatMap((it) => (it.kind === 'recut' ? it.pictures : [])));
  const planned = sheetsOf(job).filter(({ picture }) => !again.has(picture));
  const now = new Set(open.map(keyOf));
  return (
    planned.some((it) => now.has(keyOf(it))) && planned.every((it) => it.isPutAway || now.has(keyOf(it)))
  );
}

/** How many of each leftover are cut again, of those whose sheets are put away just now. */
function keepsCutAgain(job: Job, open: readonly SheetState[]): ReadonlyMap<string, number> {
  const materials = new Set(open.map(({ material }) => material));
  const used = new Map<string, number>();
  for (const material of materials) {
    for (const { isOwn, sheet, times } of picturesOf(job, material)) {
      if (!isOwn || sheet.label === undefined) continue;
      const key = `${sheet.label} ${material}`;
      used.set(key, (used.get(key) ?? 0) + times);
    }
  }
  return used;
}

function counted(all: Map<string, { entry: DrawerEntry; count: number }>, entry: DrawerEntry): void {
  for (const known of all.values()) {
    if (!isLike(known.entry, entry)) continue;
    known.count++;
    return;
  }
  all.set(`${all.size}`, { entry, count: 1 });
}

/** A leftover as it goes into the drawer; it lies as its sheet lay, so grain and flutes run as they did. */
function offcutOf(
  { length, width }: Box,
  keep: string,
  sheet: SheetKind,
  material: string,
  step: Length,
): DrawerEntry | undefined {
  const sizes = { length: roundToStep(length, step, 'down'), width: roundToStep(width, step, 'down') };
  if (!isPositive(sizes.length) || !isPositive(sizes.width)) return undefined;
  const { thick: _, ...of } = entryOf(sheet, material);
  return {
    ...of,
    ...sizes,
    kind: 'offcut',
    label: keep,
    where: undefined,
    note: undefined,
    price: undefined,
    trueEdges: true,
  };
}
