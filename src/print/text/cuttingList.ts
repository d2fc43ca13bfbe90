import { compare, larger, smaller } from '../../measure/index.ts';
import type { MaterialDemand, MaterialPlan, PartKind, PartMember } from '../../model/index.ts';
import { type Column, counted, type Lines, paragraph, signsOf, table, widthOf } from '../columns/index.ts';
import { edgesBriefly } from '../edgeWords.ts';
import { inclinedBriefly } from '../inclinedWords.ts';
import { turnWords } from '../memberWords.ts';
import { hasRounded, roundedWords } from '../roundedWords.ts';
import type { Setting } from './material.ts';

export function cuttingList({ demand, unplaced }: MaterialPlan, setting: Setting): Lines {
  const { headings, rows } = kindRows(demand, setting, unplaced);
  return [
    ...table(headings, rows, { columns: setting.look.width, rule: signsOf(setting.look).rule }),
    ...(rows.some(hasRounded) ? paragraph(roundedWords, setting.look.width) : []),
  ];
}

export interface Table {
  readonly headings: readonly Column[];
  readonly rows: readonly (readonly string[])[];
}

/**
 * One row for each size and rule, the largest first: how many, how large, which way, whose.
 *
 * @param unplaced  what is not made of it; where there is any, counts say how many are made of how many
 */
export function kindRows(
  demand: MaterialDemand,
  { showing, look }: Setting,
  unplaced: MaterialPlan['unplaced'] = [],
): Table {
  const lacks = (member: PartMember) => unplaced.find((it) => it.member === member)?.count ?? 0;
  const { hasGrain, hasFlutes } = demand.material;
  const sizes = sizeColumns({ showing, look });
  const headings: Column[] = [
    { heading: unplaced.length === 0 ? 'count' : 'made/asked', align: 'right', wraps: false },
    ...sizes.headings,
    ...(hasGrain ? [{ heading: 'grain', align: 'left', wraps: true } as const] : []),
    ...(hasFlutes ? [{ heading: 'flutes', align: 'left', wraps: true } as const] : []),
    { heading: 'labels', align: 'left', wraps: true },
  ];
  const rows = [...demand.parts].sort(largestFirst).map((kind) => [
    madeOf(
      kind.count,
      kind.members.map(lacks).reduce((a, b) => a + b),
      unplaced.length > 0,
    ),
    ...sizes.cells(kind),
    ...(hasGrain ? [sideWords(kind.grain)] : []),
    ...(hasFlutes ? [sideWords(kind.flutes)] : []),
    `${kind.goodSide ? 'good side up: ' : ''}${kind.members
      .map((member) => ofMember(member, lacks(member), { showing, look }))
      .join(', ')}`,
  ]);
  return { headings, rows };
}

/** `6`, or `4/6` where some of the material are not made. */
function madeOf(count: number, lacking: number, isPartial: boolean): string {
  return isPartial ? `${count - lacking}/${count}` : `${count}`;
}

/** `3 × RW face`, `1/3 × RW face` */
function ofMember(member: PartMember, lacking: number, { showing, look }: Setting): string {
  const { count, label, drawn, isTurned = false } = member;
  const signs = signsOf(look);
  const turn = turnWords(member);
  const edges =
    drawn === undefined ? [] : edgesBriefly(drawn, isTurned, { ...showing, fine: showing.thickness });
  const inclined = drawn === undefined ? [] : inclinedBriefly(drawn, isTurned, showing);
  const said = [...inclined, ...edges, ...(turn === undefined ? [] : [turn])];
  const all = `${counted(count, label, signs)}${said.length === 0 ? '' : ` (${said.join('; ')})`}`;
  if (lacking === 0) return all;
  return count === 1 ? `0/1\u00a0${signs.times}\u00a0${all}` : `${count - lacking}/${all}`;
}

interface SizeColumns {
  readonly headings: readonly Column[];
  readonly cells: (kind: PartKind) => readonly string[];
}

const narrow = 60;

/** One that takes more, with what no rule has, may be broken behind its sign. */
const longestSize = 18;

/** The size; where both units are asked for, the other in a column of its own or, in little room, below. */
function sizeColumns({ showing, look }: Setting): SizeColumns {
  const { unit, otherUnit } = showing;
  const parted = (size: string): string =>
    widthOf(size) > longestSize ? size.replace(/\u00a0(×|x)\u00a0/, '\u00a0$1 ') : size;
  const pair: typeof showing.pair = (length, width) => parted(showing.pair(length, width));
  const both = showing.otherPair;
  const otherPair: typeof both = both && ((length, width) => parted(both(length, width)));
  const first: Column = { heading: `size, ${unit}`, align: 'right', wraps: true };
  if (otherPair === undefined) {
    return { headings: [first], cells: ({ length, width }) => [pair(length, width)] };
  }
  if (look.width < narrow) {
    return {
      headings: [{ heading: `size, ${unit} [${otherUnit}]`, align: 'right', wraps: true }],
      cells: ({ length, width }) => [`${pair(length, width)} [${otherPair(length, width)}]`],
    };
  }
  return {
    headings: [first, { ...first, heading: `size, ${otherUnit}` }],
    cells: ({ length, width }) => [pair(length, width), otherPair(length, width)],
  };
}

function largestFirst(a: PartKind, b: PartKind): number {
  const longer = compare(larger(b.length, b.width), larger(a.length, a.width));
  return longer !== 0 ? longer : compare(smaller(b.length, b.width), smaller(a.length, a.width));
}

export function sideWords(side: PartKind['grain']): string {
  return side === 'any' ? 'any way' : `along its ${side}`;
}
