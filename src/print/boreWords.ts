import { compare } from '../measure/index.ts';
import type { Bore, DrawnSide, Length } from '../model/index.ts';
import { listed } from './enumerated.ts';

interface BoreStyle {
  readonly brief: (length: Length) => string;
  readonly full: (length: Length) => string;
  readonly clean: (text: string) => string;
}

/**
 * Where to bore for the fittings of one part: holes that are alike in one sentence, with all their places.
 *
 *   Bore for disc magnet, 6.1 mm wide, 2 mm deep, from the good side: at 3/4 along, 1/4 up.
 *   Bore for disc magnet, 6.1 mm wide, 2 mm deep, 1/4 from the other side: into the left edge, 1/2 and 2 1/2 up it.
 */
export function boreWords(bores: readonly Bore[], style: BoreStyle): readonly string[] {
  const alike = new Map<string, Bore[]>();
  for (const bore of bores) {
    const lead = leadOf(bore, style);
    const known = alike.get(lead);
    if (known === undefined) alike.set(lead, [bore]);
    else known.push(bore);
  }
  return [...alike].map(([lead, some]) => {
    const onFaces = some.flatMap(({ into }) =>
      into.kind === 'face' ? [`at ${style.brief(into.at.x)} along, ${style.brief(into.at.y)} up`] : [],
    );
    return `${lead}: ${[...onFaces, ...onEdges(some, style)].join('; ')}.`;
  });
}

function leadOf({ fitting, diameter, deep, into }: Bore, { brief, full, clean }: BoreStyle): string {
  const size = `for ${clean(fitting)}, ${full(diameter)} wide`;
  if (deep === undefined) return `The hole ${size}, right through`;
  const from =
    into.kind === 'edge'
      ? `${brief(into.up)} from the other side`
      : into.face === 'good'
        ? 'from the good side'
        : 'from the other side';
  return `Bore ${size}, ${full(deep)} deep, ${from}`;
}

const sides: readonly DrawnSide[] = ['left', 'right', 'bottom', 'top'];

/** Edges with the same places in one go. */
function onEdges(bores: readonly Bore[], { brief }: BoreStyle): readonly string[] {
  const alike = new Map<string, DrawnSide[]>();
  for (const side of sides) {
    const places = bores
      .flatMap(({ into }) => (into.kind === 'edge' && into.side === side ? [into.along] : []))
      .sort(compare)
      .map(brief);
    if (places.length === 0) continue;
    const isLevel = side === 'bottom' || side === 'top';
    const said = `${listed(places)} ${isLevel ? 'along' : 'up'}`;
    const known = alike.get(said);
    if (known === undefined) alike.set(said, [side]);
    else known.push(side);
  }
  return [...alike].map(([places, edges]) =>
    edges.length === 1
      ? `into the ${edges[0]} edge, ${places} it`
      : `into the ${listed(edges)} edges, ${places} each`,
  );
}
