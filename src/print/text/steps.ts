import { equal, isZero, opposite, toFraction } from '../../measure/index.ts';
import type { Given, Length, Run, Step } from '../../model/index.ts';
import type { Showing } from './lengths.ts';
import { type Lines, paragraph } from './lines.ts';
import { counted, type Look, type Signs, signsOf } from './signs.ts';
import { padStart } from './width.ts';

/** The steps of one sheet, each with a box to tick. */
export function writeSteps(steps: readonly Step[], showing: Showing, columns: number, look: Look): Lines {
  const signs = signsOf(look);
  const digits = `${steps.length}`.length;
  return steps.flatMap((step, i) => {
    const [first, ...rest] = wordsOf(step, steps[i + 1], { showing, signs });
    const lead = `${signs.box} ${padStart(`${step.number}`, digits)}  `;
    const hang = ' '.repeat(signs.box.length + digits + 3);
    return [
      ...paragraph(first ?? '', columns, lead),
      ...rest.flatMap((line) => paragraph(line, columns, `${hang}${signs.dot} `)),
    ];
  });
}

/** For a picture that only differs from an earlier one in its labels. */
export function writeStepsLike(steps: readonly Step[], earlier: string, columns: number, look: Look): Lines {
  const signs = signsOf(look);
  const labels = steps.flatMap((step) => (step.kind === 'label' ? [labelWords(step, signs)] : []));
  const words = `Cut it by the steps of ${earlier}. The labels here: ${labels.join('; ')}.`;
  return paragraph(words, columns, `${signs.box} `);
}

/** True where the same hands' work gives the same sizes, whoever's parts they are. */
export function isCutAlike(a: readonly Step[], b: readonly Step[]): boolean {
  return a.length === b.length && a.every((step, i) => sameWork(step) === sameWork(b[i]!));
}

function sameWork(step: Step): string {
  switch (step.kind) {
    case 'label':
      return 'label';
    case 'square up':
      return [step.length, step.width, ...Object.values(step.trims)].map(toFraction).join(' ');
    case 'rip':
    case 'crosscut': {
      const runs = step.runs.map(({ size, count, gives }) => {
        const others = gives.filter(({ what }) => what !== 'part').map(({ name }) => name);
        return [toFraction(size), count, ...others].join(' ');
      });
      return [step.kind, step.piece.name, step.piece.count, ...step.marks.map(toFraction), ...runs].join(
        '; ',
      );
    }
  }
}

interface Words {
  readonly showing: Showing;
  readonly signs: Signs;
}

function wordsOf(step: Step, next: Step | undefined, words: Words): readonly string[] {
  switch (step.kind) {
    case 'square up':
      return squareUp(step, words.showing);
    case 'label': {
      const before = next?.kind === 'rip' || next?.kind === 'crosscut' ? ` before you ${next.kind}` : '';
      return [`Label${before}, on the face that will be hidden: ${labelWords(step, words.signs)}.`];
    }
    case 'rip':
    case 'crosscut':
      return cut(step, words);
  }
}

function labelWords({ labels }: Extract<Step, { kind: 'label' }>, signs: Signs): string {
  return labels.map(({ label, count }) => counted(count, label, signs)).join(', ');
}

type SquareUp = Extract<Step, { kind: 'square up' }>;
type CutStep = Extract<Step, { kind: 'rip' | 'crosscut' }>;

// bottom first (the one true edge), then left, square from it: their corner is the datum of all that follows.
function squareUp({ trims, length, width, diagonal }: SquareUp, showing: Showing): readonly string[] {
  const { brief, pair } = showing;
  const off = (trim: Length) => `take\u00a0${brief(trim)} off it`;
  const edges = [
    isZero(trims.bottom)
      ? 'Choose a true long edge and lay it at the bottom.'
      : `True the bottom edge: ${off(trims.bottom)}.`,
    isZero(trims.left)
      ? 'See that the left edge is square from it.'
      : `Square the left edge from it: ${off(trims.left)}.`,
    ...(isZero(trims.right) ? [] : [`Cut the right edge ${brief(length)} from the left.`]),
    ...(isZero(trims.top) ? [] : [`Cut the top edge ${brief(width)} from the bottom.`]),
  ];
  const mark = diagonal.isExact
    ? brief(diagonal.length)
    : showing.rounded(diagonal.length, opposite(diagonal.error));
  return [`Square up. ${edges.join(' ')}`, `Check ${pair(length, width)}: both diagonals measure ${mark}.`];
}

function cut(step: CutStep, words: Words): readonly string[] {
  const { name, count } = step.piece;
  const verb = step.kind === 'rip' ? 'Rip' : 'Crosscut';
  const what = name === 'sheet' ? 'the sheet' : inHand(name, count);
  const how =
    step.kind === 'rip' ? 'from the bottom edge, a mark at both ends of each cut' : 'from the left edge';
  let used = 0;
  const runs = step.runs.map((run) => {
    const marks = step.marks.slice(used, used + run.cuts);
    used += run.cuts;
    return runWords(run, { marks, inAll: count > 1 ? ' in all' : '', ...words });
  });
  return [`${verb} ${what}, ${how}.`, ...runs];
}

/** `strip C`, `both strips C alike`, `the 6 strips C alike` */
function inHand(name: string, count: number): string {
  if (count === 1) return name;
  const several = name.replace(/^strip/, 'strips');
  return count === 2 ? `both ${several} alike` : `the ${count} ${several} alike`;
}

interface RunWords extends Words {
  readonly marks: readonly Length[];
  /** Said after what several pieces in hand give together. */
  readonly inAll: string;
}

function runWords(run: Run, { marks, inAll, showing, signs }: RunWords): string {
  const { brief } = showing;
  const gives = `${run.gives.map((it) => given(it, signs)).join(', ')}${inAll}`;
  if (run.cuts === 0) return `what remains, ${brief(run.size)} ${signs.arrow} ${gives}`;
  const first = marks[0];
  const size =
    run.cuts > 1 || (first !== undefined && equal(first, run.size)) ? '' : `, ${brief(run.size)} wide`;
  const at = `${listed(marks.map(brief), signs)} ${signs.arrow} ${gives}${size}`;
  const stop = run.cuts > 1 ? `; set a stop at ${brief(run.size)}, cut ${run.cuts}` : '';
  if (run.cuts < run.count) return `${at}${stop}; check: what remains is ${brief(run.size)} too`;
  return stop === '' ? at : `${at}${stop}; check: the last ends at\u00a0${brief(run.endsAt)}`;
}

const mostMarks = 8;

function listed(marks: readonly string[], { onAndOn }: Signs): string {
  if (marks.length <= mostMarks) return `at ${marks.join(', ')}`;
  return `at ${marks.slice(0, 3).join(', ')} ${onAndOn} ${marks[marks.length - 1]}`;
}

function given({ what, name, count }: Given, signs: Signs): string {
  return what === 'scrap' ? 'scrap' : counted(count, name, signs);
}
