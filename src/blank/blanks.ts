import { type CutPart, kindsOf, partsOf } from '../expand/index.ts';
import { sum } from '../measure/index.ts';
import type { Length, MaterialDemand, NonEmpty, PartKind } from '../model/index.ts';
import { inPairs } from './inPairs.ts';

/**
 * The blanks that the parts of one material are cut from. Kerf belongs to the material, so this can't be told
 * of a part alone.
 *
 *   parts, net ─ownBlanks→ each with what is left on ─inPairs→ two of an outline head to tail, where that saves
 *
 * @param step  graduation of the first rule: a shared blank is taken up to it
 * @returns     the ways of forming them, the one that takes less material first
 */
export function blanksFor(demand: MaterialDemand, step: Length): NonEmpty<MaterialDemand> {
  const each = ownBlanks(demand);
  const paired = inPairs(partsOf(each.parts), demand, step);
  if (paired === undefined) return [each];
  return [
    { ...demand, parts: kindsAgain(paired, each.parts), sharing: 'shared' },
    { ...each, sharing: 'each its own' },
  ];
}

/** A blank for each part: its net size, and what is left on at its sides, to be trimmed after gluing. */
export function ownBlanks(demand: MaterialDemand): MaterialDemand {
  const isLeft = demand.parts.some(({ members }) => members.some((it) => it.drawn?.leave !== undefined));
  if (!isLeft) return demand;
  return { ...demand, parts: kindsAgain(partsOf(demand.parts).map(withLeave), demand.parts) };
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
