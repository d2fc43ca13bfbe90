import type { DrawerEntry, SheetKind } from '../../model/index.ts';

/** A sheet of the drawer, as its file lists it. */
export function entryOf(sheet: SheetKind, material: string): DrawerEntry {
  const run = (it: SheetKind['grain']): DrawerEntry['grain'] => (it === 'none' ? undefined : it);
  return {
    kind: sheet.isUncut ? 'sheet' : 'offcut',
    material,
    length: sheet.length,
    width: sheet.width,
    grain: run(sheet.grain),
    flutes: run(sheet.flutes),
    count: 1,
    label: sheet.label,
    where: sheet.where,
    note: sheet.note,
    price: sheet.price,
    ...(sheet.pack === undefined ? {} : { pack: sheet.pack }),
    ...(sheet.block === undefined ? {} : { thick: sheet.block.thick }),
    trim: undefined,
    trueEdges: sheet.trueEdges,
  };
}
