import { compare, multiply, toFraction } from '../measure/index.ts';
import type { NonEmpty, PartKind, PartMember, Side } from '../model/index.ts';
import { byCharacters } from './labels.ts';
import type { WorkedPart } from './parts.ts';

/** A part with its label and how many of it the batch asks for. */
export interface AskedPart {
  readonly worked: WorkedPart;
  readonly member: PartMember;
}

/**
 * Parts of one material that are the same to the knife, put together. The order is that of their sizes,
 * largest first, so the order in which parts are written changes no layout.
 */
export function kindsOf(asked: readonly AskedPart[]): readonly PartKind[] {
  const kinds = new Map<string, { readonly shape: Shape; readonly members: [PartMember, ...PartMember[]] }>();
  for (const { worked, member } of asked) {
    const shape = laidDown(worked);
    const key = [
      toFraction(shape.length),
      toFraction(shape.width),
      shape.grain,
      shape.flutes,
      shape.goodSide ? 'good side' : '',
    ].join(' ');
    const known = kinds.get(key);
    if (known === undefined) kinds.set(key, { shape, members: [member] });
    else known.members.push(member);
  }
  return [...kinds.values()]
    .map(
      ({ shape, members }): PartKind => ({
        ...shape,
        count: members.reduce((total, { count }) => total + count, 0),
        members: inLabelOrder(members),
      }),
    )
    .sort(largestFirst);
}

type Shape = Pick<PartKind, 'length' | 'width' | 'grain' | 'flutes' | 'goodSide'>;

/**
 * Every part written the one way: its length is the longer side. `[2, 3]` with the grain along its width is
 * `[3, 2]` with the grain along its length, and a square has no longer side, so its first rule says length.
 *
 *      ┌─────┐               ┌─────────┐
 *      │  ↑  │ 3      =      │    →    │ 2
 *      │     │               └─────────┘
 *      └─────┘                    3
 *         2
 */
function laidDown({ length, width, grain, flutes, goodSide }: WorkedPart): Shape {
  const order = compare(length, width);
  const isTurned = order < 0 || (order === 0 && (grain === 'any' ? flutes : grain) === 'width');
  return isTurned
    ? { length: width, width: length, grain: swapped(grain), flutes: swapped(flutes), goodSide }
    : { length, width, grain, flutes, goodSide };
}

function swapped(rule: Side | 'any'): Side | 'any' {
  return rule === 'length' ? 'width' : rule === 'width' ? 'length' : 'any';
}

function inLabelOrder(members: NonEmpty<PartMember>): NonEmpty<PartMember> {
  const [first, ...others] = [...members].sort((a, b) => byCharacters(a.label, b.label));
  return first === undefined ? members : [first, ...others];
}

function largestFirst(a: PartKind, b: PartKind): number {
  const areaA = multiply(a.length, a.width);
  const areaB = multiply(b.length, b.width);
  const byArea = areaB.numerator * areaA.denominator - areaA.numerator * areaB.denominator;
  if (byArea !== 0n) return byArea < 0n ? -1 : 1;
  return (
    compare(b.length, a.length) ||
    byCharacters(a.grain, b.grain) ||
    byCharacters(a.flutes, b.flutes) ||
    Number(a.goodSide) - Number(b.goodSide)
  );
}
