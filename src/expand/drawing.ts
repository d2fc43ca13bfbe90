import { compare, minus, sum, toFraction, zero } from '../measure/index.ts';
import {
  type AlongSpec,
  type ArchSpec,
  atSpan,
  type Corner,
  type CutSpec,
  type CutsSpec,
  type Drawn,
  diagnose,
  type Expression,
  type Length,
  type LevelSide,
  type MarkSpec,
  type Outline,
  type OutlineFacet,
  type OutlineFault,
  type OutlineSpec,
  type Placed,
  type Point,
  type PointSpec,
  type RepeatSpec,
  type ShapeSpec,
  type Span,
  type StepSpec,
  type WallInFlat,
  type Written,
} from '../model/index.ts';
import {
  type AlongEdge,
  type ArchSize,
  arched,
  boxOf,
  type Cut,
  circle,
  halfRound,
  heldBy,
  largerAllRound,
  type Mark,
  mirrored,
  onDatum,
  type PathStep,
  path,
  polygon,
  quarterRound,
  type Repeat,
  rectangle,
  showIn,
  slot,
  smallerAllRound,
  through,
  turned,
  wholeLess,
  wholeOfHalf,
  withCuts,
  withMarks,
} from '../outline/index.ts';
import { lengthOf, wholeOf } from './evaluate.ts';
import { tellFoldsCut } from './foldsCut.ts';
import { theOne, unknown } from './meaning.ts';
import type { Definition } from './sight.ts';
import { fileScope, placeOf, type Scope, type Workings } from './workings.ts';

/** Works out what is written of outlines, and has them drawn; what can't be drawn is told where it is written. */

/** An outline on its datum; undefined where one of its sums or its drawing is faulty, which is told once. */
export function outlineDrawn(spec: OutlineSpec, scope: Scope, workings: Workings): Outline | undefined {
  const { at } = spec.written;
  return workings.once(scope.tile ?? spec, `outline ${placeOf(at)}`, 'an outline', at, () =>
    drawnAnew(spec, scope, workings),
  );
}

function drawnAnew(spec: OutlineSpec, scope: Scope, workings: Workings): Outline | undefined {
  const shape = told(shapeDrawn(spec.shape, scope, workings), spec.written, workings);
  const grown = shape && allRound(shape, spec, scope, workings);
  if (grown === undefined) return undefined;
  const way = spec.turned === undefined ? grown : turned(grown, spec.turned.value);
  return onDatum(spec.mirrored?.value === true ? mirrored(way) : way);
}

/** A master by its name, as the file sees it in which the name is written. */
export function masterCalled(name: Placed<string>, workings: Workings): Definition<OutlineSpec> | undefined {
  const { masters } = workings.sights.from(workings.sights.fileOf(name.at));
  const found = masters.get(name.value);
  if (found !== undefined) return theOne(found, atSpan(name.at), () => 'a master', workings.faults);
  const { facts, beside } = unknown(name.value, atSpan(name.at), [...masters.keys()]);
  workings.faults.report(diagnose('E74', atSpan(name.at), facts, beside));
  return undefined;
}

/** A master leans on no tile. */
export function masterDrawn(master: Definition<OutlineSpec>, workings: Workings): Outline | undefined {
  const { name, at, value } = master;
  return workings.once(value, 'master', `master ${name}`, at, () => drawnAnew(value, fileScope, workings));
}

/** The master that an outline is traced from, and whether it is turned over for it. */
export function tracedFrom(
  spec: OutlineSpec,
): { readonly master: string; readonly isMirrored: boolean } | undefined {
  const { shape, larger, smaller } = spec;
  if (shape.kind !== 'master' || larger !== undefined || smaller !== undefined) return undefined;
  return { master: shape.name.value, isMirrored: spec.mirrored?.value === true };
}

