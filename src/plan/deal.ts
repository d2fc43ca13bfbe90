import type { NonEmpty, PartKind, PartMember } from '../model/index.ts';
import { oneByOne } from './oneByOne.ts';

/** A layout as dealing sees it: which kind lies in each of its places, and how many sheets are cut so. */
export interface Places {
  readonly slots: readonly number[];
  readonly times: number;
}

/** Sheets in a row that carry the same labels, one member for each place. */
export interface DealtSheets {
  readonly times: number;
  readonly members: readonly PartMember[];
}

export interface Dealt {
  /** By layout. */
  readonly dealt: readonly (readonly DealtSheets[])[];
  /** Members that no place was left for. */
  readonly left: readonly { readonly member: PartMember; readonly count: number }[];
}

/**
 * Deals the members' labels onto the places of the layouts. Members are taken in the order of the batch, so
 * parts of one tile land on the same sheets and near the same corner. Sheets cut alike stay one picture
 * wherever each can carry the same labels; they part only where a member's count doesn't divide.
 *
 *   4 sheets, 3 places each;  A: 9, B: 3        sheet   1  2  3  4
 *   A fills two places on every sheet           place 1  A  A  A  A
 *   what is left goes down the last place       place 2  A  A  A  A
 *   → 1 sheet A A A, 3 sheets A A B             place 3  A  B  B  B
 */
export function* deal(kinds: NonEmpty<PartKind>, layouts: readonly Places[]): Generator<undefined, Dealt> {
  const stacks = kinds.map((kind) => kind.members.map((member) => ({ member, left: member.count })));
  const dealt = yield* oneByOne(layouts, (layout) => dealLayout(layout, stacks));
  const left = stacks
    .flat()
    .filter((stack) => stack.left > 0)
    .map((stack) => ({ member: stack.member, count: stack.left }));
  return { dealt, left };
}

/** What is still to be dealt of one member; shrinks as places are filled. */
interface Stack {
  readonly member: PartMember;
  left: number;
}

/** One place over all sheets that are cut alike: sheets up to `until` carry `member`. */
type Column = { readonly member: PartMember; readonly until: number }[];

function dealLayout({ slots, times }: Places, stacks: readonly (readonly Stack[])[]): readonly DealtSheets[] {
  const columns: Column[] = slots.map(() => []);
  const open = new Map<number, number[]>();
  for (const [place, kind] of slots.entries()) {
    const places = open.get(kind);
    if (places === undefined) open.set(kind, [place]);
    else places.push(place);
  }

  for (const [kind, places] of open) {
    const free = [...places];
    const stack = stacks[kind] ?? [];
    for (const of of stack) {
      for (; of.left >= times && free.length > 0; of.left -= times) {
        columns[free.shift()!] = [{ member: of.member, until: times }];
      }
    }
    for (const place of free) columns[place] = dealColumn(stack, times);
  }
  return alikeSheets(columns, times).map((sheets) => ({
    ...sheets,
    members: inBatchOrder(sheets.members, open, stacks),
  }));
}

/** On each sheet, the places of a kind carry its members in the order of the batch. */
function inBatchOrder(
  members: readonly PartMember[],
  open: ReadonlyMap<number, readonly number[]>,
  stacks: readonly (readonly Stack[])[],
): readonly PartMember[] {
  const ordered = [...members];
  for (const [kind, places] of open) {
    const rank = new Map((stacks[kind] ?? []).map(({ member }, i) => [member, i]));
    const sorted = places.map((place) => members[place]!).sort((a, b) => rank.get(a)! - rank.get(b)!);
    for (const [i, place] of places.entries()) ordered[place] = sorted[i]!;
  }
  return ordered;
}

function dealColumn(stack: readonly Stack[], times: number): Column {
  const column: Column = [];
  let sheets = 0;
  for (const of of stack) {
    const taken = Math.min(of.left, times - sheets);
    if (taken === 0) continue;
    of.left -= taken;
    sheets += taken;
    column.push({ member: of.member, until: sheets });
  }
  if (sheets < times) throw new Error('a layout holds more parts of a kind than are asked for');
  return column;
}

function alikeSheets(columns: readonly Column[], times: number): readonly DealtSheets[] {
  const ends = new Set([times, ...columns.flatMap((column) => column.map(({ until }) => until))]);
  const sheets: DealtSheets[] = [];
  let from = 0;
  for (const until of [...ends].sort((a, b) => a - b)) {
    const members = columns.map((column) => column.find((it) => it.until > from)!.member);
    sheets.push({ times: until - from, members });
    from = until;
  }
  return sheets;
}
