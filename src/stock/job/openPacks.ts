import { packsFor } from '../../measure/index.ts';
import type { DrawerEntry, Job, SheetKind } from '../../model/index.ts';
import { isLike } from '../drawer/changing.ts';
import { asSheets } from './blocks.ts';
import { entryOf } from './entries.ts';
import { picturesOf } from './making.ts';
import { keyOf, type SheetState, sheetsOf } from './state.ts';

/**
 * Whole sheets of packs, and layers of blocks, that were bought and are not cut up: they come into the drawer with the last sheet of their
 * kind that is put away. Sheets that are cut again after that are a purchase of their own.
 *
 * @param open  what is put away now
 */
export function leftOfPacks(job: Job, open: readonly SheetState[]): readonly DrawerEntry[] {
  const now = new Set(open.map(keyOf));
  return job.plan.materials.flatMap(({ demand: { material, sheets } }) =>
    sheets.flatMap((kind): readonly DrawerEntry[] => {
      if (kind.isOffcut || kind.pack === undefined) return [];
      const bought = sheetsOf(job).filter(
        (it) => it.material === material.name && isSameBuy(it.picture.sheet, kind),
      );
      if (bought.length === 0 || bought.some((it) => !it.isPutAway && !now.has(keyOf(it)))) return [];
      const count = bought.length - paidBefore(job, material.name, kind);
      const left = packsFor(kind, count) * kind.pack - count;
      if (left === 0) return [];
      return [{ ...asSheets(entryOf(kind, material.name), left), kind: 'sheet' }];
    }),
  );
}

function isSameBuy(sheet: SheetKind, kind: SheetKind): boolean {
  return !sheet.isOffcut && sheet.pack === kind.pack && isLike(entryOf(sheet, ''), entryOf(kind, ''));
}

/** How many had been bought when last all of them had been put away. */
function paidBefore(job: Job, material: string, kind: SheetKind): number {
  let paid = 0;
  const away = new Set<string>();
  job.events.forEach((event, i) => {
    if (event.kind !== 'put away') return;
    for (const it of event.sheets) away.add(keyOf(it));
    const known = picturesOf({ ...job, events: job.events.slice(0, i) }, material)
      .filter(({ sheet }) => isSameBuy(sheet, kind))
      .flatMap(({ first, times }) => Array.from({ length: times }, (_, n) => first + n));
    if (known.every((number) => away.has(keyOf({ material, number })))) paid = known.length;
  });
  return paid;
}
