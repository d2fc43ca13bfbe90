import { compare, compareRationals, multiply, toFraction } from '../measure/index.ts';
import type { CutMark, Length, NonEmpty, PartKind, PartMember, Rational, Side } from '../model/index.ts';
import { byCharacters } from './labels.ts';
import type { WorkedPart } from './parts.ts';

/** A part with its label and how many of it the batch asks for. */
export interface AskedPart extends CutPart {
  readonly worked: WorkedPart;
}

/** As much of it as tells what it is to the knife, as it is written. */
export interface CutPart {
  readonly worked: Pick<WorkedPart, 'length' | 'width' | 'grain' | 'flutes' | 'goodSide'>;
  /** The marks that it is cut to, if there are any, are those of the part as it is written. */
  readonly member: PartMember;
}

/**
 * Parts of one material that are the same to the knife, put together. The order is that of their sizes,
 * largest first, so the order in which parts are written changes no layout.
 */
export function kindsOf(asked: readonly CutPart[]): readonly PartKind[] {
  const kinds = new Map<string, { readonly shape: Shape; readonly members: [PartMember, ...PartMember[]] }>();
  for (const { worked, member: written } of asked) {
    const { isTurned, ...shape } = laidDown(worked);
    const member = isTurned ? turned(written) : written;
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
      ({ shape, members }): Sized => ({
        kind: {
          ...shape,
          count: members.reduce((total, { count }) => total + count, 0),
          members: inLabelOrder(members),
        },
        area: multiply(shape.length, shape.width),
      }),
    )
    .sort(largestFirst)
    .map(({ kind }) => kind);
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
function laidDown({
  length,
  width,
  grain,
  flutes,
  goodSide,
}: CutPart['worked']): Shape & { readonly isTurned: boolean } {
  const order = compare(length, width);
  const isTurned = order < 0 || (order === 0 && (grain === 'any' ? flutes : grain) === 'width');
  return isTurned
    ? { length: width, width: length, grain: swapped(grain), flutes: swapped(flutes), goodSide, isTurned }
    : { length, width, grain, flutes, goodSide, isTurned };
}

function turned(member: PartMember): PartMember {
  const { cutTo } = member;
  return {
    ...member,
    isTurned: true,
    ...(cutTo === undefined ? {} : { cutTo: { length: cutTo.width, width: cutTo.length } }),
  };
}

/**
 * The same kinds with some sizes changed to marks, and so put together anew.
 *
 * @param marksOf  of a member, for its length and width as the part is written; undefined where neither changes
 */
export function cutToMarks(
  kinds: NonEmpty<PartKind>,
  marksOf: (member: PartMember) => Marks | undefined,
): NonEmpty<PartKind> {
  let hasChanged = false;
  const asked = partsOf(kinds).map(({ worked, member }): CutPart => {
    // What is larger than its net size is trimmed to it, and needs no mark.
    const marks = member.drawn?.leave === undefined ? marksOf(member) : undefined;
    if (marks === undefined) return { worked, member };
    hasChanged = true;
    const sizes = {
      length: marks.length?.mark ?? worked.length,
      width: marks.width?.mark ?? worked.width,
    };
    return { worked: { ...worked, ...sizes }, member: { ...member, cutTo: marks } };
  });
  const [first, ...others] = hasChanged ? kindsOf(asked) : kinds;
  return first === undefined ? kinds : [first, ...others];
}

/** The parts that kinds were put together of, each the way round that it is written. */
export function partsOf(kinds: readonly PartKind[]): readonly CutPart[] {
  return kinds.flatMap(({ length, width, grain, flutes, goodSide, members }) =>
    members.map(({ isTurned = false, ...own }): CutPart => {
      const { cutTo } = own;
      const member: PartMember =
        isTurned && cutTo !== undefined
          ? { ...own, cutTo: { length: cutTo.width, width: cutTo.length } }
          : own;
      const worked = isTurned
        ? { length: width, width: length, grain: swapped(grain), flutes: swapped(flutes), goodSide }
        : { length, width, grain, flutes, goodSide };
      return { worked, member };
    }),
  );
}

interface Marks {
  readonly length: (CutMark & { readonly mark: Length }) | undefined;
  readonly width: (CutMark & { readonly mark: Length }) | undefined;
}

function swapped(rule: Side | 'any'): Side | 'any' {
  return rule === 'length' ? 'width' : rule === 'width' ? 'length' : 'any';
}

function inLabelOrder(members: NonEmpty<PartMember>): NonEmpty<PartMember> {
  const [first, ...others] = [...members].sort((a, b) => byCharacters(a.label, b.label));
  return first === undefined ? members : [first, ...others];
}

/** A kind with its area, which is worked out once and not for each look at it. */
interface Sized {
  readonly kind: PartKind;
  readonly area: Rational;
}

function largestFirst({ kind: a, area: areaOfA }: Sized, { kind: b, area: areaOfB }: Sized): number {
  return (
    compareRationals(areaOfB, areaOfA) ||
    compare(b.length, a.length) ||
    byCharacters(a.grain, b.grain) ||
    byCharacters(a.flutes, b.flutes) ||
    Number(a.goodSide) - Number(b.goodSide)
  );
}
