import {
  atSpan,
  diagnose,
  type Expression,
  nearest,
  type Overrides,
  type Place,
  type Span,
  type SpecFile,
  type TileSpec,
} from '../model/index.ts';
import { wholeOf } from './evaluate.ts';
import { eveningAsked, eveningsOf, type WorkedEvening } from './evenings.ts';
import { theOne, unknown } from './meaning.ts';
import type { Definition, Names } from './sight.ts';
import { fileScope, type Workings } from './workings.ts';

/** How many of each tile are made, in the order in which they were asked for; none that is made 0 times. */
export type Counts = ReadonlyMap<TileSpec, number>;

/** What is made, and what belongs to other evenings. */
export interface Wanted {
  readonly counts: Counts;
  /** As they are parted; none where nobody does. */
  readonly evenings: readonly WorkedEvening[];
  /** Index of the evening that is asked for; undefined for all of them. */
  readonly evening: number | undefined;
  /** What as many are made of as what is at hand allows, and where that is said. */
  readonly most: { readonly what: string; readonly at: Span } | undefined;
}

/**
 * Which tiles are made, and how many.
 *
 *   `--make`         nothing but what it says; a tile named twice counts as said last
 *   `make:`, `sets:` what the sessions say, added up where several name a tile
 *   `--evening`      of these, what is made then
 *   neither          one of each tile that the files named on the command line define; where they define
 *                    none and have no loose parts either, one of each tile they see
 *
 * Loose parts are made in any case; a kit beside a session asks for nothing.
 */
export function countsOf(named: readonly SpecFile[], overrides: Overrides, workings: Workings): Wanted {
  const asked = askedFor(named, overrides, workings);
  const total = new Map<TileSpec, number>();
  for (const { tile, count } of asked) {
    if (tile === undefined || count === undefined) continue;
    const known = overrides.make === undefined ? (total.get(tile) ?? 0) : 0;
    total.set(tile, known + count);
  }
  const evenings = partedOver(named, total, overrides, workings);
  const evening = eveningAsked(evenings, overrides, workings);
  const counts = new Map(evening === undefined ? total : evenings[evening]?.counts);
  for (const [tile, count] of counts) if (count === 0) counts.delete(tile);
  lookForNamesakes(counts, named, workings);

  const hasLoose = named.some(({ loose }) => loose.length > 0);
  const isShelfOnly = named.every(({ kind }) => kind === 'shelf' || kind === 'drawer');
  // Where a tile or a count is faulty, something was asked for; that it comes to nothing is no second fault.
  const isKnown = asked.every(({ tile, count }) => tile !== undefined && count !== undefined);
  if (counts.size === 0 && !hasLoose && !isShelfOnly && isKnown) {
    const make = named.find((file) => file.make !== undefined)?.make;
    const option = overrides.make?.at(-1);
    const place: Place =
      option !== undefined
        ? { kind: 'argument', argument: option.argument }
        : make === undefined
          ? { kind: 'file', path: named[0]?.source.path ?? '' }
          : atSpan(make.at);
    workings.faults.report(diagnose('E35', place, { isByOption: option !== undefined }));
  }
  const most = overrides.make === undefined ? mostAsked(named, workings) : undefined;
  return { counts, evenings, evening, most };
}

/** The evenings of the first session that has some; `--make` asks for something else. */
function partedOver(
  named: readonly SpecFile[],
  total: Counts,
  overrides: Overrides,
  workings: Workings,
): readonly WorkedEvening[] {
  const session = named.find(({ evenings }) => evenings !== undefined);
  if (session?.evenings === undefined || overrides.make !== undefined) return [];
  const { tiles } = workings.sights.from(session);
  const called = (name: string, at: Span) => tileCalled(name, tiles, atSpan(at), workings)?.value;
  const isKnown = overrides.most !== undefined || !named.some(isOpen);
  return eveningsOf(session.evenings, total, called, isKnown, workings);
}

/** Where two things share what is at hand, either could have it all. */
function mostAsked(named: readonly SpecFile[], { faults }: Workings): Wanted['most'] {
  const all = named.flatMap(({ make, sets }) => [
    ...(make?.most ?? []).map(({ name, at }) => ({ what: name, at })),
    ...(isMost(sets?.count) ? [{ what: 'set', at: sets.count.at }] : []),
  ]);
  const [first, second] = all;
  if (second !== undefined) faults.report(diagnose('E85', atSpan(second.at), { other: first?.what ?? '' }));
  return first;
}

