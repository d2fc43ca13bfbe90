import type { Batch } from '../../model/index.ts';
import { type Lines, paragraph } from './lines.ts';
import { counted, type Look, signsOf } from './signs.ts';
import { clean, padEnd, widthOf } from './width.ts';

/** One line for each tile, and one for the loose parts: what it is made of. Faults are told elsewhere. */
export function printCheck(batch: Batch, look: Look): string {
  const loose = partsOf(batch, undefined);
  const all = [
    ...batch.tiles.map(({ name, label }) => ({ label: clean(label), parts: partsOf(batch, name) })),
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

function partsOf({ materials }: Batch, tile: string | undefined): readonly PartsOf[] {
  return materials.flatMap(({ material, parts }) => {
    const members = parts.flatMap((kind) => kind.members).filter((member) => member.tile === tile);
    const each = members.reduce((sum, member) => sum + member.each, 0);
    return each === 0 ? [] : [{ material: material.name, each }];
  });
}

function line(label: string, parts: readonly PartsOf[], widest: number, look: Look): Lines {
  const count = parts.reduce((sum, { each }) => sum + each, 0);
  const materials = parts.map(({ material, each }) => counted(each, material, signsOf(look)));
  const words =
    count === 0 ? 'no parts' : `${count}\u00a0${count === 1 ? 'part' : 'parts'}: ${materials.join(', ')}`;
  return paragraph(words, look.width, `ok  ${padEnd(label, widest)}  `);
}
