import type { Length, MaterialPlan, SheetPlan, Step } from '../../src/model/index.ts';

/**
 * A pair of hands that does what the steps say and nothing else: it knows no cut tree and no position. It
 * takes the sheet as bought, and hands back the pile of what was cut.
 */
export interface Pile {
  /** By name: sizes as they lie, in plain millimetres. */
  readonly [name: string]: readonly { readonly length: number; readonly width: number }[];
}

export function work(plan: SheetPlan, kerf: Length): Pile {
  const pile = new Map<string, { length: number; width: number }[]>();
  const put = (name: string, piece: { length: number; width: number }) =>
    pile.set(name, [...(pile.get(name) ?? []), piece]);
  put('sheet', { length: plain(plan.sheet.length), width: plain(plan.sheet.width) });

  for (const step of plan.steps) {
    if (step.kind === 'label') continue;
    if (step.kind === 'square up') {
      const [sheet] = pile.get('sheet')!;
      pile.set('sheet', []);
      const { left, right, bottom, top } = step.trims;
      put('sheet', {
        length: sheet!.length - plain(left) - plain(right),
        width: sheet!.width - plain(bottom) - plain(top),
      });
      continue;
    }
    const inHand = pile.get(step.piece.name) ?? [];
    if (inHand.length !== step.piece.count) throw new Error(`${step.piece.name}: ${inHand.length} in hand`);
    pile.set(step.piece.name, []);
    const heaps = step.runs.map((run) => run.gives.flatMap((it) => Array<string>(it.count).fill(it.name)));
    for (const piece of inHand) cutUp(piece, step, plain(kerf), heaps, put);
    if (heaps.some((heap) => heap.length > 0)) throw new Error(`step ${step.number} gives less than it says`);
  }
  return Object.fromEntries([...pile].filter(([, pieces]) => pieces.length > 0));
}

/** All that was cut, and how often a stop was moved to another width. */
export interface Evening {
  /** By picture. */
  readonly piles: readonly Pile[];
  readonly settings: number;
}

/**
 * Hands that follow the order over all sheets: they square up, set what is to be set, and cut in each step that
 * is named the runs of that width, until the next run wants another. A piece half cut lies by until its turn.
 */
export function workInOrder({ sheets, order, demand }: MaterialPlan): Evening {
  const tables = sheets.map((sheet) => tableOf(sheet));
  const kerf = plain(demand.rules.kerf);
  let settings = 0;
  let set: number | undefined;
  for (const { size, uses } of order) {
    if (plain(size) !== set) settings++;
    set = plain(size);
    for (const { sheet, step: number, piece, cuts } of uses) {
      const table = tables[sheets.findIndex(({ first }) => first === sheet)]!;
      const step = table.plan.steps.find((it) => it.number === number);
      if (step === undefined || !isCut(step) || step.piece.name !== piece)
        throw new Error(`no step ${number}`);
      const made = cutRuns(table, step, set, kerf) * table.plan.times;
      if (made !== cuts) throw new Error(`${made} cuts at ${set} in step ${number}, ${cuts} told`);
    }
  }
  for (const { begun } of tables) {
    for (const { step, done } of begun.values())
      if (done < step.runs.length) throw new Error(`step ${step.number} is left half done`);
  }
  return { piles: tables.map(({ pile }) => pileOf(pile)), settings };
}

/** How often hands move the stop that finish each picture step by step. */
export function settingsByPicture({ sheets }: MaterialPlan): number {
  let settings = 0;
  let set: number | undefined;
  for (const step of sheets.flatMap(({ steps }) => steps)) {
    if (!isCut(step)) continue;
    for (const { size, cuts } of step.runs) {
      if (cuts === 0 || plain(size) === set) continue;
      set = plain(size);
      settings++;
    }
  }
  return settings;
}

interface Table {
  readonly plan: SheetPlan;
  readonly pile: Map<string, { length: number; width: number }[]>;
  /** By step: what is in hand and how far it is cut. */
  readonly begun: Map<number, Begun>;
}

interface Begun {
  readonly step: CutStep;
  readonly inHand: readonly { length: number; width: number }[];
  done: number;
  /** How much of each piece in hand is cut off, its kerfs with it. */
  gone: number;
}

