import { areaOf, type Job, type JobSheet, Lie, liesOf } from '../job.ts';
import { Pace } from '../pace.ts';
import { canBeCut } from './cuttable.ts';
import type { FilledSheet } from './search.ts';
import { leaf, lineOf, type Node, Shape } from './tree.ts';

/**
 * Lays parts out as a person does: long strips first, each as wide as what lies in it, one kind beside the
 * next; low parts of one length stacked in a strip that is wide enough for two.
 *
 *     ┌───────────────────────────────┐
 *     ├──┬──┬──┬──┬──┬──┬──┬──────────┤  strip of one width: a rip, then one stop for its crosscuts
 *     ├──┴─┬┴──┴┬─┴──┼─┬─┬┴┬──────────┤
 *     │    │    │    ├─┼─┼─┤          │  strip with a stack: shorter parts of one length, two high
 *     └────┴────┴────┴─┴─┴─┴──────────┘
 *
 * It may need more sheets than a search does, so it only ever stands in for a filling of the same sheets.
 */
export interface StripWay {
  /** Strips run across the sheet's length. */
  readonly upright: boolean;
  /** Which of its two ways a part that may turn lies: flat, on end, or as wide as most others. */
  readonly posture: 'flat' | 'on end' | 'as most';
  /** A part goes beside wider ones before a strip of its own is opened. */
  readonly joins: boolean;
}

export const stripWays: readonly StripWay[] = [false, true].flatMap((upright) =>
  (['as most', 'flat', 'on end'] as const).flatMap((posture) =>
    [false, true].map((joins) => ({ upright, posture, joins })),
  ),
);

/**
 * Fills the sheets one after the other.
 *
 * @param counts  parts by kind
 * @param sheets  the kind of each sheet, in the order of filling
 * @returns       undefined where they don't hold all parts, or a sheet so filled can't be cut by the rules
 */
export function* inStrips(
  job: Job,
  counts: readonly number[],
  sheets: readonly number[],
  way: StripWay,
  pace = new Pace(),
): Generator<void, FilledSheet[] | undefined> {
  const left = [...counts];
  const kindOf = Int32Array.from(counts.keys());
  const filled: FilledSheet[] = [];
  let room = sheets.reduce((sum, kind) => sum + areaOf(job.sheets[kind]!), 0);
  let needed = left.reduce((sum, count, kind) => sum + count * areaOf(job.kinds[kind]!), 0);
  for (const kind of sheets) {
    // What is lost so far is no longer there for the rest: mostly this tells long before the last sheet.
    if (needed > room) return undefined;
    room -= areaOf(job.sheets[kind]!);
    const { root, work } = fillSheet(job, left, kind, way);
    if (pace.isDue(work)) yield;
    if (root === undefined) continue;
    if (!canBeCut(root, job.sheets[kind]!, job.rules)) return undefined;
    needed -= root.filled;
    filled.push({ kind, root, kindOf, times: 1 });
  }
  return left.some((count) => count > 0) ? undefined : filled;
}

/** A part as it lies: `along` its strip, and `across` it. */
interface Lying {
  readonly kind: number;
  readonly along: number;
  readonly across: number;
  readonly turned: boolean;
}

interface Strip {
  readonly across: number;
  along: number;
  readonly stacks: { readonly along: number; across: number; readonly parts: Lying[] }[];
}

