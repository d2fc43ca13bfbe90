import {
  atSpan,
  diagnose,
  type Overrides,
  type Place,
  type SpecFile,
  type TileSpec,
} from '../model/index.ts';
import { wholeOf } from './evaluate.ts';
import { theOne, unknown } from './meaning.ts';
import type { Definition, Names } from './sight.ts';
import { fileScope, type Workings } from './workings.ts';

/** How many of each tile are made, in the order in which they were asked for; none that is made 0 times. */
export type Counts = ReadonlyMap<TileSpec, number>;

/**
 * Which tiles are made, and how many.
 *
 *   `--make`         nothing but what it says; a tile named twice counts as said last
 *   `make:`          what the sessions say, added up where several name a tile
 *   neither          one of each tile that the files named on the command line define; where they define
 *                    none and have no loose parts either, one of each tile they see
 *
 * Loose parts are made in any case; a kit beside a session asks for nothing.
 */
export function countsOf(named: readonly SpecFile[], overrides: Overrides, workings: Workings): Counts {
  const { faults } = workings;
  const before = faults.all.length;
  const counts = asked(named, overrides, workings);
  for (const [tile, count] of counts) if (count === 0) counts.delete(tile);

  const hasLoose = named.some(({ loose }) => loose.length > 0);
  const isShelfOnly = named.every(({ kind }) => kind === 'shelf');
  if (counts.size === 0 && !hasLoose && !isShelfOnly && faults.all.length === before) {
    const make = named.find((file) => file.make !== undefined)?.make;
    const place: Place =
      make === undefined ? { kind: 'file', path: named[0]?.source.path ?? '' } : atSpan(make.at);
    faults.report(diagnose('E35', place, {}));
  }
  return counts;
}

function asked(named: readonly SpecFile[], overrides: Overrides, workings: Workings): Map<TileSpec, number> {
  const counts = new Map<TileSpec, number>();
  if (overrides.make !== undefined && overrides.make.length > 0) {
    for (const { tile, count, argument } of overrides.make) {
      const found = tileCalled(
        tile,
        workings.sights.together.tiles,
        { kind: 'argument', argument },
        workings,
      );
      if (found !== undefined) counts.set(found.value, count);
    }
    return counts;
  }
  const sessions = named.filter(({ kind }) => kind === 'session');
  if (sessions.some(({ make }) => make !== undefined)) {
    for (const session of sessions) addSession(session, counts, workings);
    return counts;
  }
  const asking = sessions.length > 0 ? sessions : named;
  const own = asking.flatMap(({ tiles }) => tiles);
  const hasLoose = asking.some(({ loose }) => loose.length > 0);
  const seen = own.length > 0 || hasLoose ? own : workings.sights.files.flatMap(({ tiles }) => tiles);
  for (const { value } of seen) counts.set(value, 1);
  return counts;
}

function addSession(session: SpecFile, counts: Map<TileSpec, number>, workings: Workings): void {
  for (const { name, at, value } of session.make?.counts ?? []) {
    const found = tileCalled(name, workings.sights.from(session).tiles, atSpan(at), workings);
    const count = wholeOf(value, { least: 0, what: 'tiles' }, fileScope, workings);
    if (found === undefined || count === undefined) continue;
    counts.set(found.value, (counts.get(found.value) ?? 0) + count);
  }
}

function tileCalled(
  name: string,
  tiles: Names<TileSpec>,
  place: Place,
  { faults }: Workings,
): Definition<TileSpec> | undefined {
  const meanings = tiles.get(name);
  if (meanings !== undefined) return theOne(meanings, place, () => 'a tile', faults);
  const { facts, beside } = unknown(name, place, [...tiles.keys()]);
  faults.report(diagnose('E22', place, facts, beside));
  return undefined;
}
