import { Pace } from '../pack/index.ts';

/**
 * In which order widths are set out so that as few settings as possible do for all the cuts of a material.
 *
 * A stop set to a width serves every piece on the table that wants it: whole sheets, strips that came off
 * before, and strips that come off at this very setting. Only what still lies in a piece that is not cut yet
 * has to wait. So each way down from a sheet to a part spells a word of widths, and wanted is the shortest
 * sequence that holds every word, a width and its repetition counting as one.
 *
 *   sheet 1   3 → strips, each crosscut at 2 7/8 or at 3      words  3 · 2 7/8,  3 · 3
 *   sheet 2   2 7/8 → strips, each crosscut at 3                     2 7/8 · 3
 *   shortest  3, 2 7/8, 3: three settings for two widths
 *
 * Source: the shortest common supersequence, which is hard for many words (Maier, J. ACM 25, 1978, from
 * memory); ours are two to four letters long, and most steps of the search are forced.
 */

/** Pieces in hand that are alike, cut as one. */
export interface Bench {
  /** Widths that are cut off it; the rest that needs no cut is none of them. */
  readonly wants: readonly Want[];
  /** True where what remains last needs no cut, whichever it is. */
  readonly lastIsFree: boolean;
  /** So many wants, over all benches, must be met before it is there. */
  readonly waitsFor: number;
}

export interface Want {
  readonly width: number;
  /** Only one: it need not be set out if it remains as the last. */
  readonly isSingle: boolean;
  /** Benches that come off with it, as indices. */
  readonly frees: readonly number[];
  /** Its place in the piece as it lies now. */
  readonly rank: number;
}

export interface SettingOrder {
  /** Widths in the order of setting, none twice in a row. */
  readonly widths: readonly number[];
  /** By bench and want: at which setting it is cut off, from 0; infinity for what remains as the last. */
  readonly turns: readonly (readonly number[])[];
}

/** Pauses after every few milliseconds of work. */
export function* settingOrder(benches: readonly Bench[]): Generator<undefined, SettingOrder> {
  const table = tableOf(benches);
  const pace = new Pace();
  if (table.wants > mostCopied) return told(yield* inHaste(table, pace), table);
  const beam = Math.max(1, Math.min(widest, Math.floor(mostLooks / Math.max(1, table.wants))));
  let states: readonly State[] = [begun(table)];
  for (;;) {
    const done = states.find(({ left }) => left === 0);
    if (done !== undefined) return told(done, table);
    const next: Step[] = [];
    for (const state of states) {
      next.push(...following(state, table));
      if (pace.isDue(table.wants + workOfStep * next.length)) yield;
    }
    states = taken(fittest(next, beam), table);
  }
}

/** Trying a step and taking it back, in rounds and calls, mostly. */
const workOfStep = 100;

/**
 * The same for so many wants that copies of the whole would take minutes: one order, in place. What may as
 * well be next is; else what most pieces want, so that the most comes off.
 */
function* inHaste(table: Table, pace: Pace): Generator<undefined, State> {
  const state = begun(table);
  while (state.left > 0) {
    if (pace.isDue(table.wants)) yield;
    const [first, ...others] = inOrderOfLying(standings(state, table));
    if (first === undefined) throw new Error('pieces wait for one another');
    let next = first;
    for (const other of isForced(first) ? [] : others) {
      if (isForced(other)) {
        next = other;
        break;
      }
      if (other.here > next.here) next = other;
    }
    cutAll(state, table, next.width);
  }
  return state;
}

/** The wants of all benches, one after the other, so that a state of them is copied in one go. */
interface Table {
  readonly wants: number;
  /** By want. */
  readonly width: Int32Array;
  readonly rank: Int32Array;
  readonly isSingle: Uint8Array;
  /** It has to be set out in any case, as it can't remain as the last. */
  readonly isMust: Uint8Array;
  readonly benchOf: Int32Array;
  readonly frees: readonly (readonly number[])[];
  /** A number for each want; their sums hardly ever agree. */
  readonly mark: Float64Array;
  /** By bench: its wants are those from `first[bench]` up to `first[bench + 1]`. */
  readonly first: Int32Array;
  readonly lastIsFree: readonly boolean[];
  readonly waitsFor: Int32Array;
  /** By width: the wants that it serves. */
  readonly users: readonly (readonly number[])[];
}

