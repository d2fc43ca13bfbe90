import {
  add,
  compareRationals,
  greatestCommonDivisor,
  minus,
  multiply,
  rational,
  zero,
} from '../../measure/index.ts';
import type { Length, Rational } from '../../model/index.ts';
import type { SumRule } from './affine.ts';
import { type Base, driftOf } from './bases.ts';

/** The bases that have to be chosen together, since tiles lean on several of them. */
export interface Group {
  /** Numbers of the bases, in the order in which they are chosen. */
  readonly bases: readonly number[];
  readonly rules: readonly SumRule[];
  readonly tiles: readonly TileTrial[];
}

/** A tile, and a real run of it: whether it stands as before with these sizes. */
export interface TileTrial {
  readonly bases: readonly number[];
  readonly stands: (sizes: ReadonlyMap<number, Length>) => boolean;
}

export interface Effort {
  /** Choices that may still be looked at; a run of a tile costs as much as many. */
  left: number;
}

export interface Choice {
  /** Undefined where none was found. */
  readonly sizes: ReadonlyMap<number, Length> | undefined;
  readonly drift: Length;
  /** True where all others were ruled out: by a sum that can't come out, by a run of a tile, or by more drift. */
  readonly isProved: boolean;
  readonly ruledOutBySums: number;
  readonly ruledOutByRuns: number;
}

const costOfRun = 500;

/**
 * The sizes with the least drift in all with which every tile of a group stands as before.
 *
 * Sizes are chosen one after the other, nearest first. A beginning is given up as soon as some sum can't come out
 * whatever the sizes to come are, a tile whose sizes are all chosen does not stand, or the drift so far and the least
 * drift to come are no less than the best known. So what is left is the best, and nothing better is there.
 *
 * @source branch and bound (Land and Doig, Econometrica 28, 1960); from memory
 */
export function chooseTogether(group: Group, bases: readonly Base[], effort: Effort): Choice {
  return new Search(group, bases, effort).choice();
}

class Search {
  readonly #order: readonly number[];
  readonly #bases: readonly Base[];
  readonly #effort: Effort;
  /** By the last base that they need: what can be looked at once it is chosen. */
  readonly #rules: ReadonlyMap<number, readonly PreparedRule[]>;
  readonly #trials: ReadonlyMap<number, readonly TileTrial[]>;
  readonly #known = new Map<TileTrial, Map<string, boolean>>();
  readonly #leastBehind: readonly Rational[];
  /** Which choice of each base, by its number. */
  readonly #chosen = new Map<number, number>();
  #best: { readonly sizes: ReadonlyMap<number, Length>; readonly drift: Rational } | undefined;
  #bySums = 0;
  #byRuns = 0;
  #isCut = false;

