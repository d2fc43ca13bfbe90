import {
  atSpan,
  diagnose,
  didYouMean,
  type EveningSpec,
  type Overrides,
  type Span,
  type TileSpec,
} from '../model/index.ts';
import { wholeOf } from './evaluate.ts';
import { fileScope, type Workings } from './workings.ts';

/** What is made in one evening. */
export interface WorkedEvening {
  readonly title: string;
  readonly at: Span;
  readonly counts: ReadonlyMap<TileSpec, number>;
}

/**
 * Parts what is asked for over the evenings.
 *
 * @param total   all that is asked for
 * @param called  the tile of a name, or undefined where that is no tile and has been told
 * @param isKnown false while it is still to be found how many there can be
 * @errors E81 `rest` before the last evening, E82 more than is asked, S81 some are made on none, S82 two of one title
 */
export function eveningsOf(
  evenings: readonly EveningSpec[],
  total: ReadonlyMap<TileSpec, number>,
  called: (name: string, at: Span) => TileSpec | undefined,
  isKnown: boolean,
  workings: Workings,
): readonly WorkedEvening[] {
  const left = new Map(total);
  const worked = evenings.map(({ at, title, make }, index): WorkedEvening => {
    const counts = new Map<TileSpec, number>();
    const take = (tile: TileSpec, count: number): void => {
      counts.set(tile, (counts.get(tile) ?? 0) + count);
      left.set(tile, (left.get(tile) ?? 0) - count);
    };
    if (make === 'rest') {
      if (index < evenings.length - 1) workings.faults.report(diagnose('E81', atSpan(at), {}));
      for (const [tile, count] of [...left]) if (count > 0) take(tile, count);
    } else {
      for (const { name, at: place, value } of make?.counts ?? []) {
        const tile = called(name, place);
        const count = wholeOf(value, { least: 0, what: 'tiles' }, fileScope, workings);
        if (tile === undefined || count === undefined) continue;
        const there = left.get(tile) ?? 0;
        if (count > there && isKnown) {
          const facts = { tile: name, count, left: Math.max(0, there) };
          workings.faults.report(diagnose('E82', atSpan(place), facts));
        }
        take(tile, Math.min(count, Math.max(0, there)));
      }
    }
    return { title: title?.value ?? `evening ${index + 1}`, at, counts };
  });
  for (const [index, { title, at }] of worked.entries()) {
    const before = worked.findIndex((it) => it.title === title);
    if (before < index)
      workings.faults.report(diagnose('S82', atSpan(at), { title, first: before + 1, second: index + 1 }));
  }
  const last = worked.at(-1);
  const forgotten = [...left].filter(([, count]) => count > 0);
  if (last !== undefined && forgotten.length > 0 && isKnown) {
    const tiles = workings.sights.files.flatMap((file) => file.tiles);
    const nameOf = (tile: TileSpec): string => tiles.find(({ value }) => value === tile)?.name ?? '';
    const what = forgotten.map(([tile, count]) => `${count} of "${nameOf(tile)}"`).join(', ');
    workings.faults.report(diagnose('S81', atSpan(last.at), { what }));
  }
  return worked;
}

/** The evening that the command line asks for, by its number or its title. */
export function eveningAsked(
  evenings: readonly WorkedEvening[],
  { evening }: Overrides,
  { faults }: Workings,
): number | undefined {
  if (evening === undefined) return undefined;
  const { name, argument } = evening;
  const byTitle = evenings.findIndex(({ title }) => title === name);
  const index = byTitle >= 0 ? byTitle : /^\d{1,4}$/.test(name) ? Number(name) - 1 : -1;
  if (index >= 0 && index < evenings.length) return index;
  const titles = evenings.map(({ title }) => title);
  const facts = { found: name, evenings: evenings.length, meant: didYouMean(name, titles) };
  faults.report(diagnose('E83', { kind: 'argument', argument }, facts));
  return undefined;
}
