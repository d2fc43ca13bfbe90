import { millimetres, rational, showLength } from '../../measure/index.ts';
import type { Sensitivity, Trial } from '../../mend/index.ts';
import type { Length } from '../../model/index.ts';
import { clean, type Lines, type Look, paragraph } from '../columns/index.ts';
import { listed } from '../enumerated.ts';
import { briefly } from './faultsBriefly.ts';

const caliper = millimetres(rational(1n, 100n));

/** More names on a line are no help to anyone. */
const mostNamed = 6;

/** Of each material: how far it may be off, which tiles stop closing beyond, and what else hangs on it. */
export function printSensitivity(ranges: readonly Sensitivity[], look: Look): string {
  // Calipers read hundredths of a millimetre, also beside an inch rule.
  const brief = (length: Length): string =>
    showLength(length, { units: 'mm', firstUnit: 'mm', ruler: [caliper] }).compact;
  const lines = ranges.flatMap((range): Lines => {
    const { material, now, most, least } = range;
    const limits = {
      least: least && { size: brief(least.thickness), tiles: named(least.tiles) },
      most: most && { size: brief(most.thickness), tiles: named(most.tiles) },
    };
    const words = [rangeWords(limits, hangsAtAll(range)), ...hangingWords(range, brief)].join('; ');
    return paragraph(words, look.width, `${clean(material)}, ${brief(now)} mm: `);
  });
  return `${lines.join('\n')}\n`;
}

interface Limits {
  readonly least: { readonly size: string; readonly tiles: string } | undefined;
  readonly most: { readonly size: string; readonly tiles: string } | undefined;
}

/** `may measure 1.1 to 1.5 mm; thicker, terrace would not close; thinner, steps would not close` */
function rangeWords({ least, most }: Limits, hangsOnIt: boolean): string {
  if (least === undefined && most === undefined) {
    return hangsOnIt ? 'no row closes by it' : 'nothing hangs on it, so it may measure what it likes';
  }
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

function hangsAtAll({ cutOtherwise, trials }: Sensitivity): boolean {
  return cutOtherwise.length > 0 || trials.some((it) => !isSound(it));
}

function isSound({ faults, errors }: Trial): boolean {
  return faults.length === 0 && errors.length === 0;
}

/** What is cut otherwise, and what goes wrong where it still closes. */
function hangingWords(range: Sensitivity, brief: (length: Length) => string): readonly string[] {
  const { cutOtherwise, trials } = range;
  const cut = cutOtherwise.map(({ tile, part, what }) => {
    const of = tile === undefined ? '' : ` of ${clean(tile)}`;
    return `${clean(part)}${of} (${what.join(', ')})`;
  });
  const wrong = trials
    .filter((it) => !isSound(it))
    .map(({ thickness, faults, errors }) => {
      const words = [
        ...faults.map(({ tile, fault }) => `${clean(tile)}: ${briefly(fault)}`),
        ...errors.map(({ code, message }) => `${code} ${clean(message)}`),
      ];
      return `with ${brief(thickness)} mm, ${few([...new Set(words)])}`;
    });
  const tried = trials.map(({ thickness }) => `${brief(thickness)} mm`);
  const isSoundAtAll = hangsAtAll(range) && wrong.length === 0 && tried.length > 0;
  return [
    ...(cut.length === 0 ? [] : [`cut otherwise with it: ${few(cut)}`]),
    ...wrong,
    ...(isSoundAtAll ? [`with ${listed(tried, 'or')} nothing else goes wrong`] : []),
  ];
}

function few(words: readonly string[]): string {
  const more = words.length - mostNamed;
  return more <= 0 ? listed(words) : `${words.slice(0, mostNamed).join(', ')} and ${more} more`;
}

function named(tiles: readonly string[]): string {
  return tiles.map(clean).join(', ');
}
