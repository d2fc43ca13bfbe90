import {
  atSpan,
  diagnose,
  type FoldsSpec,
  type Length,
  type MaterialSpec,
  type PartSpec,
  type Placed,
  type Reference,
  type Span,
} from '../model/index.ts';
import { curvedLengthOf } from '../outline/index.ts';
import { masterCalled, masterDrawn, outlineDrawn } from './drawing.ts';
import { lengthOf, numberOf } from './evaluate.ts';
import { foldedShape } from './folds.ts';
import type { TileView } from './like.ts';
import { reportTwoMeanings, theOne, unknown } from './meaning.ts';
import type { Quantity } from './quantity.ts';
import { netSizeOf } from './shapes.ts';
import type { Amount, Definition, Sight } from './sight.ts';
import { groundOf } from './tileGround.ts';
import { fileScope, type Scope, type Workings } from './workings.ts';

/** What a name in a sum stands for. */
export function quantityOfName(
  reference: Reference,
  at: Span,
  scope: Scope,
  workings: Workings,
): Quantity | undefined {
  switch (reference.kind) {
    case 'own':
      return quantityOfAmount(reference.name, at, scope, workings);
    case 'square':
    case 'tile':
      return groundOf(reference, at, scope, workings);
    case 'size':
      switch (reference.size) {
        case 'thickness':
          return thicknessOf(reference.of.value, reference.of.at, scope, workings);
        case 'developed length':
          return developedLength(reference.of, at, scope, workings);
        case 'length':
        case 'width':
          return sizeOf(reference.size, reference.of.value, reference.of.at, scope, workings);
      }
  }
}

/** A name of the tile's own `lengths` and `numbers`, else of what the file sees. */
function quantityOfAmount(name: string, at: Span, scope: Scope, workings: Workings): Quantity | undefined {
  const { tile } = scope;
  const sight = workings.sights.from(workings.sights.fileOf(at));
  const ofTile = tile === undefined ? [] : amountsOfTile(tile, name);
  const meanings = ofTile.length > 0 ? ofTile : sight.amounts.get(name);
  if (meanings === undefined) {
    const known = knownAmounts(tile, sight, scope.wanted);
    const kind = sight.materials.has(name)
      ? 'material'
      : hasPart(name, tile, sight.parts)
        ? 'part'
        : name === 'rest'
          ? 'rest'
          : undefined;
    const { facts, beside } = unknown(name, atSpan(at), known);
    workings.faults.report(diagnose('E01', atSpan(at), { ...facts, kind }, kind === undefined ? beside : {}));
    return undefined;
  }
  const meaning = theOne(meanings, atSpan(at), ({ section }) => `a name of ${section}`, workings.faults);
  if (meaning === undefined) return undefined;
  return amount(meaning, ofTile.length > 0 ? { tile } : fileScope, workings);
}

/** The names there are, those of the tile before those of its file; numbers first where one is wanted. */
function knownAmounts(
  tile: TileView | undefined,
  { amounts }: Sight,
  wanted: Scope['wanted'],
): readonly string[] {
  const isNumber = (name: string) => amounts.get(name)?.some(({ value }) => value.section === 'numbers');
  const numbers = [...(tile?.numbers.keys() ?? []), ...[...amounts.keys()].filter(isNumber)];
  const all = [...(tile?.lengths.keys() ?? []), ...(tile?.numbers.keys() ?? []), ...amounts.keys()];
  return wanted === 'number' ? [...numbers, ...all] : all;
}

/** Works out one name of `lengths`, `numbers` or `levels`; called for each of them, used or not. */
export function amount(
  { name, at, value: { section, expression }, file }: Definition<Amount>,
  scope: Scope,
  workings: Workings,
): Quantity | undefined {
  return workings.once(scope.tile ?? file, `${section} ${name}`, name, at, () => {
    if (section === 'numbers') {
      const value = numberOf(expression, scope, workings);
      return value === undefined ? undefined : { kind: 'number', value };
    }
    const least = section === 'levels' ? 'zero' : 'any';
    return asLength(lengthOf(expression, least, scope, workings));
  });
}

export function amountsOfTile(tile: TileView, name: string): readonly Definition<Amount>[] {
  return (['lengths', 'numbers'] as const).flatMap((section) => {
    const found = tile[section].get(name);
    if (found === undefined) return [];
    return [{ name, at: found.at, value: { section, expression: found.value }, file: tile.file }];
  });
}

