import { paperSizeCalled } from '../../expand/index.ts';
import { inches, isPositive, millimetres, readMeasure } from '../../measure/index.ts';
import type { DrawerEntry, FileUnits, Length } from '../../model/index.ts';

/** A piece as it is told on the command line. */
export type TypedPiece = Pick<DrawerEntry, 'material' | 'length' | 'width' | 'thick'>;

/** Why something is no piece. */
export interface NoPiece {
  readonly why: string;
  /** The same as it would be read, where that is known. */
  readonly would?: string;
}

export function isPiece(read: TypedPiece | NoPiece): read is TypedPiece {
  return 'length' in read;
}

/**
 * `greyboard: 8 x 5`, `card: A3`; a block has its thickness as a third size: `foam: 24 x 12 x 2`. A unit behind the
 * last size is that of all.
 */
export function readPiece(text: string, units: FileUnits | undefined): TypedPiece | NoPiece {
  const colon = text.lastIndexOf(':');
  if (colon < 0) return { why: 'there is no colon behind the material' };
  const material = text.slice(0, colon).trim();
  if (!/^\p{L}[\p{L}\p{M}0-9 '’-]*$/u.test(material)) return { why: 'no material stands before the colon' };
  const size = text.slice(colon + 1).trim();
  const named = paperSizeCalled(size);
  if (named !== undefined) return { material, ...named };
  // One size with a decimal comma would be taken for two.
  const comma = /\d+,\d+/u.exec(size)?.[0];
  if (comma !== undefined) {
    const isDecimal = /[x×]|\bby\b/iu.test(size);
    const would = `${material}: ${size.replaceAll(/(\d),(?=\d)/gu, isDecimal ? '$1.' : '$1 x ')}`;
    return { why: `"${comma}" could be one size or two`, would };
  }
  // No unit has an x in it, so 200x100 is two sizes.
  const sides = size.split(/\s*(?:x|×|,|\bby\b)\s*/iu);
  const unit = /(?:[a-zµ]+\.?|["″”'′’]+)$/iu.exec(sides.at(-1) ?? '')?.[0] ?? '';
  const lengths: Length[] = [];
  for (const it of sides) {
    const read = lengthOf(unit !== '' && readMeasure(it).kind === 'bare' ? `${it} ${unit}` : it, units);
    if (read === 'no unit') return { why: `${it} in or ${it} mm?`, would: `${material}: ${size} in` };
    if (typeof read === 'string') return { why: read };
    lengths.push(read);
  }
  const [length, width, thick] = lengths;
  if (length === undefined || width === undefined || lengths.length > 3) {
    return {
      why: 'two sizes are wanted, with an x between them, or a name: A3; of a block its thickness as the third',
    };
  }
  return { material, length, width, ...(thick === undefined ? {} : { thick }) };
}

function lengthOf(text: string, units: FileUnits | undefined): Length | string {
  const reading = readMeasure(text);
  if (reading.kind === 'refused') return `no size is written as "${text}"`;
  if (reading.kind === 'bare' && units === undefined) return 'no unit';
  const length =
    reading.kind === 'length'
      ? reading.length
      : units === 'in'
        ? inches(reading.number)
        : millimetres(reading.number);
  return isPositive(length) ? length : 'a size is above zero';
}
