import { pack } from '../../src/pack/index.ts';
import { type Job, Lie } from '../../src/pack/job.ts';
import { type FilledSheet, type Found, search } from '../../src/pack/search/search.ts';
import { type Node, Shape } from '../../src/pack/search/tree.ts';
import { demandOf, type RuleLine } from '../pack/demand.ts';

/** A plain instance: parts on sheets of one size, no kerf, grain or limits. */
export interface Instance {
  readonly id: string;
  readonly class?: number;
  readonly sheet: readonly [number, number];
  readonly parts: readonly (readonly [number, number])[];
}

/** Parts keep their sides (`O`), or may turn by a quarter (`R`). */
export type Variant = 'O' | 'R';

/** Milliseconds since whenever. */
export type Clock = () => number;

export interface Packed {
  /** For each sheet its parts: index, x, y, width, height. */
  readonly sheets: [number, number, number, number, number][][];
  readonly bound: number;
  readonly steps: number;
  readonly ms: number;
}

/**
 * Packs an instance with the product's own engine. The clock only ends the search; what it does up to then
 * is the same as with steps.
 *
 * @param seconds  0 for the constructive part alone
 */
export function packInstance(
  instance: Instance,
  variant: Variant,
  seconds: number,
  clock: Clock = () => performance.now(),
): Packed {
  const start = clock();
  const { job, members } = jobOf(instance, variant);
  const counts = job.kinds.map(({ count }) => count);
  const limit = { steps: seconds > 0 ? Number.POSITIVE_INFINITY : 0 };
  const run = search(job, counts, limit);
  let next = run.next();
  while (!next.done) {
    if (clock() - start >= seconds * 1000) limit.steps = 0;
    next = run.next();
  }
  const found: Found = next.value;
  const left = members.map((list) => [...list]);
  const sheets = found.sheets.flatMap((sheet) =>
    Array.from({ length: sheet.times }, () => placesOn(sheet, left)),
  );
  return { sheets, bound: found.bound.sheets, steps: found.steps, ms: clock() - start };
}

export interface Batch {
  readonly sheet: readonly [number, number];
  readonly kinds: readonly {
    readonly size: readonly [number, number];
    readonly count: number;
    readonly mayTurn: boolean;
  }[];
  readonly kerf: number;
}

/** Packs a batch as the product does, from demand to checked layouts; `longest` is the longest stretch in ms. */
export function packBatch(
  { sheet, kinds, kerf }: Batch,
  rules: RuleLine,
  steps: number,
  clock: Clock = () => performance.now(),
): { readonly sheets: number; readonly bound: number; readonly ms: number; readonly longest: number } {
  const start = clock();
  const parts = kinds.map(({ size, count, mayTurn }) => ({
    size,
    count,
    grain: mayTurn ? ('any' as const) : ('length' as const),
  }));
  const run = pack(demandOf(parts, [{ size: sheet }], { kerf, ...rules }), steps);
  let [longest, last] = [0, clock()];
  let next = run.next();
  for (;;) {
    const now = clock();
    longest = Math.max(longest, now - last);
    if (next.done) break;
    last = clock();
    next = run.next();
  }
  const { layouts, bound } = next.value.value!;
  const sheets = layouts.reduce((sum, { times }) => sum + times, 0);
  return { sheets, bound: bound.sheets, ms: clock() - start, longest };
}

/** Equal parts become one kind; `members` are their indices. */
function jobOf({ sheet, parts }: Instance, variant: Variant): { job: Job; members: number[][] } {
  const byKey = new Map<string, { length: number; width: number; members: number[] }>();
  parts.forEach(([w, h], index) => {
    const [length, width] = variant === 'R' && w < h ? [h, w] : [w, h];
    const key = `${length}×${width}`;
    const kind = byKey.get(key);
    if (kind === undefined) byKey.set(key, { length, width, members: [index] });
    else kind.members.push(index);
  });
  const kinds = [...byKey.values()];
  const ways = variant === 'R' ? Lie.straight | Lie.turned : Lie.straight;
  const job: Job = {
    kinds: kinds.map(({ length, width, members }) => ({ length, width, count: members.length })),
    sheets: [{ length: sheet[0], width: sheet[1], available: Number.POSITIVE_INFINITY, cost: 1 }],
    rules: { kerf: 0, leastStrip: 0, longestCut: Number.POSITIVE_INFINITY, rounds: Number.POSITIVE_INFINITY },
    lies: new Uint8Array(kinds.length).fill(ways),
  };
  return { job, members: kinds.map(({ members }) => members) };
}

function placesOn({ root, kindOf }: FilledSheet, left: number[][]): Packed['sheets'][number] {
  const places: Packed['sheets'][number] = [];
  const lay = (node: Node, x: number, y: number): void => {
    if (node.shape === Shape.part) {
      places.push([left[kindOf[node.part]!]!.shift()!, x, y, node.width, node.height]);
      return;
    }
    let [atX, atY] = [x, y];
    for (const kid of node.kids) {
      lay(kid, atX, atY);
      if (node.shape === Shape.row) atX += kid.width;
      else atY += kid.height;
    }
  };
  lay(root, 0, 0);
  return places;
}

export { flawsOf } from '../pack/edgeToEdge.ts';
