import {
  absolute,
  compare,
  compareRationals,
  equal,
  floor,
  inches,
  isPositive,
  millimetres,
  minus,
  nearestMark,
  ratio,
  rational,
  scaled,
  sum,
} from '../measure/index.ts';
import type {
  Build,
  Fault,
  Length,
  Marked,
  NonEmpty,
  Rational,
  StandingMember,
  StandingPart,
  WanderCase,
  Way,
} from '../model/index.ts';
import { type Sum, sumsOf } from './closing.ts';
import { asDrawn, cutSizeAlong, extentOf, missBy, type SizeOf } from './extent.ts';

/** The marks that a tile's sizes are cut to, and what is wrong where none will do. */
export interface Marking {
  readonly marks: readonly Marked[];
  readonly faults: readonly Extract<Fault, { kind: 'does not close as marked' }>[];
}

/**
 * Whether the tile closes when every size is cut to a mark of the rules at hand. The nearest marks are tried
 * first; where they don't serve, marks are chosen together: as many as can be on the first rule, then as near
 * to the sizes as can be. Thicknesses are no marks: they are what they are.
 *
 *      │← 1.6 →│←──────── 73 ────────→│← 1.6 →│     3 in = 76.2, exactly full
 *                2 7/8 in = 73.025                   0.025 over
 *                2 55/64 in ≈ 72.63                  0.37 short, within the slack
 *
 * @param ruler  graduations, the rule that is used first comes first
 */
export function marking(build: Build, ruler: NonEmpty<Length>): Marking {
  const sums = sumsOf(build).filter((it) => closesBy(it, asDrawn, build.slack));
  const sizes = sizesIn(sums);
  const own = chooseMarks(sizes, sums, ruler, build.slack);
  if (own.kind === 'found') return { marks: own.marks, faults: [] };

  const nearest = sizes
    .map((size) => candidatesOn(size, ruler[0], build.slack)[0])
    .filter((it) => it !== undefined);
  const serves = furtherRules.flatMap((rules) => {
    const other = chooseMarks(sizes, sums, rules, build.slack);
    return other.kind === 'found'
      ? [other.marks.filter((it, index) => !equal(it.mark, nearest[index]?.mark ?? it.exact))]
      : [];
  });
  const sizeOf = cutTo(nearest);
  const failing = sums.filter((it) => !closesBy(it, sizeOf, build.slack));
  // Nearest marks may all be well one by one where the search failed: then the first sum stands for it.
  const faults = firstOfEachWay(failing).map(({ what, at, way, row, room }) => ({
    kind: 'does not close as marked' as const,
    at,
    what,
    way,
    extent: extentOf(row, way, sizeOf),
    room,
    slack: build.slack,
    marked: nearest.filter((it) => isRounded(it) && partsAlong(row, way).has(keyOf(it))),
    serves: serves.map((marks) => marks.filter((it) => partsAlong(row, way).has(keyOf(it)))),
    isUnfinished: own.kind === 'unfinished',
  }));
  return { marks: nearest, faults };
}

/**
 * What the worst knife makes of each direction: every size off its mark by the wander, all the same way.
 *
 * @param marks  what sizes are cut to
 */
export function wanderCases(build: Build, marks: readonly Marked[], wander: Length): readonly WanderCase[] {
  const sizeOf = cutTo(marks);
  return sumsOf(build)
    .filter(({ isWhole }) => isWhole)
    .map(({ row, way, room }) => ({
      way,
      least: extentOf(row, way, (part, size) => minus(sizeOf(part, size), wander)),
      most: extentOf(row, way, (part, size) => sum(sizeOf(part, size), wander)),
      room,
    }));
}

/** Rules that most benches have, tried where the user's own have no mark that serves. */
const furtherRules: readonly NonEmpty<Length>[] = [
  [inches(rational(1n, 64n))],
  [millimetres(rational(1n)), millimetres(rational(1n, 2n))],
];

interface CutSize {
  readonly part: string;
  readonly size: 'length' | 'width';
  readonly exact: Length;
}

function keyOf({ part, size }: Pick<CutSize, 'part' | 'size'>): string {
  return `${size} of ${part}`;
}

/** Every cut size that takes part in a sum, once; pieces of one part are cut alike. */
function sizesIn(sums: readonly Sum[]): readonly CutSize[] {
  const sizes = new Map<string, CutSize>();
  for (const { row, way } of sums) for (const [key, size] of partsAlong(row, way)) sizes.set(key, size);
  return [...sizes.values()];
}

function partsAlong(member: StandingMember, way: Way): ReadonlyMap<string, CutSize> {
  const sizes = new Map<string, CutSize>();
  const look = (it: StandingMember): void => {
    if (it.kind === 'gap') return;
    if (it.kind === 'row') {
      for (const inner of it.members) look(inner);
      return;
    }
    const size = cutSizeAlong(it, way);
    if (size === undefined || it.overhangs.includes(way)) return;
    const cut = { part: it.part, size, exact: it.size[size] };
    sizes.set(keyOf(cut), cut);
  };
  look(member);
  return sizes;
}

function closesBy({ row, way, room }: Sum, sizeOf: SizeOf, slack: Length): boolean {
  return missBy(extentOf(row, way, sizeOf), room, slack) === 0;
}

function cutTo(marks: readonly Marked[]): SizeOf {
  const known = new Map(marks.map((it) => [keyOf(it), it.mark]));
  return (part: StandingPart, size) => known.get(keyOf({ part: part.part, size })) ?? part.size[size];
}

type Choice =
  | { readonly kind: 'found'; readonly marks: readonly Marked[] }
  | { readonly kind: 'none' | 'unfinished' };

