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

export function settingOrder(benches: readonly Bench[]): SettingOrder {
  const wants = benches.reduce((sum, bench) => sum + bench.wants.length, 0);
  const beam = Math.max(1, Math.min(widest, Math.floor(mostLooks / Math.max(1, wants))));
  let states: readonly State[] = [begun(benches)];
  for (;;) {
    const done = states.find(({ left }) => left === 0);
    if (done !== undefined) return done;
    states = fittest(
      states.flatMap((state) => following(state, benches)),
      benches,
      beam,
    );
  }
}

/** So many half-way orders are followed side by side. */
const widest = 48;
/** Beam × wants stays below it, so that many pictures take their time by their number. */
const mostLooks = 20_000;

/** `turns` are below zero where it is still to be cut off. */
interface State extends SettingOrder {
  /** By bench: how much it still waits for. */
  readonly waits: readonly number[];
  /** Wants still to be met. */
  readonly left: number;
}

interface Cutting {
  readonly widths: readonly number[];
  readonly turns: number[][];
  readonly waits: number[];
  left: number;
}

const later = -1;

function begun(benches: readonly Bench[]): State {
  const state: Cutting = {
    widths: [],
    turns: benches.map(({ wants }) => wants.map(() => later)),
    waits: benches.map(({ waitsFor }) => waitsFor),
    left: benches.reduce((sum, { wants }) => sum + wants.length, 0),
  };
  for (const index of benches.keys()) freeLast(state, benches, index);
  return state;
}

/**
 * What can be set out next. A width that has to be set out in any case, and of which nothing is left after,
 * may as well be the next: nothing is ever lost by cutting all there is of it now. Then nothing else is tried.
 */
function following(state: State, benches: readonly Bench[]): readonly State[] {
  // Where nothing else speaks, as the pieces lie now, and the wider first.
  const widths = [...standings(state, benches)]
    .filter(([, { here }]) => here)
    .sort(([a, one], [b, other]) => one.jumps - other.jumps || b - a);
  const next: State[] = [];
  for (const [width, { must, waits }] of widths) {
    const after = cutAll(state, benches, width);
    if (must && (!waits || !isWanted(after, benches, width))) return [after];
    next.push(after);
  }
  return next;
}

interface Standing {
  /** Some of it lies in pieces that are there. */
  readonly here: boolean;
  /** Some of it lies in pieces that are not there yet. */
  readonly waits: boolean;
  readonly must: boolean;
  /** Pieces in which something else lies before it. */
  readonly jumps: number;
}

function standings(state: State, benches: readonly Bench[]): ReadonlyMap<number, Standing> {
  const found = new Map<number, Standing>();
  for (const [index, { wants, lastIsFree }] of benches.entries()) {
    const isHere = state.waits[index] === 0;
    const open = wants.filter((_, i) => state.turns[index]![i] === later);
    const first = Math.min(...open.map(({ rank }) => rank));
    for (const { width, isSingle, rank } of open) {
      const it = found.get(width) ?? { waits: false, here: false, must: false, jumps: 0 };
      found.set(width, {
        waits: it.waits || !isHere,
        here: it.here || isHere,
        must: it.must || !(lastIsFree && isSingle),
        jumps: it.jumps + (isHere && rank > first ? 1 : 0),
      });
    }
  }
  return found;
}

function isWanted({ turns }: State, benches: readonly Bench[], width: number): boolean {
  return benches.some(({ wants }, index) =>
    wants.some((it, i) => it.width === width && turns[index]![i] === later),
  );
}

/** All cuts at one setting, also of what comes off at it. */
function cutAll(state: State, benches: readonly Bench[], width: number): State {
  const turn = state.widths.length;
  const after: Cutting = {
    widths: [...state.widths, width],
    turns: state.turns.map((turns) => [...turns]),
    waits: [...state.waits],
    left: state.left,
  };
  for (let before = -1; before !== after.left; ) {
    before = after.left;
    for (const [index, { wants }] of benches.entries()) {
      if (after.waits[index] !== 0) continue;
      for (const [i, want] of wants.entries()) {
        if (want.width === width && after.turns[index]![i] === later) meet(after, benches, index, i, turn);
      }
      freeLast(after, benches, index);
    }
  }
  return after;
}

function meet(state: Cutting, benches: readonly Bench[], index: number, want: number, turn: number): void {
  state.turns[index]![want] = turn;
  state.left--;
  for (const freed of benches[index]!.wants[want]!.frees) {
    state.waits[freed]!--;
    freeLast(state, benches, freed);
  }
}

/** A single piece that remains as the last needs no cut. */
function freeLast(state: Cutting, benches: readonly Bench[], index: number): void {
  const { wants, lastIsFree } = benches[index]!;
  if (!lastIsFree || state.waits[index] !== 0) return;
  const open = wants.flatMap((_, i) => (state.turns[index]![i] === later ? [i] : []));
  const [last] = open;
  if (open.length !== 1 || last === undefined || !wants[last]!.isSingle) return;
  meet(state, benches, index, last, Number.POSITIVE_INFINITY);
}

/** The most promising, each way to stand only once. */
function fittest(states: readonly State[], benches: readonly Bench[], beam: number): readonly State[] {
  if (states.length === 1) return states;
  const different = new Map<string, State>();
  for (const state of states) {
    const key = state.turns.map((turns) => turns.map((it) => (it === later ? 0 : 1)).join('')).join(' ');
    if (!different.has(key)) different.set(key, state);
  }
  const musts = (state: State) => [...standings(state, benches).values()].filter(({ must }) => must).length;
  return [...different.values()]
    .map((state) => ({ state, musts: musts(state) }))
    .sort((a, b) => a.musts - b.musts || a.state.left - b.state.left)
    .slice(0, beam)
    .map(({ state }) => state);
}
