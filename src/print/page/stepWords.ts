import { equal, isZero } from '../../measure/index.ts';
import type { CountedLabel, Length, Step } from '../../model/index.ts';
import {
  givenWords,
  inHandWords,
  type MarkedRun,
  markedRuns,
  marksWords,
  widthToTell,
} from '../stepWords.ts';
import type { Sizes } from './sizes.ts';

/** What a step says: what to do, then what comes of it, a paragraph each. */
export function wordsOfStep(step: Step, sizes: Sizes): readonly string[] {
  switch (step.kind) {
    case 'square up':
      return squareUp(step, sizes);
    case 'label':
      return labelled(step.labels);
    case 'rip':
    case 'crosscut':
      return cut(step, sizes);
  }
}

/** What is too small or too many for a pencil shares a slip: `one slip for 96 × RW stones`. */
function labelled(labels: readonly CountedLabel[]): readonly string[] {
  const of = (on: CountedLabel['on']) => labels.filter((it) => it.on === on).map(counted);
  const [byHand, onSlips] = [of('each'), of('slip')];
  return [
    ...(byHand.length === 0 ? [] : [`Label, on the side to be hidden: ${byHand.join(', ')}`]),
    ...(onSlips.length === 0 ? [] : [`Keep together, a slip for each lot: ${onSlips.join(', ')}`]),
  ];
}

type SquareUp = Extract<Step, { kind: 'square up' }>;
type CutStep = Extract<Step, { kind: 'rip' | 'crosscut' }>;

function squareUp({ trims, length, width, diagonal }: SquareUp, sizes: Sizes): readonly string[] {
  const { left, right, bottom, top } = trims;
  const check = `check: both diagonals ${sizes.diagonal(diagonal)}`;
  if ([left, right, bottom, top].every(isZero)) {
    return ['Find one true edge and a square corner: the datum', check];
  }
  const size = `Square up to ${sizes.pair(length, width)}`;
  if ([right, bottom, top].every((it) => equal(it, left))) {
    return [`${size}: ${sizes.mark(left)} off each edge`, check];
  }
  const off: readonly (readonly [string, Length])[] = [
    ['bottom', bottom],
    ['left', left],
    ['right', right],
    ['top', top],
  ];
  const named = off.filter(([, trim]) => !isZero(trim)).map(([edge, trim]) => `${edge} ${sizes.mark(trim)}`);
  return [`${size}; off the edges: ${named.join(', ')}`, check];
}

/** Each run with its running marks: what lies before a mark, and after the last one, and what it becomes. */
function cut(step: CutStep, sizes: Sizes): readonly string[] {
  const verb = step.kind === 'rip' ? 'Rip' : 'Crosscut';
  const all = markedRuns(step);
  const runs = all.map((it, i) => `${i > 0 && isTrimming(it) ? 'trim to\u00a0' : ''}${ofRun(it, sizes)}`);
  // Where there is only a cut that trims the piece, that is the verb.
  const at = all.length === 1 && all.every(isTrimming) ? ', trimming it to' : ' at';
  return [`${verb} ${inHandWords(step.piece)}${at} ${runs.join('; ')}`];
}

function isTrimming({ isTrimmed, run }: MarkedRun): boolean {
  return isTrimmed && run.cuts === 1;
}

/** The last mark that is named is the one to check by, so it is not named again. */
function ofRun(marked: MarkedRun, sizes: Sizes): string {
  const { size, count, cuts, gives } = marked.run;
  const what = givenWords(gives, (number, label) => counted({ count: number, label })).join(', ');
  if (cuts === 0)
    return what === 'scrap' ? 'rest\u00a0scrap' : `rest\u00a0${sizes.mark(size)} →\u00a0${what}`;
  const marks = marksWords(marked.marks.map(sizes.mark), { most: 6, between: '\u00a0· ', onAndOn: '…' });
  const at = `${marks} →\u00a0${what}`;
  const width = widthToTell(marked);
  if (width !== undefined) return `${at}, ${sizes.mark(width)}\u00a0wide`;
  if (count === 1) return at;
  const last = cuts < count ? ', the rest is the last' : marked.isTrimmed ? ', the last to trim it' : '';
  return `${at} (stop at\u00a0${sizes.mark(size)}, cut\u00a0${cuts}${last})`;
}

function counted({ label, count }: { readonly label: string; readonly count: number }): string {
  return count === 1 ? label : `${count}\u00a0×\u00a0${label}`;
}
