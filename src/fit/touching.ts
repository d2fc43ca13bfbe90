import { compare, isNegative, isPositive, larger, minus, smaller, sum } from '../measure/index.ts';
import {
  type Build,
  type Contact,
  type Fault,
  type Length,
  type StandingPart,
  type Way,
  ways,
} from '../model/index.ts';
import { neighbours } from './neighbours.ts';

/** How the pieces of a build lie against each other: those that touch, and those that share space. */
export interface Touching {
  readonly contacts: readonly Contact[];
  readonly overlaps: readonly Extract<Fault, { kind: 'overlaps' }>[];
}

/**
 * Two pieces touch where, in one direction, one begins where the other ends (or a glue line further on), and
 * they share an area in the two others. They overlap where they share something in all three.
 */
export function touchingOf(build: Build): Touching {
  const contacts: Contact[] = [];
  const overlaps: Extract<Fault, { kind: 'overlaps' }>[] = [];
  const blocks = build.parts.map(({ block }) => block);
  for (const [one, two] of neighbours(blocks, build.glueLine)) {
    const [part, other] = [build.parts[one], build.parts[two]];
    if (part === undefined || other === undefined) continue;
    const shared = { across: sharedIn('across'), along: sharedIn('along'), up: sharedIn('up') };
    function sharedIn(way: Way): Length {
      // Both are there: the loop has just looked.
      const [a, b] = [blocks[one]!, blocks[two]!];
      return minus(smaller(a.high[way], b.high[way]), larger(a.low[way], b.low[way]));
    }
    if (ways.every((way) => isPositive(shared[way]))) {
      overlaps.push({ kind: 'overlaps', part, other, shared, way: leastOf(shared) });
      continue;
    }
    const contact = contactOf(part, other, shared, build.glueLine);
    if (contact !== undefined) contacts.push(contact);
  }
  return { contacts, overlaps };
}

function contactOf(
  part: StandingPart,
  other: StandingPart,
  shared: Readonly<Record<Way, Length>>,
  glueLine: Length,
): Contact | undefined {
  const apart = ways.filter((way) => !isPositive(shared[way]));
  const [way] = apart;
  if (way === undefined || apart.length > 1) return undefined;
  // What they share there is nothing, or the space between them, below zero: no more than a glue line.
  if (isNegative(sum(shared[way], glueLine))) return undefined;
  const [first, second] = ways.filter((it) => it !== way);
  const size: readonly [Length, Length] = [shared[first ?? way], shared[second ?? way]];
  const isInOrder = compare(part.block.low[way], other.block.low[way]) < 0;
  return isInOrder ? { part, other, way, size } : { part: other, other: part, way, size };
}

function leastOf(shared: Readonly<Record<Way, Length>>): Way {
  return ways.reduce((least, way) => (compare(shared[way], shared[least]) < 0 ? way : least), 'across');
}

/** Pieces that no chain of touching pieces joins to the largest group; what shares space hangs together. */
export function floating(
  build: Build,
  { contacts, overlaps }: Touching,
): readonly Extract<Fault, { kind: 'floats' }>[] {
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
  for (const { part, other } of [...contacts, ...overlaps]) group.set(rootOf(part), rootOf(other));

  const sizes = new Map<StandingPart, number>();
  for (const part of build.parts) sizes.set(rootOf(part), (sizes.get(rootOf(part)) ?? 0) + 1);
  let main = build.parts[0];
  if (main === undefined) return [];
  main = rootOf(main);
  for (const [root, size] of sizes) if (size > (sizes.get(main) ?? 0)) main = root;
  return build.parts
    .filter((part) => rootOf(part) !== main && !part.accepted.includes('floating'))
    .map((part) => ({ kind: 'floats', part }));
}