  constructor({ bases: order, rules, tiles }: Group, bases: readonly Base[], effort: Effort) {
    this.#order = order;
    this.#bases = bases;
    this.#effort = effort;
    const prepared = rules.map((rule) => prepare(rule, bases, order));
    this.#rules = new Map(
      order.map((base) => [base, prepared.filter(({ uses }) => uses.has(base))] as const),
    );
    const lastOf = (own: readonly number[]): number => Math.max(...own.map((it) => order.indexOf(it)));
    this.#trials = new Map(
      order.map((base, at) => [base, tiles.filter((it) => lastOf(it.bases) === at)] as const),
    );
    const least = order.map((base) => this.#drift(base, 0));
    this.#leastBehind = least.map((_, at) => least.slice(at).reduce(add, rational(0n)));
  }

  choice(): Choice {
    this.#choose(0, zero);
    return {
      sizes: this.#best?.sizes,
      drift: (this.#best?.drift ?? zero) as Length, // a sum of drifts, which are lengths
      isProved: !this.#isCut,
      ruledOutBySums: this.#bySums,
      ruledOutByRuns: this.#byRuns,
    };
  }

  #choose(at: number, drift: Rational): void {
    const base = this.#order[at];
    if (base === undefined) {
      this.#best = { sizes: new Map(this.#order.map((it) => [it, this.#sizeOf(it)] as const)), drift };
      return;
    }
    for (const index of (this.#bases[base]?.choices ?? []).keys()) {
      const so = add(drift, this.#drift(base, index));
      const least = add(so, this.#leastBehind[at + 1] ?? zero);
      // Choices come by their drift, so those behind are no better.
      if (this.#best !== undefined && compareRationals(least, this.#best.drift) >= 0) return;
      if (this.#effort.left <= 0) {
        this.#isCut = true;
        return;
      }
      this.#effort.left -= 1;
      this.#chosen.set(base, index);
      if (this.#mayComeOut(base)) {
        if (this.#stands(base)) this.#choose(at + 1, so);
        else this.#byRuns += 1;
      } else this.#bySums += 1;
      this.#chosen.delete(base);
    }
  }

  #drift(base: number, choice: number): Rational {
    const it = this.#bases[base];
    const size = it?.choices[choice];
    return it === undefined || size === undefined ? zero : driftOf(size, it.worth);
  }

  #sizeOf(base: number): Length {
    return this.#bases[base]?.choices[this.#chosen.get(base) ?? 0] ?? zero;
  }

  #mayComeOut(base: number): boolean {
    return (this.#rules.get(base) ?? []).every((rule) => mayComeOut(rule, this.#chosen));
  }

  #stands(base: number): boolean {
    return (this.#trials.get(base) ?? []).every((trial) => {
      const key = trial.bases.map((it) => this.#chosen.get(it)).join(' ');
      const known = this.#known.get(trial) ?? new Map<string, boolean>();
      this.#known.set(trial, known);
      let stands = known.get(key);
      if (stands === undefined) {
        this.#effort.left -= costOfRun;
        stands = trial.stands(new Map(trial.bases.map((it) => [it, this.#sizeOf(it)] as const)));
        known.set(key, stands);
      }
      return stands;
    });
  }
}

/**
 * A rule in whole numbers, all of one small part of a millimetre, so that looking at it costs additions alone: what
 * each choice of each base adds to each term, and the least and the most that any of its choices adds.
 */
interface PreparedRule {
  readonly uses: ReadonlySet<number>;
  readonly slack: bigint;
  readonly terms: readonly PreparedTerm[];
}

interface PreparedTerm {
  readonly now: bigint;
  readonly bases: readonly {
    readonly base: number;
    readonly adds: readonly bigint[];
    readonly least: bigint;
    readonly most: bigint;
  }[];
}

function prepare({ terms, slack }: SumRule, bases: readonly Base[], order: readonly number[]): PreparedRule {
  const own = new Set(order);
  const parts = terms.map(({ now, slopes }) => ({
    now,
    adds: [...slopes].flatMap(([base, slope]) => {
      const it = bases[base];
      // One that stands outside the group stays what it is.
      if (it === undefined || !own.has(base)) return [];
      return [{ base, adds: it.choices.map((choice) => multiply(slope, minus(choice, it.worth))) }];
    }),
  }));
  const amounts = [slack, ...parts.flatMap(({ now, adds }) => [now, ...adds.flatMap((it) => it.adds)])];
  const denominator = amounts.reduce((all, it) => lowestCommon(all, it.denominator), 1n);
  const inParts = (amount: Rational): bigint => amount.numerator * (denominator / amount.denominator);
  return {
    uses: new Set(parts.flatMap(({ adds }) => adds.map(({ base }) => base))),
    slack: inParts(slack),
    terms: parts.map(({ now, adds }) => ({
      now: inParts(now),
      bases: adds.map((it) => {
        const whole = it.adds.map(inParts);
        const inOrder = [...whole].sort((x, y) => (x < y ? -1 : 1));
        return { base: it.base, adds: whole, least: inOrder[0] ?? 0n, most: inOrder.at(-1) ?? 0n };
      }),
    })),
  };
}

function lowestCommon(a: bigint, b: bigint): bigint {
  return (a / greatestCommonDivisor(a, b)) * b;
}

/** Whether the sizes to come could still make the sum: not over in any term, and not short in all. */
function mayComeOut({ terms, slack }: PreparedRule, chosen: ReadonlyMap<number, number>): boolean {
  let reaches = false;
  for (const { now, bases } of terms) {
    let [low, high] = [now, now];
    for (const { base, adds, least, most } of bases) {
      const index = chosen.get(base);
      const add = index === undefined ? undefined : adds[index];
      low += add ?? least;
      high += add ?? most;
    }
    if (low > 0n) return false;
    reaches ||= high + slack >= 0n;
  }
  return reaches;
}
