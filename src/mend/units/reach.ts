import {
  type Expression,
  type Named,
  type OutlineSpec,
  operandsOf,
  type PartSpec,
  type Spec,
  type SpecFile,
  type TileSpec,
} from '../../model/index.ts';
import { amountsIn, namesIn } from '../../spec/index.ts';
import { filesOf } from './standing.ts';

/** What the build of one tile can lean on, told from what is written, whatever it comes to. */
export interface TileReach {
  readonly tile: string;
  /** The measures, by `placeOf`. */
  readonly measures: ReadonlySet<string>;
  /**
   * True where every sum in reach goes up and down in proportion with each measure: nothing is rounded, nothing is the
   * smaller of two, no length is multiplied with another, no size is what a build leaves, none comes from a drawing.
   */
  readonly isAffine: boolean;
}

export function placeOf({ at }: Expression): string {
  return `${at.source.path}\n${at.start}\n${at.end}`;
}

/** @param isBase  whether the measure at a place is one that may change */
export function reachOf(tile: Named<TileSpec>, spec: Spec, isBase: (place: string) => boolean): TileReach {
  return new Walk(spec, isBase).tile(tile);
}

class Walk {
  readonly #files: readonly SpecFile[];
  readonly #isBase: (place: string) => boolean;
  readonly #waiting: Expression[] = [];
  readonly #seen = new Set<unknown>();
  readonly #measures = new Set<string>();
  #chain: readonly TileSpec[] = [];
  #isPlain = true;

  constructor(spec: Spec, isBase: (place: string) => boolean) {
    this.#files = filesOf(spec);
    this.#isBase = isBase;
  }

  tile({ name, value }: Named<TileSpec>): TileReach {
    this.#chain = this.#chainOf(value);
    for (const { squares, footprint, height, build, added, edges, beyond } of this.#chain) {
      this.#wait({ squares, footprint, height, build, added, edges, beyond });
      const standing = { build, added };
      for (const part of named(standing, 'part')) this.#part(part);
      if (holdsRest(standing)) this.#isPlain = false;
    }
    for (const { grid, racks, materials, measured } of this.#files) {
      this.#wait({ grid, racks, materials, measured });
    }
    const all: Expression[] = [];
    for (let next = this.#waiting.pop(); next !== undefined; next = this.#waiting.pop()) {
      all.push(next);
      this.#look(next);
    }
    const isAffine = this.#isPlain && all.every((it) => this.#isAffine(it));
    return { tile: name, measures: this.#measures, isAffine };
  }

  #wait(piece: unknown): void {
    for (const expression of amountsIn(piece)) {
      if (this.#seen.has(expression)) continue;
      this.#seen.add(expression);
      this.#waiting.push(expression);
    }
  }

  #look(expression: Expression): void {
    if (expression.kind === 'measure') this.#measures.add(placeOf(expression));
    for (const operand of operandsOf(expression)) this.#look(operand);
    if (expression.kind !== 'name') return;
    const { reference } = expression;
    if (reference.kind === 'own') this.#wait(this.#meaningsOf(reference.name));
    if (reference.kind !== 'size') return;
    this.#part(reference.of.value);
    this.#master(reference.of.value);
  }

  #meaningsOf(name: string): readonly unknown[] {
    const own = [...this.#chain, ...this.#files];
    return own.flatMap((it) => [
      ...it.lengths.filter((one) => one.name === name),
      ...it.numbers.filter((one) => one.name === name),
      ...('levels' in it ? it.levels.filter((one) => one.name === name) : []),
    ]);
  }

  #part(name: string): void {
    const specs = [
      ...this.#chain.flatMap(({ parts }) => parts),
      ...this.#files.flatMap(({ parts }): readonly Named<PartSpec | 'none'>[] => parts),
    ].filter((it) => it.name === name);
    for (const { value } of specs) {
      if (value === 'none' || this.#seen.has(value)) continue;
      this.#seen.add(value);
      const { size, outline, cuts, like } = value;
      this.#wait({ size, outline, cuts });
      if (outline !== undefined || holdsRest(size)) this.#isPlain = false;
      for (const master of named({ outline, cuts }, 'master')) this.#master(master);
      if (like !== undefined) this.#part(like.value);
    }
  }

  #master(name: string): void {
    const found = this.#files.flatMap(({ masters }) => masters).filter((it) => it.name === name);
    for (const { value } of found) {
      if (this.#seen.has(value)) continue;
      this.#seen.add(value);
      this.#wait(value);
      for (const other of named(value satisfies OutlineSpec, 'master')) this.#master(other);
    }
  }

  #chainOf(tile: TileSpec): readonly TileSpec[] {
    const chain: TileSpec[] = [];
    let next: TileSpec | undefined = tile;
    while (next !== undefined && !chain.includes(next)) {
      chain.push(next);
      const like: string | undefined = next.like?.value;
      next = this.#files.flatMap(({ tiles }) => tiles).find((it) => it.name === like)?.value;
    }
    return chain;
  }

  #isAffine(expression: Expression): boolean {
    const operands = operandsOf(expression);
    if (!operands.every((it) => this.#isAffine(it))) return false;
    switch (expression.kind) {
      case 'product':
        return this.#isFixed(expression.left) || this.#isFixed(expression.right);
      case 'quotient':
        return this.#isFixed(expression.right);
      case 'smaller':
      case 'larger':
      case 'up to':
      case 'down to':
      case 'nearest':
        return operands.every((it) => this.#isFixed(it));
      default:
        return true;
    }
  }

  /** True for what no choice of a size can change. */
  #isFixed(expression: Expression, depth = 0): boolean {
    if (depth > 50) return false;
    if (expression.kind === 'measure') return !this.#isBase(placeOf(expression));
    if (expression.kind !== 'name') return operandsOf(expression).every((it) => this.#isFixed(it, depth + 1));
    return namesIn(expression).length > 0 && this.#areFixed(namesIn(expression), depth);
  }

  #areFixed(names: readonly string[], depth: number): boolean {
    return names.every((name) =>
      amountsIn(this.#meaningsOf(name)).every((it) => this.#isFixed(it, depth + 1)),
    );
  }
}

/** The names behind `part`, or of masters, in a piece of a file. */
function named(piece: unknown, sort: 'part' | 'master'): readonly string[] {
  if (typeof piece !== 'object' || piece === null) return [];
  if (Array.isArray(piece)) return piece.flatMap((it) => named(it, sort));
  const inside = Object.entries(piece).flatMap(([key, it]) => (aside.has(key) ? [] : named(it, sort)));
  const key = sort === 'part' ? 'part' : 'name';
  const own = 'kind' in piece && piece.kind === sort ? textBehind(piece, key) : undefined;
  return own === undefined ? inside : [own, ...inside];
}

function textBehind(piece: object, key: string): string | undefined {
  const placed: unknown = Object.entries(piece).find(([it]) => it === key)?.[1];
  if (typeof placed !== 'object' || placed === null || !('value' in placed)) return undefined;
  return typeof placed.value === 'string' ? placed.value : undefined;
}

function holdsRest(piece: unknown): boolean {
  if (piece === 'rest') return true;
  if (typeof piece !== 'object' || piece === null) return false;
  if (Array.isArray(piece)) return piece.some(holdsRest);
  if ('kind' in piece && piece.kind === 'rest') return true;
  return Object.entries(piece).some(([key, it]) => !aside.has(key) && holdsRest(it));
}

/** What leads out of the piece: places, texts. */
const aside = new Set(['at', 'source', 'written']);
