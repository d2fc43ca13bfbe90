import {
  ceiling,
  compareRationals,
  equal,
  floor,
  isPositive,
  larger,
  minus,
  multiply,
  ratio,
  rational,
  scaled,
  times,
  whole,
  zero,
} from '../../measure/index.ts';
import type {
  Change,
  Length,
  MaterialDemand,
  MaterialLayouts,
  PartKind,
  SheetKind,
  Side,
} from '../../model/index.ts';

/** One sort of change from a little of it (rung 1) to as much as a maker may put up with (the last rung). */
export interface Ladder {
  readonly rungs: number;
  readonly at: (rung: number) => Change;
}

export interface SavingsScope {
  readonly step: Length;
  /** Sheets of other materials, of whose sizes this one might come too. */
  readonly otherSheets: readonly SheetKind[];
}

/** A part may lose an eighth of a size, a batch an eighth of its copies; what is more is another kit. */
const mostShare = rational(1n, 8n);

/** All that is worth trying, by sort, the least intrusive first; within a sort the most promising first. */
export function laddersFor(
  packed: MaterialLayouts,
  { step, otherSheets }: SavingsScope,
): readonly (readonly Ladder[])[] {
  const { demand } = packed;
  const largeFirst = [...demand.parts.keys()].sort((a, b) => byArea(demand.parts[b]!, demand.parts[a]!));
  const ofEach = (ladders: (kind: PartKind, part: number) => readonly Ladder[]) =>
    largeFirst.flatMap((part) => ladders(demand.parts[part]!, part));
  return [
    ofEach((kind, part) => (isBound(kind, demand) ? [turning(part)] : [])),
    ofEach((kind, part) => smaller(kind, part, step)),
    lessTrim(demand, step),
    lowering(demand.rules.leastStrip, step, (to) => ({ kind: 'narrower strips', to })),
    lowering(demand.rules.kerf, step, (to) => ({ kind: 'thinner kerf', to })),
    ofEach(({ count }, part) => [
      { rungs: eighthOf(count), at: (rung) => ({ kind: 'fewer parts', part, count: rung }) },
    ]),
    fewerTiles(demand),
    oneMore(packed),
    otherSizes(demand, otherSheets),
  ];
}

/** What an eighth less of a kind comes to goes with the area of all its copies. */
function byArea(a: PartKind, b: PartKind): number {
  const areaOf = (it: PartKind) => multiply(multiply(it.length, it.width), whole(it.count));
  return compareRationals(areaOf(a), areaOf(b));
}

/** True where a sheet has grain or flutes that hold the part, and turning it would make a difference. */
function isBound({ grain, flutes, length, width }: PartKind, { sheets }: MaterialDemand): boolean {
  if (equal(length, width)) return sheets.some((it) => it.grain === 'unknown' || it.flutes === 'unknown');
  return sheets.some(
    (sheet) => (grain !== 'any' && sheet.grain !== 'none') || (flutes !== 'any' && sheet.flutes !== 'none'),
  );
}

function turning(part: number): Ladder {
  return { rungs: 1, at: () => ({ kind: 'turns freely', part }) };
}

function smaller(kind: PartKind, part: number, step: Length): readonly Ladder[] {
  const isFree = kind.grain === 'any' && kind.flutes === 'any';
  const sides: readonly Side[] = isFree && equal(kind.length, kind.width) ? ['length'] : ['length', 'width'];
  return sides.flatMap((side) => {
    const rungs = Number(floor(ratio(scaled(kind[side], mostShare), step)));
    return climbing(rungs, (rung) => ({ kind: 'smaller part', part, side, by: times(step, rung) }));
  });
}

function lessTrim({ sheets }: MaterialDemand, step: Length): readonly Ladder[] {
  const most = sheets
    .flatMap(({ trim }) => [trim.left, trim.right, trim.bottom, trim.top])
    .reduce(larger, zero);
  return lowering(most, step, (to) => ({ kind: 'less trim', by: minus(most, to) }));
}

/** Down to nothing, step by step of the rule. */
function lowering(from: Length, step: Length, change: (to: Length) => Change): readonly Ladder[] {
  if (!isPositive(from)) return [];
  const rungs = Number(ceiling(ratio(from, step)));
  return climbing(rungs, (rung) => change(larger(zero, minus(from, times(step, rung)))));
}

function fewerTiles({ parts }: MaterialDemand): readonly Ladder[] {
  const made = new Map<string, number>();
  for (const { tile, count, each } of parts.flatMap(({ members }) => members)) {
    if (tile !== undefined) made.set(tile, Math.max(made.get(tile) ?? 0, Math.ceil(count / each)));
  }
  return [...made].map(([tile, count]) => {
    return { rungs: eighthOf(count), at: (rung) => ({ kind: 'fewer tiles', tile, count: rung }) };
  });
}

function oneMore({ demand, layouts }: MaterialLayouts): readonly Ladder[] {
  return demand.sheets.flatMap(({ available }, sheet) => {
    const used = layouts.reduce((sum, it) => sum + (it.sheet === sheet ? it.times : 0), 0);
    if (available === 'as needed' || used < available) return [];
    return [{ rungs: 1, at: () => ({ kind: 'one more sheet', sheet }) as const }];
  });
}

/** Sizes in which other materials come, as if this one came so too; trimmed as its own sheets are. */
function otherSizes({ material, sheets }: MaterialDemand, others: readonly SheetKind[]): readonly Ladder[] {
  const own = sheets.find(({ isOffcut }) => !isOffcut);
  if (own === undefined) return [];
  const { pack: _, ...alone } = own;
  const isSame = (a: SheetKind, b: SheetKind) => equal(a.length, b.length) && equal(a.width, b.width);
  const known: SheetKind[] = [...sheets];
  return others.flatMap((other) => {
    if (other.isOffcut || known.some((it) => isSame(it, other))) return [];
    known.push(other);
    const sheet: SheetKind = {
      ...alone,
      length: other.length,
      width: other.width,
      grain: material.hasGrain ? (other.grain === 'width' ? 'width' : 'length') : 'none',
      flutes: material.hasFlutes ? (other.flutes === 'width' ? 'width' : 'length') : 'none',
      available: 'as needed',
      price: undefined,
      label: undefined,
      where: undefined,
      note: undefined,
    };
    return [{ rungs: 1, at: () => ({ kind: 'other sheet', sheet }) as const }];
  });
}

function climbing(rungs: number, at: (rung: number) => Change): readonly Ladder[] {
  return rungs > 0 ? [{ rungs, at }] : [];
}

function eighthOf(count: number): number {
  return Math.ceil(count / 8);
}
