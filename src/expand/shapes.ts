import {
  compare,
  minus,
  oneInch,
  oneMm,
  rational,
  roundToStep,
  scaled,
  showExact,
  toFraction,
  zero,
} from '../measure/index.ts';
import {
  atSpan,
  type DrawnFolds,
  type DrawnPart,
  type DrawnSide,
  diagnose,
  type Length,
  type Outline,
  type OutlineSpec,
  type PartSpec,
  type Rest,
} from '../model/index.ts';
import { boxOf, mirrored, outlineKey, rectangle } from '../outline/index.ts';
import { boreOfOtherHand } from './bores.ts';
import {
  drawnWith,
  type FoldedBlank,
  isShort,
  outlineDrawn,
  tracedFrom,
  type WallsInFlat,
  withCutsAndMarks,
} from './drawing.ts';
import { lengthOf } from './evaluate.ts';
import type { Scope, Workings } from './workings.ts';

/** The net size of a part, and what it looks like where that is more than the rectangle of it. */
export interface PartShape {
  readonly length: Length | Rest;
  readonly width: Length | Rest;
  /** Undefined for a rectangle that is cut to its size. */
  readonly drawn: Drawing | undefined;
  /** Where only the build knows its size, what it looks like in that; undefined also where that can't be drawn. */
  readonly drawnLater?: DrawnLater;
}

type Drawing = Omit<DrawnPart, 'net'>;

export type DrawnLater = (net: NetToDraw) => Drawing | undefined;

export interface NetToDraw extends Pick<NetSize, 'length' | 'width'> {
  /** Present where it is folded round a room. */
  readonly strip?: StripToDraw;
}

/** A strip without its cuts, as wide as it stands high. */
export interface StripToDraw {
  readonly blank: Outline;
  readonly thickness: Length;
  readonly walls: WallsInFlat;
}

export interface NetSize {
  readonly length: Length;
  readonly width: Length;
  readonly roundedTo: Length | undefined;
}

/**
 * What a part says of its size and shape; undefined where it says neither.
 *
 * @errors E75 a size that is not that of the outline, S33 an outline of its own in a size that only the build knows
 */
export function partShape(
  spec: PartSpec,
  scope: Scope,
  workings: Workings,
): PartShape | undefined | 'faulty' {
  const leave = leaveOf(spec, scope, workings);
  const size = sizeAsWritten(spec, scope, workings);
  const sides = size ?? outlineSize(spec, scope, workings);
  if (leave === 'faulty' || size === 'faulty' || sides === 'faulty' || sides === undefined) {
    return sides === undefined && spec.outline === undefined ? undefined : 'faulty';
  }
  const { length, width } = sides;
  const { outline, cuts, marks } = spec;
  const isPlain = outline === undefined && cuts === undefined && marks === undefined;
  const net = size === undefined ? outlineSize(spec, scope, workings) : undefined;
  const roundedTo = net === undefined || net === 'faulty' ? undefined : net.roundedTo;
  if (isPlain) {
    const drawn = { outline: undefined, master: undefined, isMirrored: false, leave, roundedTo };
    return { length, width, drawn: leave === undefined ? undefined : drawn };
  }
  if ('kind' in length || 'kind' in width) {
    if (outline === undefined) {
      const drawnLater = onceForEach((net) => {
        const { strip } = net;
        const board = strip?.blank ?? rectangle(net.length, net.width).value;
        const how = { spec, leave, roundedTo, folded: strip };
        return board && drawnFrom(board, how, scope, workings)?.drawn;
      });
      return { length, width, drawn: undefined, drawnLater };
    }
    workings.faults.report(diagnose('S33', atSpan(outline.written.at), { what: 'outline beside rest' }));
    return 'faulty';
  }
  const plain =
    outline === undefined ? rectangle(length, width).value : outlineDrawn(outline, scope, workings);
  if (plain === undefined || !agrees(spec, plain, size, workings)) return 'faulty';
  const made = drawnFrom(plain, { spec, leave, roundedTo }, scope, workings);
  return made === undefined ? 'faulty' : { length, width, drawn: made.drawn };
}

interface HowDrawn extends Pick<Drawing, 'leave' | 'roundedTo'> {
  readonly spec: PartSpec;
  readonly folded?: FoldedBlank | undefined;
}

