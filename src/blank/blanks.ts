import { type CutPart, kindsOf, partsOf } from '../expand/index.ts';
import { add, compareRationals, multiply, rational, subtract, sum, whole } from '../measure/index.ts';
import type { Blanks, Length, MaterialDemand, NonEmpty, PartKind, Rational } from '../model/index.ts';
import { bevelPairsOf } from './bevelPairs.ts';
import { inPairs, mayPartStraight, type Pair, type Pairable, pairablesOf, pairsOf } from './inPairs.ts';

/**
 * The blanks that the parts of one material are cut from. Kerf belongs to the material, so this can't be told
 * of a part alone.
 *
 *   parts, net ─ownBlanks→ each with what is left on ─inPairs→ two of an outline head to tail, or end to end where
 *                                                              one bevel serves both
 *
 * Where a straight cut parts the two, sharing is less work and takes less. Where they part along a curve it is
 * worth it only for a sheet, so that is another way of forming them.
 *
 * @param step  graduation of the first rule: a shared blank is taken up to it
 */
export function blanksFor(demand: MaterialDemand, step: Length): Blanks {
  const each = ownBlanks(demand);
  const parts = partsOf(each.parts);
  const bevelled = bevelPairsOf(parts, demand, step);
  const pairable = pairablesOf(parts);
  if (pairable.length + bevelled.length === 0) return { first: each, others: [] };
  const sharing = (pairs: readonly Pair[]): MaterialDemand => ({
    ...each,
    parts: kindsAgain(inPairs(parts, pairs), each.parts),
  });
  const straight = pairable.filter(mayPartStraight).flatMap((it) => pairsOf(it, demand, step));
  const alongEdges = straight.filter(({ shape }) => shape.parting !== undefined);
  const parted = [...alongEdges, ...bevelled];
  const first = parted.length === 0 ? each : sharing(parted);
  const curved = pairable.filter((it) => !parted.some(({ of }) => of === it));
  const unknown = curved.filter((it) => !mayPartStraight(it));
  const tried = unknown.slice(0, mostCurved);
  const noted = (it: MaterialDemand): MaterialDemand =>
    tried.length === unknown.length
      ? it
      : { ...it, triedInPairs: { tried: tried.length, of: unknown.length } };
  const thrifty = (room?: Rational): MaterialDemand | undefined => {
    const known = straight.filter((it) => !alongEdges.includes(it));
    const all = pairable.filter((it) => known.some(({ of }) => of === it) || tried.includes(it));
    if (room !== undefined && compareRationals(leastArea(first, all), room) > 0) return undefined;
    const more = [...known, ...tried.flatMap((it) => pairsOf(it, demand, step))];
    return more.length === 0 ? undefined : noted(sharing([...parted, ...more]));
  };
  return {
    first: noted(first),
    others: [
      ...(curved.length === 0 ? [] : [{ leastArea: leastArea(first, curved), form: thrifty }]),
      ...(parted.length === 0 ? [] : [{ leastArea: areaOfAll(first), form: () => noted(each) }]),
    ],
  };
}

/** Finding how curves lie closest takes a tenth of a second each: those that could save most are tried. */
const mostCurved = 12;

function leastArea(first: MaterialDemand, curved: readonly Pairable[]): Rational {
  return curved.reduce((all, it) => subtract(all, it.mostSaved), areaOfAll(first));
}

function areaOfAll({ parts }: MaterialDemand): Rational {
  return parts.reduce(
    (all, { length, width, count }) => add(all, multiply(multiply(length, width), whole(count))),
    rational(0n),
  );
}

/** A blank for each part: its net size, and what is left on at its sides, to be trimmed after gluing. */
export function ownBlanks(demand: MaterialDemand): MaterialDemand {
  const { parts, fillers = [] } = demand;
  const isLeft = [...parts, ...fillers].some(({ members }) =>
    members.some((it) => it.drawn?.leave !== undefined),
  );
  if (!isLeft) return demand;
  return {
    ...demand,
    parts: kindsAgain(partsOf(parts).map(withLeave), parts),
    // One by one, as they are filled in in the order in which they are listed.
    ...(fillers.length === 0
      ? {}
      : { fillers: fillers.flatMap((it) => kindsOf(partsOf([it]).map(withLeave))) }),
  };
}

function withLeave({ worked, member }: CutPart): CutPart {
  const leave = member.drawn?.leave;
  if (leave === undefined) return { worked, member };
  const { length, width } = worked;
  const sizes = { length: sum(length, leave.left, leave.right), width: sum(width, leave.bottom, leave.top) };
  return { worked: { ...worked, ...sizes }, member };
}

function kindsAgain(parts: readonly CutPart[], before: NonEmpty<PartKind>): NonEmpty<PartKind> {
  const [first, ...others] = kindsOf(parts);
  return first === undefined ? before : [first, ...others];
}