/** The masters that an outline is drawn with and not traced from: cut away from it, one half of it, made larger. */
export function drawnWith(spec: OutlineSpec): readonly string[] {
  return tracedFrom(spec) === undefined ? mastersIn(spec) : [];
}

function mastersIn({ shape }: OutlineSpec): readonly string[] {
  switch (shape.kind) {
    case 'master':
      return [shape.name.value];
    case 'half':
      return mastersIn(shape.of);
    case 'whole':
      return [...new Set([...mastersIn(shape.whole), ...mastersIn(shape.away)])];
    default:
      return [];
  }
}

function allRound(shape: Outline, spec: OutlineSpec, scope: Scope, workings: Workings): Outline | undefined {
  const { larger, smaller } = spec;
  const by = larger ?? smaller;
  if (by === undefined) return shape;
  const much = lengthOf(by, 'above zero', scope, workings);
  if (much === undefined) return undefined;
  const make = larger === undefined ? smallerAllRound : largerAllRound;
  return told(make(shape, much), spec.written, workings);
}

/** Undefined where a sum in it is faulty. */
function shapeDrawn(shape: ShapeSpec, scope: Scope, workings: Workings): Drawn | undefined {
  const length = (it: Expression): Length | undefined => lengthOf(it, 'any', scope, workings);
  const points = (all: readonly PointSpec[]) => pointsOf(all, scope, workings);
  switch (shape.kind) {
    case 'rectangle':
    case 'slot': {
      const [long, wide] = [length(shape.length), length(shape.width)];
      if (long === undefined || wide === undefined) return undefined;
      return shape.kind === 'slot' ? slot(long, wide) : rectangle(long, wide);
    }
    case 'circle':
    case 'half round':
    case 'quarter round': {
      const size = length(shape.size);
      return size && { circle, 'half round': halfRound, 'quarter round': quarterRound }[shape.kind](size);
    }
    case 'arched': {
      const arch = archOf(shape.arch, scope, workings);
      return arch && arched(arch.size, arch.sides);
    }
    case 'polygon': {
      const all = points(shape.points);
      return all && polygon(all);
    }
    case 'path': {
      const start = pointOf(shape.start, scope, workings);
      const steps = allOf(shape.steps.map((it) => stepOf(it, scope, workings)));
      return start && steps && path(start, steps);
    }
    case 'through': {
      const all = points(shape.points);
      return all && through(all, shape.ends);
    }
    case 'half': {
      const half = outlineDrawn(shape.of, scope, workings);
      return half && wholeOfHalf(half);
    }
    case 'whole': {
      const whole = outlineDrawn(shape.whole, scope, workings);
      const away = outlineDrawn(shape.away, scope, workings);
      const at = shape.at && pointOf(shape.at, scope, workings);
      const clearance = shape.clearance && lengthOf(shape.clearance, 'zero', scope, workings);
      const isFaulty =
        (shape.at !== undefined && at === undefined) ||
        (shape.clearance !== undefined && clearance === undefined);
      if (whole === undefined || away === undefined || isFaulty) return undefined;
      return wholeLess(whole, away, at, clearance ?? zero);
    }
    case 'master': {
      const master = masterCalled(shape.name, workings);
      const outline = master && masterDrawn(master, workings);
      return outline && { value: outline, faults: [] };
    }
  }
}

