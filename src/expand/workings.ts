import {
  atSpan,
  diagnose,
  type Expression,
  type Length,
  type MaterialSpec,
  type Outline,
  type Span,
} from '../model/index.ts';
import type { Faults } from './faults.ts';
import { fromItsFirst, type Likes, type TileView } from './like.ts';
import type { Quantity } from './quantity.ts';
import type { Sights } from './sight.ts';

/**
 * From where a sum is looked at: the tile it belongs to, if any. The file whose names it sees is the one in
 * which the sum itself is written, so a part that a tile takes over from another file keeps that file's view.
 */
export interface Scope {
  readonly tile: TileView | undefined;
  /** Where a plain number is wanted, the numbers among the known names are offered first. */
  readonly wanted?: 'number';
  /** In a bracket that is rounded: the end to take of what has no rational length. */
  readonly developed?: 'lo' | 'hi';
}

export const fileScope: Scope = { tile: undefined };

/** One place in one file. */
export function placeOf({ source, start, end }: Span): string {
  return `${source.path}\n${start}\n${end}`;
}

/** Something with a name whose worth is worked out once: `rise`, `length of face`, `thickness of foam`. */
interface Underway {
  readonly key: string;
  readonly owner: object;
  readonly label: string;
  readonly at: Span;
}

/**
 * What all sums of a run share: where names are looked up, what is already known, what is just being worked
 * out (so that a ring is seen), and the faults found.
 */
export class Workings {
  readonly sights: Sights;
  readonly likes: Likes;
  readonly faults: Faults;
  /** Tonight's calipers, over the `measured` of the material itself. */
  readonly measured = new Map<MaterialSpec, Expression>();
  /** Least bends that are said for tonight, or by the kits, of a material alone. */
  readonly leastBends = new Map<MaterialSpec, Expression>();
  /** Worths that stand in for what is written, by `placeOf` of the expression. */
  readonly instead = new Map<string, Length>();
  /** One of each outline that parts have. */
  readonly outlines = new Map<string, Outline>();
  readonly #known = new Map<object, Map<string, Quantity | Outline | undefined>>();
  readonly #underway: Underway[] = [];
  #depth = 0;
  #hasToldDepth = false;

  constructor(sights: Sights, likes: Likes, faults: Faults) {
    this.sights = sights;
    this.likes = likes;
    this.faults = faults;
  }

  /**
   * Works a named thing out at its first use and remembers what came of it, also that nothing did: a
   * definition that fails is reported once, however many sums lean on it.
   *
   * @param owner  whose name it is: a tile, a file, a material
   * @param at     where the name is defined
   */
  once<T extends Quantity | Outline>(
    owner: object,
    key: string,
    label: string,
    at: Span,
    work: () => T | undefined,
  ): T | undefined {
    const known = this.#known.get(owner) ?? new Map<string, Quantity | Outline | undefined>();
    this.#known.set(owner, known);
    // Whoever asks for a key asks for the same kind of worth: keys of outlines are no names of amounts.
    if (known.has(key)) return known.get(key) as T | undefined;

    const again = this.#underway.findIndex((it) => it.owner === owner && it.key === key);
    if (again >= 0) {
      this.#reportRing(this.#underway.slice(again));
      return undefined;
    }
    this.#underway.push({ key, owner, label, at });
    const quantity = work();
    this.#underway.pop();
    known.set(key, quantity);
    return quantity;
  }

  /** Guards the call stack: sums nest in sums by their names, and nothing else bounds how far. */
  deeper<T>(at: Span, work: () => T | undefined): T | undefined {
    if (this.#depth >= deepestNesting) {
      // Once is enough: what leans on a chain that is too long would tell it again and again.
      if (!this.#hasToldDepth) this.faults.report(diagnose('E17', atSpan(at), { deepest: deepestNesting }));
      this.#hasToldDepth = true;
      return undefined;
    }
    this.#depth++;
    const result = work();
    this.#depth--;
    return result;
  }

  #reportRing(ring: readonly Underway[]): void {
    const chain = fromItsFirst(ring);
    const [first] = chain;
    if (first === undefined) return;
    this.faults.report(
      diagnose('E03', atSpan(first.at), { chain: [...chain, first].map(({ label }) => label) }),
    );
  }
}

/** Sums within sums: far beyond any kit, far below what the call stack holds. */
const deepestNesting = 400;
