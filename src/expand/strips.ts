import { sum, zero } from '../measure/index.ts';
import type { DrawnSide, Length, MaterialSpec, StandingPart } from '../model/index.ts';
import { thicknessOfMaterial } from './names.ts';
import type { Cladding, OpenPart, WorkedPart } from './parts.ts';
import type { CladToStand, StripMaterial } from './placing/rows.ts';
import type { Definition } from './sight.ts';
import type { Workings } from './workings.ts';

/**
 * The strips that cover the sides of a part: parts of their own, as long as the side and as wide as the part
 * is thick, with the grain of their material along them.
 */

const sides: readonly DrawnSide[] = ['left', 'right', 'bottom', 'top'];

/** What a part's strips are, as it is needed to stand them up; `faulty` where a thickness is. */
export function cladToStand(
  { name, clad }: OpenPart,
  known: readonly string[],
  workings: Workings,
): CladToStand | undefined | 'faulty' {
  if (clad === undefined) return undefined;
  const strip = (material: Definition<MaterialSpec>): StripMaterial | undefined => {
    const thickness = thicknessOfMaterial(material, workings);
    return thickness && { name: material.name, thickness, ...runsOf(material) };
  };
  const named = [...clad.sides].map(([side, material]) => [side, strip(material)] as const);
  const whole = named.flatMap(([side, it]) => (it === undefined ? [] : [[side, it] as const]));
  const exposedFlutes = clad.exposedFlutes && strip(clad.exposedFlutes);
  if (whole.length < named.length || (clad.exposedFlutes !== undefined && exposedFlutes === undefined)) {
    return 'faulty';
  }
  return { sides: new Map(whole), exposedFlutes, nameOf: (side) => stripName(name, side, known) };
}

/** The strips of a part that stands in a build, and of those of it that are glued on by eye. */
export function stripsAsTheyStand(
  part: WorkedPart,
  { clad, byEye = 0 }: OpenPart,
  pieces: ReadonlyMap<string, readonly StandingPart[]>,
  known: readonly string[],
  workings: Workings,
): readonly WorkedPart[] {
  if (clad === undefined) return [];
  const loose = byEye === 0 ? new Map<DrawnSide, Definition<MaterialSpec>>() : everySide(clad, part);
  return sides.flatMap((side): readonly WorkedPart[] => {
    const name = stripName(part.name, side, known);
    const standing = pieces.get(name) ?? [];
    const material = clad.sides.get(side) ?? clad.exposedFlutes;
    const count = standing.length + (loose.has(side) ? byEye : 0);
    if (count === 0 || material === undefined) return [];
    const length = standing[0]?.size.length ?? lengthOf(part, side, loose, workings);
    return strip(part, { name, side, material, length, count }, workings);
  });
}

/** The strips of parts that stand in no build: nothing covers any end of their flutes. */
export function stripsApart(
  part: WorkedPart,
  { clad }: OpenPart,
  known: readonly string[],
  workings: Workings,
): readonly WorkedPart[] {
  if (clad === undefined) return [];
  const all = everySide(clad, part);
  return [...all].flatMap(([side, material]) => {
    const name = stripName(part.name, side, known);
    const length = lengthOf(part, side, all, workings);
    return strip(part, { name, side, material, length, count: part.count }, workings);
  });
}

type Strips = ReadonlyMap<DrawnSide, Definition<MaterialSpec>>;

function everySide({ sides: named, exposedFlutes }: Cladding, { flutes }: WorkedPart): Strips {
  const ends: readonly DrawnSide[] =
    flutes === 'length' ? ['left', 'right'] : flutes === 'width' ? ['bottom', 'top'] : [];
  const overFlutes = exposedFlutes === undefined ? [] : ends.map((side) => [side, exposedFlutes] as const);
  return new Map([...overFlutes, ...named]);
}

/** Strips at the bottom and the top go over the ends of those at the left and right. */
function lengthOf({ length, width }: WorkedPart, side: DrawnSide, all: Strips, workings: Workings): Length {
  if (side === 'left' || side === 'right') return width;
  const beside = (['left', 'right'] as const).map((it) => {
    const material = all.get(it);
    return (material && thicknessOfMaterial(material, workings)) ?? zero;
  });
  return sum(length, ...beside);
}

interface Strip {
  readonly name: string;
  readonly side: DrawnSide;
  readonly material: Definition<MaterialSpec>;
  readonly length: Length;
  readonly count: number;
}

function strip(
  part: WorkedPart,
  { name, side, material, length, count }: Strip,
  workings: Workings,
): readonly WorkedPart[] {
  const width = thicknessOfMaterial(part.material, workings);
  if (width === undefined) return [];
  const { hasGrain, hasFlutes } = runsOf(material);
  return [
    {
      name,
      at: part.at,
      label: name === `${part.name} ${side} strip` ? `${part.label} ${side} strip` : name,
      note: undefined,
      material,
      length,
      width,
      grain: hasGrain ? 'length' : 'any',
      flutes: hasFlutes ? 'length' : 'any',
      goodSide: material.value.goodSide?.value ?? false,
      count,
    },
  ];
}

function runsOf({ value }: Definition<MaterialSpec>): Pick<StripMaterial, 'hasGrain' | 'hasFlutes'> {
  return { hasGrain: value.grain?.value ?? false, hasFlutes: value.flutes?.value ?? false };
}

/** A part may have that very name: then the strip gets a number. */
function stripName(part: string, side: DrawnSide, known: readonly string[]): string {
  const plain = `${part} ${side} strip`;
  let [name, number] = [plain, 2];
  while (known.includes(name)) name = `${plain} ${number++}`;
  return name;
}
