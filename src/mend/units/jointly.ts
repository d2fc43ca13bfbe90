import { expand } from '../../expand/index.ts';
import { type Bench, judge } from '../../fit/index.ts';
import { equal, millimetres, rational, sum, zero } from '../../measure/index.ts';
import { type Build, isError, type Length, type Overrides, type Spec } from '../../model/index.ts';
import { type SumRule, sumRules } from './affine.ts';
import type { Base } from './bases.ts';
import { type Choice, chooseTogether, type Effort, type Group, type TileTrial } from './choose.ts';
import { type Bent, bentBy, halfCirclesIn } from './halfCircles.ts';
import { placeOf, reachOf, type TileReach } from './reach.ts';
import { everyTile, filesOf, type Standing, verdictsOf } from './standing.ts';

/** How base sizes were rounded. */
export interface Rounding {
  /** What each base becomes; undefined where no choice was found with which all tiles stand as before. */
  readonly sizes: readonly Length[] | undefined;
  readonly drift: Length;
  /** True where nothing better exists; where there are no sizes: where none exist. */
  readonly isProved: boolean;
  /** Bases that tiles lean on, so that they were chosen together. */
  readonly together: number;
  readonly ruledOut: { readonly bySums: number; readonly byRuns: number };
  /** The tiles that would not stand with each base rounded by itself. */
  readonly wouldFall: readonly string[];
  /** Arcs that are written as half a circle: how many, which are none any more, and how many would be with each by itself. */
  readonly halfCircles: {
    readonly count: number;
    readonly bent: readonly Bent[];
    readonly wouldBend: number;
  };
}

/** So many sizes at once are decided for sure; of more, what was not found may be there all the same. */
export const mostDecided = 20;
/** Choices that are looked at in all, and for a step that is only looked for. */
const efforts = { decide: 2_000_000, lookAbout: 60_000 } as const;

/**
 * Chooses what the base sizes of a kit are rounded to, so that every tile stands as it stood.
 *
 *   which tiles lean on which bases ─→ groups that share none ─chooseTogether→ sizes
 *
 * @param spec      as it is exactly, in the unit wanted
 * @param standing  how its tiles are to stand: what is wrong there already may stay wrong
 */
export function roundTogether(
  spec: Spec,
  bases: readonly Base[],
  standing: Standing,
  bench: Bench,
  effortOf: keyof typeof efforts,
): Rounding {
  const run = new Runs(spec, bases, standing, bench);
  const arcs = halfCirclesIn(spec, bases);
  const rules = arcs.flatMap((it) => it.rules);
  const kept = chosenIn(run, groupsOf(run, bases, rules), bases, effortOf);
  // A kit that only stands with arcs a little bent is better than none.
  const chosen =
    kept.sizes !== undefined || rules.length === 0
      ? kept
      : chosenIn(run, groupsOf(run, bases, []), bases, effortOf);
  const oneByOne = bases.map(({ choices, worth }) => choices[0] ?? worth);
  return {
    ...chosen,
    halfCircles: {
      count: arcs.length,
      bent: bentBy(chosen.sizes ?? oneByOne, arcs, bases),
      wouldBend: bentBy(oneByOne, arcs, bases).length,
    },
  };
}

