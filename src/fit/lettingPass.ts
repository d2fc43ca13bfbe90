import {
  atSpan,
  type Diagnostic,
  diagnose,
  type Fault,
  type FoldHabit,
  type Habit,
  type LetPass,
  type StandingPart,
  type TileFit,
} from '../model/index.ts';

/** What there is to tell of the parts of a tile, and what of it they let pass. */
export interface Sifted {
  readonly told: readonly Fault[];
  readonly letPass: readonly LetPass[];
}

/**
 * Takes out of the faults what the parts say is let pass.
 *
 * @param lets  what the parts of the tile let pass
 */
export function letting(faults: readonly Fault[], lets: readonly LetPass[]): Sifted {
  const letPass = new Set<LetPass>();
  const told = faults.filter((fault) => {
    const about = habitOf(fault);
    if (about === undefined || !about.part.accepted.includes(about.habit)) return true;
    for (const it of lets) {
      if (it.habit === about.habit && it.part === writtenName(about.part)) letPass.add(it);
    }
    return false;
  });
  return { told, letPass: [...letPass] };
}

/**
 * Tells of habits that are let pass and that no tile has. A part may be shared, or a tile like another, so all tiles
 * have to be among these, and nothing of them may be faulty.
 */
export function idleLets(fits: readonly TileFit[]): readonly Diagnostic[] {
  const needed = new Set(fits.flatMap(({ letPass }) => letPass.map(({ at }) => at)));
  const idle = new Map(
    fits.flatMap(({ build: { lets = [] } }) =>
      lets.filter(({ habit, at }) => !ofFolds.has(habit) && !needed.has(at)).map((it) => [it.at, it]),
    ),
  );
  return [...idle.values()].map(({ part, habit, at }) => diagnose('F25', atSpan(at), { part, habit }));
}

/** No verdict on a build tells of these. */
const ofFolds: ReadonlySet<Habit> = new Set<FoldHabit>(['folds across', 'folds cut']);

function habitOf(fault: Fault): { readonly habit: Habit; readonly part: StandingPart } | undefined {
  switch (fault.kind) {
    case 'habit':
      return fault;
    case 'floats':
      return { habit: 'floating', part: fault.part };
    case 'hangs on a curve':
      return fault.what === 'touch' ? { habit: 'floating', part: fault.part } : undefined;
    default:
      return undefined;
  }
}

/** A strip passes by what is said of its part, and the other hand of a part by what is said of that. */
function writtenName({ part, clads }: StandingPart): string {
  // No name that is written has a comma.
  return (clads ?? part).split(',')[0] ?? part;
}
