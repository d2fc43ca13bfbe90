import type { Bound } from '../bounds/index.ts';
import { areaOf, type Job, liesOf } from '../job.ts';
import { Pace } from '../pace.ts';
import { construct, recipes, stockOrders } from './construct.ts';
import { copiesOf } from './copies.ts';
import { boughtOf, copiesIn, type FilledSheet, type Progress, withProgress } from './search.ts';
import type { OpenSheet } from './sheet.ts';
import { collectParts, type Node } from './tree.ts';

export interface Repeated {
  readonly sheets: readonly FilledSheet[];
  /** What is still to be placed, by kind. */
  readonly rest: readonly number[];
  /** Sheets still to be had, by kind of sheet. */
  readonly available: readonly number[];
}

/**
 * Fills one sheet well and repeats it as often as the counts allow, until no more than `mostCopies` parts
 * are left. Each round uses a kind up or nearly so; its work follows the kinds, not the copies.
 */
export function* repeatGoodSheets(
  job: Job,
  from: Repeated,
  mostCopies: number,
  bound: Bound,
): Generator<Progress, Repeated> {
  const sheets: FilledSheet[] = [...from.sheets];
  const rest = [...from.rest];
  const available = [...from.available];
  while (copiesIn(rest) > mostCopies) {
    const now: Job = {
      ...job,
      sheets: job.sheets.map((sheet, i) => ({ ...sheet, available: available[i]! })),
    };
    const say = () => ({ step: 0, sheets: boughtOf(job, sheets), bound: bound.sheets });
    const filled = yield* withProgress(fullestSheet(now, rest), say);
    yield say();
    if (filled === undefined) break;
    const { kind } = filled;
    const used = filled.used;
    const times = Math.min(
      available[kind]!,
      ...used.flatMap((each, i) => (each > 0 ? [Math.floor(rest[i]! / each)] : [])),
    );
    for (let i = 0; i < used.length; i++) rest[i]! -= used[i]! * times;
    available[kind]! -= times;
    sheets.push({ kind, root: filled.root, kindOf: filled.kindOf, times });
  }
  return { sheets, rest, available };
}

interface Fullest {
  readonly kind: number;
  readonly root: Node;
  readonly kindOf: Int32Array;
  /** By kind. */
  readonly used: readonly number[];
}

function* fullestSheet(job: Job, counts: readonly number[]): Generator<void, Fullest | undefined> {
  const [stock] = stockOrders(job);
  let best: { sheet: OpenSheet; fill: number; kindOf: Int32Array } | undefined;
  for (const kind of stock!) {
    if (job.sheets[kind]!.available === 0) continue;
    // No more copies of a kind than one sheet could hold, and in all not many more than that.
    const area = areaOf(job.sheets[kind]!);
    const most = Math.max(1, Math.floor(mostAtOnce / counts.filter((count) => count > 0).length));
    const few = counts.map((count, i) =>
      liesOf(job, i, kind) === 0 ? 0 : Math.min(count, most, Math.floor(area / areaOf(job.kinds[i]!))),
    );
    const copies = copiesOf(job, few);
    const onlyOne: Job = { ...job, sheets: job.sheets.map((it) => ({ ...it, available: 1 })) };
    const pace = new Pace();
    for (const recipe of recipes) {
      const { sheets } = yield* construct(onlyOne, copies, recipe, [kind], pace);
      for (const sheet of sheets) {
        const fill = sheet.filled / area;
        if (best === undefined || fill > best.fill) best = { sheet, fill, kindOf: copies.kindOf };
      }
    }
    if (best !== undefined) break;
  }
  if (best === undefined) return undefined;
  const { sheet, kindOf } = best;
  const parts: number[] = [];
  collectParts(sheet.root!, parts);
  const used = counts.map(() => 0);
  for (const part of parts) used[kindOf[part]!]!++;
  return { kind: sheet.kind, root: sheet.root!, kindOf, used };
}

/** So many copies are looked at to fill one sheet. */
const mostAtOnce = 600;
