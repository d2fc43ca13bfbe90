import {
  compare,
  divide,
  isPositive,
  minus,
  mixedText,
  roundedDecimal,
  sum,
  toFraction,
} from '../measure/index.ts';
import {
  type DrawnFolds,
  type DrawnMark,
  type FoldAngle,
  type Length,
  type LevelSide,
  levelSides,
  type Outline,
} from '../model/index.ts';
import { boxOf, degreesOf, middleOf } from '../outline/index.ts';
import { listed } from './enumerated.ts';

export type FoldMark = Extract<DrawnMark, { readonly kind: 'fold' }>;

export function foldsOn({ marks }: Outline): readonly FoldMark[] {
  return marks.filter((it) => it.kind === 'fold');
}

/** What comes before a part is notched, while its blank is still whole and a rule lies well; and what comes last. */
export function foldWork(outline: Outline): {
  readonly first: readonly string[];
  readonly last: readonly string[];
} {
  const folds = foldsOn(outline);
  const [first] = folds;
  if (first === undefined) return { first: [], last: [] };
  const what = folds.length === 1 ? 'its fold' : 'its folds';
  const work = { score: `score ${what}`, crease: `press ${what}`, groove: `cut the V of ${what}` };
  return { first: [work[first.by]], last: ['fold it last'] };
}

/**
 * `Score on the good side, at 10 1/2 and 39 along, and fold 90 degrees away from you; the cut opens.`: folds that are made
 * alike stand in one sentence.
 */
export function foldRows(outline: Outline, brief: (length: Length) => string): readonly string[] {
  const groups = new Map<string, FoldMark[]>();
  for (const fold of foldsOn(outline)) {
    const key = [fold.by, fold.way, angleWords(fold.angle), runsUp(fold), lengthKey(fold)].join('\n');
    groups.set(key, [...(groups.get(key) ?? []), fold]);
  }
  return [...groups.values()].flatMap((alike) => {
    const [first] = alike;
    if (first === undefined) return [];
    const places = alike.map(({ from }) => brief(runsUp(first) ? from.x : from.y));
    const at = `at ${listed([...new Set(places)])} ${runsUp(first) ? 'along' : 'up'}`;
    return [rowOf(first, `${at}${stretchesOf(alike, outline, brief)}`)];
  });
}

/** Where a fold does not go from edge to edge of the blank: a rule laid right across would cut through what is beside it. */
function stretchesOf(
  alike: readonly FoldMark[],
  outline: Outline,
  brief: (length: Length) => string,
): string {
  const { left, right, bottom, top } = boxOf(outline);
  const stretches = alike.map((fold) => {
    const [from, to] = runsUp(fold) ? [fold.from.y, fold.to.y] : [fold.from.x, fold.to.x];
    const [least, most] = runsUp(fold) ? [bottom, top] : [left, right];
    const isWhole = compare(from, least.hi) <= 0 && compare(to, most.lo) >= 0;
    return isWhole ? undefined : `from ${brief(from)} to ${brief(to)}`;
  });
  const told = [...new Set(stretches.filter((it) => it !== undefined))];
  return told.length === 0 ? '' : `, only ${listed(told)}`;
}

function rowOf({ by, way, angle }: FoldMark, at: string): string {
  const how = angleWords(angle);
  const [outside, inside] = way === 'away' ? ['good side', 'other side'] : ['other side', 'good side'];
  const turn = way === 'away' ? 'away from you' : 'toward you';
  switch (by) {
    case 'score':
      return `Score on the ${outside}, ${at}, down to the last of the paper; fold ${how} ${turn}: the cut opens.`;
    case 'crease':
      return `Press a crease into the ${inside}, ${at}; fold ${how} ${turn}.`;
    case 'groove':
      return `Cut a V of ${how} out of the ${inside}, ${at} at its point, down to the outer paper; fold ${turn}: it closes.`;
  }
}

/** `90 degrees`, `22 1/2 degrees`; a slope as `3 in 4 (about 36.9 degrees)`. */
export function angleWords(angle: FoldAngle): string {
  if (angle.kind === 'degrees') return `${mixedText(angle.degrees)} degrees`;
  const { rise, run } = angle;
  if (run.numerator === 0n) return '90 degrees';
  const about = `about ${roundedDecimal(middleOf(degreesOf(angle)), 1)} degrees`;
  const { numerator, denominator } = divide(rise, run);
  // Past upright, a slope says nothing to anybody.
  return numerator < 0n ? about : `${numerator} in ${denominator} (${about})`;
}

/** The folds of a tray's tabs are told apart from those of its base. */
function lengthKey({ from, to }: FoldMark): string {
  return [minus(to.x, from.x), minus(to.y, from.y)].map(toFraction).join(' ');
}

function runsUp({ from, to }: FoldMark): boolean {
  return toFraction(from.x) === toFraction(to.x);
}

/** `folded from panels of 12, 30 and 12 outside, and a tab of 5`. */
export function foldedFrom(folds: DrawnFolds, brief: (length: Length) => string, times = '×'): string {
  const { panels, tabs, isTray, walls } = folds;
  if (walls !== undefined) return foldedRound(folds, walls, brief);
  if (isTray) return `folds to a tray of ${panels.map(brief).join(` ${times} `)} outside`;
  const own = panels.filter((_, i) => !tabs.includes(i)).map(brief);
  const glued = tabs.map((i) => panels[i]).filter((it) => it !== undefined);
  const tab =
    glued.length === 0 ? '' : `, ${glued.length === 1 ? 'a tab' : 'tabs'} of ${listed(glued.map(brief))}`;
  return `folds to panels of ${listed(own)} outside${tab}${shorterBy(folds, brief)}`;
}

/** Who adds the panels up finds more than the blank is long. */
function shorterBy({ panels, developed }: DrawnFolds, brief: (length: Length) => string): string {
  const taken = minus(sum(...panels), developed.lo);
  const isKnown = compare(developed.lo, developed.hi) === 0 && isPositive(taken);
  return isKnown ? `, together ${brief(taken)} more than the blank, which its folds take` : '';
}

/**
 * `folds to walls of 60 (front), 40 (right), 60 (back) and 38.5 (left, 40 with the edge of the front) outside, together 12
 * more than the blank, which its folds take; the left ends on the inside of the front, with a tab of 6 glued to it`
 */
function foldedRound(
  folds: DrawnFolds,
  walls: readonly LevelSide[],
  brief: (length: Length) => string,
): string {
  const { panels, tabs } = folds;
  const [first, last] = [walls[0], walls.at(-1)];
  const isClosed = walls.length === levelSides.length;
  // Its side is as long as the one across the room: whoever measures that, or places a cut on it, counts from corner to corner.
  const whole = isClosed ? panels[1] : undefined;
  const sizes = walls.flatMap((side, i) => {
    if (panels[i] === undefined) return [];
    const withEdge =
      whole !== undefined && side === last ? `, ${brief(whole)} with the edge of the ${first}` : '';
    return [`${brief(panels[i])} (${side}${withEdge})`];
  });
  const [tab] = tabs.flatMap((i) => panels[i] ?? []);
  const seam = !isClosed
    ? ''
    : tab === undefined
      ? `; the ${last} ends on the inside of the ${first}, glued to it`
      : `; the ${last} ends on the inside of the ${first}, with a tab of ${brief(tab)} glued to it`;
  return `folds to walls of ${listed(sizes)} outside${shorterBy(folds, brief)}${seam}`;
}