function chosenIn(
  run: Runs,
  groups: readonly Group[],
  bases: readonly Base[],
  effortOf: keyof typeof efforts,
): Omit<Rounding, 'halfCircles'> {
  const effort: Effort = { left: efforts[effortOf] };
  const sizes = bases.map(({ choices, worth }) => choices[0] ?? worth);
  let [drift, isProved, together, bySums, byRuns, isFound] = [zero, true, 0, 0, 0, true];
  const wouldFall = run.reaches.filter((it) => !run.stands(it, sizes)).map(({ tile }) => tile);
  // Where there is nothing to choose, a tile stands or it does not.
  const areSettled = groups.filter((it) => it.bases.length === 0).flatMap(({ tiles }) => tiles);
  if (!areSettled.every((it) => it.stands(new Map()))) isFound = false;
  for (const group of isFound ? groups : []) {
    const isDecided = group.bases.length <= mostDecided;
    // Of more than are decided, those next to the nearest are looked at.
    if (!isDecided) effort.left = Math.min(effort.left, efforts.lookAbout);
    const choice: Choice = chooseTogether(group, bases, effort);
    together += group.bases.length;
    bySums += choice.ruledOutBySums;
    byRuns += choice.ruledOutByRuns;
    drift = sum(drift, choice.drift);
    if (choice.sizes === undefined) {
      isFound = false;
      isProved = choice.isProved && isDecided;
      break;
    }
    isProved &&= choice.isProved;
    for (const [base, size] of choice.sizes) sizes[base] = size;
  }
  return {
    sizes: isFound ? sizes : undefined,
    drift,
    isProved,
    together,
    ruledOut: { bySums, byRuns },
    wouldFall,
  };
}

/**
 * Bases that share a tile or a rule, straight or by other bases, belong together; what stays as it is joins nothing.
 *
 * @param rules  that hold beside those of the tiles
 */
function groupsOf(run: Runs, bases: readonly Base[], rules: readonly SumRule[]): readonly Group[] {
  const open = (base: number): boolean => {
    const { choices = [], worth } = bases[base] ?? {};
    const [first, second] = choices;
    return second !== undefined || (first !== undefined && worth !== undefined && !equal(first, worth));
  };
  let groups: readonly Joined[] = [];
  const join = (one: Joined): void => {
    const [joined, others] = [
      groups.filter((it) => [...one.bases].some((base) => it.bases.has(base))),
      groups.filter((it) => ![...one.bases].some((base) => it.bases.has(base))),
    ];
    const all = [one, ...joined];
    const together = {
      bases: new Set(all.flatMap((it) => [...it.bases])),
      reaches: all.flatMap((it) => it.reaches),
      rules: all.flatMap((it) => it.rules),
    };
    groups = [...others, together];
  };
  for (const reach of run.reaches) {
    join({ bases: new Set(run.basesOf(reach).filter(open)), reaches: [reach], rules: [] });
  }
  for (const rule of rules) {
    const used = rule.terms.flatMap(({ slopes }) => [...slopes.keys()]).filter(open);
    if (used.length > 0) join({ bases: new Set(used), reaches: [], rules: [rule] });
  }
  return groups.map(({ bases: own, reaches, rules: ownRules }): Group => {
    const counts = new Map<number, number>();
    for (const base of reaches.flatMap((it) => run.basesOf(it)))
      counts.set(base, (counts.get(base) ?? 0) + 1);
    const uses = (base: number): number => counts.get(base) ?? 0;
    // What most tiles lean on first: it rules out the most.
    const order = [...own].sort((a, b) => uses(b) - uses(a) || a - b);
    const tiles = reaches.map(
      (reach): TileTrial => ({
        bases: run.basesOf(reach).filter((it) => own.has(it)),
        stands: (sizes) =>
          run.stands(
            reach,
            bases.map((it, at) => sizes.get(at) ?? it.choices[0] ?? it.worth),
          ),
      }),
    );
    return { bases: order, rules: [...ownRules, ...reaches.flatMap((it) => run.rules(it))], tiles };
  });
}

interface Joined {
  readonly bases: ReadonlySet<number>;
  readonly reaches: readonly TileReach[];
  readonly rules: readonly SumRule[];
}

/** Real runs of single tiles with other sizes. */
class Runs {
  readonly reaches: readonly TileReach[];
  readonly #spec: Spec;
  readonly #bases: readonly Base[];
  readonly #bench: Bench;
  readonly #overrides: Overrides;
  readonly #before: ReadonlyMap<string, ReadonlySet<string>>;
  readonly #builds: ReadonlyMap<string, Build>;
  readonly #byPlace: ReadonlyMap<string, number>;
  readonly #leanedOn = new Map<TileReach, readonly number[]>();
  /** Each tile with one base nudged, by base. */
  readonly #nudged = new Map<number, ReadonlyMap<string, Build>>();

