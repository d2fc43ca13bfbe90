import { type Sum, spanOf, sumsOf } from '../../fit/index.ts';
import { add, isZero, rational, subtract } from '../../measure/index.ts';
import type { Build, Length, Rational, StandingMember, StandingRow, Way } from '../../model/index.ts';

/**
 * A length as it goes with the base sizes: what it is now, and by how much it grows with each of them.
 *
 *   value(x) = now + Σ slopes[i] × (x[i] - what base i is worth)
 */
export interface Affine {
  readonly now: Rational;
  readonly slopes: ReadonlyMap<number, Rational>;
}

/**
 * One sum that has to come out. Each of `terms` is an extent less the room, one for each way in which the largest of
 * several members may be the largest; none may be above zero, and one at least must not be short by more than the
 * slack.
 */
export interface SumRule {
  readonly terms: readonly Affine[];
  readonly slack: Length;
}

/** A build, and the same build with one base a little larger. */
export interface Nudged {
  readonly build: Build;
  readonly nudge: Rational;
  readonly by: ReadonlyMap<number, Build>;
}

/** More ways to be the largest than this are not looked through. */
const mostTerms = 64;

/**
 * The sums of a build whose sizes are all in proportion to base sizes; undefined where the builds are not alike, or
 * too much may be the largest.
 */
export function sumRules(nudged: Nudged): readonly SumRule[] | undefined {
  const { build, by, nudge } = nudged;
  // What is added above the rows may take the height over.
  const isFree = ({ isWhole, way }: Sum): boolean => isWhole && way === 'up' && build.added.length > 0;
  const rules: SumRule[] = [];
  for (const [index, sum] of sumsOf(build).entries()) {
    if (isFree(sum)) continue;
    const others = new Map<number, Sum>();
    for (const [base, other] of by) {
      const same = sumsOf(other)[index];
      if (same === undefined || same.way !== sum.way || same.isWhole !== sum.isWhole) return undefined;
      others.set(base, same);
    }
    const rows = new Map([...others].map(([base, it]) => [base, it.row] as const));
    const extents = extentTerms(sum.row, sum.way, rows, nudge);
    if (extents === undefined) return undefined;
    const room = leaf(sum.room, new Map([...others].map(([base, it]) => [base, it.room] as const)), nudge);
    rules.push({ terms: extents.map((it) => less(it, room)), slack: build.slack });
  }
  return rules;
}

type Others<T> = ReadonlyMap<number, T>;

function extentTerms(
  member: StandingMember,
  way: Way,
  others: Others<StandingMember>,
  nudge: Rational,
): readonly Affine[] | undefined {
  if (member.kind === 'gap')
    return [
      leaf(
        alongGap(member, way),
        mapped(others, (it) => alongGap(it, way)),
        nudge,
      ),
    ];
  if (member.kind === 'part')
    return [
      leaf(
        alongPart(member, way),
        mapped(others, (it) => alongPart(it, way)),
        nudge,
      ),
    ];
  const inner = rowsAlike(member, others);
  if (inner === undefined) return undefined;
  let terms: readonly Affine[] | undefined;
  for (const [index, own] of member.members.entries()) {
    if (member.way !== way && (own.kind === 'gap' || own.overhangs.includes(way))) continue;
    const found = extentTerms(
      own,
      way,
      mapped(inner, (it) => it.members[index] ?? own),
      nudge,
    );
    if (found === undefined) return undefined;
    terms = distinct(
      terms === undefined
        ? found
        : member.way === way
          ? terms.flatMap((a) => found.map((b) => plus(a, b)))
          : [...terms, ...found],
    );
    if (terms.length > mostTerms) return undefined;
  }
  const all = terms ?? [{ now: rational(0n), slopes: new Map() }];
  const glue: Affine = { now: member.glue, slopes: new Map() };
  return member.way === way ? all.map((it) => plus(it, glue)) : all;
}

/** The same row of the other builds; undefined where one is not made alike. */
function rowsAlike(row: StandingRow, others: Others<StandingMember>): Others<StandingRow> | undefined {
  const rows = new Map<number, StandingRow>();
  for (const [base, other] of others) {
    if (other.kind !== 'row' || other.members.length !== row.members.length) return undefined;
    rows.set(base, other);
  }
  return rows;
}

function alongGap(member: StandingMember, way: Way): Rational {
  return member.kind === 'gap' && member.way === way ? member.size : rational(0n);
}

function alongPart(member: StandingMember, way: Way): Rational {
  return member.kind === 'part' ? spanOf(member, way) : rational(0n);
}

function mapped<A, B>(others: Others<A>, give: (it: A) => B): Others<B> {
  return new Map([...others].map(([base, it]) => [base, give(it)] as const));
}

function leaf(now: Rational, others: Others<Rational>, nudge: Rational): Affine {
  const slopes = new Map<number, Rational>();
  for (const [base, then] of others) {
    const change = subtract(then, now);
    if (!isZero(change))
      slopes.set(base, rational(change.numerator * nudge.denominator, change.denominator * nudge.numerator));
  }
  return { now, slopes };
}

export function plus(a: Affine, b: Affine): Affine {
  const slopes = new Map(a.slopes);
  for (const [base, slope] of b.slopes) {
    const together = add(slopes.get(base) ?? rational(0n), slope);
    if (isZero(together)) slopes.delete(base);
    else slopes.set(base, together);
  }
  return { now: add(a.now, b.now), slopes };
}

export function less(a: Affine, b: Affine): Affine {
  const negated = new Map([...b.slopes].map(([base, it]) => [base, subtract(rational(0n), it)] as const));
  return plus(a, { now: subtract(rational(0n), b.now), slopes: negated });
}

function distinct(terms: readonly Affine[]): readonly Affine[] {
  return [...new Map(terms.map((it) => [keyOf(it), it])).values()];
}

function keyOf({ now, slopes }: Affine): string {
  const sorted = [...slopes].sort(([a], [b]) => a - b);
  return [
    `${now.numerator}/${now.denominator}`,
    ...sorted.map(([base, it]) => `${base}:${it.numerator}/${it.denominator}`),
  ].join(' ');
}
