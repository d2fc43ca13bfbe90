import {
  type Expression,
  type Named,
  operandsOf,
  type Spec,
  type SpecFile,
  type TileSpec,
} from '../model/index.ts';
import type { Measure, Slot } from './literals.ts';

/** What a measure stands for: a length, or a plain number; `both` where that differs by the tile. */
export interface OfKind {
  readonly measure: Measure;
  readonly kind: 'length' | 'number' | 'both';
}

type Kind = 'bare' | 'number' | 'length' | 'area';

/** Keys behind which things are counted, wherever they stand. */
const counting = new Set([
  'numbers',
  'count',
  'byEye',
  'times',
  'rounds',
  'squares',
  'counts',
  'pack',
  'takes',
  'angles',
  'base',
]);

/**
 * Tells lengths from plain numbers without working anything out: a bare number beside a length is a length, in
 * `x` and `/` it is a number, and alone it is what its place wants. The rules are those by which sums are
 * worked out; here they also hold of what no tile uses.
 */
export class Kinds {
  readonly #files: readonly SpecFile[];
  readonly #tiles: readonly Named<TileSpec>[];
  /** What names of `lengths`, `levels` and `numbers` hold, over all files and tiles. */
  readonly #everywhere = new Map<string, Set<'length' | 'number'>>();

  constructor(spec: Spec) {
    const reached = new Set<SpecFile>(spec.files);
    for (const file of reached) for (const used of file.uses) reached.add(used);
    this.#files = [...reached];
    this.#tiles = this.#files.flatMap(({ tiles }) => tiles);
    for (const it of [...this.#files, ...this.#tiles.map(({ value }) => value)]) {
      for (const { name } of [...it.lengths, ...('levels' in it ? it.levels : [])])
        this.#note(name, 'length');
      for (const { name } of it.numbers) this.#note(name, 'number');
    }
  }

  of({ expression, keys, tile }: Slot, file: SpecFile): readonly OfKind[] {
    const wanted = keys.some((it) => counting.has(it)) ? 'number' : 'length';
    const told = new Map<Measure, Set<'length' | 'number'>>();
    for (const view of this.#views(expression, tile, file)) {
      const lookUp: LookUp = (name) => this.#kindOf(name, view, file);
      settle(expression, wanted, lookUp, (measure, kind) => {
        const kinds = told.get(measure) ?? new Set();
        told.set(measure, kinds.add(kind));
      });
    }
    return [...told].map(([measure, kinds]) => {
      const [only] = kinds;
      return { measure, kind: kinds.size > 1 ? 'both' : (only ?? 'length') };
    });
  }

  #note(name: string, kind: 'length' | 'number'): void {
    this.#everywhere.set(name, (this.#everywhere.get(name) ?? new Set()).add(kind));
  }

  /** The tiles as which a sum may be looked at; one view will do where no name in it means two things. */
  #views(
    expression: Expression,
    tile: Named<TileSpec> | undefined,
    file: SpecFile,
  ): readonly (Named<TileSpec> | undefined)[] {
    if (!namesIn(expression).some((name) => (this.#everywhere.get(name)?.size ?? 0) > 1)) return [tile];
    if (tile !== undefined) return this.#tiles.filter((it) => this.#chain(it).includes(tile.value));
    const isShared = file.parts.length + file.masters.length > 0;
    return isShared ? [undefined, ...this.#tiles] : [undefined];
  }

  #chain(tile: Named<TileSpec>): readonly TileSpec[] {
    const chain: TileSpec[] = [];
    let next: TileSpec | undefined = tile.value;
    while (next !== undefined && !chain.includes(next)) {
      chain.push(next);
      const like: string | undefined = next.like?.value;
      next = like === undefined ? undefined : this.#tiles.find(({ name }) => name === like)?.value;
    }
    return chain;
  }

  #kindOf(name: string, tile: Named<TileSpec> | undefined, file: SpecFile): Kind {
    const kinds = this.#everywhere.get(name);
    if (kinds === undefined) return 'length';
    const [first, second] = kinds;
    if (second === undefined) return first ?? 'length';
    const seen = new Set([file]);
    for (const it of seen) for (const used of it.uses) seen.add(used);
    const nearest = [...(tile === undefined ? [] : this.#chain(tile)), ...seen];
    for (const it of nearest) {
      if (it.numbers.some((own) => own.name === name && own.value !== 'none')) return 'number';
      const lengths = [...it.lengths, ...('levels' in it ? it.levels : [])];
      if (lengths.some((own) => own.name === name && own.value !== 'none')) return 'length';
    }
    return 'length';
  }
}

type LookUp = (name: string) => Kind;
type Tell = (measure: Measure, kind: 'length' | 'number') => void;

/** Tells each measure of an amount, once it is known what the whole of it is wanted as. */
function settle(expression: Expression, wanted: 'length' | 'number', lookUp: LookUp, tell: Tell): void {
  switch (expression.kind) {
    case 'measure':
      tell(expression, expression.unit === 'length' ? 'length' : wanted);
      return;
    case 'negative':
      settle(expression.of, wanted, lookUp, tell);
      return;
    case 'product':
    case 'quotient':
      settle(expression.left, 'number', lookUp, tell);
      settle(expression.right, 'number', lookUp, tell);
      return;
    case 'sum':
    case 'difference':
    case 'smaller':
    case 'larger':
    case 'up to':
    case 'down to':
    case 'nearest': {
      const operands = operandsOf(expression);
      const telling = operands.map((it) => kindOf(it, lookUp)).find((it) => it !== 'bare');
      const together = telling === undefined ? wanted : telling === 'number' ? 'number' : 'length';
      for (const operand of operands) settle(operand, together, lookUp, tell);
      return;
    }
    default:
      return;
  }
}

function kindOf(expression: Expression, lookUp: LookUp): Kind {
  switch (expression.kind) {
    case 'measure':
      return expression.unit;
    case 'name':
      return expression.reference.kind === 'own' ? lookUp(expression.reference.name) : 'length';
    case 'negative':
      return kindOf(expression.of, lookUp);
    case 'product':
    case 'quotient': {
      const sign = expression.kind === 'product' ? 1 : -1;
      const power = powerOf(expression.left, lookUp) + sign * powerOf(expression.right, lookUp);
      return power === 2 ? 'area' : power === 1 ? 'length' : 'number';
    }
    case 'faulty':
      return 'length';
    default: {
      const operands = operandsOf(expression).map((it) => kindOf(it, lookUp));
      return operands.find((it) => it !== 'bare') ?? 'bare';
    }
  }
}

function powerOf(expression: Expression, lookUp: LookUp): number {
  const kind = kindOf(expression, lookUp);
  return kind === 'area' ? 2 : kind === 'length' ? 1 : 0;
}

/** The names of `lengths`, `numbers` and `levels` that an amount leans on. */
export function namesIn(expression: Expression): readonly string[] {
  if (expression.kind === 'name')
    return expression.reference.kind === 'own' ? [expression.reference.name] : [];
  return operandsOf(expression).flatMap(namesIn);
}