function tableOf(plan: SheetPlan): Table {
  return { plan, pile: new Map([['sheet', [squaredUp(plan)]]]), begun: new Map() };
}

function cutRuns({ pile, begun }: Table, step: CutStep, set: number, kerf: number): number {
  let it = begun.get(step.number);
  if (it === undefined) {
    const inHand = pile.get(step.piece.name) ?? [];
    if (inHand.length !== step.piece.count) throw new Error(`${step.piece.name}: ${inHand.length} in hand`);
    pile.set(step.piece.name, []);
    it = { step, inHand, done: 0, gone: 0 };
    begun.set(step.number, it);
  }
  const whole = (piece: { length: number; width: number }) =>
    step.kind === 'rip' ? piece.width : piece.length;
  let cuts = 0;
  for (; it.done < step.runs.length; it.done++) {
    const run = step.runs[it.done]!;
    if (run.cuts > 0 && plain(run.size) !== set) break;
    const heap = run.gives.flatMap(({ name, count }) => Array<string>(count).fill(name));
    for (const piece of it.inHand) {
      for (let n = 0, from = it.gone; n < run.count; n++) {
        // The stop gives the width; where no cut is told, it is what remains.
        const size = n < run.cuts ? set : whole(piece) - from;
        if (size !== plain(run.size)) throw new Error(`step ${step.number}: ${size} for ${plain(run.size)}`);
        const name = heap.shift();
        if (name === undefined) throw new Error(`step ${step.number} tells of too few pieces`);
        put(pile, name, step.kind === 'rip' ? { ...piece, width: size } : { ...piece, length: size });
        from += size + kerf;
        if (from - kerf > whole(piece)) throw new Error(`step ${step.number} runs off its piece`);
      }
    }
    if (heap.length > 0) throw new Error(`step ${step.number} tells of too many pieces`);
    it.gone += run.count * (plain(run.size) + kerf);
    cuts += run.cuts * it.inHand.length;
  }
  return cuts;
}

type Sizes = { length: number; width: number };

function put(pile: Map<string, Sizes[]>, name: string, piece: Sizes): void {
  pile.set(name, [...(pile.get(name) ?? []), piece]);
}

function pileOf(pile: ReadonlyMap<string, readonly Sizes[]>): Pile {
  return Object.fromEntries([...pile].filter(([, pieces]) => pieces.length > 0));
}

function squaredUp({ sheet, steps }: SheetPlan): Sizes {
  const [first] = steps;
  if (first.kind !== 'square up') throw new Error('the first step squares the sheet up');
  const { left, right, bottom, top } = first.trims;
  return {
    length: plain(sheet.length) - plain(left) - plain(right),
    width: plain(sheet.width) - plain(bottom) - plain(top),
  };
}

function isCut(step: Step): step is CutStep {
  return step.kind === 'rip' || step.kind === 'crosscut';
}

type CutStep = Extract<Step, { readonly marks: unknown }>;

function cutUp(
  piece: { length: number; width: number },
  step: CutStep,
  kerf: number,
  heaps: string[][],
  put: (name: string, piece: { length: number; width: number }) => void,
): void {
  const whole = step.kind === 'rip' ? piece.width : piece.length;
  const marks = step.marks.map(plain);
  let start = 0;
  for (const [i, run] of step.runs.entries()) {
    for (let n = 0; n < run.count; n++) {
      const end = marks.find((mark) => mark > start) ?? whole;
      const size = end - start;
      if (size !== plain(run.size)) throw new Error(`step ${step.number}: ${size} for ${plain(run.size)}`);
      put(heaps[i]!.shift()!, step.kind === 'rip' ? { ...piece, width: size } : { ...piece, length: size });
      if (n === run.count - 1 && end !== plain(run.endsAt)) throw new Error(`the last ends at ${end}`);
      start = end === whole ? whole : end + kerf;
    }
  }
  if (start < whole) throw new Error(`step ${step.number} leaves ${whole - start} unspoken of`);
}

function plain({ numerator, denominator }: Length): number {
  return Number(numerator) / Number(denominator);
}
