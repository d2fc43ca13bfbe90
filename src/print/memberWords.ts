import { equal, errorText, minus, showExact, showThickness, unitOfRule } from '../measure/index.ts';
import type { CutMark, FileUnits, Length, PartKind, PartMember } from '../model/index.ts';

/** `turn 3 over`: so many of them stand with their other side out. */
export function turnWords({ turnedOver, count }: PartMember): string | undefined {
  if (turnedOver === undefined || turnedOver === 0) return undefined;
  return turnedOver === count ? 'turn over' : `turn ${turnedOver} over`;
}

/** What is to be made of a blank: `net 3 × 1, trim flush after gluing`, `traced from shoulder, face down`. */
export function shapeWords(
  { drawn }: PartMember,
  pair: (length: Length, width: Length) => string,
): string | undefined {
  if (drawn === undefined) return undefined;
  const { outline, master, isMirrored, leave, net } = drawn;
  const traced =
    master === undefined ? 'outline as drawn' : `traced from ${master}${isMirrored ? ', face down' : ''}`;
  const words = [
    ...(outline === undefined ? [] : [traced]),
    ...(leave === undefined ? [] : [`net ${pair(net.length, net.width)}, trim flush after gluing`]),
  ];
  return words.join('; ');
}

/**
 * `cut to the mark: 2 55/64 in wide for 73 mm (+0.015)`, `cut to the mark: 73 mm wide`: a mark that stands in
 * for a size, with how much more the size is; or one of a rule in the other unit.
 *
 * @param unit  what sizes and errors are shown in
 */
export function markWords(
  { length, width }: PartKind,
  { cutTo }: PartMember,
  unit: FileUnits,
): string | undefined {
  if (cutTo === undefined) return undefined;
  const sizes = [...toMark(length, cutTo.length, 'long', unit), ...toMark(width, cutTo.width, 'wide', unit)];
  return sizes.length === 0 ? undefined : `cut to the mark: ${sizes.join(' and ')}`;
}

function toMark(mark: Length, it: CutMark | undefined, way: string, unit: FileUnits): readonly string[] {
  if (it === undefined) return [];
  const { exact, scale } = it;
  const rule = unitOfRule(scale);
  const isOff = !equal(exact, mark);
  if (!isOff && rule === unit) return [];
  const off = isOff ? ` for ${showThickness(exact, unit)} (${errorText(minus(exact, mark), unit)})` : '';
  return [`${showExact(mark, rule)} ${way}${off}`];
}