function tableOf(benches: readonly Bench[]): Table {
  const all = benches.flatMap((bench, index) =>
    bench.wants.map((it, want) => ({ ...it, bench, index, want })),
  );
  const users: number[][] = [];
  for (const [want, { width }] of all.entries()) {
    while (users.length <= width) users.push([]);
    users[width]!.push(want);
  }
  const first = new Int32Array(benches.length + 1);
  for (const [index, { wants }] of benches.entries()) first[index + 1] = first[index]! + wants.length;
  return {
    wants: all.length,
    width: Int32Array.from(all, ({ width }) => width),
    rank: Int32Array.from(all, ({ rank }) => rank),
    isSingle: Uint8Array.from(all, ({ isSingle }) => Number(isSingle)),
    isMust: Uint8Array.from(all, ({ isSingle, bench }) => Number(!(bench.lastIsFree && isSingle))),
    benchOf: Int32Array.from(all, ({ index }) => index),
    frees: all.map(({ frees }) => frees),
    // Knuth's multiplier, from memory: spreads whole numbers over 32 bits.
    mark: Float64Array.from(all, ({ index, want }) => Math.imul(index * 64 + want + 1, 2654435761) >>> 0),
    first,
    lastIsFree: benches.map(({ lastIsFree }) => lastIsFree),
    waitsFor: Int32Array.from(benches, ({ waitsFor }) => waitsFor),
    users,
  };
}

/** So many half-way orders are followed side by side. */
const widest = 48;
/** Beam × wants stays below it, so that many pictures take their time by their number. */
const mostLooks = 6000;

/** With more wants than this, half-way orders are not copied. */
const mostCopied = 2000;

/** A half-way order. */
interface State {
  readonly widths: number[];
  /** By want: the setting at which it is met. */
  readonly turns: Int32Array;
  /** By bench: how much it still waits for. */
  readonly waits: Int32Array;
  /** By width: what is still to be cut, and of that what has to be set out in any case. */
  readonly open: Int32Array;
  readonly openMusts: Int32Array;
  /** Wants still to be met. */
  left: number;
  /** Widths that still have to be set out in any case. */
  musts: number;
  /** A number that states with other wants met hardly ever share. */
  mark: number;
}

const later = -1;
const asTheLast = 0x7fffffff;

function told({ widths, turns }: State, { first, lastIsFree }: Table): SettingOrder {
  const ofBench = (bench: number) =>
    Array.from(turns.subarray(first[bench]!, first[bench + 1]!), (turn) =>
      turn === asTheLast ? Number.POSITIVE_INFINITY : turn,
    );
  return { widths, turns: lastIsFree.map((_, bench) => ofBench(bench)) };
}

function begun(table: Table): State {
  const { wants, waitsFor, users, isMust } = table;
  const openMusts = Int32Array.from(users, (of) => of.filter((want) => isMust[want] === 1).length);
  const state: State = {
    widths: [],
    turns: new Int32Array(wants).fill(later),
    waits: Int32Array.from(waitsFor),
    open: Int32Array.from(users, ({ length }) => length),
    openMusts,
    left: wants,
    musts: openMusts.filter((count) => count > 0).length,
    mark: 0,
  };
  for (let bench = 0; bench < waitsFor.length; bench++) freeLast(state, table, bench, []);
  return state;
}

function copyOf(state: State): State {
  return {
    ...state,
    widths: [...state.widths],
    turns: state.turns.slice(),
    waits: state.waits.slice(),
    open: state.open.slice(),
    openMusts: state.openMusts.slice(),
  };
}

/** What may be set out next, and how the order stands then. */
interface Step extends Pick<State, 'left' | 'musts' | 'mark'> {
  readonly from: State;
  readonly width: number;
}

/**
 * What can be set out next. A width that has to be set out in any case, and of which nothing is left after,
 * may as well be the next: nothing is ever lost by cutting all there is of it now. Then nothing else is tried.
 */
function following(from: State, table: Table): readonly Step[] {
  const next: Step[] = [];
  for (const standing of inOrderOfLying(standings(from, table))) {
    const { width } = standing;
    const met = cutAll(from, table, width);
    const { left, musts, mark } = from;
    const step = { from, width, left, musts, mark };
    const isWhole = from.open[width] === 0;
    takeBack(from, table, met);
    if (isForced(standing) || (standing.must && isWhole)) return [step];
    next.push(step);
  }
  return next;
}

/** The states that steps lead to; one that several start from is copied for all but the last of them. */
function taken(steps: readonly Step[], table: Table): readonly State[] {
  return steps.map(({ from, width }, i) => {
    const isLast = steps.findLastIndex((it) => it.from === from) === i;
    const state = isLast ? from : copyOf(from);
    cutAll(state, table, width);
    return state;
  });
}

