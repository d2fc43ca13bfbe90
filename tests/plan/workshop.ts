import type { Length, SheetPlan, Step } from '../../src/model/index.ts';

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
