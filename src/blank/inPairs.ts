import type { CutPart } from '../expand/index.ts';
import { compare, larger, minus, smaller, sum, toFraction } from '../measure/index.ts';
import type { Length, MaterialDemand, Outline, PartMember, SharedBlank, SheetKind } from '../model/index.ts';
import { outlineKey } from '../outline/index.ts';
import { pairFlaws } from './checkPair.ts';
import { type PairShape, pairShape } from './pairShape.ts';

/**
 * Parts of one outline, two by two in one blank wherever that takes less; undefined where it does nowhere. Parts
 * of one label go together first; what is over of it goes with what is over of another; an odd one stays alone.
 *
 *   7 × A, 3 × B of one outline  →  3 × AA, 1 × BB, 1 × AB  (A: 6 + 1, B: 2 + 1)
 *
 * What is trimmed after gluing, or cut to marks of its own, keeps a blank of its own.
 */
export function inPairs(
  parts: readonly CutPart[],
  demand: MaterialDemand,
  step: Length,
): readonly CutPart[] | undefined {
  const paired: CutPart[] = [];
  let isAny = false;
  const names = new Set(parts.map(({ member }) => member.label));
  for (const { outline, alike } of byOutline(parts)) {
    const shape = outline && count(alike) > 1 ? shapeFor(alike, outline, demand, step) : undefined;
    if (shape === undefined) paired.push(...alike);
    else {
      paired.push(...dealt(alike, shape, names));
      isAny = true;
    }
  }
  return isAny ? paired : undefined;
}

interface Alike {
  /** Undefined for parts that don't go in pairs. */
  readonly outline: Outline | undefined;
  readonly alike: readonly CutPart[];
}

function byOutline(parts: readonly CutPart[]): readonly Alike[] {
  const groups = new Map<string, { readonly outline: Outline | undefined; readonly alike: CutPart[] }>();
  for (const part of parts) {
    const { drawn, cutTo } = part.member;
    const outline = drawn?.leave === undefined && cutTo === undefined ? drawn?.outline : undefined;
    const key = outline === undefined ? '' : keyOf(part, outline);
    const known = groups.get(key);
    if (known === undefined) groups.set(key, { outline, alike: [part] });
    else known.alike.push(part);
  }
  return [...groups.values()];
}

/** What has to be the same of two that share a blank; a hand is another outline. */
function keyOf({ worked, member: { drawn } }: CutPart, outline: Outline): string {
  const { length, width, grain, flutes, goodSide } = worked;
  const traced = `${drawn?.master ?? ''} ${drawn?.isMirrored}`;
  const bound = `${grain} ${flutes} ${goodSide}`;
  return [traced, bound, toFraction(length), toFraction(width), outlineKey(outline)].join('\n');
}

/** How they share a blank that some sheet holds; undefined where they had better not. */
function shapeFor(
  [first]: readonly CutPart[],
  outline: Outline,
  { rules, sheets }: MaterialDemand,
  step: Length,
): PairShape | undefined {
  if (first === undefined) return undefined;
  const shape = pairShape(outline, first.worked, { kerf: rules.kerf, step });
  if (shape === undefined || !sheets.some((sheet) => isHeld(shape, sheet))) return undefined;
  const flaws = pairFlaws(outline, first.worked, shape, rules.kerf);
  if (flaws.length > 0) throw new Error(`two parts don't go into one blank: ${flaws.join('; ')}`);
  return shape;
}

function isHeld({ length, width }: PairShape, { trim, ...sheet }: SheetKind): boolean {
  const [long, wide] = [
    minus(sheet.length, sum(trim.left, trim.right)),
    minus(sheet.width, sum(trim.bottom, trim.top)),
  ];
  return (
    compare(larger(length, width), larger(long, wide)) <= 0 &&
    compare(smaller(length, width), smaller(long, wide)) <= 0
  );
}

function count(parts: readonly CutPart[]): number {
  return parts.reduce((all, { member }) => all + member.count, 0);
}

function dealt(alike: readonly CutPart[], shape: PairShape, names: Set<string>): readonly CutPart[] {
  const result: CutPart[] = [];
  let alone: CutPart | undefined;
  for (const part of alike) {
    const { member } = part;
    const pairs = Math.floor(member.count / 2);
    const over = member.turnedOver ?? 0;
    if (pairs > 0) result.push(pairOf(part, member, { shape, names, count: pairs }));
    if (member.count % 2 === 0) continue;
    const left = { ...member, count: 1, ...turnedOver(over - Math.min(over, 2 * pairs)) };
    if (alone === undefined) alone = { ...part, member: left };
    else {
      result.push(pairOf(alone, left, { shape, names, count: 1 }));
      alone = undefined;
    }
  }
  return alone === undefined ? result : [...result, alone];
}

interface Naming {
  readonly shape: PairShape;
  /** Labels that are taken; grows. */
  readonly names: Set<string>;
  readonly count: number;
}

function pairOf({ worked, member }: CutPart, other: PartMember, { shape, names, count }: Naming): CutPart {
  const labels: SharedBlank['labels'] = [member.label, other.label];
  const all = member === other ? member.turnedOver : (member.turnedOver ?? 0) + (other.turnedOver ?? 0);
  return {
    worked: { ...worked, length: shape.length, width: shape.width },
    member: {
      ...member,
      label: newLabel(labels, names),
      count,
      ...turnedOver(Math.min(all ?? 0, 2 * count)),
      shared: { ...shape, labels },
    },
  };
}

function turnedOver(count: number): Pick<PartMember, 'turnedOver'> {
  return count === 0 ? {} : { turnedOver: count };
}

/** `SR cheek pair`, `SR cheek + SL cheek`. */
function newLabel([one, other]: SharedBlank['labels'], names: Set<string>): string {
  const plain = one === other ? `${one} pair` : `${one} + ${other}`;
  let label = plain;
  for (let i = 2; names.has(label); i++) label = `${plain} ${i}`;
  names.add(label);
  return label;
}
