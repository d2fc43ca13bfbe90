import { toFraction } from '../../measure/index.ts';
import type { Change, MaterialDemand, MaterialPlan, Saving, Savings, SheetKind } from '../../model/index.ts';
import { areasOf } from '../areas.ts';
import { describeLength } from './length.ts';
import type { Document } from './schema.ts';

type DescribedWhy = NonNullable<NonNullable<Document<'cut'>['result']>['materials'][number]['why']>;
type DescribedSaving = DescribedWhy['savings'][number];

export function describeWhy(plan: MaterialPlan, savings: Savings): DescribedWhy {
  const { sheets, parts, kept, scrap, trim, cuts } = areasOf(plan);
  return {
    area: {
      sheets: toFraction(sheets),
      parts: toFraction(parts),
      kept: toFraction(kept),
      scrap: toFraction(scrap),
      trim: toFraction(trim),
      cuts: toFraction(cuts),
    },
    bought: savings.bought,
    savings: savings.found.map((saving) => describeSaving(saving, plan.demand)),
    tried: [...savings.tried],
    packings: savings.packings,
    ended: savings.ended,
  };
}

function describeSaving({ change, sheets, isLeast }: Saving, demand: MaterialDemand): DescribedSaving {
  const blank = { labels: [], tile: null, side: null, by: null, to: null, count: null, sheet: null };
  return {
    change: change.kind,
    ...blank,
    steps: null,
    ...particulars(change, demand),
    sheets,
    isLeast,
  };
}

function particulars(change: Change, { parts, sheets }: MaterialDemand): Partial<DescribedSaving> {
  const labels = (part: number) => parts[part]!.members.map(({ label }) => label);
  switch (change.kind) {
    case 'longer search':
      return { steps: change.steps };
    case 'turns freely':
      return { labels: labels(change.part) };
    case 'smaller part':
      return { labels: labels(change.part), side: change.side, by: describeLength(change.by) };
    case 'less trim':
      return { by: describeLength(change.by) };
    case 'narrower strips':
    case 'thinner kerf':
      return { to: describeLength(change.to) };
    case 'fewer parts':
      return { labels: labels(change.part), count: change.count };
    case 'fewer tiles':
      return { tile: change.tile, count: change.count };
    case 'one more sheet':
      return { sheet: describeSize(sheets[change.sheet]!) };
    case 'other sheet':
      return { sheet: describeSize(change.sheet) };
  }
}

function describeSize({ length, width, label }: SheetKind) {
  return { length: describeLength(length), width: describeLength(width), label: label ?? null };
}
