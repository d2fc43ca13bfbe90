import type { CutPart } from '../expand/index.ts';
import { compare, compareRationals, multiply, subtract, toFraction, whole } from '../measure/index.ts';
import type {
  Length,
  Line,
  MaterialDemand,
  Outline,
  PartMember,
  Point,
  Rational,
  SharedBlank,
} from '../model/index.ts';
import { outlineKey } from '../outline/index.ts';
import { pairFlaws } from './checkPair.ts';
import { isHeld } from './held.ts';
import { mostSaved, type PairShape, pairShape } from './pairShape.ts';

/** Two parts or more of one outline that leaves enough of its box for two to save by sharing a blank. */
export interface Pairable {
  readonly outline: Outline;
  readonly parts: readonly CutPart[];
  /** All of them together, in mm²: two take no less than what is within their rims. */
  readonly mostSaved: Rational;
}

/** Parts that are alike, and the blank that two of them share. */
export interface Pair {
  readonly of: Pick<Pairable, 'parts'>;
  readonly shape: PairShape;
}

/** Those that could save most come first. */
export function pairablesOf(parts: readonly CutPart[]): readonly Pairable[] {
  return byOutline(parts)
    .flatMap(({ outline, alike }): readonly Pairable[] => {
      const [first] = alike;
      const pairs = Math.floor(count(alike) / 2);
      if (outline === undefined || first === undefined || pairs === 0) return [];
      const saved = mostSaved(outline, first.worked);
      return saved === undefined ? [] : [{ outline, parts: alike, mostSaved: multiply(saved, whole(pairs)) }];
    })
    .sort((a, b) => compareRationals(b.mostSaved, a.mostSaved));
}

/** A cut that parts two runs along an edge that slopes, with all of the outline on one side of it. */
export function mayPartStraight({ outline: { rim } }: Pairable): boolean {
  const points = rim.flatMap((it) => (it.kind === 'curve' ? [it.from] : [it.from, it.to]));
  return rim.some(
    (it) =>
      it.kind === 'line' &&
      compare(it.from.x, it.to.x) !== 0 &&
      compare(it.from.y, it.to.y) !== 0 &&
      points.every((at) => isLeft(it, at)),
  );
}

function isLeft({ from, to }: Line, at: Point): boolean {
  const along = multiply(subtract(to.x, from.x), subtract(at.y, from.y));
  return compareRationals(along, multiply(subtract(to.y, from.y), subtract(at.x, from.x))) >= 0;
}

/** How they share a blank that some sheet holds; none where they had better not. */
export function pairsOf(of: Pairable, { rules, sheets }: MaterialDemand, step: Length): readonly Pair[] {
  const [first] = of.parts;
  if (first === undefined) return [];
  const shape = pairShape(of.outline, first.worked, { kerf: rules.kerf, step });
  if (shape === undefined || !sheets.some((sheet) => isHeld(shape, sheet))) return [];
  const flaws = pairFlaws(of.outline, first.worked, shape, rules.kerf);
  if (flaws.length > 0) throw new Error(`two parts don't go into one blank: ${flaws.join('; ')}`);
  return [{ of, shape }];
}

/**
 * Two by two in one blank. Parts of one label go together first; what is over of it goes with what is over of
 * another; an odd one stays alone.
 *
 *   7 × A, 3 × B of one outline  →  3 × AA, 1 × BB, 1 × AB  (A: 6 + 1, B: 2 + 1)
 */
export function inPairs(parts: readonly CutPart[], pairs: readonly Pair[]): readonly CutPart[] {
  const names = new Set(parts.map(({ member }) => member.label));
  const paired = new Set(pairs.flatMap(({ of }) => of.parts));
  return [
    ...parts.filter((it) => !paired.has(it)),
    ...pairs.flatMap(({ of, shape }) => dealt(of.parts, shape, names)),
  ];
}

interface Alike {
  /** Undefined for parts that share no blank by their outline: trimmed after gluing, cut to marks, bevelled, plain. */
  readonly outline: Outline | undefined;
  readonly alike: readonly CutPart[];
}

function byOutline(parts: readonly CutPart[]): readonly Alike[] {
  const groups = new Map<string, { readonly outline: Outline | undefined; readonly alike: CutPart[] }>();
  for (const part of parts) {
    const { drawn, cutTo } = part.member;
    const isPlain = [drawn?.leave, drawn?.bevels, drawn?.rebates, cutTo].every((it) => it === undefined);
    const outline = isPlain ? drawn?.outline : undefined;
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

/** `pair of SR cheek`, `SR cheek + SL cheek`. */
function newLabel([one, other]: SharedBlank['labels'], names: Set<string>): string {
  const plain = one === other ? `pair of ${one}` : `${one} + ${other}`;
  let label = plain;
  for (let i = 2; names.has(label); i++) label = `${plain} ${i}`;
  names.add(label);
  return label;
}
