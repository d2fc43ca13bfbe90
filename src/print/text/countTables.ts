import type { Batch, MaterialDemand, PartKind, PartMember, TileCount } from '../../model/index.ts';
import { clean, counted, keyOf, type Look, signsOf } from '../columns/index.ts';
import { fittingsToBuy, sizesByTile, takersOf, type Work } from '../count/index.ts';
import { fittingSize } from '../fittingWords.ts';
import { numbers, type PlainTable, type TableSheet, wordy } from '../tables/index.ts';
import { kindRows } from './cuttingList.ts';
import { type Showing, showingOf } from './lengths.ts';
import { shopping, workTable } from './workTables.ts';

/**
 * What a batch needs, as tables: each tile's parts and how many of them, then the totals of each material, what is
 * not cut from a sheet, the work, and what to buy.
 *
 * @param work    what only the layouts tell, or why nothing was laid out
 * @param remark  what there is to say of how it was laid out
 */
export function countSheet(
  batch: Batch,
  work: Work | string | undefined,
  look: Look,
  remark?: string,
): TableSheet {
  const showing = showingOf(batch.settings, look);
  const setting = { batch, showing, look };
  return {
    title: batch.title,
    heading: 'what it takes',
    notes: batch.notes,
    tables: [
      ...tileParts(setting),
      ...batch.materials.flatMap((demand) => [totals(demand, setting), ...byTile(demand, setting)]),
      ...fittings(setting),
      ...(typeof work === 'object' ? [workTable(work)] : []),
      ...shopping(
        typeof work === 'object' ? work.toBuy : undefined,
        (batch.fittings ?? []).length === 0 ? undefined : fittingsToBuy(batch),
        showing,
      ),
      ...[typeof work === 'string' ? work : undefined, remark].flatMap((it) =>
        it === undefined ? [] : [{ title: undefined, notes: [it], columns: [], rows: [] }],
      ),
    ],
  };
}

interface Setting {
  readonly batch: Batch;
  readonly showing: Showing;
  readonly look: Look;
}

interface Listed {
  readonly demand: MaterialDemand;
  readonly kind: PartKind;
  readonly member: PartMember;
}

function tileParts({ batch, showing, look }: Setting): readonly PlainTable[] {
  const { tiles, materials } = batch;
  const all = materials.flatMap((demand) =>
    demand.parts.flatMap((kind) => kind.members.map((member): Listed => ({ demand, kind, member }))),
  );
  const isNarrow = look.width < 56;
  const other = showing.otherPair;
  const columns = [
    wordy('part'),
    ...(isNarrow ? [] : [wordy('of')]),
    { ...numbers(`size, ${showing.unit}`), wraps: true },
    ...(other === undefined ? [] : [{ ...numbers(`size, ${showing.otherUnit}`), wraps: true }]),
    numbers('each'),
    numbers('in all'),
  ];
  const row = (part: string, of: string, sizes: readonly string[], counts: readonly string[]) => [
    ...(isNarrow ? [`${clean(part)}, ${clean(of)}`] : [clean(part), clean(of)]),
    ...sizes,
    ...counts,
  ];
  const section = (title: string, tile: string | undefined): PlainTable => {
    const parts = all.filter(({ member }) => member.tile === tile);
    const rows = [
      ...parts.map(({ demand, kind, member }) =>
        row(
          member.part,
          demand.material.name,
          [
            parted(showing.pair(kind.length, kind.width)),
            ...(other === undefined ? [] : [parted(other(kind.length, kind.width))]),
          ],
          [member.asFits === undefined ? `${member.each}` : 'as fits', `${member.count}`],
        ),
      ),
      ...fittingsFor(batch, tile).map(({ label, each, count }) =>
        row(label, 'fitting', other === undefined ? [''] : ['', ''], [`${each}`, `${count}`]),
      ),
    ];
    return { title, notes: rows.length === 0 ? ['no parts'] : [], columns, rows };
  };
  const hasLoose = all.some(({ member }) => member.tile === undefined);
  return [
    ...tiles.map((tile) => section(tileHeading(tile, showing, look), tile.name)),
    ...(hasLoose || fittingsFor(batch, undefined).length > 0 ? [section('loose parts', undefined)] : []),
  ];
}