/** With its cuts and marks; `drawn` is undefined for a rectangle that is its blank. */
export function drawnFrom(
  plain: Outline,
  { spec, leave, roundedTo, folded }: HowDrawn,
  scope: Scope,
  workings: Workings,
): { readonly drawn: Drawing | undefined } | undefined {
  const { outline, cuts, marks, accepted } = spec;
  const mayBeCut = accepted?.some(({ name }) => name === 'folds cut') ?? false;
  const blank = folded && { ...folded, mayBeCut };
  const whole = withCutsAndMarks(plain, cuts, marks ?? [], scope, workings, blank);
  if (whole === undefined) return undefined;
  const traced = outline && tracedFrom(outline);
  const isItsBlank =
    traced === undefined && leave === undefined && whole.marks.length + whole.holes.length === 0;
  if (isItsBlank && isRectangular(whole)) return { drawn: undefined };
  const isMirrored = spec.mirrored?.value ?? false;
  const masters = outline === undefined ? [] : drawnWith(outline);
  const drawn = {
    outline: theOneLike(isMirrored ? mirrored(whole) : whole, workings),
    master: traced?.master,
    ...(masters.length === 0 ? {} : { drawnWith: masters }),
    isMirrored: isMirrored !== (traced?.isMirrored ?? false),
    leave,
    roundedTo,
  };
  return { drawn };
}

/** Many parts have one outline: what is found out of it later, such as its straight edges, is found out once. */
function theOneLike(outline: Outline, { outlines }: Workings): Outline {
  const { left, bottom } = boxOf(outline);
  const key = [outlineKey(outline), ...[left.lo, bottom.lo, outline.within].map(toFraction)].join('\n');
  const known = outlines.get(key) ?? outline;
  outlines.set(key, known);
  return known;
}

/** A part stands more than once, and what is wrong with its cuts is told once. */
export function onceForEach(draw: DrawnLater): DrawnLater {
  const known = new Map<string, Drawing | undefined>();
  return (net) => {
    const walls = [...(net.strip?.walls ?? [])].map(([side, { low }]) => `${side} ${toFraction(low)}`);
    const key = [toFraction(net.length), toFraction(net.width), ...walls].join(' ');
    if (!known.has(key)) known.set(key, draw(net));
    return known.get(key);
  };
}

/** True where its rim is an upright rectangle, whatever is cut out within. */
export function isRectangular({ rim }: Outline): boolean {
  return (
    rim.length === 4 &&
    rim.every(
      ({ kind, from, to }) => kind === 'line' && (compare(from.x, to.x) === 0 || compare(from.y, to.y) === 0),
    )
  );
}

/** True where one side of the box round an outline is an edge of it, from corner to corner. */
export function isWholeSide(outline: Outline, side: DrawnSide): boolean {
  const { left, right, bottom, top } = boxOf(outline);
  const isLevel = side === 'bottom' || side === 'top';
  const [across, along] = isLevel ? (['y', 'x'] as const) : (['x', 'y'] as const);
  const place = { left, right, bottom, top }[side];
  const [low, high] = isLevel ? [left, right] : [bottom, top];
  return outline.rim.some((it) => {
    if (it.kind !== 'line' || compare(it.from[across], it.to[across]) !== 0) return false;
    const [one, two] = [it.from[along], it.to[along]];
    const [from, to] = compare(one, two) < 0 ? [one, two] : [two, one];
    return (
      compare(it.from[across], place.lo) === 0 && compare(from, low.lo) === 0 && compare(to, high.hi) === 0
    );
  });
}

/** The box of an outline, rounded outward to a step where it has no rational size, or none that a rule could have. */
export function netSizeOf(outline: Outline, spec: OutlineSpec, { sights }: Workings): NetSize {
  const { left, right, bottom, top } = boxOf(outline);
  const inner = { length: minus(right.lo, left.hi), width: minus(top.lo, bottom.hi) };
  const outer = { length: minus(right.hi, left.lo), width: minus(top.hi, bottom.lo) };
  const isExactly = (size: 'length' | 'width') =>
    compare(inner[size], outer[size]) === 0 && (outline.within.numerator === 0n || isShort(outer[size]));
  if (isExactly('length') && isExactly('width')) return { ...outer, roundedTo: undefined };
  const { units } = sights.fileOf(spec.written.at);
  const step: Length = units === 'in' ? scaled(oneInch, rational(1n, 64n)) : scaled(oneMm, rational(1n, 10n));
  const upTo = (size: 'length' | 'width') =>
    isExactly(size) ? outer[size] : roundToStep(outer[size], step, 'up');
  return { length: upTo('length'), width: upTo('width'), roundedTo: step };
}

