import { expand } from '../../expand/index.ts';
import { judge } from '../../fit/index.ts';
import {
  type Batch,
  type Diagnostic,
  type Fault,
  isError,
  type Length,
  type NonEmpty,
  type Overrides,
  type Spec,
  type SpecFile,
  type TileFit,
} from '../../model/index.ts';

/** How every tile of some files stands. */
export interface Standing {
  readonly spec: Spec;
  readonly batch: Batch;
  readonly fits: readonly TileFit[];
}

export interface StandingOrFaults {
  /** Undefined where a sum or a size has a fault, so that no verdict can be trusted. */
  readonly standing: Standing | undefined;
  readonly diagnostics: readonly Diagnostic[];
}

/** @param ruler  the rules to judge by; those that the files say where absent */
export function standingOf(
  spec: Spec,
  overrides: Overrides = everyTile(spec),
  ruler?: NonEmpty<Length>,
): StandingOrFaults {
  const { value: batch, diagnostics } = expand(spec, overrides);
  if (batch === undefined || diagnostics.some(isError)) return { standing: undefined, diagnostics };
  const bench = { ruler: ruler ?? batch.settings.ruler.value, wander: batch.wander };
  return {
    standing: { spec, batch, fits: batch.builds.map((build) => judge(build, bench)) },
    diagnostics,
  };
}

/** One of each tile there is, whatever a session makes of them tonight. */
export function everyTile(spec: Spec): Overrides {
  const names = filesOf(spec).flatMap(({ tiles }) => tiles.map(({ name }) => name));
  // Namesakes can't be made in one batch, so what the files ask for has to do.
  if (names.length === 0 || new Set(names).size < names.length) return {};
  return { make: names.map((tile) => ({ tile, count: 1, argument: '' })) };
}

/** The named files and all that they use. */
export function filesOf(spec: Spec): readonly SpecFile[] {
  const reached = new Set<SpecFile>(spec.files);
  for (const file of reached) for (const used of file.uses) reached.add(used);
  return [...reached];
}

/** What tells one verdict from another, whatever its figures. */
export function verdictOf(fault: Fault, tile: string): string {
  const about =
    'part' in fault
      ? fault.kind === 'overlaps'
        ? [fault.part.name, fault.other.name].sort().join(' ')
        : fault.part.name
      : 'what' in fault
        ? fault.what
        : fault.kind === 'does not fit the rack'
          ? fault.rack
          : '';
  const way = 'way' in fault && fault.kind !== 'overlaps' ? fault.way : 'side' in fault ? fault.side : '';
  const habit = fault.kind === 'habit' ? fault.habit : '';
  return [tile, fault.kind, about, way ?? '', habit].join('\n');
}

export function verdictsOf({ build, faults }: TileFit): readonly string[] {
  return faults.map((fault) => verdictOf(fault, build.tile));
}
