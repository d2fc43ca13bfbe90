import {
  atSpan,
  type CladSpec,
  type DrawnPart,
  type DrawnSide,
  diagnose,
  type Expression,
  type Habit,
  type Length,
  type LetPass,
  type MaterialSpec,
  type Named,
  type Outline,
  type PartSpec,
  type Placed,
  type Rest,
  type Side,
} from '../model/index.ts';
import { tellsHands } from '../outline/index.ts';
import { wholeOf } from './evaluate.ts';
import { fitsOf, type WorkedFits } from './fillers.ts';
import { type Taken, workedTakes } from './fittings.ts';
import { type FoldedBody, foldedShape } from './folds.ts';
import { type Drawing, isHanded, plainRectangle } from './hands.ts';
import type { TileView } from './like.ts';
import { materialCalled, thicknessOfMaterial } from './names.ts';
import { type DrawnLater, isWholeSide, partShape } from './shapes.ts';
import type { Definition } from './sight.ts';
import { stripsApart } from './strips.ts';
import type { Scope, Workings } from './workings.ts';

/** A part of one tile, or a loose one, with every sum worked out. */
export interface WorkedPart {
  readonly name: string;
  /** What its build calls it, where only some of its pieces are cut so. */
  readonly standsAs?: string;
  readonly at: Named<PartSpec>['at'];
  /** What is printed in place of the name. */
  readonly label: string;
  readonly note: string | undefined;
  readonly material: Definition<MaterialSpec>;
  readonly length: Length;
  readonly width: Length;
  readonly grain: Side | 'any';
  readonly flutes: Side | 'any';
  readonly goodSide: boolean;
  /** In one tile; 0 for what is made as often as it fits. */
  readonly count: number;
  /** Present where it is made as often as it fits. */
  readonly fits?: WorkedFits | undefined;
  /** Of these, so many stand with their other side where the good one would look. */
  readonly turnedOver?: number;
  /** Fittings that go with one of it. */
  readonly takes?: readonly Taken[];
  /** Absent for a rectangle that is cut to its size. */
  readonly drawn?: Omit<DrawnPart, 'net'> | undefined;
}

/** What covers the sides of a part: strips of their own, cut and counted beside it. */
export interface Cladding {
  readonly sides: ReadonlyMap<DrawnSide, Definition<MaterialSpec>>;
  /** Over whichever ends of its flutes nothing else covers. */
  readonly exposedFlutes: Definition<MaterialSpec> | undefined;
}

/** A part by itself: what the build decides, its rests, what is upright and how many, is still open. */
export interface OpenPart extends Omit<WorkedPart, 'length' | 'width' | 'grain' | 'flutes' | 'count'> {
  readonly length: Length | Rest;
  readonly width: Length | Rest;
  readonly grain: Placed<Side | 'any' | 'upright'> | undefined;
  readonly flutes: Placed<Side | 'any' | 'upright'> | undefined;
  readonly count: Placed<number> | undefined;
  readonly byEye: number | undefined;
  readonly lies: boolean;
  readonly isFloor: boolean;
  /** Its other hand is a part of its own, and is never cut by flipping this one. */
  readonly isHanded: boolean;
  /** What it looks like in a size that the build decides. */
  readonly drawnLater: DrawnLater | undefined;
  readonly accepted: readonly Habit[];
  /** Where each of them is written. */
  readonly lets: readonly LetPass[];
  readonly clad: Cladding | undefined;
  /** What it is folded up to; absent: it stays flat. */
  readonly body?: FoldedBody | undefined;
}

/**
 * Works out a part that stands in no build, and its strips; nothing where it can't be cut as it is written.
 *
 * @param known  names of other parts, which no strip may have
 */
export function workedParts(
  asked: Named<PartSpec>,
  tile: TileView | undefined,
  known: readonly string[],
  workings: Workings,
): readonly WorkedPart[] {
  const part = openPart(asked, tile, workings);
  return part === undefined ? [] : closedParts(part, known, workings);
}

/** A part of which nothing is left open, and the strips over its sides. What a build decides is told. */
export function closedParts(
  part: OpenPart,
  known: readonly string[],
  workings: Workings,
): readonly WorkedPart[] {
  const count = part.fits === undefined ? (part.byEye ?? part.count?.value ?? 1) : 0;
  const closed = closedPart(part, count, workings);
  return closed === undefined ? [] : [closed, ...stripsApart(closed, part, known, workings)];
}

