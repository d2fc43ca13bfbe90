import { isZero, toDrawnMm } from '../../measure/index.ts';
import type { Given, Length, Run, Step } from '../../model/index.ts';
import type { Showing } from './lengths.ts';
import { type Lines, paragraph } from './lines.ts';
import { counted, type Look, type Signs, signsOf } from './signs.ts';
import { padStart } from './width.ts';

/** The steps of one sheet, each with a box to tick. */
export function writeSteps(steps: readonly Step[], showing: Showing, columns: number, look: Look): Lines {
  const signs = signsOf(look);
  const digits = `${steps.length}`.length;
  return steps.flatMap((step) => {
    const [first, ...rest] = wordsOf(step, showing, signs);
    const lead = `${signs.box} ${padStart(`${step.number}`, digits)}  `;
    const hang = ' '.repeat(signs.box.length + digits + 3);
    return [
      ...paragraph(first ?? '', columns, lead),
      ...rest.flatMap((line) => paragraph(line, columns, `${hang}${signs.dot} `)),
    ];
  });
}

function wordsOf(step: Step, showing: Showing, signs: Signs): readonly string[] {
  switch (step.kind) {
    case 'square up':
      return squareUp(step, showing);
    case 'label':
      return [
        `Label before you cut them free, on the face that will be hidden: ${step.labels
          .map(({ label, count }) => counted(count, label, signs))
          .join(', ')}.`,
      ];
    case 'rip':
    case 'crosscut':
      return cut(step, showing, signs);
  }
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
  const hundredths = Math.round(toDrawnMm(diagonal.error) * 100);
  const error = `${Math.abs(hundredths) / 100}`;
  const rounded = diagonal.isExact
    ? ''
    : hundredths === 0
      ? ' (rounded, by less than 0.01 mm)'
      : ` (rounded: the true one is ${error}\u00a0mm ${hundredths > 0 ? 'less' : 'more'})`;
  return [
    `Square up. ${edges.join(' ')}`,
    `Check ${pair(length, width)}: both diagonals measure ${brief(diagonal.length)}${rounded}.`,
  ];
}

function cut(step: CutStep, showing: Showing, signs: Signs): readonly string[] {
  const { name, count } = step.piece;
  const verb = step.kind === 'rip' ? 'Rip' : 'Crosscut';
  const edge = step.kind === 'rip' ? 'bottom edge' : 'left edge';
  const what = name === 'sheet' ? 'the sheet' : count === 1 ? name : `all ${count} of ${name}, alike`;
  const how =
    step.kind === 'rip'
      ? `Measure from its ${edge}, two marks for each cut, one at each end.`
      : `Measure from its ${edge}.`;
  let used = 0;
  const runs = step.runs.map((run) => {
    const marks = step.marks.slice(used, used + run.cuts);
    used += run.cuts;
    return runWords(run, { marks, inHand: count, showing, signs });
  });
  return [`${verb} ${what}. ${how}`, ...runs];
}

interface RunBeside {
  readonly marks: readonly Length[];
  /** Pieces in hand that are cut alike. */
  readonly inHand: number;
  readonly showing: Showing;
  readonly signs: Signs;
}

function runWords(run: Run, { marks, inHand, showing, signs }: RunBeside): string {
  const { brief } = showing;
  const gives = run.gives.map((it) => given(it, signs)).join(', ');
  const inAll = inHand > 1 ? ' in all' : '';
  if (run.cuts === 0) return `what remains, ${brief(run.size)} ${signs.arrow} ${gives}${inAll}`;
  const at = `${listed(marks.map(brief))} ${signs.arrow} ${gives}${inAll}`;
  if (run.count === 1) return marks[0] === run.size ? at : `${at}, ${brief(run.size)} wide`;
  const last =
    run.cuts === run.count
      ? `check: the last ends at\u00a0${brief(run.endsAt)}`
      : `what remains is the last; check: it is ${brief(run.size)} too`;
  return `${at}; set a stop at ${brief(run.size)}, cut ${run.cuts}; ${last}`;
}

const mostMarks = 8;

function listed(marks: readonly string[]): string {
  if (marks.length <= mostMarks) return `at ${marks.join(', ')}`;
  return `at ${marks.slice(0, 3).join(', ')} … ${marks[marks.length - 1]}`;
}

function given({ what, name, count }: Given, signs: Signs): string {
  return what === 'scrap' ? 'scrap' : counted(count, name, signs);
}
