import type { Made, TileFit } from '../model/index.ts';

/** How to put tiles together, said once for all of them. */
export const gluingLead =
  'put each tile together dry first; then glue from the inside out. What is glued up as one dries before it goes on.';

/** In which order a tile is put together. */
export interface Gluing {
  /** The label of the tile. */
  readonly tile: string;
  /** `18 × flagstone onto fill`, in order. */
  readonly steps: readonly string[];
}

/** How names and counts are set. */
export interface GluingStyle {
  readonly clean: (text: string) => string;
  readonly counted: (count: number, name: string) => string;
}

/** Of each tile that is made, if it has more than one thing to glue. */
export function gluingOf(
  { batch, fits }: Pick<Made, 'batch' | 'fits'>,
  style: GluingStyle,
): readonly Gluing[] {
  const byTile = new Map(fits.map((fit) => [fit.build.tile, fit]));
  return batch.tiles.flatMap(({ name, label, count }) => {
    const fit = byTile.get(name);
    if (fit === undefined || count === 0 || fit.glueing.length < 2) return [];
    return [{ tile: style.clean(label), steps: stepsOf(fit, style) }];
  });
}

/** Equal steps that follow each other are one: `18 x flagstone onto fill`. */
function stepsOf({ glueing, build }: TileFit, { clean, counted }: GluingStyle): readonly string[] {
  const partOf = new Map(build.parts.map(({ name, part }) => [name, part]));
  const withoutNumber = (name: string): string => {
    const part = partOf.get(name);
    return part !== undefined && /^ \d+$/.test(name.slice(part.length)) && name.startsWith(part)
      ? part
      : name;
  };
  const groups: { readonly what: string; readonly onto: string; count: number }[] = [];
  for (const { what, onto } of glueing) {
    const next = { what: withoutNumber(what), onto: listed(onto.map(withoutNumber).map(clean)), count: 1 };
    const last = groups.at(-1);
    // The first of a row lies on nothing yet; the next of the same kind lie on it.
    const isSame =
      last !== undefined && last.what === next.what && (next.onto === last.onto || next.onto === next.what);
    if (isSame) last.count++;
    else groups.push(next);
  }
  return groups.map(({ what, onto, count }) => {
    const name = counted(count, what);
    return onto === '' || onto === clean(what) ? name : `${name} to ${onto}`;
  });
}

function listed(names: readonly string[]): string {
  const different = [...new Set(names)];
  const last = different.at(-1) ?? '';
  return different.length < 2 ? last : `${different.slice(0, -1).join(', ')} and ${last}`;
}