/** The cuts of a part, and its marks. What can't be cut is told; the rest is there. */
export function withCutsAndMarks(
  plain: Outline,
  cuts: CutsSpec | undefined,
  marks: readonly MarkSpec[],
  scope: Scope,
  workings: Workings,
  folded: FoldedBlank | undefined = undefined,
): Outline | undefined {
  const walls: WallsInFlat = folded?.walls ?? new Map();
  const asked = allOf((cuts?.cuts ?? []).map((it) => cutOf(it, walls, scope, workings)));
  const drawn = allOf(marks.map((it) => markOf(it, walls, scope, workings)));
  if (asked === undefined || drawn === undefined) return undefined;
  const marked = (outline: Outline): Outline | undefined =>
    areOnPart(outline, marks, drawn, workings) ? withMarks(outline, drawn) : undefined;
  if (cuts === undefined) return marked(plain);
  const made = withCuts(plain, asked);
  // A facet of a cut begins with the key of the part, which is not a part of what is written there.
  const inList = made.faults.map((it) => ({ ...it, facet: it.facet.slice(1) }));
  const cut = told({ ...made, faults: inList }, cuts.written, workings);
  const isWhole = made.faults.every(({ code }) => code === 'T19');
  if (cut !== undefined && folded !== undefined && made.faults.length === 0) {
    const { thickness, mayBeCut = false } = folded;
    tellFoldsCut({ plain, asked, cut, spec: cuts, thickness, walls, mayBeCut }, workings);
  }
  return cut && isWhole ? marked(cut) : undefined;
}

/** Tells of each point of a mark that lies beyond the box of its part. */
function areOnPart(
  outline: Outline,
  specs: readonly MarkSpec[],
  marks: readonly Mark[],
  { faults, sights }: Workings,
): boolean {
  const { left, right, bottom, top } = heldBy(boxOf(outline));
  const isOff = ({ x, y }: Point): boolean =>
    compare(x, left) < 0 || compare(x, right) > 0 || compare(y, bottom) < 0 || compare(y, top) > 0;
  let areOn = true;
  const look = (mark: 'cross' | 'line', at: Point, spec: PointSpec): void => {
    if (!isOff(at)) return;
    areOn = false;
    const show = showIn(sights.fileOf(spec.at).units ?? 'mm');
    const part = `${show(minus(right, left), 'near')} long and ${show(minus(top, bottom), 'near')} wide`;
    const where = `${show(at.x, 'near')} along and ${show(at.y, 'near')} up`;
    faults.report(diagnose('T40', atSpan(spec.at), { mark, at: where, part }));
  };
  for (const [index, mark] of marks.entries()) {
    const spec = specs[index];
    if (mark.kind === 'cross' && spec?.kind === 'cross') look('cross', mark.at, spec.at);
    if (mark.kind === 'line' && spec?.kind === 'line') {
      look('line', mark.from, spec.from);
      look('line', mark.to, spec.to);
    }
  }
  return areOn;
}

/** Walls that a strip is folded to, as they lie in its blank. */
export type WallsInFlat = ReadonlyMap<LevelSide, WallInFlat>;

/** What is folded: how thick it is, and its walls where it goes round a room. */
export interface FoldedBlank {
  readonly thickness: Length;
  readonly walls?: WallsInFlat;
  /** Somebody meant what is cut out of its folds. */
  readonly mayBeCut?: boolean;
}

function cutOf(cut: CutSpec, walls: WallsInFlat, scope: Scope, workings: Workings): Cut | undefined {
  const on = 'on' in cut && cut.on !== undefined ? wallOf(cut.on, walls, workings) : undefined;
  if (on === 'faulty') return undefined;
  const length = (it: Expression): Length | undefined => lengthOf(it, 'any', scope, workings);
  switch (cut.kind) {
    case 'round':
    case 'clip': {
      if ('kind' in cut.corners) {
        const all = length(cut.corners);
        return all && { kind: cut.kind, corners: all };
      }
      const each = allOf(
        cut.corners.map(({ corner, size }) => {
          const worth = length(size);
          return worth && ([corner, worth] as const);
        }),
      );
      return each && { kind: cut.kind, corners: new Map<Corner, Length>(each) };
    }
    case 'notch': {
      const [along, deep] = [length(cut.along), length(cut.deep)];
      const place = alongOf(cut.place, scope, workings);
      const repeat = repeatOf(cut.repeat, scope, workings);
      if (along === undefined || deep === undefined || place === 'faulty' || repeat === 'faulty')
        return undefined;
      return { kind: 'notch', size: [along, deep], edge: cut.edge, along: place, repeat, on };
    }
    case 'arch': {
      const arch = archOf(cut.arch, scope, workings);
      const place = alongOf(cut.place, scope, workings);
      const repeat = repeatOf(cut.repeat, scope, workings);
      if (arch === undefined || place === 'faulty' || repeat === 'faulty') return undefined;
      return { kind: 'arch', ...arch, edge: cut.edge, along: place, repeat, on };
    }
    case 'hole': {
      const outline = outlineDrawn(cut.outline, scope, workings);
      const repeat = repeatOf(cut.repeat, scope, workings);
      if (outline === undefined || repeat === 'faulty') return undefined;
      if ('centre' in cut.place) {
        const centre = pointOf(cut.place.centre, scope, workings);
        return centre && { kind: 'hole', outline, place: { centre }, repeat, on };
      }
      const along = alongOf(cut.place.along, scope, workings);
      const up = alongOf(cut.place.up, scope, workings);
      if (along === 'faulty' || up === 'faulty') return undefined;
      return { kind: 'hole', outline, place: { along, up }, repeat, on };
    }
  }
}

