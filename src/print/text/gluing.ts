import type { Made, TileFit } from '../../model/index.ts';
import { clean, counted, type Lines, type Look, paragraph, signsOf } from '../columns/index.ts';

/** In which order each tile is put together, one paragraph a tile. */
export function writeGluing({ batch, fits }: Pick<Made, 'batch' | 'fits'>, look: Look): Lines {
  const byTile = new Map(fits.map((fit) => [fit.build.tile, fit]));
  const lines = batch.tiles.flatMap(({ name, label, count }): Lines => {
    const fit = byTile.get(name);
    if (fit === undefined || count === 0 || fit.glueing.length < 2) return [];
    return paragraph(`${stepsText(fit, look)}.`, look.width, `${clean(label)}: `);
  });
  if (lines.length === 0) return [];
  return [
    signsOf(look).rule.repeat(look.width),
    ...paragraph(
      'put each tile together dry first; then glue from the inside out. What is glued up as one dries before it goes on.',
      look.width,
      'Gluing   ',
    ),
    ...lines,
    '',
  ];
}

/** Equal steps that follow each other are one: `18 x flagstone onto fill`. */
function stepsText({ glueing, build }: TileFit, look: Look): string {
  const partOf = new Map(build.parts.map(({ name, part }) => [name, part]));
  const withoutNumber = (name: string): string => {
    const part = partOf.get(name);
    return part !== undefined && /^ \d+$/.test(name.slice(part.length)) && name.startsWith(part)
      ? part
      : name;
  };
  const groups: { readonly what: string; readonly onto: string; count: number }[] = [];
  for (const { what, onto } of glueing) {
    const next = { what: withoutNumber(what), onto: listed(onto.map(withoutNumber)), count: 1 };
    const last = groups.at(-1);
    // The first of a row lies on nothing yet; the next of the same kind lie on it.
    const isSame =
      last !== undefined && last.what === next.what && (next.onto === last.onto || next.onto === next.what);
    if (isSame) last.count++;
    else groups.push(next);
  }
  return groups
    .map(({ what, onto, count }) => {
      const name = counted(count, what, signsOf(look));
      return onto === '' || onto === clean(what) ? name : `${name} to ${onto}`;
    })
    .join(', then ');
}

function listed(names: readonly string[]): string {
  const different = [...new Set(names)].map(clean);
  const last = different.at(-1) ?? '';
  return different.length < 2 ? last : `${different.slice(0, -1).join(', ')} and ${last}`;
}
