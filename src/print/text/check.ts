import type { Batch } from '../../model/index.ts';
import { type Lines, paragraph } from './lines.ts';
import { counted, type Look, signsOf } from './signs.ts';
import { clean, padEnd, widthOf } from './width.ts';

/** One line for each tile, and one for the loose parts: what it is made of. Faults are told elsewhere. */
export function printCheck(batch: Batch, look: Look): string {
  const byTile = partsByTile(batch);
  const partsOf = (tile: string | undefined) => byTile.get(tile) ?? [];
  const loose = partsOf(undefined);
  const all = [
    ...batch.tiles.map(({ name, label }) => ({ label: clean(label), parts: partsOf(name) })),
    ...(loose.length === 0 ? [] : [{ label: 'loose parts', parts: loose }]),
  ];
  const widest = Math.min(24, Math.max(0, ...all.map(({ label }) => widthOf(label))));
  const lines = all.flatMap(({ label, parts }) => line(label, parts, widest, look));
  return `${lines.join('\n')}\n`;
}

interface PartsOf {
  readonly material: string;
  /** In one tile. */
  readonly each: number;
}

/** Loose parts stand under `undefined`. */
function partsByTile({ materials }: Batch): ReadonlyMap<string | undefined, readonly PartsOf[]> {
  const byTile = new Map<string | undefined, PartsOf[]>();
  for (const { material, parts } of materials) {
    const each = new Map<string | undefined, number>();
    for (const member of parts.flatMap((kind) => kind.members)) {
      each.set(member.tile, (each.get(member.tile) ?? 0) + member.each);
    }
    for (const [tile, count] of each) {
      const all = byTile.get(tile) ?? [];
      all.push({ material: material.name, each: count });
      byTile.set(tile, all);
    }
  }
  return byTile;
}

function line(label: string, parts: readonly PartsOf[], widest: number, look: Look): Lines {
  const count = parts.reduce((sum, { each }) => sum + each, 0);
  const materials = parts.map(({ material, each }) => counted(each, material, signsOf(look)));
  const words =
    count === 0 ? 'no parts' : `${count}\u00a0${count === 1 ? 'part' : 'parts'}: ${materials.join(', ')}`;
  return paragraph(words, look.width, `ok  ${padEnd(label, widest)}  `);
}
