import type { Build, Contact, GlueStep, StandingMember, StandingPart, StandingRow } from '../model/index.ts';

/**
 * In which order the pieces are glued: inside out. A row inside a row is put together first and goes on as
 * one piece; a stack grows from the bottom, a row of walls from its middle outward; what is added comes last.
 *
 *   along: │face│ core │back│      core, then face and back
 *   up:      bed · fill · turf     bed, fill, turf
 *
 * What carries weight or is moved as one has to dry first.
 *
 * @source common practice, no source
 */
export function glueSteps(build: Build, contacts: readonly Contact[]): readonly GlueStep[] {
  const touches = touchesOf(contacts);
  if (build.glueOrder !== undefined) return statedSteps(build, build.glueOrder, touches);
  const steps: GlueStep[] = [];
  putTogether(build.row, steps, touches);
  const standing = piecesIn(build.row);
  for (const member of build.added) {
    if (member.kind === 'row') putTogether(member, steps, touches);
    const pieces = piecesIn(member);
    steps.push({ what: nameOf(member), onto: metBy(pieces, standing, touches), afterDrying: true });
    standing.push(...pieces);
  }
  return steps;
}

type Touches = ReadonlyMap<StandingPart, ReadonlySet<StandingPart>>;

function touchesOf(contacts: readonly Contact[]): Touches {
  const touches = new Map<StandingPart, Set<StandingPart>>();
  const note = (one: StandingPart, two: StandingPart): void => {
    const known = touches.get(one);
    if (known === undefined) touches.set(one, new Set([two]));
    else known.add(two);
  };
  for (const { part, other } of contacts) {
    note(part, other);
    note(other, part);
  }
  return touches;
}

function putTogether(row: StandingRow, steps: GlueStep[], touches: Touches): void {
  const members = row.members.filter((it) => it.kind !== 'gap');
  for (const member of members) if (member.kind === 'row') putTogether(member, steps, touches);
  const standing: StandingPart[] = [];
  for (const member of row.way === 'up' ? members : fromTheMiddle(members)) {
    const pieces = piecesIn(member);
    const onto = metBy(pieces, standing, touches);
    steps.push({ what: nameOf(member), onto, afterDrying: member.kind === 'row' && pieces.length > 1 });
    standing.push(...pieces);
  }
}

/** The middle member, then its neighbours, one side and the other by turns. */
function fromTheMiddle<T>(members: readonly T[]): readonly T[] {
  const middle = (members.length - 1) / 2;
  return members
    .map((member, index) => ({ member, away: Math.abs(index - middle), index }))
    .sort((a, b) => a.away - b.away || a.index - b.index)
    .map(({ member }) => member);
}

function statedSteps(build: Build, order: readonly string[], touches: Touches): readonly GlueStep[] {
  const standing: StandingPart[] = [];
  return order.flatMap((name) =>
    build.parts
      .filter(({ part }) => part === name)
      .map((piece) => {
        const onto = metBy([piece], standing, touches);
        standing.push(piece);
        return { what: piece.name, onto, afterDrying: false };
      }),
  );
}

function metBy(
  pieces: readonly StandingPart[],
  standing: readonly StandingPart[],
  touches: Touches,
): readonly string[] {
  const met = new Set(pieces.flatMap((piece) => [...(touches.get(piece) ?? [])]));
  return standing.filter((piece) => met.has(piece)).map(({ name }) => name);
}

function nameOf(member: Exclude<StandingMember, { kind: 'gap' }>): string {
  if (member.kind === 'part') return member.name;
  return member.name ?? `the glued-up ${listed(piecesIn(member).map(({ part }) => part))}`;
}

function listed(names: readonly string[]): string {
  const different = [...new Set(names)];
  const last = different.at(-1) ?? '';
  return different.length < 2 ? last : `${different.slice(0, -1).join(', ')} and ${last}`;
}

function piecesIn(member: StandingMember): StandingPart[] {
  if (member.kind === 'part') return [member];
  return member.kind === 'row' ? member.members.flatMap(piecesIn) : [];
}
