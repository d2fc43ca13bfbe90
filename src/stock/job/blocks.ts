import type { DrawerEntry, Job, SheetKind } from '../../model/index.ts';
import { type Change, isLike } from '../drawer/changing.ts';
import { entryOf } from './entries.ts';
import { keyOf, type SheetState, sheetsOf } from './state.ts';

/**
 * What layers of blocks that lie in the drawer do to it: so many blocks go out as their layers begin to be put away,
 * and with the last layer of their kind come in those that were not cut up, as sheets.
 *
 * @param open  what is put away now
 */
export function changesOfBlocks(job: Job, open: readonly SheetState[]): readonly Change[] {
  const now = new Set(open.map(keyOf));
  return layersOf(job).flatMap(({ entry, layers, states }): readonly Change[] => {
    const before = states.filter(({ isPutAway }) => isPutAway).length;
    const after = states.filter((it) => it.isPutAway || now.has(keyOf(it))).length;
    const blocks = blocksFor(after, layers) - blocksFor(before, layers);
    const isLast = after > before && after === states.length;
    const left = isLast ? blocksFor(after, layers) * layers - after : 0;
    return [
      ...(blocks === 0 ? [] : [{ kind: 'take', entry, count: blocks } as const]),
      ...(left === 0 ? [] : [{ kind: 'put', entry: asSheets(entry, left) } as const]),
    ];
  });
}

/** So many blocks of that kind are still to go out for what is laid out: what is left of them is none's to take. */
export function blocksTaken(job: Job, entry: DrawerEntry): number {
  const of = layersOf(job).find((it) => isLike(it.entry, entry));
  if (of === undefined) return 0;
  const away = of.states.filter(({ isPutAway }) => isPutAway).length;
  return blocksFor(of.states.length, of.layers) - blocksFor(away, of.layers);
}

/** What packs and blocks hold beside what is cut lies in the drawer for itself. */
export function asSheets({ thick: _, pack: __, ...entry }: DrawerEntry, count: number): DrawerEntry {
  return { ...entry, count, price: undefined };
}

interface Layers {
  readonly entry: DrawerEntry;
  readonly layers: number;
  readonly states: readonly SheetState[];
}

function layersOf(job: Job): readonly Layers[] {
  const found: { readonly entry: DrawerEntry; readonly layers: number; readonly states: SheetState[] }[] = [];
  for (const state of sheetsOf(job)) {
    const { sheet } = state.picture;
    if (!isLayerInDrawer(sheet)) continue;
    const entry = entryOf(sheet, state.material);
    const known = found.find((it) => isLike(it.entry, entry));
    if (known === undefined) found.push({ entry, layers: sheet.block.layers, states: [state] });
    else known.states.push(state);
  }
  return found;
}

export function isLayerInDrawer(sheet: SheetKind): sheet is SheetKind & Required<Pick<SheetKind, 'block'>> {
  return sheet.inDrawer === true && sheet.block !== undefined;
}

function blocksFor(layers: number, each: number): number {
  return Math.ceil(layers / each);
}
