import { compare, isZero, minus, roundedDecimal } from '../measure/index.ts';
import type {
  Change,
  Length,
  MaterialDemand,
  MaterialPlan,
  PartKind,
  Price,
  Saving,
  Savings,
} from '../model/index.ts';
import { areasOf, toHundredths } from './areas.ts';
import { listed } from './enumerated.ts';
import { sheetWord } from './saying.ts';

/** How the renderer shows what stands in the words. */
export interface WordSigns {
  readonly length: (length: Length) => string;
  readonly pair: (length: Length, width: Length) => string;
  /** The user's words, made fit to print. */
  readonly clean: (text: string) => string;
}

/** Why it takes so many sheets, and what would save one. */
export interface WhyWords {
  /** What shows that no fewer will do, then where the area goes. */
  readonly reasons: readonly string[];
  /** What stands above the list of savings, or in its place; undefined where there is no sheet to save. */
  readonly lead: string | undefined;
  readonly savings: readonly string[];
}

export function whyWords(plan: MaterialPlan, savings: Savings, signs: WordSigns): WhyWords {
  const way = plan.bound.isForBlanks ? 'way of cutting these blanks' : 'way of cutting';
  const reasons = [boundWords(plan, savings, way), ...costWords(plan, way), ...areaWords(plan)];
  return { reasons, lead: leadWords(savings), savings: savingLines(plan.demand, savings, signs) };
}

function boundWords({ proof, bound, sheets, steps }: MaterialPlan, { bought }: Savings, way: string): string {
  const beside = sheets.some(({ sheet }) => sheet.isOffcut) ? ' beside the offcuts' : '';
  switch (proof.kind) {
    case 'none':
      return 'Not every part has a sheet, so nothing is claimed about fewer.';
    case 'fewest':
      return bought === 0
        ? 'The offcuts are enough: nothing has to be bought.'
        : `No ${way} needs fewer than ${sheetsWord(bought)}${beside}: ${bound.argument}.`;
    case 'within': {
      const least =
        bound.sheets === 0
          ? 'Nothing shows that any sheet has to be bought'
          : `No ${way} needs fewer than ${sheetsWord(bound.sheets)}${beside}: ${bound.argument}`;
      return steps === 0
        ? `${least}. The first layouts, without a search, take ${bought}.`
        : `${least}. The search found none with fewer than ${bought} in ${stepsWord(steps)}.`;
    }
  }
}

/** Only where sheets of different prices could be bought: else the fewest are the cheapest. */
function costWords({ bound, proof }: MaterialPlan, way: string): readonly string[] {
  if (proof.kind === 'none' || proof.cost === undefined || bound.cost === undefined) return [];
  const money = ({ amount, currency }: Price) => `${roundedDecimal(amount, 2)}\u00a0${currency}`;
  const least = `No ${way} costs less than ${money(bound.cost)}`;
  return proof.cost.kind === 'cheapest'
    ? [`${least}, and these sheets cost no more.`]
    : [`${least}; these sheets cost ${money(proof.cost.by)} more.`];
}

/** In one line: parts, what is kept, what is lost and to what. */
function areaWords(plan: MaterialPlan): readonly string[] {
  const { sheets, parts, kept, scrap, trim, cuts } = areasOf(plan);
  if (isZero(sheets)) return [];
  const shares = toHundredths([parts, kept, scrap, trim, cuts]);
  const share = (i: number) => `${shares[i]}\u00a0%`;
  const losses = [
    { name: 'scrap', area: scrap, at: 2 },
    { name: 'trim', area: trim, at: 3 },
    { name: 'cuts', area: cuts, at: 4 },
  ];
  const lost = losses.reduce((sum, { at }) => sum + shares[at]!, 0);
  const told = losses.flatMap(({ name, area, at }) =>
    isZero(area) ? [] : [`${name} ${shares[at] === 0 ? 'under 1\u00a0%' : share(at)}`],
  );
  const inWhat = told.length > 1 ? ` (${told.join(', ')})` : '';
  return [
    `Of their area about ${share(0)} becomes parts, ${share(1)} is kept, ${lost}\u00a0% is lost${inWhat}.`,
  ];
}

function leadWords({ found, tried, ended, packings }: Savings): string | undefined {
  switch (ended) {
    case 'parts missing':
      return 'What would save a sheet was not looked for, as parts are missing.';
    case 'nothing to save':
      return undefined;
    case 'tired':
    case 'all tried': {
      const sorts = listed(
        tried.map((kind) => sortWords[kind]),
        'or',
      );
      const rest = ended === 'tired' ? ' The effort set aside for this ended before all was tried.' : '';
      if (found.length > 0)
        return `Each of these by itself saves a sheet; all was laid out anew to see it.${rest}`;
      return packings === 0
        ? `No small change can save a sheet. Bounds of the same kind rule out ${sorts}.${rest}`
        : `No small change that was tried saves a sheet. Tried: ${sorts}.${rest}`;
    }
  }
}

