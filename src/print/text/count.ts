import { add, multiply, rational, roundedDecimal } from '../../measure/index.ts';
import type {
  Batch,
  MaterialDemand,
  PartKind,
  PartMember,
  Price,
  Rational,
  TileCount,
} from '../../model/index.ts';
import { type Areas, toHundredths } from '../areas.ts';
import {
  type Column,
  clean,
  keyOf,
  type Lines,
  type Look,
  paragraph,
  signsOf,
  table,
  wrap,
} from '../columns/index.ts';
import { costsOf, sizesByTile, type ToBuy, type Work } from '../count/index.ts';
import { proofWords } from '../saying.ts';
import { kindRows } from './cuttingList.ts';
import { type Showing, showingOf } from './lengths.ts';

/**
 * What a batch needs: each tile's parts and how many of them, then the totals of each material. Its own signs
 * are ASCII everywhere, since such lists are piped into tools that count bytes.
 *
 * @param work  what only the layouts tell; undefined where nothing was laid out
 */
export function printCount(batch: Batch, { width }: Look, work?: Work): string {
  const look: Look = { width, ascii: true };
  const showing = showingOf(batch.settings, look);
  const lines = [
    ...wrap(clean(batch.title), look.width),
    ...batch.notes.flatMap((note) => paragraph(clean(note), look.width)),
    ...tileParts(batch, showing, look),
    ...batch.materials.flatMap((demand) => [
      ...totals(demand, showing, look),
      ...byTile(demand, batch, showing, look),
    ]),
    ...(work === undefined ? [] : workLines(work, showing, look)),
  ];
  return `${lines.map((line) => line.trimEnd()).join('\n')}\n`;
}

interface Listed {
  readonly demand: MaterialDemand;
  readonly kind: PartKind;
  readonly member: PartMember;
}