  constructor(spec: Spec, bases: readonly Base[], before: Standing, bench: Bench) {
    this.#spec = spec;
    this.#bases = bases;
    this.#bench = bench;
    this.#overrides = everyTile(spec);
    this.#byPlace = new Map(bases.map(({ literal }, at) => [placeOf(literal.expression), at]));
    this.#before = new Map(before.fits.map((fit) => [fit.build.tile, new Set(verdictsOf(fit))]));
    const builds = expand(spec, this.#overrides).value?.builds ?? [];
    this.#builds = new Map(builds.map((build) => [build.tile, build]));
    this.reaches = filesOf(spec)
      .flatMap(({ tiles }) => tiles)
      .filter(({ name }) => this.#builds.has(name))
      .map((tile) => reachOf(tile, spec, (place) => this.#byPlace.has(place)));
  }

  /** Numbers of the bases that a tile leans on. */
  basesOf(reach: TileReach): readonly number[] {
    const known = this.#leanedOn.get(reach);
    if (known !== undefined) return known;
    const own = [...reach.measures].flatMap((place) => this.#byPlace.get(place) ?? []);
    const found = own.sort((a, b) => a - b);
    this.#leanedOn.set(reach, found);
    return found;
  }

  /** True where the tile has no verdict against it that it did not have before. */
  stands({ tile }: TileReach, sizes: readonly Length[]): boolean {
    const instead = this.#bases.map(({ literal }, at) => ({ at: literal.at, value: sizes[at] ?? zero }));
    const { value, diagnostics } = expand(this.#spec, { ...this.#overrides, instead, only: new Set([tile]) });
    const build = value?.builds.find((it) => it.tile === tile);
    if (build === undefined || diagnostics.some(isError)) return false;
    const known = this.#before.get(tile);
    return verdictsOf(judge(build, this.#bench)).every((it) => known?.has(it));
  }

  /** What of a tile can be told from sums alone, for sure; nothing of one whose sums do not come out now. */
  rules(reach: TileReach): ReturnType<typeof ruleList> {
    return ruleList(this.#rulesOf(reach));
  }

  #rulesOf(reach: TileReach): ReturnType<typeof sumRules> {
    const build = this.#builds.get(reach.tile);
    const isUnsound = [...(this.#before.get(reach.tile) ?? [])].some((it) => it.includes('does not close'));
    if (build === undefined || !reach.isAffine || isUnsound) return undefined;
    const by = new Map<number, Build>();
    for (const base of this.basesOf(reach)) {
      const other = this.#withNudge(base).get(reach.tile);
      if (other === undefined) return undefined;
      by.set(base, other);
    }
    return sumRules({ build, nudge, by });
  }

  #withNudge(base: number): ReadonlyMap<string, Build> {
    const known = this.#nudged.get(base);
    if (known !== undefined) return known;
    const { literal, worth } = this.#bases[base] ?? {};
    const tiles = new Set(
      this.reaches.filter((it) => this.basesOf(it).includes(base)).map(({ tile }) => tile),
    );
    const instead =
      literal === undefined || worth === undefined ? [] : [{ at: literal.at, value: sum(worth, nudge) }];
    const { value } = expand(this.#spec, { ...this.#overrides, instead, only: tiles });
    const builds = new Map((value?.builds ?? []).map((build) => [build.tile, build]));
    this.#nudged.set(base, builds);
    return builds;
  }
}

function ruleList(rules: ReturnType<typeof sumRules>): NonNullable<ReturnType<typeof sumRules>> {
  return rules ?? [];
}

const nudge = millimetres(rational(1n, 1024n));