/** What can be set out, as the pieces lie now where nothing else speaks, and the wider first. */
function inOrderOfLying(standings: readonly Standing[]): readonly Standing[] {
  return standings
    .filter(({ here }) => here > 0)
    .sort((one, other) => one.jumps - other.jumps || other.width - one.width);
}

function isForced({ must, waits }: Standing): boolean {
  return must && !waits;
}

interface Standing {
  readonly width: number;
  /** Pieces that are there and want it. */
  here: number;
  /** Some of it lies in pieces that are not there yet. */
  waits: boolean;
  readonly must: boolean;
  /** Pieces in which something else lies before it. */
  jumps: number;
}

/** Of each width that is still wanted. */
function standings({ turns, waits, openMusts }: State, table: Table): readonly Standing[] {
  const { width, rank, first } = table;
  const byWidth: Standing[] = [];
  const found: Standing[] = [];
  for (let bench = 0; bench < waits.length; bench++) {
    const [from, to] = [first[bench]!, first[bench + 1]!];
    let least = Number.POSITIVE_INFINITY;
    for (let want = from; want < to; want++) {
      if (turns[want] === later && rank[want]! < least) least = rank[want]!;
    }
    if (least === Number.POSITIVE_INFINITY) continue;
    const isHere = waits[bench] === 0;
    for (let want = from; want < to; want++) {
      if (turns[want] !== later) continue;
      const of = width[want]!;
      let it = byWidth[of];
      if (it === undefined) {
        it = { width: of, waits: false, here: 0, must: openMusts[of]! > 0, jumps: 0 };
        byWidth[of] = it;
        found.push(it);
      }
      if (!isHere) it.waits = true;
      else {
        it.here++;
        if (rank[want]! > least) it.jumps++;
      }
    }
  }
  return found;
}

/** All cuts at one setting, also of what comes off at it. @returns the wants that are met, in their order */
function cutAll(state: State, table: Table, width: number): readonly number[] {
  const turn = state.widths.length;
  const met: number[] = [];
  state.widths.push(width);
  for (let before = -1; before !== state.left; ) {
    before = state.left;
    for (const want of table.users[width]!) {
      const bench = table.benchOf[want]!;
      if (state.waits[bench] !== 0 || state.turns[want] !== later) continue;
      meet(state, table, want, turn, met);
      freeLast(state, table, bench, met);
    }
  }
  return met;
}

function meet(state: State, table: Table, want: number, turn: number, met: number[]): void {
  const width = table.width[want]!;
  met.push(want);
  state.turns[want] = turn;
  state.left--;
  state.open[width]!--;
  if (table.isMust[want] === 1 && --state.openMusts[width]! === 0) state.musts--;
  state.mark += table.mark[want]!;
  for (const freed of table.frees[want]!) {
    state.waits[freed]!--;
    freeLast(state, table, freed, met);
  }
}

/** A single piece that remains as the last needs no cut. */
function freeLast(state: State, table: Table, bench: number, met: number[]): void {
  if (!table.lastIsFree[bench] || state.waits[bench] !== 0) return;
  let last = -1;
  for (let want = table.first[bench]!; want < table.first[bench + 1]!; want++) {
    if (state.turns[want] !== later) continue;
    if (last >= 0) return;
    last = want;
  }
  if (last >= 0 && table.isSingle[last] === 1) meet(state, table, last, asTheLast, met);
}

/** As it was before the last setting, at which these wants were met. */
function takeBack(state: State, table: Table, met: readonly number[]): void {
  state.widths.pop();
  for (const want of met) {
    const width = table.width[want]!;
    state.turns[want] = later;
    state.left++;
    state.open[width]!++;
    if (table.isMust[want] === 1 && state.openMusts[width]!++ === 0) state.musts++;
    state.mark -= table.mark[want]!;
    for (const freed of table.frees[want]!) state.waits[freed]!++;
  }
}

/** The most promising, each way to stand only once. */
function fittest(steps: readonly Step[], beam: number): readonly Step[] {
  if (steps.length === 1) return steps;
  const seen = new Map<number, Set<number>>();
  const different = steps.filter(({ left, mark }) => {
    const marks = seen.get(left) ?? new Set();
    seen.set(left, marks);
    if (marks.has(mark)) return false;
    marks.add(mark);
    return true;
  });
  return different.sort((a, b) => a.musts - b.musts || a.left - b.left).slice(0, beam);
}
