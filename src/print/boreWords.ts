import type { Bore } from '../model/index.ts';

interface BoreStyle {
  readonly brief: (length: Bore['diameter']) => string;
  readonly full: (length: Bore['diameter']) => string;
  readonly clean: (text: string) => string;
}

/**
 * Where to bore for the fittings of one part: holes that are alike in one sentence, each of their places in words.
 *
 *   Bore for disc magnet, 6.1 mm wide, 2 mm deep, from the good side: at 3/4 along, 1/4 up.
 */
export function boreWords(bores: readonly Bore[], style: BoreStyle): readonly string[] {
  const places = new Map<string, string[]>();
  for (const bore of bores) {
    const lead = leadOf(bore, style);
    const known = places.get(lead);
    const place = placeOf(bore, style);
    if (known === undefined) places.set(lead, [place]);
    else known.push(place);
  }
  return [...places].map(([lead, all]) => `${lead}: ${all.join('; ')}.`);
}

function leadOf({ fitting, diameter, deep, into }: Bore, { full, clean }: BoreStyle): string {
  const size = `for ${clean(fitting)}, ${full(diameter)} wide`;
  if (deep === undefined) return `The hole ${size}, right through`;
  const from =
    into.kind === 'edge'
      ? `into the ${into.side} edge`
      : into.face === 'good'
        ? 'from the good side'
        : 'from the other side';
  return `Bore ${size}, ${full(deep)} deep, ${from}`;
}

function placeOf({ into }: Bore, { brief }: BoreStyle): string {
  if (into.kind === 'face') return `at ${brief(into.at.x)} along, ${brief(into.at.y)} up`;
  const isLevel = into.side === 'bottom' || into.side === 'top';
  return `${brief(into.along)} ${isLevel ? 'along' : 'up'} it, ${brief(into.up)} from the other side`;
}
