import { add, multiply, rational, roundedDecimal } from '../../measure/index.ts';
import type { Price, Rational, SheetKind } from '../../model/index.ts';
import { type Areas, toHundredths } from '../areas.ts';
import { clean } from '../columns/index.ts';
import { costsOf, type FittingToBuy, type ToBuy, type Work } from '../count/index.ts';
import { proofWords } from '../saying.ts';
import { numbers, type PlainTable, wordy } from '../tables/index.ts';
import type { Showing } from './lengths.ts';

/** What is done at the bench, by material, and where the area of the sheets goes. */
export function workTable({ materials, glueJoints, areas }: Work): PlainTable {
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
  const joints = `${glueJoints} glue ${glueJoints === 1 ? 'joint' : 'joints'}`;
  return {
    title: undefined,
    notes: [],
    columns: [
      wordy('work'),
      ...['sheets', 'pieces', 'settings', 'cuts', 'metres of cut'].map((it) => numbers(it)),
    ],
    rows: rows.length > 1 ? [...rows, total] : rows,
    below: [...(glueJoints === 0 ? [] : [joints]), ...areaLine(areas)],
  };
}

/** Where the area of all sheets goes, in hundredths that add up. */
function areaLine({ sheets, parts, kept, scrap, trim, cuts }: Areas): readonly string[] {
  if (sheets.numerator === 0n) return [];
  const lost = [scrap, trim, cuts].reduce(add);
  const [used, put, gone] = toHundredths([parts, kept, lost]);
  return [`area: ${used}% used, ${put}% kept, ${gone}% lost`];
}

/**
 * What is missing, in whole sheets and packs.
 *
 * @param sheets   undefined where nothing was laid out
 * @param missing  of fittings; undefined where none are taken
 */
export function shopping(
  sheets: readonly ToBuy[] | undefined,
  missing: readonly FittingToBuy[] | undefined,
  showing: Showing,
): readonly PlainTable[] {
  if (sheets === undefined && missing === undefined) return [];
  const all = [...(sheets ?? []), ...(missing ?? [])];
  const what = sheets === undefined ? 'fittings to buy' : 'to buy';
  if (all.length === 0) return [{ title: undefined, notes: [`${what}: nothing`], columns: [], rows: [] }];
  const costs = costsOf(all);
  return [
    {
      title: undefined,
      notes: [],
      columns: [
        wordy(what),
        { ...numbers('count'), wraps: true },
        ...(sheets === undefined ? [] : [numbers(`size, ${showing.unit}`)]),
        numbers('price'),
        wordy(''),
      ],
      rows: [
        ...(sheets ?? []).map(({ material, sheet, count, packs, leftOver, cost, proof }, i) => [
          clean(material),
          soldWords(sheet, count, packs),
          showing.pair(sheet.length, sheet.width),
          money(cost),
          [
            ...leftOverWords(leftOver),
            ...(sheets?.[i - 1]?.material === material
              ? []
              : [proofWords(proof, 'possible').replace(/^, /, '')]),
          ]
            .filter((it) => it !== '')
            .join('; '),
        ]),
        ...(missing ?? []).map(({ fitting, missing: count, packs, leftOver, cost }) => [
          clean(fitting.label),
          fitting.pack === 1 ? `${count}` : packsOf(packs, fitting.pack),
          ...(sheets === undefined ? [] : ['']),
          money(cost),
          leftOverWords(leftOver).join(''),
        ]),
      ],
      ...(costs.length === 0 ? {} : { below: [`in all ${costs.map(money).join(' + ')}`] }),
    },
  ];
}

/** `7`, `2 packs of 10`, `1 block of 4 layers`: what one asks for in the shop. */
function soldWords({ pack, block }: SheetKind, count: number, packs: number): string {
  if (block === undefined) return pack === undefined ? `${count}` : packsOf(packs, pack);
  const blocks = (packs * (pack ?? 1)) / block.layers;
  return `${blocks} ${blocks === 1 ? 'block' : 'blocks'} of ${block.layers} ${block.layers === 1 ? 'layer' : 'layers'}`;
}

function packsOf(packs: number, of: number): string {
  return `${packs} ${packs === 1 ? 'pack' : 'packs'} of ${of}`;
}

function leftOverWords(leftOver: number): readonly string[] {
  return leftOver === 0 ? [] : [`${leftOver} left over`];
}

function money(it: Price | undefined): string {
  return it === undefined ? '' : `${roundedDecimal(it.amount, 2)} ${it.currency}`;
}