function closedPart(part: OpenPart, count: number, { faults }: Workings): WorkedPart | undefined {
  const { length, width, grain, flutes } = part;
  for (const size of ['length', 'width'] as const) {
    const given = part[size];
    if (isRest(given)) faults.report(diagnose('E64', atSpan(given.at), { part: part.name, size }));
  }
  for (const what of ['grain', 'flutes'] as const) {
    const rule = part[what];
    if (rule?.value !== 'upright') continue;
    faults.report(diagnose('E61', atSpan(rule.at), { part: part.name, what, why: 'no build' }));
  }
  if (isRest(length) || isRest(width) || grain?.value === 'upright' || flutes?.value === 'upright') {
    return undefined;
  }
  return { ...part, length, width, grain: grain?.value ?? 'any', flutes: flutes?.value ?? 'any', count };
}

export function isRest(size: Length | Rest): size is Rest {
  return 'kind' in size;
}

/**
 * Works out what a part says of itself; undefined where it can't be cut as it is written.
 *
 * @errors E25 no material, E26 no size, E27 minds the grain or flutes of a material without, and what its
 *         sums and its `like` say
 */
export function openPart(
  asked: Named<PartSpec>,
  tile: TileView | undefined,
  workings: Workings,
): OpenPart | undefined {
  const { name, at, value: spec, isWhole } = workings.likes.part(tile, asked);
  const scope = { tile };
  const { faults } = workings;
  if (isWhole && spec.of === undefined) faults.report(diagnose('E25', atSpan(at), { part: name }));
  if (isWhole && [spec.size, spec.outline, spec.folds].every((it) => it === undefined))
    faults.report(diagnose('E26', atSpan(at), { part: name }));

  const material = spec.of === undefined ? undefined : materialCalled(spec.of.value, spec.of.at, workings);
  const counted = (count: Expression | undefined): Placed<number> | undefined | 'faulty' => {
    if (count === undefined) return undefined;
    const value = wholeOf(count, { least: 1, what: 'parts' }, scope, workings);
    return value === undefined ? 'faulty' : { value, at: count.at };
  };
  const shape = shapeOf(spec, material, scope, workings);
  const fits = spec.count?.kind === 'as fits' ? fitsOf(name, spec.count, spec, scope, workings) : undefined;
  const count = counted(spec.count?.kind === 'as fits' ? undefined : spec.count);
  const byEye = counted(spec.byEye);
  const takes = workedTakes(spec.takes ?? [], name, scope, workings);
  if (material === undefined) return undefined;
  const heedsWhatIsThere = (['grain', 'flutes'] as const).map((what) =>
    heeds(what, name, spec, material, workings),
  );
  if (shape === undefined || shape === 'faulty' || heedsWhatIsThere.includes(false)) return undefined;
  const { length, width, drawn, drawnLater } = shape;
  const body = 'body' in shape ? shape.body : undefined;
  const runs = alongFolds(name, spec, material, workings);
  if (count === 'faulty' || byEye === 'faulty' || fits === 'faulty') return undefined;
  const clad = spec.clad && claddingOf(name, spec.clad, spec, material, workings);
  if (clad === 'faulty') return undefined;
  const { outline } = drawn ?? {};
  const bent = outline && sidesToClad(spec).find((side) => !isWholeSide(outline, side));
  if (spec.clad !== undefined && bent !== undefined) {
    const what = `clad over its ${bent}, which is cut into or bent`;
    faults.report(diagnose('S33', atSpan(spec.clad.at), { what }));
    return undefined;
  }
  if (spec.clad !== undefined && drawnLater !== undefined) {
    faults.report(diagnose('S33', atSpan(spec.clad.at), { what: 'clad over cuts beside rest' }));
    return undefined;
  }
  // What is said to be the other hand has two sides.
  const isOther = spec.mirrored?.value === true && spec.goodSide === undefined;
  const goodSide = spec.goodSide?.value ?? (isOther || (material.value.goodSide?.value ?? false));
  return {
    name,
    at,
    label: spec.label?.value ?? name,
    note: spec.note?.value,
    material,
    length,
    width,
    ...runs,
    goodSide,
    count,
    fits,
    byEye: byEye?.value,
    lies: spec.lies?.value ?? false,
    isFloor: spec.floor?.value ?? true,
    isHanded: hasTwoHands(drawn?.outline, goodSide),
    ...(takes.length === 0 ? {} : { takes }),
    drawn,
    drawnLater,
    accepted: (spec.accepted ?? []).map((it) => it.name),
    lets: (spec.accepted ?? []).map((it) => ({ part: asked.name, habit: it.name, at: it.at })),
    clad,
    ...(body === undefined ? {} : { body }),
  };
}