function outlineSize(spec: PartSpec, scope: Scope, workings: Workings): NetSize | undefined | 'faulty' {
  if (spec.outline === undefined) return undefined;
  const outline = outlineDrawn(spec.outline, scope, workings);
  return outline === undefined ? 'faulty' : netSizeOf(outline, spec.outline, workings);
}

type Written = Pick<PartShape, 'length' | 'width'>;

function sizeAsWritten(spec: PartSpec, scope: Scope, workings: Workings): Written | undefined | 'faulty' {
  if (spec.size === undefined) return undefined;
  const [length, width] = [spec.size.length, spec.size.width].map((size) =>
    size.kind === 'rest' ? size : lengthOf(size, 'above zero', scope, workings),
  );
  return length === undefined || width === undefined ? 'faulty' : { length, width };
}

/** A size beside an outline says the same thing twice, so it has to be the outline's own. */
function agrees(
  { size, outline: spec }: PartSpec,
  outline: Outline,
  said: Written | undefined,
  workings: Workings,
): boolean {
  if (size === undefined || spec === undefined || said === undefined) return true;
  const net = netSizeOf(outline, spec, workings);
  const wrong = (['length', 'width'] as const).filter((it) => {
    const stated = said[it];
    return 'kind' in stated || compare(stated, net[it]) !== 0;
  });
  const [first] = wrong;
  if (first === undefined) return true;
  const units = workings.sights.fileOf(size.at).units ?? 'mm';
  const facts = { box: [net.length, net.width].map((it) => showExact(it, units)).join(', ') };
  const related = [{ place: atSpan(spec.written.at), message: 'the outline' }];
  workings.faults.report(diagnose('E75', atSpan(size.at), facts, { related }));
  return false;
}

export function leaveOf(
  { leave }: PartSpec,
  scope: Scope,
  workings: Workings,
): Readonly<Record<DrawnSide, Length>> | undefined | 'faulty' {
  if (leave === undefined) return undefined;
  const { left, right, bottom, top } = leave;
  const [l, r, b, t] = [left, right, bottom, top].map((it) =>
    it === undefined ? zero : lengthOf(it, 'zero', scope, workings),
  );
  if (l === undefined || r === undefined || b === undefined || t === undefined) return 'faulty';
  const isNone = [l, r, b, t].every((it) => it.numerator === 0n);
  return isNone ? undefined : { left: l, right: r, bottom: b, top: t };
}

/** The other hand of a part: its drawing and what is left on at its sides, swapped left for right. */
export function otherHandOf(drawn: Drawing, length: Length): Drawing {
  const { outline, leave, isMirrored, bores, bevels, rebates } = drawn;
  return {
    ...drawn,
    ...(bevels === undefined ? {} : { bevels: bevels.map(atOtherSide) }),
    ...(rebates === undefined ? {} : { rebates: rebates.map(atOtherSide) }),
    outline: outline && mirrored(outline),
    isMirrored: !isMirrored,
    leave: leave && { ...leave, left: leave.right, right: leave.left },
    ...(drawn.folds === undefined ? {} : { folds: foldsOfOtherHand(drawn.folds) }),
    ...(bores === undefined ? {} : { bores: bores.map((it) => boreOfOtherHand(it, length)) }),
  };
}

/** An edge where it is in a drawing that is swapped left for right. */
export function atOtherSide<E extends { readonly side: DrawnSide }>(edge: E): E {
  return { ...edge, side: leftForRight[edge.side] };
}

const leftForRight: Readonly<Record<DrawnSide, DrawnSide>> = {
  left: 'right',
  right: 'left',
  bottom: 'bottom',
  top: 'top',
};

/** The other hand has its panels in the other order. */
export function foldsOfOtherHand(folds: DrawnFolds): DrawnFolds {
  const { panels, tabs, isTray } = folds;
  if (isTray) return folds;
  return {
    ...folds,
    panels: [...panels].reverse(),
    tabs: tabs.map((it) => panels.length - 1 - it).reverse(),
  };
}
