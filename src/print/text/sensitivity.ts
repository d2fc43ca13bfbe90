import { millimetres, rational, showLength } from '../../measure/index.ts';
import type { Length } from '../../model/index.ts';
import { clean, type Lines, type Look, paragraph } from '../columns/index.ts';

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
    const words = rangeWords({
      least: least && { size: brief(least.thickness), tiles: named(least.tiles) },
      most: most && { size: brief(most.thickness), tiles: named(most.tiles) },
    });
    return paragraph(words, look.width, `${clean(material)}, ${brief(now)} mm: `);
  });
  return `${lines.join('\n')}\n`;
}

interface Limits {
  readonly least: { readonly size: string; readonly tiles: string } | undefined;
  readonly most: { readonly size: string; readonly tiles: string } | undefined;
}

/** `may measure 1.1 to 1.5 mm; thicker, terrace would not close; thinner, steps would not close` */
function rangeWords({ least, most }: Limits): string {
  if (least === undefined && most === undefined) return 'closes nothing, so it may measure what it likes';
  const range =
    least === undefined
      ? `up to ${most?.size} mm`
      : most === undefined
        ? `${least.size} mm or more`
        : `${least.size} to ${most.size} mm`;
  const beyond =
    least?.tiles === most?.tiles
      ? [`thicker or thinner, ${most?.tiles}`]
      : [
          ...(most === undefined ? [] : [`thicker, ${most.tiles}`]),
          ...(least === undefined ? [] : [`thinner, ${least.tiles}`]),
        ];
  return [`may measure ${range}`, ...beyond.map((it) => `${it} would not close`)].join('; ');
}

function named(tiles: readonly string[]): string {
  return tiles.map(clean).join(', ');
}
