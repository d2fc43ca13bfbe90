import {
  absolute,
  diagonal,
  equal,
  isZero,
  millimetres,
  minus,
  rational,
  sum,
  zero,
} from '../../measure/index.ts';
import type { ArchSpec, Expression, Length, PointSpec, ShapeSpec, Spec } from '../../model/index.ts';
import { type Affine, less, plus, type SumRule } from './affine.ts';
import type { Base } from './bases.ts';
import { placeOf } from './reach.ts';

/**
 * An arc that is written as half a circle: its chord is twice its rise, or its radius. If its ends and its rise were rounded
 * one by one, it would meet its sides in a kink, or not reach.
 *
 *      ╭───╮ ┬ rise
 *     ╱     ╲│
 *    ├───────┤┴ chord = 2 × rise
 */
export interface HalfCircle {
  /** The number of the base that its rise or radius is, or begins with. */
  readonly base: number;
  /**
   * What sizes have to keep to, so that it stays one, unless it lies aslant; with the first of a path, so that what lies
   * level or upright in that stays so.
   */
  readonly rules: readonly SumRule[];
  readonly chord: readonly [Affine, Affine];
  readonly size: Affine;
}

/** One that is none any more, and how much its chord is longer than twice its rise or radius; below zero: shorter. */
export interface Bent {
  readonly base: number;
  readonly off: Length;
}

/** Where their sizes are written there: a name hands one size to all that take it. */
export function halfCirclesIn(spec: Spec, bases: readonly Base[]): readonly HalfCircle[] {
  const numbers = new Map(bases.map(({ literal }, at) => [placeOf(literal.expression), at]));
  const worth: Worth = (expression) =>
    affineOf(expression, (it) => {
      const base = numbers.get(placeOf(it));
      return base === undefined ? undefined : { base, worth: bases[base]?.worth ?? zero };
    });
  return spec.files.flatMap((file) => found(file, worth));
}

/** Those that are none with these sizes. */
export function bentBy(
  sizes: readonly Length[],
  arcs: readonly HalfCircle[],
  bases: readonly Base[],
): readonly Bent[] {
  const at = ({ now, slopes }: Affine): Length =>
    sum(
      millimetres(now),
      ...[...slopes].map(([base, slope]) => {
        const moved = minus(sizes[base] ?? zero, bases[base]?.worth ?? zero);
        return millimetres(
          rational(slope.numerator * moved.numerator, slope.denominator * moved.denominator),
        );
      }),
    );
  return arcs.flatMap(({ base, chord, size }): readonly Bent[] => {
    const half = at(size);
    const off = minus(chordOf(at(chord[0]), at(chord[1])), sum(half, half));
    return isZero(off) ? [] : [{ base, off }];
  });
}

type Worth = (expression: Expression) => Affine | undefined;

/** To the nanometre where it lies aslant. */
function chordOf(x: Length, y: Length): Length {
  const [along, up] = [absolute(x), absolute(y)];
  if (isZero(along) || isZero(up)) return sum(along, up);
  return diagonal(along, up, nanometre).length;
}

const nanometre = millimetres(rational(1n, 10n ** 6n));

/** In every drawing of a piece of a file. */
function found(piece: unknown, worth: Worth): readonly HalfCircle[] {
  if (typeof piece !== 'object' || piece === null) return [];
  if (Array.isArray(piece)) return piece.flatMap((it) => found(it, worth));
  if (isPath(piece)) return inPath(piece, worth);
  if (isArch(piece)) return inArch(piece, worth);
  return Object.entries(piece).flatMap(([key, it]) => (passedOver.has(key) ? [] : found(it, worth)));
}

/** What lies in a file beside what is written there. */
const passedOver: ReadonlySet<string> = new Set(['at', 'source', 'written', 'uses']);

type PathSpec = Extract<ShapeSpec, { readonly kind: 'path' }>;

function isPath(piece: object): piece is PathSpec {
  return 'kind' in piece && piece.kind === 'path' && 'steps' in piece;
}

function isArch(piece: object): piece is ArchSpec {
  return 'sides' in piece && 'width' in piece && 'rise' in piece && 'radius' in piece;
}

function inPath({ start, steps }: PathSpec, worth: Worth): readonly HalfCircle[] {
  const ends = steps.map((step) => (step.kind === 'curve' ? (step.through.at(-1) ?? start) : step.to));
  const spans = ends.map((to, i) => spanOf(ends[i - 1] ?? start, to, worth));
  const arcs = steps.flatMap((step, i) =>
    step.kind === 'arc' ? halfCircle(spans[i], worth(step.size)) : [],
  );
  // What was level beside an arc is not to slant for its sake.
  const level = [...spans, spanOf(ends.at(-1) ?? start, start, worth)].flatMap((span) =>
    span.filter((it) => it !== undefined && isZero(it.now)).flatMap(noneLeft),
  );
  return arcs.map((arc, i) => (i === 0 ? { ...arc, rules: [...arc.rules, ...level] } : arc));
}

function inArch({ width, rise, radius }: ArchSpec, worth: Worth): readonly HalfCircle[] {
  const size = rise ?? radius;
  return width === undefined || size === undefined ? [] : halfCircle([worth(width), nothing], worth(size));
}

type Span = readonly [Affine | undefined, Affine | undefined];

function spanOf(from: PointSpec, to: PointSpec, worth: Worth): Span {
  const [x, y] = (['x', 'y'] as const).map((axis) => {
    const [start, end] = [worth(from[axis]), worth(to[axis])];
    return start && end && less(end, start);
  });
  return [x, y];
}

function halfCircle([x, y]: Span = [undefined, undefined], size: Affine | undefined): readonly HalfCircle[] {
  const [base] = size?.slopes.keys() ?? [];
  if (x === undefined || y === undefined || size === undefined || base === undefined) return [];
  const [along, up, half] = [x.now, y.now, size.now].map((it) => millimetres(it)) as [Length, Length, Length]; // three of three
  if (!equal(chordOf(along, up), sum(half, half))) return [];
  const long = isZero(up) ? x : y;
  const isAslant = !isZero(along) && !isZero(up);
  const ahead = long.now.numerator < 0n ? less(nothing, long) : long;
  const rules = isAslant ? [] : noneLeft(less(less(ahead, size), size));
  return [{ base, rules, chord: [x, y], size }];
}

/** The sum has to be nothing, neither over nor short. */
function noneLeft(term: Affine | undefined): readonly SumRule[] {
  return term === undefined || term.slopes.size === 0 ? [] : [{ terms: [term], slack: zero }];
}

const nothing: Affine = { now: rational(0n), slopes: new Map() };

type Measure = Extract<Expression, { readonly kind: 'measure' }>;

/** Of sums and differences of what is written there; undefined where a name or anything else stands in it. */
function affineOf(
  expression: Expression,
  baseAt: (measure: Measure) => { readonly base: number; readonly worth: Length } | undefined,
): Affine | undefined {
  const of = (it: Expression) => affineOf(it, baseAt);
  switch (expression.kind) {
    case 'measure': {
      const it = baseAt(expression);
      if (it !== undefined) return { now: it.worth, slopes: new Map([[it.base, rational(1n)]]) };
      return isZero(expression.amount) ? nothing : undefined;
    }
    case 'negative': {
      const inner = of(expression.of);
      return inner && less(nothing, inner);
    }
    case 'sum':
    case 'difference': {
      const [left, right] = [of(expression.left), of(expression.right)];
      if (left === undefined || right === undefined) return undefined;
      return expression.kind === 'sum' ? plus(left, right) : less(left, right);
    }
    default:
      return undefined;
  }
}
