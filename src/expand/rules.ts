import { compare, zero } from '../measure/index.ts';
import {
  atSpan,
  type CutHabitsSpec,
  type CutRules,
  diagnose,
  type Expression,
  type Length,
  type MaterialSpec,
  type SheetKind,
  type Span,
  type SpecFile,
  type TrimSpec,
} from '../model/index.ts';
import { type Least, lengthOf, wholeOf } from './evaluate.ts';
import { materialCalled } from './names.ts';
import type { Definition } from './sight.ts';
import { fileScope, type Workings } from './workings.ts';

/**
 * How the materials are cut. The more particular place wins: the sheet (its trim alone), the session's
 * `only`, the material, the session's `cutting`, the kit's. Places of one rank have to agree.
 */
export class Rules {
  readonly #workings: Workings;
  /** `cutting` by rank: the sessions', then the kits'. */
  readonly #general: readonly (readonly CutHabitsSpec[])[];
  readonly #particular: readonly ReadonlyMap<MaterialSpec, readonly CutHabitsSpec[]>[];
  readonly #worthKeeping: CutRules['worthKeeping'];

  constructor(sessions: readonly SpecFile[], kits: readonly SpecFile[], workings: Workings) {
    this.#workings = workings;
    const ranks = [sessions, kits].map((files) => files.flatMap(({ cutting }) => cutting ?? []));
    this.#general = ranks;
    this.#particular = ranks.map((cuttings) =>
      onlyByMaterial(
        cuttings.flatMap(({ only }) => only),
        workings,
      ),
    );
    this.#worthKeeping = this.#worked(
      'worth keeping',
      ranks.map((cuttings) => cuttings.flatMap(({ worthKeeping }) => worthKeeping ?? [])),
      ({ long, short }) => {
        const sizes = [long, short].map((it) => lengthOf(it, 'above zero', fileScope, workings));
        const [first, second] = sizes;
        if (first === undefined || second === undefined) return undefined;
        return compare(first, second) >= 0 ? { long: first, short: second } : { long: second, short: first };
      },
      (a, b) => compare(a.long, b.long) === 0 && compare(a.short, b.short) === 0,
    );
    for (const [material, habits] of this.#particular.toReversed().flatMap((it) => [...it])) {
      const said = habits.find(({ leastBend }) => leastBend !== undefined)?.leastBend;
      if (said !== undefined) workings.leastBends.set(material, said);
    }
    // Each place is looked at, also where none of its materials is used tonight: its faults are told.
    for (const habits of [
      ...this.#general,
      ...this.#particular.map((it) => [...it.values()].flat()),
    ].flat()) {
      this.#lookThrough(habits);
    }
  }

  of(material: Definition<MaterialSpec>): CutRules {
    const places = this.#placesFor(material);
    const length = (what: 'kerf' | 'leastStrip' | 'longestCut', name: string, least: Least) =>
      this.#worked(
        name,
        places.map((rank) => rank.flatMap((it) => it[what] ?? [])),
        (it: Expression) => lengthOf(it, least, fileScope, this.#workings),
        (a, b) => compare(a, b) === 0,
      );
    const tool = this.#worked(
      'the tool',
      places.map((rank) => rank.flatMap((it) => it.tool ?? [])),
      ({ value }) => value,
      (a, b) => a === b,
    );
    return {
      tool,
      kerf: length('kerf', 'the kerf', 'zero') ?? zero,
      leastStrip: length('leastStrip', 'the least strip', 'zero') ?? zero,
      longestCut: length('longestCut', 'the longest cut', 'above zero'),
      rounds: this.#worked(
        'the rounds of cuts',
        places.map((rank) => rank.flatMap((it) => it.rounds ?? [])),
        (it: Expression) => roundsOf(it, this.#workings),
        (a, b) => a === b,
      ),
      worthKeeping: this.#worthKeeping,
    };
  }

  /** The trim of a new sheet that doesn't state its own. */
  trimOf(material: Definition<MaterialSpec>): SheetKind['trim'] {
    const trim = this.#worked(
      'the trim',
      this.#placesFor(material).map((rank) => rank.flatMap((it) => it.trim ?? [])),
      (it: TrimSpec) => workedTrim(it, this.#workings),
      (a, b) => sides.every((side) => compare(a[side], b[side]) === 0),
    );
    return trim ?? noTrim;
  }

  #placesFor(material: Definition<MaterialSpec>): readonly (readonly CutHabitsSpec[])[] {
    const particular = this.#particular.map((it) => it.get(material.value) ?? []);
    return [...particular, [material.value], ...this.#general];
  }

  /** The first rank that says anything; where its places disagree, a fault and the first of them. */
  #worked<S extends { readonly at: Span }, T>(
    what: string,
    ranks: readonly (readonly S[])[],
    work: (stated: S) => T | undefined,
    isSame: (a: T, b: T) => boolean,
  ): T | undefined {
    const stated = ranks.find((rank) => rank.length > 0) ?? [];
    const [first, ...others] = stated.map((it) => ({ at: it.at, value: work(it) }));
    if (first?.value === undefined) return undefined;
    const other = others.find(({ value }) => value !== undefined && !isSame(value, first.value as T)); // just checked
    if (other !== undefined) {
      const related = [{ place: atSpan(first.at), message: 'the other' }];
      this.#workings.faults.report(diagnose('E36', atSpan(other.at), { what }, { related }));
    }
    return first.value;
  }

  #lookThrough(habits: CutHabitsSpec): void {
    const workings = this.#workings;
    if (habits.kerf !== undefined) lengthOf(habits.kerf, 'zero', fileScope, workings);
    if (habits.leastStrip !== undefined) lengthOf(habits.leastStrip, 'zero', fileScope, workings);
    if (habits.leastBend !== undefined) lengthOf(habits.leastBend, 'zero', fileScope, workings);
    if (habits.longestCut !== undefined) lengthOf(habits.longestCut, 'above zero', fileScope, workings);
    if (habits.rounds !== undefined) roundsOf(habits.rounds, workings);
    if (habits.trim !== undefined) workedTrim(habits.trim, workings);
  }
}

export const sides = ['left', 'right', 'bottom', 'top'] as const;
export const noTrim: SheetKind['trim'] = { left: zero, right: zero, bottom: zero, top: zero };

export function workedTrim(trim: TrimSpec, workings: Workings): SheetKind['trim'] | undefined {
  const [left, right, bottom, top] = sides.map((side): Length | undefined => {
    const width = trim[side];
    return width === undefined ? zero : lengthOf(width, 'zero', fileScope, workings);
  });
  if (left === undefined || right === undefined || bottom === undefined || top === undefined)
    return undefined;
  return { left, right, bottom, top };
}

function roundsOf(rounds: Expression, workings: Workings): number | undefined {
  return wholeOf(rounds, { least: 1, what: 'the rounds of cuts' }, fileScope, workings);
}

function onlyByMaterial(
  only: readonly { readonly name: string; readonly at: Span; readonly value: CutHabitsSpec }[],
  workings: Workings,
): ReadonlyMap<MaterialSpec, readonly CutHabitsSpec[]> {
  const found = new Map<MaterialSpec, CutHabitsSpec[]>();
  for (const { name, at, value } of only) {
    const material = materialCalled(name, at, workings);
    if (material !== undefined) found.set(material.value, [...(found.get(material.value) ?? []), value]);
  }
  return found;
}
