import { equal, isZero, toFraction } from '../../measure/index.ts';
import type { CountedLabel, Given, Length, Run, Step } from '../../model/index.ts';
import type { Showing } from './lengths.ts';
import { type Lines, paragraph } from './lines.ts';
import { counted, type Look, type Signs, signsOf } from './signs.ts';
import { padStart } from './width.ts';

/** The steps of one sheet, each with a box to tick. */
export function writeSteps(steps: readonly Step[], showing: Showing, columns: number, look: Look): Lines {
  const signs = signsOf(look);
  const digits = `${steps.length}`.length;
  const hang = signs.box.length + digits + 3;
  const firstLabel = steps.find(
    (step) => step.kind === 'label' && step.labels.some(({ on }) => on === 'each'),
  );
  return steps.flatMap((step, i) => {
    const words = wordsOf(step, steps[i + 1], { showing, signs, isFirstLabel: step === firstLabel });
    const lead = `${signs.box} ${padStart(`${step.number}`, digits)}  `;
    // What fits two lines is read at a glance; more is set one result a line.
    const joined = `${words.what}: ${words.results.join('; ')}.`;
    const inline = paragraph(joined, columns, lead);
    if (words.results.length > 0 && inline.length <= 2) return inline;
    const end = words.results.length === 0 ? '.' : ':';
    return [
      ...paragraph(`${words.what}${end}`, columns, lead),
      ...words.results.flatMap((line) => paragraph(line, columns, `${' '.repeat(hang)}${signs.dot} `)),
    ];
  });
}

/** For a picture that only differs from an earlier one in its labels. */
export function writeStepsLike(steps: readonly Step[], earlier: string, columns: number, look: Look): Lines {
  const signs = signsOf(look);
  const labels = steps.flatMap((step) => {
    if (step.kind !== 'label') return [];
    const { byHand, onSlips } = labelWords(step, signs);
    return [byHand, onSlips].filter((it) => it !== '');
  });
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

/** What is done, and what comes of it or tells that it was done well. */
interface Told {
  readonly what: string;
  readonly results: readonly string[];
}

function wordsOf(
  step: Step,
  next: Step | undefined,
  words: Words & { readonly isFirstLabel: boolean },
): Told {
  switch (step.kind) {
    case 'square up':
      return squareUp(step, words.showing);
    case 'label': {
      const before = next?.kind === 'rip' || next?.kind === 'crosscut' ? ` before you ${next.kind}` : '';
      const how = words.isFirstLabel
        ? `Label${before}, on the face that will be hidden: `
        : `Label in the same way${before}: `;
      const { byHand, onSlips } = labelWords(step, words.signs);
      if (byHand === '') return { what: capital(onSlips), results: [] };
      return { what: `${how}${byHand}${onSlips === '' ? '' : `; ${onSlips}`}`, results: [] };
    }
    case 'rip':
    case 'crosscut':
      return cut(step, words);
  }
}

/** `2 × RW back, RW face`, and `keep together as they come off: one slip for all 96 × RW stones`. */
function labelWords({ labels }: Extract<Step, { kind: 'label' }>, signs: Signs): LabelWords {
  const of = (on: CountedLabel['on']) => labels.filter((it) => it.on === on);
  const [first, ...others] = of('slip').map(
    ({ label, count }) => `${count < 3 ? '' : 'all\u00a0'}${counted(count, label, signs)}`,
  );
  const slips = [`one slip for ${first}`, ...others.map((it) => `one for ${it}`)].join(', ');
  return {
    byHand: of('each')
      .map(({ label, count }) => counted(count, label, signs))
      .join(', '),
    onSlips: first === undefined ? '' : `keep together as they come off: ${slips}`,
  };
}

interface LabelWords {
  readonly byHand: string;
  readonly onSlips: string;
}

function capital(text: string): string {
  return text.slice(0, 1).toUpperCase() + text.slice(1);
}

type SquareUp = Extract<Step, { kind: 'square up' }>;
type CutStep = Extract<Step, { kind: 'rip' | 'crosscut' }>;

// bottom first (the one true edge), then left, square from it: their corner is the datum of all that follows.
function squareUp({ trims, length, width, diagonal }: SquareUp, showing: Showing): Told {
  const { brief, markedPair } = showing;
  const off = (trim: Length) => `take\u00a0${brief(trim)}\u00a0off`;
  const edges = [
    isZero(trims.bottom)
      ? 'lay a true long edge at the bottom'
      : `true the bottom edge (${off(trims.bottom)})`,
    isZero(trims.left)
      ? 'see that the left edge is square from it'
      : `square the left edge from it (${off(trims.left)})`,
    ...(isZero(trims.right) ? [] : [`cut the right edge ${brief(length)} from the left`]),
    ...(isZero(trims.top) ? [] : [`cut the top edge ${brief(width)} from the bottom`]),
  ];
  const mark = diagonal.isExact ? brief(diagonal.length) : showing.rounded(diagonal.length, diagonal.error);
  return {
    what: 'Square up',
    results: [...edges, `check: ${markedPair(length, width)}, and both diagonals measure ${mark}`],
  };
}

function cut(step: CutStep, words: Words): Told {
  const { name, count } = step.piece;
  const verb = step.kind === 'rip' ? 'Rip' : 'Crosscut';
  const what = name === 'sheet' ? 'the sheet' : inHand(name, count);
  const both = step.kind === 'rip' ? ', a mark at both ends' : '';
  let used = 0;
  const results = step.runs.map((run) => {
    const marks = step.marks.slice(used, used + run.cuts);
    used += run.cuts;
    return runWords(run, { marks, inAll: count > 1 ? ' in all' : '', ...words });
  });
  const isMixed = step.runs.some(({ gives }) => gives.filter((it) => it.what === 'part').length > 1);
  const labels = count > 1 && isMixed ? ', labels as in the picture' : '';
  return { what: `${verb} ${what}${both}${labels}`, results };
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
  const isScrap = run.gives.every(({ what }) => what === 'scrap');
  const gives = `${run.gives.map((it) => given(it, signs)).join(', ')}${isScrap ? '' : inAll}`;
  if (run.cuts === 0) return `rest ${brief(run.size)} ${signs.arrow} ${gives}`;
  const first = marks[0];
  const size =
    run.cuts > 1 || (first !== undefined && equal(first, run.size)) ? '' : `, ${brief(run.size)} wide`;
  const at = `${listed(marks.map(brief), signs)} ${signs.arrow} ${gives}${size}`;
  const stop = run.cuts > 1 ? `; set a stop at ${brief(run.size)}, cut ${run.cuts}` : '';
  if (run.cuts < run.count) return `${at}${stop}; check: the rest is ${brief(run.size)} too`;
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
