import { compare, minus, sum } from '../measure/index.ts';
import {
  atSpan,
  type CutsSpec,
  type DrawnMark,
  diagnose,
  type Length,
  type Outline,
} from '../model/index.ts';
import { type Cut, insideAlong, type Range, showIn, withCuts } from '../outline/index.ts';
import type { WallsInFlat } from './drawing.ts';
import type { Workings } from './workings.ts';

type FoldLine = Extract<DrawnMark, { readonly kind: 'fold' }>;

/** A blank as it is folded, its cuts, and what it is once they are made. */
interface CutBlank {
  readonly plain: Outline;
  readonly asked: readonly Cut[];
  readonly cut: Outline;
  readonly spec: CutsSpec;
  readonly thickness: Length;
  readonly walls: WallsInFlat;
  /** That some of a fold is taken is meant. */
  readonly mayBeCut: boolean;
}

/**
 * Tells of each cut that takes some of a fold, which may be meant: a window that goes round a corner. What is left has to
 * hold its panels together.
 *
 *      ┬ ┊ left
 *      ╭─┊─╮
 *      │   │ taken
 *      ╰─┊─╯
 *      ┴ ┊ left
 *
 * @errors T44 some of a fold is taken, T45 nothing is left of one, or less than its board is thick in one place
 */
export function tellFoldsCut(
  { plain, asked, cut, spec, thickness, walls, mayBeCut }: CutBlank,
  workings: Workings,
): void {
  const folds = plain.marks.filter((it): it is FoldLine => it.kind === 'fold');
  for (const [index, fold] of folds.entries()) {
    const long = lengthOf(rangeOf(fold));
    const left = leftOf(cut, fold);
    const whole = sum(...left.map(lengthOf));
    if (compare(whole, long) >= 0) continue;
    for (const [i, one] of asked.entries()) {
      const alone = withCuts(plain, [one]).value;
      if (alone === undefined || compare(sum(...leftOf(alone, fold).map(lengthOf)), long) >= 0) continue;
      const at = spec.written.items[i]?.at ?? spec.written.at;
      const show = showIn(workings.sights.fileOf(at).units ?? 'mm');
      const from = rangeOf(fold).from;
      const facts = {
        cut: one.kind,
        fold: nameOf(index, fold, walls, (it) => show(it, 'near')),
        long: show(long),
        left: left.map(
          (it) => `${show(minus(it.from, from), 'near')} to ${show(minus(it.to, from), 'near')}`,
        ),
      };
      const thin = left.map(lengthOf).find((it) => compare(it, thickness) < 0);
      if (thin === undefined && left.length > 0) {
        if (mayBeCut) continue;
        workings.faults.report(diagnose('T44', atSpan(at), facts));
      } else {
        const least = { thin: thin && show(thin, 'near'), thickness: show(thickness) };
        workings.faults.report(diagnose('T45', atSpan(at), { ...facts, ...least }));
      }
    }
  }
}

/** Folds run along the width of their blank, those of a tray both ways. */
function isUpright({ from, to }: FoldLine): boolean {
  return compare(from.x, to.x) === 0;
}

function rangeOf(fold: FoldLine): Range {
  const axis = isUpright(fold) ? 'y' : 'x';
  const [one, other] = [fold.from[axis], fold.to[axis]];
  return compare(one, other) < 0 ? { from: one, to: other } : { from: other, to: one };
}

function leftOf(outline: Outline, fold: FoldLine): readonly Range[] {
  return insideAlong(
    outline,
    isUpright(fold) ? 'y' : 'x',
    isUpright(fold) ? fold.from.x : fold.from.y,
    rangeOf(fold),
  );
}

function lengthOf({ from, to }: Range): Length {
  return minus(to, from);
}

/** `fold 2, 39 mm from the left`, `the fold between the front and the right`. */
function nameOf(index: number, fold: FoldLine, walls: WallsInFlat, show: (it: Length) => string): string {
  const sides = [...walls.keys()];
  const [before, behind] = [sides[index], sides[index + 1]];
  if (before !== undefined)
    return `the fold between the ${before} and ${behind === undefined ? 'the tab' : `the ${behind}`}`;
  const place = isUpright(fold)
    ? `${show(fold.from.x)} from the left`
    : `${show(fold.from.y)} from the bottom`;
  return `fold ${index + 1}, ${place}`;
}
