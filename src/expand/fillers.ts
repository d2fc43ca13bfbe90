import { atSpan, diagnose, type FitsSpec, type PartKind, type PartSpec } from '../model/index.ts';
import { wholeOf } from './evaluate.ts';
import { type AskedPart, kindsOf } from './kinds.ts';
import type { Scope, Workings } from './workings.ts';

/** No more than so many of a filler, for each tile that is made of; undefined: as many as fit. */
export interface WorkedFits {
  readonly at: FitsSpec['at'];
  readonly most: number | undefined;
}

/**
 * Works out what a part says that is made as often as it fits.
 *
 * @errors E99 it is counted besides
 */
export function fitsOf(
  part: string,
  { kind, at, most }: FitsSpec,
  spec: PartSpec,
  scope: Scope,
  workings: Workings,
): WorkedFits | 'faulty' {
  const beside = [
    { by: 'by eye', said: spec.byEye },
    { by: 'clad', said: spec.clad },
    { by: 'takes', said: spec.takes?.[0] },
  ] as const;
  let isFaulty = false;
  for (const { by, said } of beside) {
    if (said === undefined) continue;
    isFaulty = true;
    const related = [{ place: atSpan(at), message: kind }];
    workings.faults.report(diagnose('E99', atSpan(said.at), { part, by }, { related }));
  }
  if (most === undefined) return isFaulty ? 'faulty' : { at, most: undefined };
  const value = wholeOf(most, { least: 1, what: 'parts' }, scope, workings);
  return isFaulty || value === undefined ? 'faulty' : { at, most: value };
}

/** True for a part that is made as often as it fits. */
export function isFiller({ member }: AskedPart): boolean {
  return member.asFits !== undefined;
}

/** Fillers of one material that are the same to the knife put together, in the order in which they are listed. */
export function fillerKinds(asked: readonly AskedPart[]): readonly PartKind[] {
  const placeOf = ({ members }: PartKind): number =>
    asked.findIndex(({ member }) => members.some(({ label }) => label === member.label));
  return [...kindsOf(asked)].sort((a, b) => placeOf(a) - placeOf(b));
}
