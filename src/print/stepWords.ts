import { equal } from '../measure/index.ts';
import type { Given, Length, PieceInHand, Run, Step } from '../model/index.ts';

/** What both the text and the page say of a cut; how much they say beside it is their own. */

type CutStep = Extract<Step, { kind: 'rip' | 'crosscut' }>;

export interface MarkedRun {
  readonly run: Run;
  /** Its running marks, one for each cut. */
  readonly marks: readonly Length[];
  /** What its last cut takes off is a sliver, and no result of its own. */
  readonly isTrimmed: boolean;
}

export function markedRuns({ runs, marks, isTrimmed }: CutStep): readonly MarkedRun[] {
  const told = isTrimmed ? runs.slice(0, -1) : runs;
  let used = 0;
  return told.map((run, i) => {
    const own = marks.slice(used, used + run.cuts);
    used += run.cuts;
    return { run, marks: own, isTrimmed: isTrimmed === true && i === told.length - 1 };
  });
}

/** `the sheet`, `strip C`, `both strips C`, `all 6 strips C`: they are cut alike. */
export function inHandWords({ name, count }: PieceInHand): string {
  if (name === 'sheet') return 'the sheet';
  if (count === 1) return name;
  const several = name.replace(/^strip /, 'strips\u00a0');
  return count === 2 ? `both ${several}` : `all\u00a0${count} ${several}`;
}

/** A stop names the width of many; one piece has to be told its own, unless its mark does. */
export function widthToTell({ run, marks }: MarkedRun): Length | undefined {
  const [first] = marks;
  if (run.cuts !== 1 || run.count > 1 || first === undefined || equal(first, run.size)) return undefined;
  return run.size;
}

/** The first few marks and the last, by which all are checked. */
export function marksWords(
  marks: readonly string[],
  { most, between, onAndOn }: { readonly most: number; readonly between: string; readonly onAndOn: string },
): string {
  if (marks.length <= most) return marks.join(between);
  return `${marks.slice(0, 3).join(between)} ${onAndOn} ${marks[marks.length - 1]}`;
}

/** `strips A, B, 2 × RW face, scrap`: names of strips share the word. */
export function givenWords(
  gives: readonly Given[],
  counted: (count: number, name: string) => string,
): readonly string[] {
  const strips = gives.filter(({ what }) => what === 'strip');
  const others = gives.filter(({ what }) => what !== 'strip');
  const said = (it: Given) => (it.what === 'scrap' ? 'scrap' : counted(it.count, it.name));
  if (strips.length < 2 || strips.some(({ count }) => count > 1)) return [...strips, ...others].map(said);
  const letters = strips.map(({ name }) => name.replace(/^strip /, ''));
  return [`strips\u00a0${letters.join(',\u00a0')}`, ...others.map(said)];
}
