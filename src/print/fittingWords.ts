import type { FittingDemand, Length } from '../model/index.ts';

/** `, 6 mm wide, 2 mm deep`, behind the name of a fitting; nothing where nobody says. */
export function fittingSize(
  { diameter, depth }: Pick<FittingDemand, 'diameter' | 'depth'>,
  show: (length: Length) => string,
): string {
  return [
    ...(diameter === undefined ? [] : [`, ${show(diameter)} wide`]),
    ...(depth === undefined ? [] : [`, ${show(depth)} deep`]),
  ].join('');
}