/** Takes what it lays out of `left`. @returns  no root where nothing found a place; and the work it took */
function fillSheet(
  job: Job,
  left: number[],
  sheet: number,
  way: StripWay,
): { readonly root: Node | undefined; readonly work: number } {
  const [long, high] = extents(job.sheets[sheet]!, way);
  const strips: Strip[] = [];
  let used = 0;
  let work = workOfKind * left.length;
  let most = { along: 0, across: 0 };
  for (const part of partsAsTheyLie(job, left, sheet, way)) {
    while (left[part.kind]! > 0) {
      const mayJoin = part.along <= most.along || part.across <= most.across;
      if (mayJoin) work += workOfStrip * strips.length;
      if (mayJoin && joinsStrip(part, strips, long, way)) {
        // It may stand alone on a strip as wide as the first, which is the widest.
        most.across = Math.max(most.across, strips[0]!.across - part.across);
      } else {
        if (mayJoin) most = mostRoom(strips, long);
        if (part.along > long || used + part.across > high) break;
        used += part.across;
        strips.push({ across: part.across, along: part.along, stacks: [stackOf(part)] });
        most.along = Math.max(most.along, long - part.along);
      }
      left[part.kind]!--;
    }
  }
  return { root: strips.length === 0 ? undefined : toTree(strips, job, way), work };
}

/** At the end of a strip, and on a stack, there is no more room than this. */
function mostRoom(
  strips: readonly Strip[],
  long: number,
): { readonly along: number; readonly across: number } {
  let [along, across] = [0, 0];
  for (const strip of strips) {
    if (long - strip.along > along) along = long - strip.along;
    for (const stack of strip.stacks) {
      if (strip.across - stack.across > across) across = strip.across - stack.across;
    }
  }
  return { along, across };
}

/** The widest strips come first, and in them the longest parts; some of them may be used up. */
function partsAsTheyLie(job: Job, left: readonly number[], sheet: number, way: StripWay): readonly Lying[] {
  const { inOrder, both, known } = lyingOn(job, sheet, way);
  if (way.posture === 'as most') {
    const wanted = inOrder.filter(({ kind }) => left[kind]! > 0);
    const weight = new Map<number, number>();
    for (const { kind, along, across } of wanted) {
      weight.set(across, (weight.get(across) ?? 0) + along * left[kind]!);
    }
    const weightOf = ({ across }: Lying) => weight.get(across) ?? 0;
    return withoutDisliked(wanted, both, (a, b) => weightOf(a) > weightOf(b));
  }
  const isFlat = way.posture === 'flat';
  const all =
    known[way.posture] ??
    withoutDisliked(inOrder, both, (a, b) => (isFlat ? a.across < b.across : a.across > b.across));
  known[way.posture] = all;
  return all;
}

/** Of each kind one way: the turned one only where it is liked better. */
function withoutDisliked(
  all: readonly Lying[],
  both: readonly (readonly [Lying, Lying])[],
  isLiked: (a: Lying, b: Lying) => boolean,
): readonly Lying[] {
  const disliked = new Set(both.map(([straight, turned]) => (isLiked(turned, straight) ? straight : turned)));
  return all.filter((lying) => !disliked.has(lying));
}

interface LyingOn {
  /** All ways that fit, the widest across first, and of these the longest. */
  readonly inOrder: readonly Lying[];
  /** Both ways of each kind that has two: straight and turned. */
  readonly both: readonly (readonly [Lying, Lying])[];
  /** What does not hang on which parts are left, once it has been asked for. */
  readonly known: { flat?: readonly Lying[]; 'on end'?: readonly Lying[] };
}

/** How parts may lie, by direction of the strips and by sheet: the same each time, and asked for thousands of times. */
interface LyingOfJob {
  readonly all: Map<boolean, readonly Lying[]>;
  readonly onSheet: Map<string, LyingOn>;
}

const knownLying = new WeakMap<Job, LyingOfJob>();

function lyingOn(job: Job, sheet: number, way: StripWay): LyingOn {
  const ofJob: LyingOfJob = knownLying.get(job) ?? { all: new Map(), onSheet: new Map() };
  knownLying.set(job, ofJob);
  const key = `${sheet} ${way.upright}`;
  const before = ofJob.onSheet.get(key);
  if (before !== undefined) return before;
  const all = ofJob.all.get(way.upright) ?? waysToLie(job, way);
  ofJob.all.set(way.upright, all);
  const [long, high] = extents(job.sheets[sheet]!, way);
  const inOrder = all.filter(
    ({ kind, along, across, turned }) =>
      along <= long &&
      across <= high &&
      (liesOf(job, kind, sheet) & (turned ? Lie.turned : Lie.straight)) !== 0,
  );
  const straight = new Map(inOrder.flatMap((lying) => (lying.turned ? [] : [[lying.kind, lying]])));
  const both = inOrder.flatMap((lying) => {
    const other = lying.turned ? straight.get(lying.kind) : undefined;
    return other === undefined ? [] : [[other, lying] as const];
  });
  const lying: LyingOn = { inOrder, both, known: {} };
  ofJob.onSheet.set(key, lying);
  return lying;
}