function wallOf(
  { value, at }: Placed<LevelSide>,
  walls: WallsInFlat,
  { faults }: Workings,
): WallInFlat | 'faulty' {
  const wall = walls.get(value);
  if (wall !== undefined) return wall;
  faults.report(diagnose('T42', atSpan(at), { side: value, walls: [...walls.keys()] }));
  return 'faulty';
}

function alongOf(
  place: AlongSpec | undefined,
  scope: Scope,
  workings: Workings,
): AlongEdge | undefined | 'faulty' {
  if (place === undefined) return undefined;
  const clear = lengthOf(place.clear, 'zero', scope, workings);
  return clear === undefined ? 'faulty' : { end: place.end, clear };
}

function repeatOf(
  repeat: RepeatSpec | undefined,
  scope: Scope,
  workings: Workings,
): Repeat | undefined | 'faulty' {
  if (repeat === undefined) return undefined;
  const times = wholeOf(repeat.times, { least: 1, what: 'cuts' }, scope, workings);
  const size = lengthOf(repeat.size, 'above zero', scope, workings);
  if (times === undefined || size === undefined) return 'faulty';
  if (times > mostRepeats) {
    const facts = { what: 'cuts', comesTo: `${times}`, least: '1', most: `${mostRepeats}` };
    workings.faults.report(diagnose('E15', atSpan(repeat.times.at), facts));
    return 'faulty';
  }
  return repeat.by === 'every' ? { times, every: size } : { times, apart: size };
}

/** More than anybody cuts by hand, and few enough to be drawn without a wait. */
const mostRepeats = 1000;

function markOf(mark: MarkSpec, walls: WallsInFlat, scope: Scope, workings: Workings): Mark | undefined {
  const on = mark.on === undefined ? undefined : wallOf(mark.on, walls, workings);
  if (on === 'faulty') return undefined;
  const placed = (spec: PointSpec): Point | undefined => {
    const at = pointOf(spec, scope, workings);
    return at && on ? onFlat(mark.kind, at, on, spec, workings) : at;
  };
  switch (mark.kind) {
    case 'centre line':
      return { kind: 'centre line', runs: mark.runs, on };
    case 'line': {
      const [from, to] = [placed(mark.from), placed(mark.to)];
      return from && to && { kind: 'line', from, to };
    }
    case 'cross': {
      const at = placed(mark.at);
      return at && { kind: 'cross', at };
    }
  }
}

/**
 * A point of a wall as it lies in the blank; undefined where the wall is not flat there.
 *
 * @errors T43
 */
