import { areaOf, type Job, type JobSheet } from '../job.ts';
import { leastCost } from './leastCost.ts';
import type { Bound } from './lowerBound.ts';

/**
 * The parts' area over the largest sheet's, after all that offcuts could take. With one kerf added to all
 * sizes of parts and sheets this counts the material lost between parts, and nothing else.
 */
export function areaBound(job: Job, counts: readonly number[]): Bound {
  const parts = job.kinds.reduce((sum, kind, i) => sum + BigInt(areaOf(kind)) * BigInt(counts[i]!), 0n);
  const held = (sheet: JobSheet) => BigInt(areaOf(sheet));
  const sheets = leastSheets(job.sheets, parts, held);
  const cost = leastCost(job.sheets, parts, held);
  return {
    sheets,
    cost,
    argument: `their area alone takes ${sheets === 1 ? 'one' : `more than ${sheets - 1}`}`,
  };
}

/**
 * The least number of bought sheets that hold `amount`, where no sheet holds more than `held` of it: all
 * offcuts first, then the largest sheets as far as there are any.
 */
export function leastSheets(
  sheets: readonly JobSheet[],
  amount: bigint,
  held: (sheet: JobSheet) => bigint,
): number {
  let rest = amount;
  for (const sheet of sheets) {
    if (sheet.cost > 0) continue;
    if (sheet.available === Number.POSITIVE_INFINITY) return 0;
    rest -= held(sheet) * BigInt(sheet.available);
  }
  if (rest <= 0n) return 0;
  const largest = sheets
    .filter((sheet) => sheet.cost > 0)
    .map((sheet) => ({ held: held(sheet), available: sheet.available }))
    .sort((a, b) => (a.held < b.held ? 1 : a.held > b.held ? -1 : 0));
  let count = 0;
  for (const { held: each, available } of largest) {
    if (each <= 0n) break;
    const wanted = Number((rest + each - 1n) / each);
    if (wanted <= available) return count + wanted;
    count += available;
    rest -= each * BigInt(available);
  }
  return count; // more than there is: whatever is bought, all of it is
}