function tileParts({ tiles, materials }: Batch, showing: Showing, look: Look): Lines {
  const signs = signsOf(look);
  const all = materials.flatMap((demand) =>
    demand.parts.flatMap((kind) => kind.members.map((member): Listed => ({ demand, kind, member }))),
  );
  const isNarrow = look.width < 56;
  const other = showing.otherPair;
  const headings: Column[] = [
    { heading: 'part', align: 'left', wraps: true },
    ...(isNarrow ? [] : [{ heading: 'of', align: 'left', wraps: true } as const]),
    { heading: `size, ${showing.unit}`, align: 'right', wraps: false },
    ...(other === undefined
      ? []
      : [{ heading: `size, ${showing.otherUnit}`, align: 'right', wraps: true } as const]),
    { heading: 'each', align: 'right', wraps: false },
    { heading: 'in all', align: 'right', wraps: false },
  ];
  const section = (heading: string, parts: readonly Listed[]): Lines => {
    if (parts.length === 0) return ['', ...paragraph(heading, look.width), 'no parts'];
    const rows = parts.map(({ demand, kind, member }) => [
      ...(isNarrow
        ? [`${clean(member.part)}, ${clean(demand.material.name)}`]
        : [clean(member.part), clean(demand.material.name)]),
      showing.pair(kind.length, kind.width),
      ...(other === undefined ? [] : [parted(other(kind.length, kind.width))]),
      member.asFits === undefined ? `${member.each}` : 'as fits',
      `${member.count}`,
    ]);
    return [
      '',
      ...paragraph(heading, look.width),
      ...table(headings, rows, { columns: look.width, rule: signs.rule }),
    ];
  };
  const loose = all.filter(({ member }) => member.tile === undefined);
  return [
    ...tiles.flatMap((tile) =>
      section(
        tileHeading(tile, showing, look),
        all.filter(({ member }) => member.tile === tile.name),
      ),
    ),
    ...(loose.length === 0 ? [] : section('loose parts', loose)),
  ];
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

/** Totals by size and rule; the last line adds them up. */
function totals(demand: MaterialDemand, showing: Showing, look: Look): Lines {
  const signs = signsOf(look);
  const { headings, rows } = kindRows(demand, { showing, look });
  const count = demand.parts.reduce((sum, kind) => sum + kind.count, 0);
  const name = clean(demand.material.name);
  const heading = `${name} ${showing.thickness(demand.material.thickness)}: ${count} ${count === 1 ? 'part' : 'parts'}`;
  return [
    '',
    ...paragraph(heading, look.width),
    ...table(headings, rows, { columns: look.width, rule: signs.rule }),
  ];
}

/** Sizes down, tiles across, in as many tables as the width asks for; nothing where one tile has them all. */
function byTile(demand: MaterialDemand, batch: Batch, showing: Showing, look: Look): Lines {
  const rows = sizesByTile({ ...batch, materials: [demand] });
  const names = [...batch.tiles.map(({ letters }) => clean(letters)), 'loose'];
  const used = names.map((_, i) => i).filter((i) => rows.some(({ counts }) => counts[i] !== 0));
  if (used.length < 2) return [];
  const { rule } = signsOf(look);
  const size: Column = { heading: `size, ${showing.unit}`, align: 'right', wraps: false };
  const sizes = rows.map(({ kind }) => showing.pair(kind.length, kind.width));
  const room = look.width - Math.max(size.heading.length, ...sizes.map((it) => it.length));
  return chunked(used, (i) => Math.max(names[i]!.length, 4) + 2, room).flatMap((columns) => [
    '',
    ...table(
      [size, ...columns.map((i): Column => ({ heading: names[i]!, align: 'right', wraps: false }))],
      rows.map(({ counts }, row) => [
        sizes[row]!,
        ...columns.map((i) => (counts[i] === 0 ? '.' : `${counts[i]}`)),
      ]),
      { columns: look.width, rule },
    ),
  ]);
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

function workLines({ materials, glueJoints, areas, toBuy }: Work, showing: Showing, look: Look): Lines {
  const { rule } = signsOf(look);
  const number = (heading: string): Column => ({ heading, align: 'right', wraps: false });
  const metres = (mm: Rational): string => roundedDecimal(multiply(mm, rational(1n, 1000n)), 1);
  const sum = (pick: (it: Work['materials'][number]) => number): number =>
    materials.reduce((all, it) => all + pick(it), 0);
  const rows = materials.map((it) => [
    clean(it.name),
    ...[it.sheets, it.pieces, it.settings, it.cuts].map(String),
    metres(it.cutLength),
  ]);
  const total = [
    'in all',
    ...[sum((it) => it.sheets), sum((it) => it.pieces), sum((it) => it.settings), sum((it) => it.cuts)].map(
      String,
    ),
    metres(materials.map((it): Rational => it.cutLength).reduce(add, rational(0n))),
  ];
  const headings: Column[] = [
    { heading: 'work', align: 'left', wraps: true },
    ...['sheets', 'pieces', 'settings', 'cuts', 'metres of cut'].map(number),
  ];
  return [
    '',
    ...table(headings, rows.length > 1 ? [...rows, total] : rows, { columns: look.width, rule }),
    ...(glueJoints === 0 ? [] : paragraph(`${glueJoints} glue joints`, look.width)),
    ...areaLine(areas, look),
    ...shopping(toBuy, showing, look),
  ];
}

/** Where the area of all sheets goes, in hundredths that add up. */
function areaLine({ sheets, parts, kept, scrap, trim, cuts }: Areas, look: Look): Lines {
  if (sheets.numerator === 0n) return [];
  const lost = [scrap, trim, cuts].reduce(add);
  const [used, put, gone] = toHundredths([parts, kept, lost]);
  return paragraph(`area: ${used}% used, ${put}% kept, ${gone}% lost`, look.width);
}

function shopping(toBuy: readonly ToBuy[], showing: Showing, look: Look): Lines {
  if (toBuy.length === 0) return ['', ...paragraph('to buy: nothing', look.width)];
  const headings: Column[] = [
    { heading: 'to buy', align: 'left', wraps: true },
    { heading: 'count', align: 'right', wraps: true },
    { heading: `size, ${showing.unit}`, align: 'right', wraps: false },
    { heading: 'price', align: 'right', wraps: false },
    { heading: '', align: 'left', wraps: true },
  ];
  const money = (it: Price | undefined): string =>
    it === undefined ? '' : `${roundedDecimal(it.amount, 2)} ${it.currency}`;
  const rows = toBuy.map(({ material, sheet, count, packs, leftOver, cost, proof }, i) => [
    clean(material),
    sheet.pack === undefined ? `${count}` : `${packs} ${packs === 1 ? 'pack' : 'packs'} of ${sheet.pack}`,
    showing.pair(sheet.length, sheet.width),
    money(cost),
    [
      ...(leftOver === 0 ? [] : [`${leftOver} left over`]),
      ...(toBuy[i - 1]?.material === material ? [] : [proofWords(proof, 'possible').replace(/^, /, '')]),
    ]
      .filter((words) => words !== '')
      .join('; '),
  ]);
  const costs = costsOf(toBuy);
  return [
    '',
    ...table(headings, rows, { columns: look.width, rule: signsOf(look).rule }),
    ...(costs.length === 0 ? [] : paragraph(`in all ${costs.map(money).join(' + ')}`, look.width)),
  ];
}