function onFlat(
  cut: string,
  { x, y }: Point,
  { name, low, from, to }: WallInFlat,
  { at }: PointSpec,
  { faults, sights }: Workings,
): Point | undefined {
  const there = sum(low, x);
  if (compare(there, from) >= 0 && compare(there, to) <= 0) return { x: there, y };
  const show = showIn(sights.fileOf(at).units ?? 'mm');
  const has = `${show(minus(from, low), 'near')} to ${show(minus(to, low), 'near')}`;
  faults.report(diagnose('T43', atSpan(at), { cut, wall: name, takes: undefined, at: show(x, 'near'), has }));
  return undefined;
}

function archOf(
  { width, rise, radius, sides }: ArchSpec,
  scope: Scope,
  workings: Workings,
): { readonly size: ArchSize; readonly sides: Length } | undefined {
  const worth = (it: Expression | undefined): Length | undefined =>
    it && lengthOf(it, 'any', scope, workings);
  const upright = lengthOf(sides, 'zero', scope, workings);
  const [wide, high, round] = [worth(width), worth(rise), worth(radius)];
  if (upright === undefined) return undefined;
  if (wide !== undefined && high !== undefined) return { size: { width: wide, rise: high }, sides: upright };
  if (wide !== undefined && round !== undefined)
    return { size: { width: wide, radius: round }, sides: upright };
  if (high !== undefined && round !== undefined)
    return { size: { rise: high, radius: round }, sides: upright };
  return undefined;
}

function stepOf(step: StepSpec, scope: Scope, workings: Workings): PathStep | undefined {
  if (step.kind === 'curve') {
    const all = pointsOf(step.through, scope, workings);
    return all && { kind: 'curve', through: all };
  }
  const to = pointOf(step.to, scope, workings);
  if (to === undefined || step.kind === 'line') return to && { kind: 'line', to };
  const size = lengthOf(step.size, 'any', scope, workings);
  if (size === undefined) return undefined;
  const { swells } = step;
  return step.by === 'rise'
    ? { kind: 'arc', to, rise: size, swells }
    : { kind: 'arc', to, radius: size, swells };
}

function pointOf({ x, y }: PointSpec, scope: Scope, workings: Workings): Point | undefined {
  const [along, up] = [x, y].map((it) => lengthOf(it, 'any', scope, workings));
  return along && up && { x: along, y: up };
}

function pointsOf(all: readonly PointSpec[], scope: Scope, workings: Workings): readonly Point[] | undefined {
  return allOf(all.map((it) => pointOf(it, scope, workings)));
}

function allOf<T>(all: readonly (T | undefined)[]): readonly T[] | undefined {
  const whole = all.filter((it) => it !== undefined);
  return whole.length < all.length ? undefined : whole;
}

function told(drawn: Drawn | undefined, written: Written, workings: Workings): Outline | undefined {
  faultsTold(drawn?.faults ?? [], written, workings);
  return drawn?.value;
}

/** Tells what is wrong with a drawing where its description says it. */
export function faultsTold(
  all: readonly OutlineFault[],
  written: Written,
  { faults, sights }: Workings,
): void {
  for (const it of all) {
    const at = spanOf(written, it.facet);
    const show = showIn(sights.fileOf(at).units ?? 'mm');
    faults.report(diagnosed(it, at, show));
  }
}

function diagnosed(it: OutlineFault, at: Span, show: ReturnType<typeof showIn>): ReturnType<typeof diagnose> {
  // A fault's facts are those of its own code; the compiler can't follow one code through both.
  return diagnose(it.code, atSpan(at), it.facts(show) as Parameters<typeof diagnose<typeof it.code>>[2]);
}

/** As far as a facet leads: what has no place of its own is told at what holds it. */
export function spanOf(written: Written, facet: OutlineFacet): Span {
  let here = written;
  for (const step of facet) {
    const next = typeof step === 'number' ? here.items[step] : here.keys.get(step);
    if (next === undefined) break;
    here = next;
  }
  return here.at;
}

/** To tell whether a number is one that somebody may have written. */
export function isShort(length: Length): boolean {
  return toFraction(length).length < 24;
}
