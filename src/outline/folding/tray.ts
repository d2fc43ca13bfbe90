import { compare, isPositive, minus, rational, scaled, sum, times, zero } from '../../measure/index.ts';
import type {
  Drawn,
  DrawnMark,
  FoldAngle,
  FoldMaking,
  Length,
  Outline,
  OutlineFault,
  ShowLength,
} from '../../model/index.ts';
import { drawn, fault, undrawn } from '../fault.ts';
import { loopThrough } from '../loop.ts';
import { outlineOf } from '../makers/outlineOf.ts';
import { point } from '../vector.ts';
import type { FoldMade } from './strip.ts';

/** A tray by its outer sizes; the good side is outside. */
export interface Tray {
  readonly length: Length;
  readonly width: Length;
  readonly high: Length;
  /** Of each end of its long walls, glued behind the short ones. */
  readonly tab: Length;
  readonly thickness: Length;
  readonly made: FoldMade;
  readonly by: FoldMaking;
}

/**
 * The blank of a tray, its folds marked. The long walls stand within the short ones, so their tabs fold a thickness
 * further in than the base does; tabs run off at 45 degrees, so that they clear the base as they go in.
 *
 *          x   w w+t
 *          ╷   ╷ ╷
 *     Y    ┌─────┬──────────┬─────┐
 *           ╲ tab┊   wall   ┊    ╱
 *      ┌─────────┼┄┄┄┄┄┄┄┄┄┄┼─────────┐
 *      │wall ┊         base       ┊    │
 *      └─────────┼┄┄┄┄┄┄┄┄┄┄┼─────────┘
 *           ╱ tab┊   wall   ┊    ╲
 *     0    └─────┴──────────┴─────┘
 *
 * @errors T38 walls, or tabs, that leave no room for each other. A facet is `['high']`, `['tab']`, `['tray', i]`
 * @source the geometry of square folds; computed. Tabs at 45 degrees: common practice, no source
 */
export function trayBlank(tray: Tray): Drawn {
  const { length, width, thickness: t, made } = tray;
  const half = halfAllowance(made, t);
  const faults = faultsOf(tray, half);
  if (faults.length > 0) return undrawn(...faults);
  const wall = minus(tray.high, half);
  const [base, deep] = [length, width].map((it) => minus(it, times(half, 2)));
  if (base === undefined || deep === undefined) return undrawn();
  // From the corner of the blank's box to the end of a tab, along and, since it runs off at 45 degrees, up.
  const end = minus(sum(tray.high, t), tray.tab);
  const edge = minus(tray.high, tray.tab);
  const [x, y] = [
    { full: sum(base, times(wall, 2)), low: wall, high: sum(wall, base) },
    { full: sum(deep, times(wall, 2)), low: wall, high: sum(wall, deep) },
  ];
  const [tabLow, tabHigh] = [sum(x.low, t), minus(x.high, t)];
  const rim = loopThrough(
    [
      [end, zero],
      [minus(x.full, end), zero],
      [minus(x.full, end), edge],
      [tabHigh, y.low],
      [x.full, y.low],
      [x.full, y.high],
      [tabHigh, y.high],
      [minus(x.full, end), minus(y.full, edge)],
      [minus(x.full, end), y.full],
      [end, y.full],
      [end, minus(y.full, edge)],
      [tabLow, y.high],
      [zero, y.high],
      [zero, y.low],
      [tabLow, y.low],
      [end, edge],
    ].map(([along = zero, up = zero]) => point(along, up)),
  );
  const fold = (from: readonly [Length, Length], to: readonly [Length, Length]): DrawnMark => ({
    kind: 'fold',
    from: point(...from),
    to: point(...to),
    way: 'away',
    angle: square,
    by: tray.by,
  });
  const marks = [
    ...[x.low, x.high].map((at) => fold([at, y.low], [at, y.high])),
    ...[y.low, y.high].map((at) => fold([tabLow, at], [tabHigh, at])),
    ...[tabLow, tabHigh].flatMap((at) => [fold([at, zero], [at, y.low]), fold([at, y.high], [at, y.full])]),
  ];
  const outline: Outline = { ...outlineOf(rim), marks };
  return drawn(outline);
}

const square: FoldAngle = { kind: 'degrees', degrees: rational(90n) };

function halfAllowance(made: FoldMade, thickness: Length): Length {
  if (typeof made === 'object') return scaled(made.allowance, rational(1n, 2n));
  const share = { score: rational(1n), crease: rational(1n, 2n), groove: rational(0n) };
  return scaled(thickness, share[made]);
}

function faultsOf({ length, width, high, tab, thickness }: Tray, half: Length): readonly OutlineFault[] {
  const least = sum(thickness, half);
  const short = (
    what: string,
    facet: OutlineFault['facet'],
    size: Length,
    above: Length,
  ): readonly OutlineFault[] =>
    isPositive(minus(size, above)) ? [] : [told(what, facet, size, (show) => `more than ${show(above)}`)];
  const walls = [
    ...short('length', ['tray', 0], length, times(least, 2)),
    ...short('width', ['tray', 1], width, times(least, 2)),
    ...short('height', ['high'], high, least),
  ];
  // How long a tab may be follows from the walls: of those that can't be, none is told.
  if (walls.length > 0) return walls;
  const most = compare(scaled(width, rational(1n, 2n)), high) < 0 ? scaled(width, rational(1n, 2n)) : high;
  const isLong = compare(tab, most) >= 0;
  const longTab = told('tab', ['tab'], tab, (show) => `less than ${show(most)}`);
  return [...short('tab', ['tab'], tab, least), ...(isLong ? [longTab] : [])];
}

function told(
  what: string,
  facet: OutlineFault['facet'],
  size: Length,
  wanted: (show: ShowLength) => string,
): OutlineFault {
  return fault('T38', facet, (show) => ({ what, size: show(size), wanted: wanted(show) }));
}
