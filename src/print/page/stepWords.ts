import { equal } from '../../measure/index.ts';
import type { Given, Run, Step } from '../../model/index.ts';
import type { Sizes } from './sizes.ts';

/** What a step says: what to do, then what comes of it, a line each. */
export function wordsOfStep(step: Step, sizes: Sizes): readonly string[] {
  switch (step.kind) {
    case 'square up':
      return [squareUp(step, sizes)];
    case 'label':
      return [
        `Label first, on the face that will be hidden: ${step.labels.map(({ label, count }) => counted(label, count)).join(', ')}.`,
      ];
    case 'rip':
    case 'crosscut':
      return cut(step, sizes);
  }
}

function squareUp(step: Step & { kind: 'square up' }, sizes: Sizes): string {
  const { left, right, bottom, top } = step.trims;
  const check = `Check: both diagonals ${step.diagonal.isExact ? '' : 'about '}${sizes.one(step.diagonal.length)}.`;
  const size = sizes.pair(step.length, step.width);
  const isUntrimmed = [left, right, bottom, top].every(({ numerator }) => numerator === 0n);
  if (isUntrimmed) return `Find one true edge and a square corner: that is the datum. ${check}`;
  if ([right, bottom, top].every((it) => equal(it, left))) {
    return `Square up to ${size}: ${sizes.one(left)} off each edge. ${check}`;
  }
  const off = [
    ['left', left],
    ['right', right],
    ['bottom', bottom],
    ['top', top],
  ] as const;
  const named = off.filter(([, it]) => it.numerator !== 0n).map(([edge, it]) => `${edge} ${sizes.one(it)}`);
  return `Square up to ${size}; off the edges: ${named.join(', ')}. ${check}`;
}

function cut(step: Step & { kind: 'rip' | 'crosscut' }, sizes: Sizes): readonly string[] {
  const { name, count } = step.piece;
  const piece = name === 'sheet' ? 'the sheet' : count === 1 ? name : `${count} × ${name}`;
  const verb = step.kind === 'rip' ? 'Rip' : 'Crosscut';
  const all = step.marks.map(sizes.one);
  const last = all[all.length - 1] ?? '';
  const marks =
    all.length <= 10 ? all.join(' · ') : `${all.slice(0, 4).join(' · ')} … ${last} (${all.length} marks)`;
  return [`${verb} ${piece} at ${marks}`, ...step.runs.map((run) => ofRun(run, sizes))];
}

function ofRun({ size, count, cuts, endsAt, gives }: Run, sizes: Sizes): string {
  const what = gives.map(given).join(', ');
  if (count === 1) return `${sizes.one(size)} → ${what}`;
  return `stop at ${sizes.one(size)}, cut ${cuts}; the last ends at ${sizes.one(endsAt)} → ${what}`;
}

function given({ what, name, count }: Given): string {
  return what === 'scrap' ? 'scrap' : counted(name, count);
}

function counted(name: string, count: number): string {
  return count === 1 ? name : `${count} × ${name}`;
}
