import {
  add,
  compare,
  isNegative,
  isPositive,
  larger,
  minus,
  multiply,
  smaller,
  sum,
} from '../measure/index.ts';
import {
  type Build,
  type ByWay,
  type Contact,
  type Fault,
  type Length,
  type NonEmpty,
  type StandingPart,
  type Way,
  ways,
} from '../model/index.ts';
import { bodyOf, fillsItsBlock, sharedSpace, type Touch, touchesOf } from '../outline/index.ts';
import { neighbours } from './neighbours.ts';

type Overlap = Extract<Fault, { kind: 'overlaps' }>;
type Doubt = Extract<Fault, { kind: 'hangs on a curve' }>;

/** How the pieces of a build lie against each other: those that touch, and those that share space. */
export interface Touching {
  readonly contacts: readonly Contact[];
  readonly overlaps: readonly Overlap[];
  /** Pairs of which nobody can tell whether they share space. */
  readonly doubts: readonly Doubt[];
}

/**
 * Two pieces touch where, in one direction, one begins where the other ends (or a glue line further on), and
 * they share an area in the two others. They overlap where they share something in all three. Of most pairs their
 * blocks tell that; where one is less than its block, its outline or its profile does.
 */
export function touchingOf(build: Build): Touching {
  const contacts: Contact[] = [];
  const overlaps: Overlap[] = [];
  const doubts: Doubt[] = [];
  const blocks = build.parts.map(({ block }) => block);
  for (const [one, two] of neighbours(blocks, build.glueLine)) {
    const [part, other] = [build.parts[one], build.parts[two]];
    if (part === undefined || other === undefined) continue;
    const shared = sharedBy(part, other);
    const sharesBlock = ways.every((way) => isPositive(shared[way]));
    if (fillsItsBlock(part) && fillsItsBlock(other)) {
      if (sharesBlock) overlaps.push({ kind: 'overlaps', part, other, shared, way: leastOf(shared) });
      else contacts.push(...contactOf(part, other, shared, build.glueLine));
      continue;
    }
    if (sharesBlock) {
      const space = sharedSpace(bodyOf(part), bodyOf(other));
      if (space.answer === 'yes') {
        const size = space.size();
        overlaps.push({ kind: 'overlaps', part, other, shared: size, way: leastOf(size) });
        continue;
      }
      if (space.answer === 'within') {
        doubts.push({ kind: 'hangs on a curve', at: part.at, what: 'overlap', part, other, side: undefined });
      }
    }
    contacts.push(...contactsOfShapes(part, other, build.glueLine));
  }
  return { contacts, overlaps, doubts };
}

function sharedBy({ block: a }: StandingPart, { block: b }: StandingPart): ByWay<Length> {
  const inWay = (way: Way) => minus(smaller(a.high[way], b.high[way]), larger(a.low[way], b.low[way]));
  return { across: inWay('across'), along: inWay('along'), up: inWay('up') };
}

function contactOf(
  part: StandingPart,
  other: StandingPart,
  shared: ByWay<Length>,
  glueLine: Length,
): readonly Contact[] {
  const apart = ways.filter((way) => !isPositive(shared[way]));
  const [way] = apart;
  if (way === undefined || apart.length > 1) return [];
  // What they share there is nothing, or the space between them, below zero: no more than a glue line.
  if (isNegative(sum(shared[way], glueLine))) return [];
  const [first = way, second = way] = ways.filter((it) => it !== way);
  const size = multiply(shared[first], shared[second]);
  const facts = { way, area: { lo: size, hi: size }, isSure: true };
  const isInOrder = compare(part.block.low[way], other.block.low[way]) < 0;
  return [isInOrder ? { part, other, ...facts } : { part: other, other: part, ...facts }];
}

function contactsOfShapes(one: StandingPart, two: StandingPart, glueLine: Length): readonly Contact[] {
  return alikeTogether(touchesOf(bodyOf(one), bodyOf(two), glueLine)).map(
    ({ way, higher, slant, isSure, area }): Contact => {
      const [part, other] = higher === 'second' ? [one, two] : [two, one];
      // Worked out when it is asked for: a check asks of few.
      return {
        part,
        other,
        way,
        ...(slant === undefined ? {} : { slant: { way: slant.way, isSame: slant.higher === higher } }),
        isSure,
        get area() {
          return area();
        },
      };
    },
  );
}

/** What is taken to pieces, since something is cut into it, is still glued as one. */
function alikeTogether(touches: readonly Touch[]): readonly Touch[] {
  const groups = new Map<string, NonEmpty<Touch>>();
  for (const it of touches) {
    const key = [it.way, it.higher, it.slant?.way, it.slant?.higher].join(' ');
    const known = groups.get(key);
    groups.set(key, known === undefined ? [it] : [...known, it]);
  }
  return [...groups.values()].map((all): Touch => {
    const [first, ...others] = all;
    if (others.length === 0) return first;
    const area = () =>
      all
        .map((it) => it.area())
        .reduce((one, other) => ({ lo: add(one.lo, other.lo), hi: add(one.hi, other.hi) }));
    return { ...first, isSure: all.some(({ isSure }) => isSure), area };
  });
}

function leastOf(shared: ByWay<Length>): Way {
  return ways.reduce((least, way) => (compare(shared[way], shared[least]) < 0 ? way : least), 'across');
}

/**
 * Pieces that no chain of touching pieces joins to the largest group; what shares space hangs together. Where a
 * chain hangs on a touch that nobody can tell, that is said in its place.
 */
export function floating(
  build: Build,
  { contacts, overlaps, doubts }: Touching,
): readonly (Extract<Fault, { kind: 'floats' }> | Doubt)[] {
  const sure = [...contacts.filter(({ isSure }) => isSure), ...overlaps];
  const apart = apartFrom(build, sure);
  if (apart.length === 0) return [];
  const unsure = contacts.filter(({ isSure }) => !isSure);
  const perhaps = [...unsure, ...doubts];
  const surely = new Set(perhaps.length === 0 ? apart : apartFrom(build, [...sure, ...perhaps]));
  return apart.flatMap((part): readonly (Extract<Fault, { kind: 'floats' }> | Doubt)[] => {
    if (surely.has(part)) return [{ kind: 'floats', part }];
    const met = unsure.find((it) => it.part === part || it.other === part);
    if (met === undefined) return [];
    const other = met.part === part ? met.other : met.part;
    return [{ kind: 'hangs on a curve', at: part.at, what: 'touch', part, other, side: undefined }];
  });
}

function apartFrom(
  build: Build,
  joints: readonly { readonly part: StandingPart; readonly other?: StandingPart | undefined }[],
): readonly StandingPart[] {
  const group = new Map<StandingPart, StandingPart>(build.parts.map((it) => [it, it]));
  const rootOf = (part: StandingPart): StandingPart => {
    let root = part;
    for (let next = group.get(root); next !== undefined && next !== root; next = group.get(root)) {
      // Halves the way on each visit, so that long chains stay cheap.
      group.set(root, group.get(next) ?? next);
      root = next;
    }
    return root;
  };
  for (const { part, other } of joints) if (other !== undefined) group.set(rootOf(part), rootOf(other));

  const sizes = new Map<StandingPart, number>();
  for (const part of build.parts) sizes.set(rootOf(part), (sizes.get(rootOf(part)) ?? 0) + 1);
  let main = build.parts[0];
  if (main === undefined) return [];
  main = rootOf(main);
  for (const [root, size] of sizes) if (size > (sizes.get(main) ?? 0)) main = root;
  return build.parts.filter((part) => rootOf(part) !== main);
}