/** What one tile takes, its parts among it, or what belongs to no tile. */
function fittingsFor({ fittings: all = [] }: Batch, tile: string | undefined) {
  return all.flatMap(({ label, uses }) => {
    // What the session itself takes is for no part.
    const its = uses.filter((it) => it.tile === tile && (tile !== undefined || it.part !== undefined));
    const sum = (pick: (it: (typeof its)[number]) => number): number =>
      its.reduce((total, it) => total + pick(it), 0);
    return its.length === 0 ? [] : [{ label, each: sum((it) => it.each), count: sum((it) => it.count) }];
  });
}

/** May be broken behind its sign. */
function parted(pair: string): string {
  return pair.replace(/\u00a0([x×])\u00a0/u, '\u00a0$1 ');
}

function tileHeading({ label, letters, count, footprint }: TileCount, showing: Showing, look: Look): string {
  const { times } = signsOf(look);
  const size =
    footprint === undefined
      ? ''
      : ` (${showing.pair(footprint.across, footprint.along)}\u00a0${showing.unit}${inOther(footprint, showing)})`;
  return `${count}\u00a0${times}\u00a0${clean(label)}${keyOf(label, letters)}${size}`;
}

function inOther(
  { across, along }: NonNullable<TileCount['footprint']>,
  { otherPair, otherUnit }: Showing,
): string {
  return otherPair === undefined ? '' : ` [${otherPair(across, along)}\u00a0${otherUnit}]`;
}

/** Totals by size and rule; the heading adds them up. */
function totals(demand: MaterialDemand, { showing, look }: Setting): PlainTable {
  const { headings, rows } = kindRows(demand, { showing, look });
  const count = demand.parts.reduce((sum, kind) => sum + kind.count, 0);
  const name = clean(demand.material.name);
  const title = `${name} ${showing.thickness(demand.material.thickness)}: ${count} ${count === 1 ? 'part' : 'parts'}`;
  return { title, notes: [], columns: headings, rows };
}

/**
 * Sizes down, tiles across, in as many tables as the width asks for, each with the sizes that its tiles have; nothing
 * where one tile has them all.
 */
function byTile(demand: MaterialDemand, { batch, showing, look }: Setting): readonly PlainTable[] {
  const sizes = sizesByTile({ ...batch, materials: [demand] });
  const names = [...batch.tiles.map(({ letters }) => clean(letters)), 'loose'];
  const used = names.map((_, i) => i).filter((i) => sizes.some(({ counts }) => counts[i] !== 0));
  if (used.length < 2) return [];
  const size = numbers(`size, ${showing.unit}`);
  const shown = sizes.map(({ kind }) => showing.pair(kind.length, kind.width));
  const room = look.width - Math.max(size.heading.length, ...shown.map((it) => it.length));
  return chunked(used, (i) => Math.max(names[i]!.length, 4) + 2, room).map((columns) => ({
    title: undefined,
    notes: [],
    columns: [size, ...columns.map((i) => numbers(names[i]!))],
    rows: sizes.flatMap(({ counts }, row) =>
      columns.every((i) => counts[i] === 0)
        ? []
        : [[shown[row]!, ...columns.map((i) => (counts[i] === 0 ? '.' : `${counts[i]}`))]],
    ),
  }));
}

/** As many in a row as have room, at least one. */
function chunked(all: readonly number[], widthOf: (it: number) => number, room: number): readonly number[][] {
  const chunks: number[][] = [];
  let left = 0;
  for (const it of all) {
    left -= widthOf(it);
    const last = chunks.at(-1);
    if (last === undefined || left < 0) {
      chunks.push([it]);
      left = room - widthOf(it);
    } else last.push(it);
  }
  return chunks;
}

/** What is not cut from a sheet: how many in all, for what, and how many lie in the drawer. */
function fittings({ batch, showing, look }: Setting): readonly PlainTable[] {
  const { fittings: all = [] } = batch;
  if (all.length === 0) return [];
  const signs = signsOf(look);
  const isCounted = all.some(({ atHand }) => atHand !== undefined);
  return [
    {
      title: `fittings: ${all.reduce((sum, { count }) => sum + count, 0)}`,
      notes: [],
      columns: [
        numbers('count'),
        wordy('fitting'),
        wordy('for'),
        ...(isCounted ? [numbers('at hand'), wordy('kept')] : []),
      ],
      rows: all.map((it) => [
        `${it.count}`,
        clean(`${it.label}${fittingSize(it, showing.thickness)}`),
        takersOf(it, batch)
          .map(({ name, count }) => counted(count, name, signs))
          .join(', '),
        ...(isCounted ? [`${it.atHand?.count ?? 0}`, clean(it.atHand?.where ?? '')] : []),
      ]),
    },
  ];
}
