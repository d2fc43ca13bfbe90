import type {
  Batch,
  Fitted,
  MaterialDemand,
  MaterialLayouts,
  PartKind,
  PartMember,
} from '../../model/index.ts';

/** How many of a filler there are besides those that were just laid out: of a job, those that are cut already. */
export type MoreOf = (material: string, member: PartMember) => number;

/**
 * The batch with its fillers counted: those that there are any of stand among the parts of their material, net as the
 * others are; none is left to be filled in.
 */
export function withFitted(
  batch: Batch,
  layouts: readonly MaterialLayouts[],
  moreOf: MoreOf = () => 0,
): Batch {
  return {
    ...batch,
    materials: batch.materials.map(({ fillers = [], ...demand }): MaterialDemand => {
      const own = layouts.find((it) => it.demand.material.name === demand.material.name);
      const fit = new Map(
        (own?.fitted ?? []).flatMap(({ kind }) =>
          kind.members.map(({ label, count }) => [label, count] as const),
        ),
      );
      const counted = fillers.flatMap((kind): readonly PartKind[] => {
        const members = kind.members.flatMap((member): readonly PartMember[] => {
          const count = (fit.get(member.label) ?? 0) + moreOf(demand.material.name, member);
          return count === 0 ? [] : [{ ...member, count, each: count }];
        });
        const [first, ...others] = members;
        if (first === undefined) return [];
        return [
          { ...kind, count: members.reduce((all, { count }) => all + count, 0), members: [first, ...others] },
        ];
      });
      const [first, ...others] = demand.parts;
      return counted.length === 0 ? demand : { ...demand, parts: [first, ...others, ...counted] };
    }),
  };
}

/** What became of the fillers, a sentence without a full stop for each kind. */
export function fittedNotes(
  layouts: readonly MaterialLayouts[],
  alone: Batch['fillersAlone'] = [],
  moreOf: MoreOf = () => 0,
): readonly string[] {
  return [
    ...layouts.flatMap(({ demand, fitted = [] }) => fitted.map((it) => fittedNote(it, demand, moreOf))),
    ...alone.map(
      ({ material, kind }) => `${labelsOf(kind)}: none, since nothing else is cut from ${material}`,
    ),
  ];
}

function fittedNote(
  { kind, most, isEnough, stoppedAt }: Fitted,
  { material, rules }: MaterialDemand,
  moreOf: MoreOf,
): string {
  const left = `what is left of ${material.name}`;
  const into = rules.worthKeeping === undefined ? left : `${left} and not worth keeping`;
  const { count } = kind;
  const cut = kind.members.reduce((sum, it) => sum + moreOf(material.name, it), 0);
  const counted = cut === 0 ? `${count}` : `${count} beside the ${cut} that are cut`;
  if (isEnough) return `${labelsOf(kind)}: ${counted}, as asked, fit into ${into}`;
  if (stoppedAt !== undefined) {
    const some = count === 0 ? 'none is filled' : `${counted} are filled`;
    const stop = `filling stops at ${stoppedAt} pieces of a material, there may be room for more (${most} at most)`;
    return `${labelsOf(kind)}: ${some} into ${into}; ${stop}. Larger ones cover more of it; "as fits up to" says how many are enough`;
  }
  const known = count === most ? 'no more would' : `at most ${most} would`;
  if (count > 0) return `${labelsOf(kind)}: ${counted} fit into ${into}; ${known}`;
  return `${labelsOf(kind)}: none fits into ${into}${most === 0 ? '' : `; ${known}`}`;
}

function labelsOf({ members }: PartKind): string {
  return members.map(({ label }) => label).join(', ');
}
