import { millimetres, rational, showLength } from '../../measure/index.ts';
import type { Length } from '../../model/index.ts';
import { type Lines, paragraph } from './lines.ts';
import type { Look } from './signs.ts';
import { clean } from './width.ts';

/** Between which thicknesses of one material every tile still closes. */
export interface Range {
  readonly material: string;
  readonly now: Length;
  readonly most: { readonly thickness: Length; readonly tiles: readonly string[] } | undefined;
  readonly least: { readonly thickness: Length; readonly tiles: readonly string[] } | undefined;
}

const caliper = millimetres(rational(1n, 100n));

/** One line for each material: how far it may be off, and which tiles stop closing beyond. */
export function printSensitivity(ranges: readonly Range[], look: Look): string {
  // Calipers read hundredths of a millimetre, also beside an inch rule.
  const brief = (length: Length): string =>
    showLength(length, { units: 'mm', firstUnit: 'mm', ruler: [caliper] }).compact;
  const lines = ranges.flatMap(({ material, now, most, least }): Lines => {
    const limits = [
      ...(most === undefined ? [] : [`above ${brief(most.thickness)} ${named(most.tiles)}`]),
      ...(least === undefined ? [] : [`below ${brief(least.thickness)} ${named(least.tiles)}`]),
    ];
    const words =
      limits.length === 0
        ? 'closes nothing, so it may measure what it likes'
        : `${limits.join('; ')} would not close`;
    return paragraph(words, look.width, `${clean(material)}, ${brief(now)} mm: `);
  });
  return `${lines.join('\n')}\n`;
}

function named(tiles: readonly string[]): string {
  return tiles.map(clean).join(', ');
}
