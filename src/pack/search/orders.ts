import type { Copies } from './sheet.ts';

/**
 * Keys by which parts are placed, the largest first. Products only: a power with a fraction as its exponent
 * may differ in its last bit between machines, and with it the order.
 */
export const orderKeys = [
  /** Area. */
  (length: number, width: number) => length * width,
  /** The smaller side, then the larger. */
  (length: number, width: number) =>
    length < width ? length * 0x4000000 + width : width * 0x4000000 + length,
  /** Area × (larger / smaller)^⅓, cubed: long parts earlier. */
  (length: number, width: number) => {
    const [large, small] = length < width ? [width, length] : [length, width];
    return large * large * large * large * small * small;
  },
  /** Area × (smaller / larger)^⅓, cubed: square parts earlier. */
  (length: number, width: number) => {
    const [large, small] = length < width ? [width, length] : [length, width];
    return large * large * small * small * small * small;
  },
  /** Half the outline. */
  (length: number, width: number) => length + width,
  /** Length, then width; where parts may not turn, the two sides are not alike. */
  (length: number, width: number) => length * 0x4000000 + width,
  (length: number, width: number) => width * 0x4000000 + length,
] as const;

/** The keys of all copies in one order. */
export function keysOf(copies: Copies, order: number): Float64Array {
  const key = orderKeys[order]!;
  return copies.area.map((_, part) => key(copies.length[part]!, copies.width[part]!));
}

/** All copies, those with the largest keys first, equal ones by index. */
export function sortedBy(keys: Float64Array): Int32Array {
  return Int32Array.from(keys.keys()).sort((a, b) => keys[b]! - keys[a]! || a - b);
}