/** `thickness of` a material, or of the material that a part is cut from. */
function thicknessOf(name: string, at: Span, scope: Scope, workings: Workings): Quantity | undefined {
  const sight = workings.sights.from(workings.sights.fileOf(at));
  const materials = sight.materials.get(name) ?? [];
  const parts = partsCalled(name, at, scope, workings);
  if (materials.length > 0 && parts.length > 0) {
    const places = [
      ...materials.map((it) => ({ at: it.at, sort: 'a material' })),
      ...parts.map((it) => ({ at: it.at, sort: 'a part' })),
    ];
    reportTwoMeanings(name, atSpan(at), places, workings.faults);
    return undefined;
  }
  if (materials.length > 0) {
    const material = theOne(materials, atSpan(at), () => 'a material', workings.faults);
    return material === undefined ? undefined : asLength(thicknessOfMaterial(material, workings));
  }
  if (parts.length > 0) {
    const part = theOne(parts, atSpan(at), () => 'a part', workings.faults);
    const of = part === undefined ? undefined : partSpecOf(part, scope, workings).of;
    const material = of === undefined ? undefined : materialCalled(of.value, of.at, workings);
    return material === undefined ? undefined : asLength(thicknessOfMaterial(material, workings));
  }
  reportUnknownOf('material or part', name, at, [...sight.materials.keys()], scope, workings);
  return undefined;
}

/** The material's measured thickness if there is a reading (the session's first), else its nominal one. */
export function thicknessOfMaterial(
  material: Definition<MaterialSpec>,
  workings: Workings,
): ReturnType<typeof lengthOf> {
  const measured = workings.measured.get(material.value) ?? material.value.measured;
  const counting = measured ?? material.value.thickness;
  if (counting === undefined) return undefined;
  return thicknessWorkedOut(counting === measured ? 'measured' : 'thickness', material, workings);
}

/** The least radius that a material is bent to: as the session says of it alone, else as the material itself does. */
export function leastBendOf(
  { value }: Definition<MaterialSpec>,
  workings: Workings,
): ReturnType<typeof lengthOf> {
  const said = workings.leastBends.get(value) ?? value.leastBend;
  return said && lengthOf(said, 'zero', fileScope, workings);
}

/** `which` is the member of the material that is asked for; the two readings are told apart in rings. */
export function thicknessWorkedOut(
  which: 'measured' | 'thickness',
  { name, at, value }: Definition<MaterialSpec>,
  workings: Workings,
): ReturnType<typeof lengthOf> {
  const expression =
    which === 'measured' ? (workings.measured.get(value) ?? value.measured) : value.thickness;
  if (expression === undefined) return undefined;
  const quantity = workings.once(value, which, `thickness of ${name}`, at, () =>
    asLength(lengthOf(expression, 'above zero', fileScope, workings)),
  );
  return quantity === undefined ? undefined : (quantity.value as ReturnType<typeof lengthOf>); // made by asLength
}

/** A material by its name, as the file sees it in which the name is written. */
export function materialCalled(
  name: string,
  at: Span,
  workings: Workings,
): Definition<MaterialSpec> | undefined {
  const { materials } = workings.sights.from(workings.sights.fileOf(at));
  const found = materials.get(name);
  if (found !== undefined) return theOne(found, atSpan(at), () => 'a material', workings.faults);
  const known = [...materials.keys()];
  const { facts, beside } = unknown(name, atSpan(at), known);
  workings.faults.report(diagnose('E05', atSpan(at), facts, beside));
  return undefined;
}