const sortWords: Readonly<Record<Change['kind'], string>> = {
  'longer search': 'a longer search',
  'turns freely': 'turning a part',
  'smaller part': 'a part up to an eighth shorter or narrower',
  'less trim': 'less trim',
  'narrower strips': 'narrower strips',
  'thinner kerf': 'a thinner kerf',
  'fewer parts': 'leaving out one part (or an eighth of its copies)',
  'fewer tiles': 'making one tile fewer (or an eighth of its number)',
  'one more sheet': 'one more of a sheet that is used up',
  'other sheet': 'the sheet sizes of the other materials',
};

/** A sort that has many savings is cut short: the first are the smallest changes. */
const mostLinesOfASort = 3;

function savingLines(
  demand: MaterialDemand,
  { found, bought }: Savings,
  signs: WordSigns,
): readonly string[] {
  const sorts = new Map<Change['kind'], Saving[]>();
  for (const saving of found) {
    const { kind } = saving.change;
    sorts.set(kind, [...(sorts.get(kind) ?? []), saving]);
  }
  return [...sorts.values()].flatMap((savings) =>
    savings.slice(0, mostLinesOfASort).map(({ change, sheets, isLeast }) => {
      const saves = bought - sheets;
      const remarks = [...(saves > 1 ? [`saves ${saves}`] : []), ...(isLeast ? [] : ['less may do'])];
      const remark = remarks.length === 0 ? '' : ` (${remarks.join(', ')})`;
      return `${changeWords(change, demand, signs)}${remark}`;
    }),
  );
}

function changeWords(change: Change, demand: MaterialDemand, signs: WordSigns): string {
  const partOf = (index: number) => demand.parts[index]!;
  switch (change.kind) {
    case 'longer search':
      return `with --effort ${change.steps}, and no other change`;
    case 'turns freely':
      return `if ${nameOf(partOf(change.part), signs)} could turn`;
    case 'smaller part': {
      const part = partOf(change.part);
      const left = minus(part[change.side], change.by);
      const [length, width] = change.side === 'length' ? [left, part.width] : [part.length, left];
      const less = `${signs.length(change.by)} ${change.side === 'length' ? 'shorter' : 'narrower'}`;
      return `if ${nameOf(part, signs)} were ${less}: ${signs.pair(length, width)}`;
    }
    case 'less trim': {
      const trims = demand.sheets.flatMap(({ trim }) => [trim.left, trim.right, trim.bottom, trim.top]);
      const leavesNone = trims.every((it) => compare(it, change.by) <= 0);
      return leavesNone ? 'with no trim' : `with ${signs.length(change.by)} less trim`;
    }
    case 'narrower strips':
      return isZero(change.to)
        ? 'with strips of any width'
        : `with strips down to ${signs.length(change.to)}`;
    case 'thinner kerf':
      return isZero(change.to) ? 'with no kerf' : `with a kerf of ${signs.length(change.to)}`;
    case 'fewer parts':
      return `with ${change.count} fewer of ${nameOf(partOf(change.part), signs)}`;
    case 'fewer tiles':
      return `with ${change.count} ${signs.clean(change.tile)} fewer to make`;
    case 'one more sheet': {
      const sheet = demand.sheets[change.sheet]!;
      const { label, length, width } = sheet;
      const called = label === undefined ? '' : ` like "${signs.clean(label)}"`;
      return `with one more ${sheetWord(sheet)}${called} of ${signs.pair(length, width)}`;
    }
    case 'other sheet':
      return `if it came in sheets of ${signs.pair(change.sheet.length, change.sheet.width)}, as another material does`;
  }
}

/** `"RW face", "RW back" and 2 more of that size` */
function nameOf({ members }: PartKind, { clean }: WordSigns): string {
  const labels = [...new Set(members.map(({ label }) => `"${clean(label)}"`))];
  if (labels.length <= 3) return listed(labels);
  return `${labels.slice(0, 2).join(', ')} and ${labels.length - 2} more of that size`;
}

function sheetsWord(count: number): string {
  return count === 1 ? '1 sheet' : `${count} sheets`;
}

function stepsWord(count: number): string {
  return count === 1 ? '1 step' : `${count} steps`;
}
