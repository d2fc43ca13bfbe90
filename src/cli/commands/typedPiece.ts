import { paperSizeCalled } from '../../expand/index.ts';
import { inches, isPositive, millimetres, readMeasure } from '../../measure/index.ts';
import type { DrawerEntry, FileUnits, Length } from '../../model/index.ts';

/** A piece as it is told on the command line. */
export type TypedPiece = Pick<DrawerEntry, 'material' | 'length' | 'width' | 'thick'>;

/**
 * `greyboard: 8 x 5`, `card: A3`; a block has its thickness as a third size: `foam: 24 x 12 x 2`. A unit behind the
 * last size is that of all.
 *
 * @returns  or why it is none
 */
export function readPiece(text: string, units: FileUnits | undefined): TypedPiece | string {
  const colon = text.lastIndexOf(':');
  if (colon < 0) return 'there is no colon behind the material';
  const material = text.slice(0, colon).trim();
  if (!/^\p{L}[\p{L}\p{M}0-9 '’-]*$/u.test(material)) return 'no material stands before the colon';
  const size = text.slice(colon + 1).trim();
  const named = paperSizeCalled(size);
  if (named !== undefined) return { material, ...named };
  // No unit has an x in it, so 200x100 is two sizes.
  const sides = size.split(/\s*(?:x|×|,|\bby\b)\s*/iu);
  const unit = /(?:[a-zµ]+\.?|["″”'′’]+)$/iu.exec(sides.at(-1) ?? '')?.[0] ?? '';
  const read = sides.map((it) =>
    lengthOf(unit !== '' && readMeasure(it).kind === 'bare' ? `${it} ${unit}` : it, units),
  );
  const [length, width, thick] = read;
  if (length === undefined || width === undefined || read.length > 3) {
    return 'two sizes are wanted, with an x between them, or a name: A3; of a block its thickness as the third';
  }
  if (typeof length === 'string') return length;
  if (typeof width === 'string') return width;
  if (typeof thick === 'string') return thick;
  return { material, length, width, ...(thick === undefined ? {} : { thick }) };
}

function lengthOf(text: string, units: FileUnits | undefined): Length | string {
  const reading = readMeasure(text);
  if (reading.kind === 'refused') return `no size is written as "${text}"`;
  if (reading.kind === 'bare' && units === undefined) return `${text} in or ${text} mm?`;
  const length =
    reading.kind === 'length'
      ? reading.length
      : units === 'in'
        ? inches(reading.number)
        : millimetres(reading.number);
  return isPositive(length) ? length : 'a size is above zero';
}