/** Of a part, or of a master. */
function sizeOf(
  size: 'length' | 'width',
  name: string,
  at: Span,
  scope: Scope,
  workings: Workings,
): Quantity | undefined {
  const parts = partsCalled(name, at, scope, workings);
  const sight = workings.sights.from(workings.sights.fileOf(at));
  const masters = sight.masters.get(name) ?? [];
  if (parts.length > 0 && masters.length > 0) {
    const places = [
      ...parts.map((it) => ({ at: it.at, sort: 'a part' })),
      ...masters.map((it) => ({ at: it.at, sort: 'a master' })),
    ];
    reportTwoMeanings(name, atSpan(at), places, workings.faults);
    return undefined;
  }
  if (masters.length > 0) {
    const master = theOne(masters, atSpan(at), () => 'a master', workings.faults);
    if (master === undefined) return undefined;
    return workings.once(master.value, size, `${size} of ${name}`, master.at, () => {
      const outline = masterDrawn(master, workings);
      return outline && asLength(netSizeOf(outline, master.value, workings)[size]);
    });
  }
  if (parts.length === 0) {
    reportUnknownOf('part or master', name, at, [...sight.masters.keys()], scope, workings);
    return undefined;
  }
  const part = theOne(parts, atSpan(at), () => 'a part', workings.faults);
  if (part === undefined) return undefined;
  return workings.once(scope.tile ?? part.file, `${size} of ${name}`, `${size} of ${name}`, part.at, () => {
    const spec = partSpecOf(part, scope, workings);
    const expression = spec.size?.[size];
    if (expression === undefined && spec.outline !== undefined) {
      const outline = outlineDrawn(spec.outline, scope, workings);
      return outline && asLength(netSizeOf(outline, spec.outline, workings)[size]);
    }
    const folded = spec.folds && foldedSize(size, spec, spec.folds, scope, workings);
    if (folded === 'rest' || expression?.kind === 'rest') {
      workings.faults.report(diagnose('E69', atSpan(at), { part: name, size }));
      return undefined;
    }
    if (folded !== undefined) return asLength(folded);
    return expression === undefined
      ? undefined
      : asLength(lengthOf(expression, 'above zero', scope, workings));
  });
}

/** Of the blank of a folded part. */
function foldedSize(
  size: 'length' | 'width',
  spec: PartSpec,
  folds: FoldsSpec,
  scope: Scope,
  workings: Workings,
): Length | 'rest' | undefined {
  const material = spec.of && materialCalled(spec.of.value, spec.of.at, workings);
  const thickness = material && thicknessOfMaterial(material, workings);
  const shape = thickness && foldedShape(spec, folds, thickness, scope, workings);
  if (shape === undefined || shape === 'faulty') return undefined;
  const given = shape[size];
  return 'kind' in given ? 'rest' : given;
}

/** The curved edge of a master; its end of the enclosure that the sum's rounding asks for. */
function developedLength(
  name: Placed<string>,
  at: Span,
  { developed }: Scope,
  workings: Workings,
): Quantity | undefined {
  if (developed === undefined) {
    workings.faults.report(diagnose('E76', atSpan(at), { found: `developed length of ${name.value}` }));
    return undefined;
  }
  const master = masterCalled(name, workings);
  const outline = master && masterDrawn(master, workings);
  return outline && asLength(curvedLengthOf(outline)[developed]);
}

/** The parts that a name can mean: the tile's own, else the shared ones. */
function partsCalled(
  name: string,
  at: Span,
  { tile }: Scope,
  workings: Workings,
): readonly Definition<PartSpec>[] {
  const ofTile = tile?.parts.get(name);
  if (tile !== undefined && ofTile !== undefined) return [{ ...ofTile, file: tile.file }];
  return workings.sights.from(workings.sights.fileOf(at)).parts.get(name) ?? [];
}

function partSpecOf(part: Definition<PartSpec>, { tile }: Scope, workings: Workings): PartSpec {
  const asked = tile?.parts.get(part.name);
  return workings.likes.part(tile, asked !== undefined && asked.at === part.at ? asked : part).value;
}

function hasPart(name: string, tile: TileView | undefined, shared: ReadonlyMap<string, unknown>): boolean {
  return tile?.parts.has(name) === true || shared.has(name);
}

function reportUnknownOf(
  wanted: string,
  name: string,
  at: Span,
  others: readonly string[],
  { tile }: Scope,
  workings: Workings,
): void {
  const shared = workings.sights.from(workings.sights.fileOf(at)).parts.keys();
  const known = [...others, ...(tile?.parts.keys() ?? []), ...shared];
  const { facts, beside } = unknown(name, atSpan(at), known);
  workings.faults.report(diagnose('E04', atSpan(at), { ...facts, wanted }, beside));
}

function asLength(value: ReturnType<typeof lengthOf>): Quantity | undefined {
  return value === undefined ? undefined : { kind: 'length', value };
}
