import type { MaterialDemand } from '../../model/index.ts';
import { areaOf, type Job } from '../job.ts';

/** What could be bought: by kind of sheet how many packs, a sheet that is sold alone being a pack of one. */
export interface Purchase {
  readonly packs: readonly number[];
  /** In the units of the job's costs. */
  readonly cost: number;
}

/** How the kinds of a job are sold; 0 for what is at hand already. */
export function packSizes({ sheets }: MaterialDemand): readonly number[] {
  return sheets.map(({ isOffcut, pack = 1 }) => (isOffcut ? 0 : pack));
}

/**
 * Every purchase that costs less than `spent` and whose area, with that of all offcuts, is enough; the cheapest
 * first. Undefined where there are too many to look at.
 */
export function purchasesBelow(
  spent: number,
  job: Job,
  sizes: readonly number[],
  counts: readonly number[],
): readonly Purchase[] | undefined {
  const wanted = job.kinds.reduce((sum, kind, i) => sum + areaOf(kind) * counts[i]!, 0);
  const atHand = job.sheets.reduce(
    (sum, sheet, i) => sum + (sizes[i] === 0 ? areaOf(sheet) * sheet.available : 0),
    0,
  );
  const bought = sizes.flatMap((pack, kind) => {
    const sheet = job.sheets[kind]!;
    if (pack === 0 || areaOf(sheet) <= 0) return [];
    return [{ kind, cost: sheet.cost * pack, held: areaOf(sheet) * pack, most: sheet.available / pack }];
  });
  const found: Purchase[] = [];
  const packs = sizes.map(() => 0);
  let looks = 0;
  const from = (next: number, cost: number, held: number): void => {
    if (looks++ > mostLooks || found.length > mostPurchases) return;
    const kind = bought[next];
    if (kind === undefined) {
      if (held >= wanted) found.push({ packs: [...packs], cost });
      return;
    }
    for (let count = 0; count <= kind.most && cost + count * kind.cost < spent; count++) {
      packs[kind.kind] = count;
      from(next + 1, cost + count * kind.cost, held + count * kind.held);
    }
    packs[kind.kind] = 0;
  };
  from(0, 0, atHand);
  if (looks > mostLooks || found.length > mostPurchases) return undefined;
  return found.sort((a, b) => a.cost - b.cost || inOrder(a.packs, b.packs));
}

function inOrder(a: readonly number[], b: readonly number[]): number {
  const at = a.findIndex((count, i) => count !== b[i]);
  return at < 0 ? 0 : b[at]! - a[at]!;
}

const mostLooks = 20_000;
const mostPurchases = 2000;
