import { compare, minus, toDrawnMm } from '../../measure/index.ts';
import type { Length } from '../../model/index.ts';

/** Where lengths lie in a drawing, in characters from its beginning. */
export interface Axis {
  readonly size: number;
  readonly at: (length: Length) => number;
  /** Between the lengths that it was made for, in proportion; a fraction of a character. */
  readonly near: (length: Length) => number;
}

/**
 * Places in characters, about in proportion, but never nearer to each other than can be told apart: a board
 * of a sixteenth has to be seen beside a core of three inches. Where that grows beyond what there is room
 * for, they come nearer, and at last into one.
 *
 * @param wanted  how many characters the whole should take
 * @param most    how many there are
 */
export function drawnAxis(
  lengths: readonly Length[],
  { least, wanted, most }: { readonly least: number; readonly wanted: number; readonly most: number },
): Axis {
  const distinct = [...lengths]
    .sort(compare)
    .filter((it, index, all) => index === 0 || compare(it, all[index - 1] ?? it) !== 0);
  let places = spread(distinct, least, Math.min(wanted, most));
  for (let nearer = least - 1; nearer >= 0 && (places.at(-1) ?? 0) > most; nearer--) {
    places = spread(distinct, nearer, Math.min(wanted, most));
  }
  const known = new Map(distinct.map((it, index) => [textOf(it), places[index] ?? 0]));
  const near = (length: Length): number => {
    const next = distinct.findIndex((it) => compare(it, length) >= 0);
    const [from, to] = [distinct[next - 1], distinct[next]];
    if (from === undefined || to === undefined) return next < 0 ? (places.at(-1) ?? 0) : (places[next] ?? 0);
    const share = toDrawnMm(minus(length, from)) / toDrawnMm(minus(to, from));
    const [start, end] = [places[next - 1] ?? 0, places[next] ?? 0];
    return start + share * (end - start);
  };
  return { size: places.at(-1) ?? 0, at: (length) => known.get(textOf(length)) ?? 0, near };
}

function spread(distinct: readonly Length[], least: number, wanted: number): readonly number[] {
  const [first, last] = [distinct[0], distinct.at(-1)];
  const span = first === undefined || last === undefined ? 1 : toDrawnMm(minus(last, first)) || 1;
  const inProportion = (end: Length): number =>
    first === undefined ? 0 : Math.round((toDrawnMm(minus(end, first)) / span) * wanted);
  let [place, before] = [0, 0];
  return distinct.map((end, index) => {
    const next = inProportion(end);
    if (index > 0) place += Math.max(least, next - before);
    before = next;
    return place;
  });
}

function textOf({ numerator, denominator }: Length): string {
  return `${numerator}/${denominator}`;
}
