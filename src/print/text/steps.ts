import { isZero, toFraction } from '../../measure/index.ts';
import type { CountedLabel, Length, Step } from '../../model/index.ts';
import {
  counted,
  type Lines,
  type Look,
  padStart,
  paragraph,
  type Signs,
  signsOf,
} from '../columns/index.ts';
import {
  givenWords,
  inHandWords,
  type MarkedRun,
  markedRuns,
  marksWords,
  widthToTell,
} from '../stepWords.ts';
import type { Showing } from './lengths.ts';

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
  const alike = name === 'sheet' || count === 1 ? '' : ' alike';
  const both = step.kind === 'rip' ? ', a mark at both ends' : '';
  const results = markedRuns(step).map((it) => runWords(it, { inAll: count > 1 ? ' in all' : '', ...words }));
  const isMixed = step.runs.some(({ gives }) => gives.filter((it) => it.what === 'part').length > 1);
  const labels = count > 1 && isMixed ? ', labels as in the picture' : '';
  return { what: `${verb} ${inHandWords(step.piece)}${alike}${both}${labels}`, results };
}

interface RunWords extends Words {
  /** Said after what several pieces in hand give together. */
  readonly inAll: string;
}

function runWords(marked: MarkedRun, { inAll, showing, signs }: RunWords): string {
  const { brief } = showing;
  const { run, isTrimmed } = marked;
  const { size, count, cuts, gives, endsAt } = run;
  const isScrap = gives.every(({ what }) => what === 'scrap');
  const given = givenWords(gives, (number, name) => counted(number, name, signs)).join(', ');
  const what = `${given}${isScrap ? '' : inAll}`;
  if (cuts === 0) return `rest ${brief(size)} ${signs.arrow} ${what}`;
  const width = widthToTell(marked);
  const wide = width === undefined ? '' : `, ${brief(width)} wide`;
  const marks = marksWords(marked.marks.map(brief), { most: 8, between: ', ', onAndOn: signs.onAndOn });
  if (isTrimmed && cuts === 1) return `trim to ${marks} ${signs.arrow} ${what}${wide}`;
  const at = `at ${marks} ${signs.arrow} ${what}${wide}`;
  const stop = `${cuts > 1 ? `; set a stop at ${brief(size)}, cut ${cuts}` : ''}${isTrimmed ? ', the last to trim it' : ''}`;
  if (cuts < count) return `${at}${stop}; check: the rest is ${brief(size)} too`;
  return stop === '' ? at : `${at}${stop}; check: the last ends at\u00a0${brief(endsAt)}`;
}
