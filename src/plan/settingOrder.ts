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
  const users = usersOf(benches);
  if (wants > mostCopied) return inHaste(benches, users);
  const beam = Math.max(1, Math.min(widest, Math.floor(mostLooks / Math.max(1, wants))));
  let states: readonly State[] = [begun(benches)];
  for (;;) {
    const done = states.find(({ left }) => left === 0);
    if (done !== undefined) return done;
    states = fittest(
      states.flatMap((state) => following(state, benches, users)),
      users,
      beam,
    );
  }
}

/**
 * The same for so many wants that copies of the whole would take minutes: one order, in place. What may as
 * well be next is; else what most pieces want, so that the most comes off.
 */
function inHaste(benches: readonly Bench[], users: Users): SettingOrder {
  const state = begun(benches);
  while (state.left > 0) {
    const [first, ...others] = inOrderOfLying(standings(state, benches));
    if (first === undefined) throw new Error('pieces wait for one another');
    let next = first;
    for (const other of isForced(first[1]) ? [] : others) {
      if (isForced(other[1])) {
        next = other;
        break;
      }
      if (other[1].here > next[1].here) next = other;
    }
    cutAll(state, benches, next[0], users);
  }
  return state;
}

/** By width: which want of which bench it is. */
type Users = ReadonlyMap<number, readonly User[]>;

interface User {
  readonly index: number;
  readonly want: number;
  /** It has to be set out in any case, as it can't remain as the last. */
  readonly must: boolean;
}

function usersOf(benches: readonly Bench[]): Users {
  const users = new Map<number, User[]>();
  for (const [index, { wants, lastIsFree }] of benches.entries()) {
    for (const [want, { width, isSingle }] of wants.entries()) {
      const user = { index, want, must: !(lastIsFree && isSingle) };
      const known = users.get(width);
      if (known === undefined) users.set(width, [user]);
      else known.push(user);
    }
  }
  return users;
}

/** So many half-way orders are followed side by side. */
const widest = 48;
/** Beam × wants stays below it, so that many pictures take their time by their number. */
const mostLooks = 6000;

/** With more wants than this, half-way orders are not copied. */
const mostCopied = 2000;

/** `turns` are below zero where it is still to be cut off. */
interface State extends SettingOrder {
  /** By bench: how much it still waits for. */
  readonly waits: readonly number[];
  /** Wants still to be met. */
  readonly left: number;
  /** A number that states with other wants met hardly ever share. */
  readonly mark: number;
}

interface Cutting {
  readonly widths: number[];
  /** The lists in it may be another state's: they are replaced, not changed. */
  readonly turns: (readonly number[])[];
  readonly waits: number[];
  left: number;
  mark: number;
}

const later = -1;

function begun(benches: readonly Bench[]): Cutting {
  const state: Cutting = {
    widths: [],
    turns: benches.map(({ wants }) => wants.map(() => later)),
    waits: benches.map(({ waitsFor }) => waitsFor),
    left: benches.reduce((sum, { wants }) => sum + wants.length, 0),
    mark: 0,
  };
  for (const index of benches.keys()) freeLast(state, benches, index);
  return state;
}

/**
 * What can be set out next. A width that has to be set out in any case, and of which nothing is left after,
 * may as well be the next: nothing is ever lost by cutting all there is of it now. Then nothing else is tried.
 */
function following(state: State, benches: readonly Bench[], users: Users): readonly State[] {
  const widths = inOrderOfLying(standings(state, benches));
  const next: State[] = [];
  for (const [width, standing] of widths) {
    const after = copyOf(state);
    cutAll(after, benches, width, users);
    if (isForced(standing) || (standing.must && !isWanted(after, users, width))) return [after];
    next.push(after);
  }
  return next;
}

/** What can be set out, as the pieces lie now where nothing else speaks, and the wider first. */
function inOrderOfLying(standings: ReadonlyMap<number, Standing>): (readonly [number, Standing])[] {
  return [...standings]
    .filter(([, { here }]) => here > 0)
    .sort(([a, one], [b, other]) => one.jumps - other.jumps || b - a);
}

function isForced({ must, waits }: Standing): boolean {
  return must && !waits;
}

interface Standing {
  /** Pieces that are there and want it. */
  readonly here: number;
  /** Some of it lies in pieces that are not there yet. */
  readonly waits: boolean;
  readonly must: boolean;
  /** Pieces in which something else lies before it. */
  readonly jumps: number;
}

function standings(state: State, benches: readonly Bench[]): ReadonlyMap<number, Standing> {
  const found = new Map<number, { -readonly [Key in keyof Standing]: Standing[Key] }>();
  for (const [index, { wants, lastIsFree }] of benches.entries()) {
    const turns = state.turns[index]!;
    const isHere = state.waits[index] === 0;
    let first = Number.POSITIVE_INFINITY;
    for (let i = 0; i < wants.length; i++) {
      if (turns[i] === later && wants[i]!.rank < first) first = wants[i]!.rank;
    }
    if (first === Number.POSITIVE_INFINITY) continue;
    for (let i = 0; i < wants.length; i++) {
      if (turns[i] !== later) continue;
      const { width, isSingle, rank } = wants[i]!;
      let it = found.get(width);
      if (it === undefined) {
        it = { waits: false, here: 0, must: false, jumps: 0 };
        found.set(width, it);
      }
      it.waits ||= !isHere;
      if (isHere) it.here++;
      it.must ||= !(lastIsFree && isSingle);
      if (isHere && rank > first) it.jumps++;
    }
  }
  return found;
}

function isWanted({ turns }: State, users: Users, width: number): boolean {
  return users.get(width)!.some(({ index, want }) => turns[index]![want] === later);
}

function copyOf({ widths, turns, waits, left, mark }: State): Cutting {
  return { widths: [...widths], turns: [...turns], waits: [...waits], left, mark };
}

/** All cuts at one setting, also of what comes off at it. */
function cutAll(state: Cutting, benches: readonly Bench[], width: number, users: Users): void {
  const turn = state.widths.length;
  state.widths.push(width);
  for (let before = -1; before !== state.left; ) {
    before = state.left;
    for (const { index, want } of users.get(width)!) {
      if (state.waits[index] !== 0 || state.turns[index]![want] !== later) continue;
      meet(state, benches, index, want, turn);
      freeLast(state, benches, index);
    }
  }
}

function meet(state: Cutting, benches: readonly Bench[], index: number, want: number, turn: number): void {
  state.turns[index] = state.turns[index]!.with(want, turn);
  state.left--;
  // Knuth's multiplier, from memory: spreads whole numbers over 32 bits.
  state.mark += Math.imul(index * 64 + want + 1, 2654435761) >>> 0;
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
function fittest(states: readonly State[], users: Users, beam: number): readonly State[] {
  if (states.length === 1) return states;
  const different = new Map<string, State>();
  for (const state of states) {
    const key = `${state.left} ${state.mark}`;
    if (!different.has(key)) different.set(key, state);
  }
  const musts = ({ turns }: State) =>
    [...users.values()].filter((of) =>
      of.some(({ index, want, must }) => must && turns[index]![want] === later),
    ).length;
  return [...different.values()]
    .map((state) => ({ state, musts: musts(state) }))
    .sort((a, b) => a.musts - b.musts || a.state.left - b.state.left)
    .slice(0, beam)
    .map(({ state }) => state);
}
