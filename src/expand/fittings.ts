import {
  atSpan,
  diagnose,
  didYouMean,
  type Expression,
  type FittingDemand,
  type FittingSpec,
  type FittingsAtHand,
  type FittingUse,
  type ListedFittings,
  type Named,
  type Span,
  type SpecFile,
} from '../model/index.ts';
import { lengthOf, wholeOf } from './evaluate.ts';
import { theOne, unknown } from './meaning.ts';
import type { Definition } from './sight.ts';
import type { Spares } from './spares.ts';
import { fileScope, type Scope, type Workings } from './workings.ts';

/** So many of a fitting, for one of what takes it. */
export interface Taken {
  readonly fitting: Definition<FittingSpec>;
  /** The part that takes it; undefined for the tile, or the session. */
  readonly part: string | undefined;
  readonly count: number;
}

/**
 * Works out how many of which fitting one thing takes.
 *
 * @param part   the part whose fittings these are, if they are a part's
 * @errors E86 no such fitting
 */
export function workedTakes(
  takes: Iterable<Named<Expression>>,
  part: string | undefined,
  scope: Scope,
  workings: Workings,
): readonly Taken[] {
  return [...takes].flatMap(({ name, at, value }): readonly Taken[] => {
    const fitting = fittingCalled(name, at, workings);
    const count = wholeOf(value, { least: 0, what: 'fittings' }, scope, workings);
    return fitting === undefined || !count ? [] : [{ fitting, part, count }];
  });
}

/** The one fitting that a name means where it is written; told where there is none. */
export function fittingCalled(
  name: string,
  at: Span,
  workings: Workings,
): Definition<FittingSpec> | undefined {
  const { fittings } = workings.sights.from(workings.sights.fileOf(at));
  const meanings = fittings.get(name);
  if (meanings !== undefined) return theOne(meanings, atSpan(at), () => 'a fitting', workings.faults);
  const { facts, beside } = unknown(name, atSpan(at), [...fittings.keys()]);
  workings.faults.report(diagnose('E86', atSpan(at), facts, beside));
  return undefined;
}

/** What takes fittings tonight. */
export interface Takers {
  readonly tiles: readonly {
    readonly tile: string;
    readonly count: number;
    readonly takes: readonly Taken[];
  }[];
  /** Loose parts, and the session itself. */
  readonly once: readonly Taken[];
  /** What evenings before have taken, so that spares are not asked for again. */
  readonly before: readonly Taken[];
}

/**
 * All fittings that a batch takes, in the order in which it first needs them.
 *
 * @errors E87 what looks like a slip in the drawer
 */
export function fittingsOf(
  { tiles, once, before }: Takers,
  spares: Spares['ofFitting'],
  workings: Workings,
): readonly FittingDemand[] {
  const takers = [
    ...tiles.map(({ tile, count, takes }) => ({ tile, times: count, takes })),
    { tile: undefined, times: 1, takes: once },
  ];
  const uses = new Map<FittingSpec, { readonly fitting: Taken['fitting']; readonly uses: FittingUse[] }>();
  for (const { tile, times, takes } of takers) {
    for (const { fitting, part, count } of takes) {
      const use: FittingUse = { tile, part, each: count, count: count * times };
      const known = uses.get(fitting.value);
      if (known === undefined) uses.set(fitting.value, { fitting, uses: [use] });
      else known.uses.push(use);
    }
  }
  const atHand = fittingsAtHand(workings);
  return [...uses.values()].flatMap(({ fitting, uses: all }): readonly FittingDemand[] => {
    const taken = all.reduce((sum, { count }) => sum + count, 0);
    const isFirst = !before.some((it) => it.fitting.value === fitting.value);
    const more = spares(fitting.name, taken, isFirst);
    if (taken + more === 0) return [];
    const { label, note, price, poles } = fitting.value;
    return [
      {
        name: fitting.name,
        label: label?.value ?? fitting.name,
        note: note?.value,
        at: fitting.at,
        ...workedFitting(fitting, workings),
        hasPoles: poles?.value ?? false,
        count: taken + more,
        spares: more,
        uses: all,
        atHand: atHand?.get(fitting.name) ?? (atHand && { count: 0, where: undefined }),
        price: price?.value,
      },
    ];
  });
}

/** Every fitting, taken tonight or not, so that its faults are told. */
export function lookAtFittings(files: readonly SpecFile[], workings: Workings): void {
  for (const file of files) {
    for (const it of file.fittings ?? []) workedFitting({ ...it, file }, workings);
  }
}

function workedFitting({ value }: Definition<FittingSpec>, workings: Workings) {
  const { diameter, depth, pack } = value;
  const size = (it: Expression | undefined) => it && lengthOf(it, 'above zero', fileScope, workings);
  const counted = pack && wholeOf(pack, { least: 1, what: 'fittings in a pack' }, fileScope, workings);
  return { diameter: size(diameter), depth: size(depth), pack: counted ?? 1 };
}

/** What lies in the drawers by name; undefined where no drawer counts fittings. */
function fittingsAtHand(workings: Workings): ReadonlyMap<string, FittingsAtHand> | undefined {
  const listed = workings.sights.files.flatMap((file) => file.fittingsAtHand ?? []);
  if (listed.length === 0) return undefined;
  const { fittings } = workings.sights.together;
  const sums = new Map<string, FittingsAtHand>();
  for (const it of listed) {
    const meant = fittings.has(it.name) ? '' : didYouMean(it.name, [...fittings.keys()]);
    if (meant !== '') workings.faults.report(diagnose('E87', atSpan(it.at), { fitting: it.name, meant }));
    const { count, where } = listedFittings(it, workings) ?? {};
    const known = sums.get(it.name);
    sums.set(it.name, { count: (known?.count ?? 0) + (count ?? 0), where: known?.where ?? where });
  }
  return sums;
}

/** What a drawer's file lists of fittings, by itself. */
export function fittingsIn(file: SpecFile, workings: Workings): readonly ListedFittings[] {
  return (file.fittingsAtHand ?? []).flatMap((it) => listedFittings(it, workings) ?? []);
}

function listedFittings(
  { name, value }: NonNullable<SpecFile['fittingsAtHand']>[number],
  workings: Workings,
): ListedFittings | undefined {
  const { at, where, note } = value;
  const count =
    value.count === undefined ? 1 : wholeOf(value.count, { least: 0, what: 'fittings' }, fileScope, workings);
  if (count === undefined) return undefined;
  return { name, count, where: where?.value, note: note?.value, at, countAt: value.count?.at };
}
