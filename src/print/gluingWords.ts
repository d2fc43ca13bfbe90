import { compare } from '../measure/index.ts';
import { type Made, type StandingFitting, seenFromOutside, type TileFit } from '../model/index.ts';
import { listed } from './enumerated.ts';

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
    if (fit === undefined || count === 0) return [];
    const fitted = letInSteps(fit, style);
    if (fit.glueing.length < 2 && fitted.length === 0) return [];
    return [{ tile: style.clean(label), steps: [...stepsOf(fit, style), ...fitted] }];
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
    const next = {
      what: withoutNumber(what),
      onto: listed([...new Set(onto.map(withoutNumber).map(clean))]),
      count: 1,
    };
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

/**
 * `2 × disc magnet into the left and the right, poles from left to right, seen from outside: out, in`; where, the
 * shapes say.
 */
function letInSteps({ build }: TileFit, { counted }: GluingStyle): readonly string[] {
  const bySide = new Map<string, StandingFitting[]>();
  for (const it of build.fittings ?? []) {
    const key = `${it.side}\n${it.fitting}`;
    const known = bySide.get(key);
    if (known === undefined) bySide.set(key, [it]);
    else known.push(it);
  }
  const alike = new Map<string, string[]>();
  for (const group of bySide.values()) {
    const { side, fitting } = group[0]!; // none is empty
    const key = [counted(group.length, fitting), poleWords(group)].join('\n');
    const known = alike.get(key);
    if (known === undefined) alike.set(key, [side]);
    else known.push(side);
  }
  return [...alike].map(([key, sides]) => {
    const [what, poles] = key.split('\n');
    return `${what} into ${listed(sides.map((it) => `the ${it}`))}${sides.length > 1 ? ' each' : ''}${poles}`;
  });
}

function poleWords(group: readonly StandingFitting[]): string {
  const poles = inOrder(group).map(({ pole }) => pole);
  const [first] = poles;
  if (first === undefined) return '';
  if (poles.every((it) => it === first))
    return poles.length === 1 ? `, pole ${first}` : `, each with its pole ${first}`;
  const isLevel = group[0]?.side === 'top' || group[0]?.side === 'bottom';
  const order = isLevel ? 'from left to right and front to back' : 'from left to right, seen from outside';
  return `, poles ${order}: ${poles.join(', ')}`;
}

/** From left to right as they are seen from outside; top and bottom from above, then from the front. */
function inOrder(group: readonly StandingFitting[]): readonly StandingFitting[] {
  return [...group].sort((a, b) => {
    const { right, from, up } = seenFromOutside[a.side];
    const toTheRight = compare(a.middle[right], b.middle[right]);
    return (from === 'low' ? toTheRight : -toTheRight) || compare(a.middle[up], b.middle[up]);
  });
}
