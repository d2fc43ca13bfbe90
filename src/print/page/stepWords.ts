import { equal, isZero } from '../../measure/index.ts';
import type { Given, Length, Run, Step } from '../../model/index.ts';
import type { Sizes } from './sizes.ts';

/** What a step says: what to do, then what comes of it, a paragraph each. */
export function wordsOfStep(step: Step, sizes: Sizes): readonly string[] {
  switch (step.kind) {
    case 'square up':
      return squareUp(step, sizes);
    case 'label':
      return [`Label, on the side to be hidden: ${step.labels.map(counted).join(', ')}`];
    case 'rip':
    case 'crosscut':
      return cut(step, sizes);
  }
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
    return [`${size}: ${sizes.brief(left)} off each edge`, check];
  }
  const off: readonly (readonly [string, Length])[] = [
    ['bottom', bottom],
    ['left', left],
    ['right', right],
    ['top', top],
  ];
  const named = off.filter(([, trim]) => !isZero(trim)).map(([edge, trim]) => `${edge} ${sizes.brief(trim)}`);
  return [`${size}; off the edges: ${named.join(', ')}`, check];
}

/** Each run with its running marks: what lies before a mark, and after the last one, and what it becomes. */
function cut(step: CutStep, sizes: Sizes): readonly string[] {
  const verb = step.kind === 'rip' ? 'Rip' : 'Crosscut';
  const { name, count } = step.piece;
  let used = 0;
  const runs = step.runs.map((run) => {
    const marks = step.marks.slice(used, used + run.cuts);
    used += run.cuts;
    return ofRun(run, marks, sizes);
  });
  return [`${verb} ${inHand(name, count)} at ${runs.join('; ')}`];
}

/** `strip C`, `both strips C`, `all 6 strips C`: they are cut alike. */
function inHand(name: string, count: number): string {
  if (name === 'sheet') return 'the sheet';
  if (count === 1) return name;
  const several = name.replace(/^strip /, 'strips\u00a0');
  return count === 2 ? `both ${several}` : `all\u00a0${count} ${several}`;
}

/** The last mark that is named is the one to check by, so it is not named again. */
function ofRun({ size, count, cuts, gives }: Run, marks: readonly Length[], sizes: Sizes): string {
  const what = named(gives);
  if (cuts === 0)
    return what === 'scrap' ? 'rest\u00a0scrap' : `rest\u00a0${sizes.brief(size)} →\u00a0${what}`;
  const at = `${listed(marks.map(sizes.brief))} →\u00a0${what}`;
  if (count === 1) return at;
  return `${at} (stop at\u00a0${sizes.brief(size)}, cut\u00a0${cuts}${cuts < count ? ', the rest is the last' : ''})`;
}

const mostMarks = 6;

function listed(marks: readonly string[]): string {
  if (marks.length <= mostMarks) return marks.join('\u00a0· ');
  return `${marks.slice(0, 3).join('\u00a0· ')} … ${marks[marks.length - 1]}`;
}

/** `strips A, B, scrap`: names of strips share the word. */
function named(gives: readonly Given[]): string {
  const strips = gives.filter(({ what }) => what === 'strip');
  const others = gives.filter(({ what }) => what !== 'strip').map(ofGiven);
  if (strips.length < 2 || strips.some(({ count }) => count > 1))
    return [...strips.map(ofGiven), ...others].join(', ');
  return [`strips ${strips.map(({ name }) => name.replace(/^strip /, '')).join(', ')}`, ...others].join(', ');
}

function ofGiven({ what, name, count }: Given): string {
  return what === 'scrap' ? 'scrap' : counted({ label: name, count });
}

function counted({ label, count }: { readonly label: string; readonly count: number }): string {
  return count === 1 ? label : `${count}\u00a0×\u00a0${label}`;
}
