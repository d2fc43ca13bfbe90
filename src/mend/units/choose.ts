import {
  add,
  compareRationals,
  minus,
  multiply,
  negate,
  rational,
  subtract,
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

const costOfRun = 200;

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
  readonly #chosen = new Map<number, Length>();
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
      this.#best = { sizes: new Map(this.#chosen), drift };
      return;
    }
    for (const [index, size] of (this.#bases[base]?.choices ?? []).entries()) {
      const so = add(drift, this.#drift(base, index));
      const least = add(so, this.#leastBehind[at + 1] ?? zero);
      // Choices come by their drift, so those behind are no better.
      if (this.#best !== undefined && compareRationals(least, this.#best.drift) >= 0) return;
      if (this.#effort.left <= 0) {
        this.#isCut = true;
        return;
      }
      this.#effort.left -= 1;
      this.#chosen.set(base, size);
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

  #mayComeOut(base: number): boolean {
    return (this.#rules.get(base) ?? []).every((rule) => mayComeOut(rule, this.#chosen));
  }

  #stands(base: number): boolean {
    return (this.#trials.get(base) ?? []).every((trial) => {
      const own = new Map(trial.bases.map((it) => [it, this.#chosen.get(it) ?? zero] as const));
      const key = [...own.values()].map((it) => `${it.numerator}/${it.denominator}`).join(' ');
      const known = this.#known.get(trial) ?? new Map<string, boolean>();
      this.#known.set(trial, known);
      let stands = known.get(key);
      if (stands === undefined) {
        this.#effort.left -= costOfRun;
        stands = trial.stands(own);
        known.set(key, stands);
      }
      return stands;
    });
  }
}

/** A rule with what each base can make of it at the least and at the most. */
interface PreparedRule {
  readonly uses: ReadonlySet<number>;
  readonly slack: Rational;
  readonly terms: readonly PreparedTerm[];
}

interface PreparedTerm {
  readonly now: Rational;
  readonly slopes: readonly {
    readonly base: number;
    readonly worth: Length;
    readonly slope: Rational;
    readonly least: Rational;
    readonly most: Rational;
  }[];
}

function prepare({ terms, slack }: SumRule, bases: readonly Base[], order: readonly number[]): PreparedRule {
  const uses = new Set<number>();
  const prepared = terms.map(
    ({ now, slopes }): PreparedTerm => ({
      now,
      slopes: [...slopes].flatMap(([base, slope]) => {
        const it = bases[base];
        // One that stands outside the group stays what it is.
        if (it === undefined || !order.includes(base)) return [];
        uses.add(base);
        const changes = it.choices.map((choice) => multiply(slope, minus(choice, it.worth)));
        return [
          { base, worth: it.worth, slope, least: least(changes), most: negate(least(changes.map(negate))) },
        ];
      }),
    }),
  );
  return { uses, slack, terms: prepared };
}

function least(amounts: readonly Rational[]): Rational {
  return amounts.reduce((a, b) => (compareRationals(a, b) <= 0 ? a : b));
}

/** Whether the sizes to come could still make the sum: not over in any term, and not short in all. */
function mayComeOut({ terms, slack }: PreparedRule, chosen: ReadonlyMap<number, Length>): boolean {
  let reaches = false;
  for (const { now, slopes } of terms) {
    let [low, high] = [now, now];
    for (const { base, worth, slope, least, most } of slopes) {
      const size = chosen.get(base);
      if (size === undefined) [low, high] = [add(low, least), add(high, most)];
      else {
        const change = multiply(slope, subtract(size, worth));
        [low, high] = [add(low, change), add(high, change)];
      }
    }
    if (low.numerator > 0n) return false;
    reaches ||= compareRationals(add(high, slack), zero) >= 0;
  }
  return reaches;
}
