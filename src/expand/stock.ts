import { compare, isPositive, minus, showExact, sum } from '../measure/index.ts';
import {
  atSpan,
  diagnose,
  didYouMean,
  type Length,
  type Material,
  type MaterialSpec,
  type SheetKind,
  type SheetSpec,
  type Side,
  type Span,
  type SpecFile,
} from '../model/index.ts';
import { lengthOf, wholeOf } from './evaluate.ts';
import { materialCalled, thicknessOfMaterial, thicknessWorkedOut } from './names.ts';
import { namedSize } from './paper.ts';
import { noTrim, type Rules, sides, workedTrim } from './rules.ts';
import type { Definition } from './sight.ts';
import { blockOf } from './slices.ts';
import { fileScope, type Workings } from './workings.ts';

/** A material with its thickness worked out; undefined where that can't be. */
export function workedMaterial(
  definition: Definition<MaterialSpec>,
  workings: Workings,
): Material | undefined {
  const { name, at, value: spec } = definition;
  if (spec.thickness === undefined) {
    workings.faults.report(diagnose('E28', atSpan(at), { material: name }));
    return undefined;
  }
  const nominal = thicknessWorkedOut('thickness', definition, workings);
  const measured = thicknessWorkedOut('measured', definition, workings);
  const thickness = thicknessOfMaterial(definition, workings);
  if (nominal === undefined || thickness === undefined) return undefined;
  return {
    name,
    at,
    thickness,
    nominal,
    measured,
    hasGrain: spec.grain?.value ?? false,
    hasFlutes: spec.flutes?.value ?? false,
  };
}

/** What can be had of each material. */
export interface Stock {
  /** Undefined where a fault leaves open what there is: to lay parts out on the rest would only mislead. */
  of(material: MaterialSpec): readonly SheetKind[] | undefined;
}

/**
 * The sheets and offcuts of every file, offcuts first, since they are used first. All are looked at, wanted
 * tonight or not, so that their faults are told.
 */
export function stockOf(files: readonly SpecFile[], rules: Rules, workings: Workings): Stock {
  const stock = new Map<MaterialSpec, (SheetKind | undefined)[]>();
  let hasUnknown = false;
  for (const kept of ['offcuts', 'sheets'] as const) {
    for (const { name, at, value, inDrawer } of listed(files, kept)) {
      if (inDrawer && isOfOthers(name, at, workings)) continue;
      const material = materialCalled(name, at, workings);
      hasUnknown ||= material === undefined;
      if (material === undefined) continue;
      const origin: Origin = inDrawer ? (kept === 'offcuts' ? 'drawer offcut' : 'drawer sheet') : kept;
      const sheets = value.map((sheet) => workedSheet(sheet, origin, material, rules, workings));
      stock.set(material.value, [...(stock.get(material.value) ?? []), ...sheets]);
    }
  }
  return {
    of: (material) => {
      const found = stock.get(material) ?? [];
      const sound = found.filter((it) => it !== undefined);
      // Sheets under a misspelt name are most likely those that are missed here.
      return sound.length < found.length || (found.length === 0 && hasUnknown) ? undefined : sound;
    },
  };
}

/** Where a sheet is listed. */
type Origin = 'sheets' | 'offcuts' | 'drawer sheet' | 'drawer offcut';

/** What lies in the drawer comes before what could be had. */
function listed(files: readonly SpecFile[], kept: 'offcuts' | 'sheets') {
  const drawers = files.filter(({ kind }) => kind === 'drawer');
  const others = files.filter(({ kind }) => kind !== 'drawer');
  return [...drawers, ...others].flatMap((file) =>
    file[kept].map((it) => ({ ...it, inDrawer: file.kind === 'drawer' })),
  );
}

/** A drawer keeps what is left of all kits: a material that these files don't know is no fault, unless it is a slip. */
function isOfOthers(name: string, at: Span, { sights, faults }: Workings): boolean {
  const { materials } = sights.together;
  if (materials.has(name)) return false;
  const meant = didYouMean(name, [...materials.keys()]);
  if (meant !== '') faults.report(diagnose('E80', atSpan(at), { material: name, meant }));
  return true;
}