function isOpen({ make, sets }: SpecFile): boolean {
  return (make?.most ?? []).length > 0 || isMost(sets?.count);
}

function isMost(
  count: NonNullable<SpecFile['sets']>['count'],
): count is { readonly kind: 'most'; readonly at: Span } {
  return count?.kind === 'most';
}

/** Sheets and labels tell tiles by their names, so two that are made in one batch can't share one. */
function lookForNamesakes(counts: Counts, named: readonly SpecFile[], { sights, faults }: Workings): void {
  const made = sights.files
    .flatMap((file) => file.tiles.map((it) => ({ ...it, file })))
    .filter(({ value }) => counts.has(value));
  const place: Place = { kind: 'file', path: named[0]?.source.path ?? '' };
  const byName = new Map<string, typeof made>();
  for (const it of made) byName.set(it.name, [...(byName.get(it.name) ?? []), it]);
  for (const namesakes of byName.values()) theOne(namesakes, place, () => 'a tile', faults);
}

interface Asked {
  /** Undefined where the fault of it has been told. */
  readonly tile: TileSpec | undefined;
  readonly count: number | undefined;
}

function askedFor(named: readonly SpecFile[], overrides: Overrides, workings: Workings): readonly Asked[] {
  if (overrides.make !== undefined) {
    const { tiles } = workings.sights.together;
    return overrides.make.map(({ tile, count, argument }) => {
      const found = tileCalled(tile, tiles, { kind: 'argument', argument }, workings, `=${count}`);
      return { tile: found?.value, count };
    });
  }
  const sessions = named.filter(({ kind }) => kind === 'session');
  if (sessions.some(({ make, sets }) => make !== undefined || sets !== undefined)) {
    return sessions.flatMap((session) => askedBySession(session, overrides, workings));
  }
  const asking = sessions.length > 0 ? sessions : named;
  const own = asking.flatMap(({ tiles }) => tiles);
  const hasLoose = asking.some(({ loose }) => loose.length > 0);
  const seen = own.length > 0 || hasLoose ? own : workings.sights.files.flatMap(({ tiles }) => tiles);
  return seen.map(({ value }) => ({ tile: value, count: 1 }));
}

function askedBySession(session: SpecFile, { most = 1 }: Overrides, workings: Workings): readonly Asked[] {
  const { tiles } = workings.sights.from(session);
  const { make, sets } = session;
  const called = (name: string, at: Span) => tileCalled(name, tiles, atSpan(at), workings)?.value;
  const counted = (value: Expression, what: string) =>
    wholeOf(value, { least: 0, what }, fileScope, workings);
  const ofSets = sets?.count === undefined ? 1 : isMost(sets.count) ? most : counted(sets.count, 'sets');
  return [
    ...(make?.counts ?? []).map(({ name, at, value }) => ({
      tile: called(name, at),
      count: counted(value, 'tiles'),
    })),
    ...(make?.most ?? []).map(({ name, at }) => ({ tile: called(name, at), count: most })),
    ...(sets?.counts ?? []).map(({ name, at, value }) => {
      const each = counted(value, 'tiles');
      return {
        tile: called(name, at),
        count: each === undefined || ofSets === undefined ? undefined : each * ofSets,
      };
    }),
  ];
}

/** @param counted  `=4` behind a tile named by `--make`, to be given again with the tile that was meant */
function tileCalled(
  name: string,
  tiles: Names<TileSpec>,
  place: Place,
  { faults }: Workings,
  counted?: string,
): Definition<TileSpec> | undefined {
  const meanings = tiles.get(name);
  if (meanings !== undefined) return theOne(meanings, place, () => 'a tile', faults);
  const { facts, beside } = unknown(name, place, [...tiles.keys()]);
  const meant = nearest(name, tiles.keys());
  const hints = counted === undefined || meant === undefined ? [] : [`--make '${meant}${counted}'`];
  faults.report(diagnose('E22', place, facts, { ...beside, hints }));
  return undefined;
}