function extents({ length, width }: JobSheet, { upright }: StripWay): readonly [number, number] {
  return upright ? [width, length] : [length, width];
}

/** Straight and turned, whether a sheet allows it or not; the widest across first, and of these the longest. */
function waysToLie({ kinds }: Job, { upright }: StripWay): readonly Lying[] {
  return kinds
    .flatMap(({ length, width }, kind) =>
      [false, true].map((turned): Lying => {
        const [along, across] = turned === upright ? [length, width] : [width, length];
        return { kind, along, across, turned };
      }),
    )
    .sort((a, b) => b.across - a.across || b.along - a.along || a.kind - b.kind);
}

/** Lays the part into one of the strips. @returns  false where it needs one of its own */
function joinsStrip(part: Lying, strips: readonly Strip[], long: number, way: StripWay): boolean {
  const hasRoom = (strip: Strip) => strip.along + part.along <= long;
  for (const strip of strips) {
    if (strip.across !== part.across || !hasRoom(strip)) continue;
    append(strip, part);
    return true;
  }
  for (const strip of strips) {
    for (const stack of strip.stacks) {
      if (stack.along !== part.along || stack.across + part.across > strip.across) continue;
      stack.across += part.across;
      stack.parts.push(part);
      return true;
    }
  }
  if (!way.joins) return false;
  const wider = strips.findLast((strip) => strip.across > part.across && hasRoom(strip));
  if (wider !== undefined) append(wider, part);
  return wider !== undefined;
}

function append(strip: Strip, part: Lying): void {
  strip.along += part.along;
  strip.stacks.push(stackOf(part));
}

function stackOf(part: Lying): Strip['stacks'][number] {
  return { along: part.along, across: part.across, parts: [part] };
}

function toTree(strips: readonly Strip[], job: Job, { upright }: StripWay): Node {
  const [alongStrip, acrossStrip] = upright ? [Shape.column, Shape.row] : [Shape.row, Shape.column];
  const toLeaf = ({ kind, along, across, turned }: Lying) =>
    upright ? leaf(kind, across, along, turned) : leaf(kind, along, across, turned);
  const rows = strips.map(({ stacks }) =>
    lineOf(
      alongStrip,
      stacks.map(({ parts }) => lineOf(acrossStrip, parts.map(toLeaf), job.rules)),
      job.rules,
    ),
  );
  return lineOf(acrossStrip, rows, job.rules);
}

/** Roughly, in rounds and calls. */
const workOfKind = 20;
const workOfStrip = 4;

/** Laying so many parts in strips takes a few milliseconds a way; larger batches repeat whole sheets instead. */
export const mostInStrips = 2000;

/** The sheets of a filling, each as often as it is cut so: the smallest offcuts first, the largest sheets last. */
export function sheetsInOrder(job: Job, filled: readonly FilledSheet[]): number[] {
  return inStockOrder(
    job,
    filled.flatMap(({ kind, times }) => new Array<number>(times).fill(kind)),
  );
}

/** Sheets by their kinds, the smallest offcuts first. */
export function inStockOrder(job: Job, kinds: readonly number[]): number[] {
  const isBought = (kind: number) => (job.sheets[kind]!.cost > 0 ? 1 : 0);
  const area = (kind: number) => areaOf(job.sheets[kind]!);
  return kinds.toSorted((a, b) => isBought(a) - isBought(b) || area(a) - area(b) || a - b);
}