function workedSheet(
  spec: SheetSpec,
  origin: Origin,
  material: Definition<MaterialSpec>,
  rules: Rules,
  workings: Workings,
): SheetKind | undefined {
  const isOffcut = origin === 'offcuts' || origin === 'drawer offcut';
  const size = sizeOf(spec, material, workings);
  const grain = runOf('grain', spec, isOffcut, material, workings);
  const flutes = runOf('flutes', spec, isOffcut, material, workings);
  const count = availableOf(spec, origin === 'sheets' ? 'as needed' : 1, workings);
  const sold = packOf(spec, origin, count, workings);
  const block = blockOf(spec, material, rules, workings);
  const trim =
    spec.trim !== undefined ? workedTrim(spec.trim, workings) : isOffcut ? noTrim : rules.trimOf(material);
  if (size === undefined || trim === undefined || sold === undefined || block === 'faulty') return undefined;
  const isSound = [leavesSomething(spec, size, trim, workings), isSquaredUp(spec, trim, workings)];
  if (isSound.includes(false) || grain === undefined || flutes === undefined || count === undefined) {
    return undefined;
  }
  // Layers of a block are sheets, and are bought together as those of a pack are.
  const each = block?.layers ?? 1;
  const pack = origin === 'sheets' ? sold * each : sold;
  return {
    at: spec.at,
    ...size,
    trim,
    grain,
    flutes,
    available: count === 'as needed' ? count : count * each,
    price: spec.price?.value,
    ...(pack === 1 ? {} : { pack }),
    ...(block === undefined ? {} : { block }),
    isOffcut: origin !== 'sheets',
    ...(origin === 'drawer sheet' ? { isUncut: true as const } : {}),
    ...(origin === 'drawer sheet' || origin === 'drawer offcut' ? { inDrawer: true as const } : {}),
    trueEdges: spec.trueEdges?.value ?? true,
    label: spec.label?.value,
    where: spec.where?.value,
    note: spec.note?.value,
  };
}

function sizeOf(
  { at, size }: SheetSpec,
  material: Definition<MaterialSpec>,
  workings: Workings,
): { readonly length: Length; readonly width: Length } | undefined {
  if (size === undefined) {
    workings.faults.report(diagnose('E29', atSpan(at), { material: material.name }));
    return undefined;
  }
  if (size.kind === 'named') return namedSize(size.name);
  const length = lengthOf(size.length, 'above zero', fileScope, workings);
  const width = lengthOf(size.width, 'above zero', fileScope, workings);
  return length === undefined || width === undefined ? undefined : { length, width };
}

/** Which side of the sheet the grain or the flutes follow. */
function runOf(
  what: 'grain' | 'flutes',
  spec: SheetSpec,
  isOffcut: boolean,
  material: Definition<MaterialSpec>,
  { faults }: Workings,
): Side | 'unknown' | 'none' | undefined {
  const stated = spec[what];
  const facts = { material: material.name, what };
  const related = [{ place: atSpan(material.at), message: `the material "${material.name}"` }];
  if (material.value[what]?.value !== true) {
    if (stated === undefined) return 'none';
    faults.report(diagnose('E32', atSpan(stated.at), facts, { related }));
    return undefined;
  }
  if (stated === undefined) {
    faults.report(diagnose('E30', atSpan(spec.at), { ...facts, isOffcut }, { related }));
    return undefined;
  }
  if (stated.value === 'unknown' && !isOffcut) {
    faults.report(diagnose('E31', atSpan(stated.at), { what }));
    return undefined;
  }
  return stated.value;
}

function availableOf(
  { count }: SheetSpec,
  unsaid: 1 | 'as needed',
  workings: Workings,
): number | 'as needed' | undefined {
  if (count === undefined) return unsaid;
  if (count.value === 'as needed') return 'as needed';
  return wholeOf(count.value, { least: 0, what: 'sheets' }, fileScope, workings);
}

/** How many are sold together; of those that could be bought there can only be whole packs. */
function packOf(
  spec: SheetSpec,
  origin: Origin,
  available: number | 'as needed' | undefined,
  workings: Workings,
): number | undefined {
  if (spec.pack === undefined) return 1;
  if (origin === 'offcuts' || origin === 'drawer offcut') {
    workings.faults.report(diagnose('E90', atSpan(spec.pack.at), {}));
    return undefined;
  }
  const pack = wholeOf(spec.pack, { least: 1, what: 'sheets in a pack' }, fileScope, workings);
  const isBought = origin === 'sheets' && typeof available === 'number';
  if (pack === undefined || !isBought || available % pack === 0) return pack;
  workings.faults.report(diagnose('E91', atSpan(spec.pack.at), { pack, count: available }));
  return undefined;
}

function leavesSomething(
  spec: SheetSpec,
  size: { readonly length: Length; readonly width: Length },
  trim: SheetKind['trim'],
  workings: Workings,
): boolean {
  const taken = { length: sum(trim.left, trim.right), width: sum(trim.bottom, trim.top) };
  const units = workings.sights.fileOf(spec.at).units ?? 'mm';
  const eaten = (['length', 'width'] as const).find((side) => !isPositive(minus(size[side], taken[side])));
  if (eaten === undefined) return true;
  workings.faults.report(
    diagnose('E33', atSpan((spec.trim ?? spec.size ?? spec).at), {
      trim: showExact(taken[eaten], units),
      size: showExact(size[eaten], units),
      side: eaten,
    }),
  );
  return false;
}

function isSquaredUp(spec: SheetSpec, trim: SheetKind['trim'], { faults }: Workings): boolean {
  if (spec.trueEdges === undefined || spec.trueEdges.value) return true;
  const untrimmed = sides.filter((side) => compare(trim[side], noTrim[side]) === 0);
  if (untrimmed.length === 0) return true;
  faults.report(diagnose('E34', atSpan(spec.trueEdges.at), { sides: untrimmed }));
  return false;
}