/** Far more than a tile's handful of sizes needs. */
const mostSteps = 5000;

/**
 * Depth first over the sizes, cheapest marks first; a branch is left as soon as a sum can't come out any
 * more (all that is open at its smallest is over, at its largest short) or it costs more than the best found.
 */
function chooseMarks(
  sizes: readonly CutSize[],
  sums: readonly Sum[],
  ruler: NonEmpty<Length>,
  slack: Length,
): Choice {
  const nearest = sizes.map((size) => firstChoice(size, ruler, slack)).filter((it) => it !== undefined);
  if (nearest.length === sizes.length) {
    // Sizes that all have their marks are cut as they are drawn, and so close.
    if (!nearest.some(isRounded)) return { kind: 'found', marks: nearest };
    const sizeOf = cutTo(nearest);
    if (sums.every((it) => closesBy(it, sizeOf, slack))) return { kind: 'found', marks: nearest };
  }
  const options = sizes.map((size) => candidates(size, ruler, slack));
  let best: { readonly marks: readonly Marked[]; readonly cost: Cost } | undefined;
  let steps = 0;
  const canStillClose = (chosen: readonly Marked[]): boolean => {
    const open = options.slice(chosen.length);
    const [least, most] = [
      (it: Length, other: Length) => compare(it, other) < 0,
      (it: Length, other: Length) => compare(it, other) > 0,
    ].map((isBetter) =>
      cutTo([
        ...chosen,
        ...open.flatMap((marks) =>
          marks.length === 0 ? [] : [marks.reduce((a, b) => (isBetter(b.mark, a.mark) ? b : a))],
        ),
      ]),
    );
    return sums.every(
      ({ row, way, room }) =>
        missBy(extentOf(row, way, least ?? asDrawn), room, slack) <= 0 &&
        missBy(extentOf(row, way, most ?? asDrawn), room, slack) >= 0,
    );
  };
  const choose = (chosen: readonly Marked[], cost: Cost): void => {
    if (
      ++steps > mostSteps ||
      (best !== undefined && !isCheaper(cost, best.cost)) ||
      !canStillClose(chosen)
    ) {
      return;
    }
    const marks = options[chosen.length];
    if (marks === undefined) {
      best = { marks: chosen, cost };
      return;
    }
    for (const mark of marks) choose([...chosen, mark], costlier(cost, mark, ruler[0]));
  };
  choose([], { offFirstRule: 0, error: rational(0n) });
  if (best !== undefined) return { kind: 'found', marks: (best as { marks: readonly Marked[] }).marks };
  return { kind: steps > mostSteps ? 'unfinished' : 'none' };
}

interface Cost {
  readonly offFirstRule: number;
  readonly error: Rational;
}

function costlier(cost: Cost, { exact, mark, scale }: Marked, first: Length): Cost {
  return {
    offFirstRule: cost.offFirstRule + (equal(scale, first) ? 0 : 1),
    error: sum(millimetres(cost.error), absolute(minus(mark, exact))),
  };
}

function isCheaper(a: Cost, b: Cost): boolean {
  return a.offFirstRule !== b.offFirstRule
    ? a.offFirstRule < b.offFirstRule
    : compareRationals(a.error, b.error) < 0;
}

/** The first of a size's candidates, the others not looked for. */
function firstChoice(size: CutSize, ruler: NonEmpty<Length>, slack: Length): Marked | undefined {
  const [first] = ruler;
  const exactOn = ruler.find((scale) => equal(nearestMark(size.exact, scale).mark, size.exact));
  if (exactOn !== undefined) {
    return { ...size, mark: size.exact, scale: exactOn, isChosen: exactOn !== first };
  }
  const { mark } = nearestMark(size.exact, first);
  if (!isPositive(mark)) return candidates(size, ruler, slack)[0];
  return { ...size, mark, scale: first, isChosen: false };
}

/** Marks for a size over all rules, the nearest of the first rule first; a size that has its mark takes it. */
function candidates(size: CutSize, ruler: NonEmpty<Length>, slack: Length): readonly Marked[] {
  const marks = ruler.flatMap((scale) => candidatesOn(size, scale, slack));
  const exact = marks.find(({ mark }) => equal(mark, size.exact));
  const [nearest] = marks;
  if (exact !== undefined) return [{ ...exact, isChosen: !equal(exact.mark, nearest?.mark ?? exact.mark) }];
  return marks.map((it) => ({ ...it, isChosen: it !== nearest }));
}

/** The marks of one rule on both sides of a size, and further down as far as the slack reaches; nearest first. */
function candidatesOn(size: CutSize, scale: Length, slack: Length): readonly Marked[] {
  const below = floor(ratio(size.exact, scale));
  const nearest = nearestMark(size.exact, scale).mark;
  const others: Length[] = [];
  for (let number = below + 1n; number >= below - fewBelow; number--) {
    const mark = scaled(scale, rational(number));
    const isFarBelow = number < below && compare(minus(size.exact, mark), slack) > 0;
    if (!isFarBelow && isPositive(mark) && !equal(mark, nearest)) others.push(mark);
  }
  const first = isPositive(nearest) ? [nearest] : [];
  return [...first, ...others].map((mark) => ({ ...size, mark, scale, isChosen: false }));
}

const fewBelow = 3n;

function isRounded({ exact, mark }: Marked): boolean {
  return !equal(exact, mark);
}

function firstOfEachWay(sums: readonly Sum[]): readonly Sum[] {
  return sums.filter((it, index) => sums.findIndex((other) => other.way === it.way) === index);
}