/** As it is written, or as it is folded out of a material of that thickness. */
function shapeOf(
  spec: PartSpec,
  material: Definition<MaterialSpec> | undefined,
  scope: Scope,
  workings: Workings,
): ReturnType<typeof partShape> | ReturnType<typeof foldedShape> {
  if (spec.folds === undefined) return partShape(spec, scope, workings);
  const thickness = material && thicknessOfMaterial(material, workings);
  return thickness === undefined ? 'faulty' : foldedShape(spec, spec.folds, thickness, scope, workings);
}

/**
 * Fibres and flutes run along the folds, unless somebody says otherwise; across them is told.
 *
 * @errors T36
 * @source common practice, no source: board bends easily along its flutes and its grain, and cracks across them
 */
function alongFolds(
  part: string,
  { folds, grain, flutes, accepted }: PartSpec,
  { value }: Definition<MaterialSpec>,
  { faults }: Workings,
): Pick<OpenPart, 'grain' | 'flutes'> {
  if (folds?.shape.kind !== 'strip') return { grain, flutes };
  const isAccepted = accepted?.some(({ name }) => name === 'folds across') ?? false;
  for (const [what, rule] of [
    ['grain', grain],
    ['flutes', flutes],
  ] as const) {
    if (rule?.value === 'length' && !isAccepted)
      faults.report(diagnose('T36', atSpan(rule.at), { part, what }));
  }
  const along = { value: 'width', at: folds.at } as const;
  return {
    grain: grain ?? (value.grain?.value === true ? along : undefined),
    flutes: flutes ?? (value.flutes?.value === true ? along : undefined),
  };
}

/** The sides of its drawing that strips are asked for; of flutes, whichever of the two ends may turn out bare. */
function sidesToClad({ clad, flutes }: PartSpec): readonly DrawnSide[] {
  if (clad === undefined) return [];
  const named = clad.sides.map(({ name }) => name);
  if (clad.exposedFlutes === undefined) return named;
  switch (flutes?.value) {
    case 'length':
      return [...named, 'left', 'right'];
    case 'width':
      return [...named, 'bottom', 'top'];
    default:
      return [...named, 'left', 'right', 'bottom', 'top'];
  }
}

/** True where a part's other hand is a part of its own. */
export function hasTwoHands(outline: Outline | undefined, goodSide: boolean): boolean {
  return isHanded(outline === undefined ? plainRectangle : drawingOf(outline), goodSide);
}

/** Looked at only where there is a good side: it is the dear half of the question. */
function drawingOf(outline: Outline): Drawing {
  return {
    get tellsHandsApart() {
      return tellsHands(outline);
    },
  };
}

/** The materials that a part is clad with; `faulty` where one is unknown or no end of a flute can be told. */
function claddingOf(
  part: string,
  { exposedFlutes, sides }: CladSpec,
  spec: PartSpec,
  material: Definition<MaterialSpec>,
  workings: Workings,
): Cladding | 'faulty' {
  const strips = sides.map(
    ({ name, value }) => [name, materialCalled(value.value, value.at, workings)] as const,
  );
  const overFlutes = exposedFlutes && materialCalled(exposedFlutes.value, exposedFlutes.at, workings);
  const known = strips.flatMap(([side, it]) => (it === undefined ? [] : [[side, it] as const]));
  if (known.length < strips.length || (exposedFlutes !== undefined && overFlutes === undefined))
    return 'faulty';
  if (exposedFlutes !== undefined) {
    const hasFlutes = material.value.flutes?.value === true;
    if (!hasFlutes || spec.flutes === undefined || spec.flutes.value === 'any') {
      const why = hasFlutes ? 'any way' : 'no flutes';
      const facts = { part, material: material.name, why } as const;
      workings.faults.report(diagnose('E70', atSpan(exposedFlutes.at), facts));
      return 'faulty';
    }
  }
  return { sides: new Map(known), exposedFlutes: overFlutes };
}

/** False where a part is bound to the grain or flutes of a material that has none. */
function heeds(
  what: 'grain' | 'flutes',
  part: string,
  spec: PartSpec,
  material: Definition<MaterialSpec>,
  { faults }: Workings,
): boolean {
  const rule = spec[what];
  if (rule === undefined || rule.value === 'any' || material.value[what]?.value === true) return true;
  faults.report(
    diagnose(
      'E27',
      atSpan(rule.at),
      { part, material: material.name, what },
      { related: [{ place: atSpan(material.at), message: `the material "${material.name}"` }] },
    ),
  );
  return false;
}
