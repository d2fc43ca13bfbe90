import {
  absolute,
  compare,
  compareRationals,
  isNegative,
  isZero,
  minus,
  mixedText,
  oneInch,
  oneMm,
  rational,
  roundToStep,
  scaled,
  zero,
} from '../measure/index.ts';
import {
  type AngleSpec,
  atSpan,
  type Drawn,
  type DrawnFolds,
  diagnose,
  type Enclosure,
  type FileUnits,
  type FoldsSpec,
  type Length,
  type NonEmpty,
  type Outline,
  type OutlineFacet,
  type PartSpec,
  type Rational,
  type StripSpec,
  type TraySpec,
} from '../model/index.ts';
import {
  boxOf,
  type Fold,
  type FoldedStrip,
  type FoldMade,
  foldedBlank,
  foldedStrip,
  mirrored,
  mirroredPanel,
  mirrorOf,
  type PanelFrame,
  polygon,
  type Strip,
  trayBlank,
} from '../outline/index.ts';
import { faultsTold, isShort } from './drawing.ts';
import { lengthOf, numberOf, wholeOf } from './evaluate.ts';
import {
  type DrawnLater,
  drawnFrom,
  foldsOfOtherHand,
  leaveOf,
  onceForEach,
  type PartShape,
} from './shapes.ts';
import { quantityOf } from './sum.ts';
import type { Scope, Workings } from './workings.ts';

/** What a folded part is as it stands, seen along its folds: x as its blank runs, y to its good side. */
export interface FoldedBody {
  readonly outline: Outline;
  /** What of that is which panel, and of its blank; absent for a tray. */
  readonly panels?: () => readonly PanelFrame[];
  readonly length: Length;
  readonly height: Length;
  /** Its row counts this panel alone, as thick as the material, and not how far the others reach past it. */
  readonly laps: { readonly from: Length; readonly thickness: Length } | undefined;
  /** Present for a tray, which is seen along its length: x is its width there. */
  readonly tray?: TrayFolded;
}

interface TrayFolded {
  readonly width: Length;
  readonly tab: Length;
  readonly thickness: Length;
  /** Something is cut into its blank. */
  readonly isCut: boolean;
}

/** @errors T30 to T35 and T37, what its sums say */
export function foldedShape(
  spec: PartSpec,
  folds: FoldsSpec,
  thickness: Length,
  scope: Scope,
  workings: Workings,
): (PartShape & { readonly body: FoldedBody | undefined }) | 'faulty' {
  const { size, outline, clad } = spec;
  const beside = [
    ...(size === undefined ? [] : [['size', size.at] as const]),
    ...(outline === undefined ? [] : [['outline', outline.written.at] as const]),
    ...(clad === undefined ? [] : [['clad', clad.at] as const]),
  ];
  for (const [key, at] of beside) workings.faults.report(diagnose('T35', atSpan(at), { key }));
  const leave = leaveOf(spec, scope, workings);
  const made = madeBy(folds, scope, workings);
  if (beside.length > 0 || leave === 'faulty' || made === 'faulty') return 'faulty';
  const { shape, by } = folds;
  if (shape.kind === 'tray') {
    return trayShape({ spec, folds, tray: shape, leave, made, thickness }, scope, workings);
  }
  const asked = stripOf(shape, made, thickness, folds, scope, workings);
  const width =
    shape.width.kind === 'rest' ? shape.width : lengthOf(shape.width, 'above zero', scope, workings);
  if (asked === undefined || width === undefined) return 'faulty';
  const { strip, base, tabs } = asked;
  const folded = foldsTold(foldedStrip(strip, base), tabs, folds, workings);
  if (folded === undefined) return 'faulty';
  const { units } = workings.sights.fileOf(folds.at);
  const length = outward(folded.length, units ?? 'mm');
  const isMirrored = spec.mirrored?.value ?? false;
  const body = bodyOf(folded, { strip, length, isMirrored }, shape, workings);
  const roundedTo = length === folded.length.hi ? undefined : stepOf(units ?? 'mm');
  const told: DrawnFolds = {
    panels: strip.panels,
    isTray: false,
    tabs: tabs.map(({ panel }) => panel),
    developed: folded.length,
  };
  const drawnLater: DrawnLater = onceForEach((net) => {
    const blank = foldedBlank(strip, folded, by?.value ?? 'score', { length, width: net.width }).value;
    const it =
      blank && drawnFrom(blank, { spec, leave, roundedTo, folded: { thickness } }, scope, workings)?.drawn;
    return it && { ...it, folds: spec.mirrored?.value === true ? foldsOfOtherHand(told) : told };
  });
  if (body === 'faulty') return 'faulty';
  if ('kind' in width) return { length, width, drawn: undefined, drawnLater, body };
  const drawn = drawnLater({ length, width });
  return drawn === undefined ? 'faulty' : { length, width, drawn, body };
}

/** As long as it is, or rounded outward where no rule could have that. */
export function outward({ lo, hi }: Enclosure<Length>, units: FileUnits): Length {
  return compare(lo, hi) === 0 && isShort(hi) ? hi : roundToStep(hi, stepOf(units), 'up');
}

function stepOf(units: FileUnits): Length {
  return units === 'in' ? scaled(oneInch, rational(1n, 64n)) : scaled(oneMm, rational(1n, 10n));
}

interface AskedTray {
  readonly spec: PartSpec;
  readonly folds: FoldsSpec;
  readonly tray: TraySpec;
  readonly leave: Exclude<ReturnType<typeof leaveOf>, 'faulty'>;
  readonly made: FoldMade;
  readonly thickness: Length;
}

function trayShape(
  { spec, folds, tray, leave, made, thickness }: AskedTray,
  scope: Scope,
  workings: Workings,
): (PartShape & { readonly body: FoldedBody }) | 'faulty' {
  const worked = [tray.length, tray.width, tray.high, tray.tab].map((it) =>
    lengthOf(it, 'above zero', scope, workings),
  );
  const [length, width, high, tab] = worked;
  if (length === undefined || width === undefined || high === undefined || tab === undefined) return 'faulty';
  const by = folds.by?.value ?? 'score';
  const blank = trayBlank({ length, width, high, tab, thickness, made, by });
  faultsTold(blank.faults, folds.written, workings);
  const whole =
    blank.value &&
    drawnFrom(blank.value, { spec, leave, roundedTo: undefined, folded: { thickness } }, scope, workings);
  if (blank.value === undefined || whole?.drawn === undefined) return 'faulty';
  const { right, top } = boxOf(blank.value);
  const told: DrawnFolds = {
    panels: [length, width, high],
    isTray: true,
    tabs: [],
    developed: right,
  };
  const outline = channel(width, high, thickness);
  if (outline === undefined) return 'faulty';
  const laps = tray.laps?.value === true ? { from: minus(high, thickness), thickness } : undefined;
  const body = {
    outline,
    length,
    height: high,
    laps,
    tray: { width, tab, thickness, isCut: spec.cuts !== undefined },
  };
  return { length: right.hi, width: top.hi, drawn: { ...whole.drawn, folds: told }, body };
}

/** The base and the long walls of a tray, its good side up. */
function channel(width: Length, high: Length, t: Length): Outline | undefined {
  const [right, top] = [minus(width, t), minus(high, t)];
  const corners: readonly (readonly [Length, Length])[] = [
    ...([
      [zero, zero],
      [t, zero],
      [t, top],
      [right, top],
    ] as const),
    ...([
      [right, zero],
      [width, zero],
      [width, high],
      [zero, high],
    ] as const),
  ];
  return polygon(corners.map(([x, y]) => ({ x, y }))).value;
}

function madeBy({ by, allowance }: FoldsSpec, scope: Scope, workings: Workings): FoldMade | 'faulty' {
  if (allowance === undefined) return by?.value ?? 'score';
  const tried = lengthOf(allowance, 'zero', scope, workings);
  return tried === undefined ? 'faulty' : { allowance: tried };
}

interface AskedStrip {
  readonly strip: Strip;
  readonly base: number | undefined;
  readonly tabs: readonly Tab[];
}

/** Its number among all panels, from 0, and where it is written. */
interface Tab {
  readonly panel: number;
  readonly name: string;
  readonly facet: OutlineFacet;
}

/** Undefined where a sum in it is faulty, or what is said of it does not go together. */
function stripOf(
  spec: StripSpec,
  made: FoldMade,
  thickness: Length,
  folds: FoldsSpec,
  scope: Scope,
  workings: Workings,
): AskedStrip | undefined {
  const { first, last } = spec.tabs;
  const sizes = [first, ...spec.panels, last].filter((it) => it !== undefined);
  const worked = sizes.map((it) => lengthOf(it, 'above zero', scope, workings));
  const angles = spec.angles.map((it) => angleOf(it, scope, workings));
  const base = spec.base && wholeOf(spec.base, { least: 1, what: 'panels' }, scope, workings);
  const panels = worked.filter((it) => it !== undefined);
  const turns = angles.filter((it) => it !== undefined);
  const isWhole =
    panels.length === sizes.length &&
    turns.length === angles.length &&
    (spec.base === undefined) === (base === undefined);
  if (!isWhole || !isNonEmpty(panels)) return undefined;
  const all = withTabs(turns, spec);
  if (all === undefined || all.length === 0) {
    const between = spec.panels.length - 1;
    const tabs = sizes.length - spec.panels.length;
    const facts = {
      panels: spec.panels.length,
      found: turns.length,
      wanted: tabs === 0 ? [between] : [between, between + tabs],
    };
    const at = folds.written.keys.get('angles')?.at ?? folds.at;
    workings.faults.report(diagnose('T32', atSpan(at), facts));
    return undefined;
  }
  if (spec.base !== undefined && base !== undefined && base > spec.panels.length) {
    workings.faults.report(
      diagnose('T34', atSpan(spec.base.at), { number: base, panels: spec.panels.length }),
    );
    return undefined;
  }
  const before = first === undefined ? 0 : 1;
  const isPair = first !== undefined;
  const tabs: readonly Tab[] = [
    ...(isPair ? [{ panel: 0, name: 'the first tab', facet: ['tab', 0] }] : []),
    ...(last === undefined
      ? []
      : [
          {
            panel: panels.length - 1,
            name: isPair ? 'the last tab' : 'the tab',
            facet: isPair ? ['tab', 1] : ['tab'],
          },
        ]),
  ];
  return {
    strip: {
      panels,
      folds: all.map((it): Fold => ({ ...it, made })),
      thickness,
      nameOf: (i) => tabs.find(({ panel }) => panel === i)?.name ?? `panel ${i + 1 - before}`,
    },
    base: base === undefined ? undefined : base - 1 + before,
    tabs,
  };
}

type Angle = Pick<Fold, 'angle' | 'way'>;

/** A tab of which nothing is said folds as its neighbour does, square. Undefined where there are too many or few. */
function withTabs(
  angles: readonly Angle[],
  { panels, tabs: { first, last } }: StripSpec,
): readonly Angle[] | undefined {
  const tabs = [first, last].filter((it) => it !== undefined).length;
  if (angles.length === panels.length - 1 + tabs) return angles;
  if (angles.length !== panels.length - 1) return undefined;
  const square = (like: Angle | undefined): Angle => ({
    angle: { kind: 'degrees', degrees: rational(90n) },
    way: like?.way ?? 'away',
  });
  return [
    ...(first === undefined ? [] : [square(angles[0])]),
    ...angles,
    ...(last === undefined ? [] : [square(angles.at(-1))]),
  ];
}

function angleOf(spec: AngleSpec, scope: Scope, workings: Workings): Angle | undefined {
  if (spec.kind === 'degrees') {
    const degrees = numberOf(spec.degrees, scope, workings);
    if (degrees === undefined) return undefined;
    const size = absolute(degrees);
    if (isZero(size) || compareRationals(size, rational(180n)) >= 0) {
      return noFold(spec, `${mixedText(degrees)}°`, workings);
    }
    return { angle: { kind: 'degrees', degrees: size }, way: wayOf(degrees) };
  }
  const slope = slopeOf(spec, scope, workings);
  if (slope === undefined) return undefined;
  const { rise, run } = slope;
  if (isZero(rise)) return noFold(spec, `${mixedText(rise)} in ${mixedText(run)}`, workings);
  const up = absolute(rise);
  return { angle: { kind: 'pitch', rise: up, run }, way: wayOf(rise) };
}

/** Rise and run are two lengths, or two numbers: `{ rise: terrace, run: square }`, `{ rise: 3, run: 4 }`. */
function slopeOf(
  { rise, run }: Extract<AngleSpec, { readonly kind: 'pitch' }>,
  scope: Scope,
  workings: Workings,
): { readonly rise: Rational; readonly run: Rational } | undefined {
  const [up, along] = [rise, run].map((it) => quantityOf(it, { ...scope, wanted: 'number' }, workings));
  if (up === undefined || along === undefined) return undefined;
  if (up.kind === 'length' && along.kind === 'length') return { rise: up.value, run: along.value };
  const [one, other] = [rise, run].map((it) => numberOf(it, scope, workings));
  return one && other && { rise: one, run: other };
}

function wayOf(angle: Parameters<typeof isNegative>[0]): Fold['way'] {
  return isNegative(angle) ? 'toward' : 'away';
}

function noFold({ at }: AngleSpec, found: string, { faults }: Workings): undefined {
  faults.report(diagnose('T33', atSpan(at), { found }));
}

/** Panels are counted with their tabs in the strip, and without them where they are written. */
function foldsTold(
  drawn: Drawn<FoldedStrip>,
  tabs: readonly Tab[],
  { written }: FoldsSpec,
  workings: Workings,
): FoldedStrip | undefined {
  const before = tabs.some(({ panel }) => panel === 0) ? 1 : 0;
  const faults = drawn.faults.map((it) => {
    const panel = Number(it.facet[1]);
    const facet = tabs.find((tab) => tab.panel === panel)?.facet ?? ['panels', panel - before];
    return { ...it, facet };
  });
  faultsTold(faults, written, workings);
  return drawn.value;
}

interface Blank {
  readonly strip: Strip;
  /** As it is cut. */
  readonly length: Length;
  readonly isMirrored: boolean;
}

function bodyOf(
  folded: FoldedStrip,
  { strip, length, isMirrored }: Blank,
  { laps }: StripSpec,
  { faults }: Workings,
): FoldedBody | 'faulty' {
  const { body, box, base } = folded;
  const { thickness } = strip;
  const outline = isMirrored ? mirrored(body) : body;
  const panels = isMirrored
    ? () => folded.panels().map((it) => mirroredPanel(it, mirrorOf(body), length))
    : folded.panels;
  if (laps?.value !== true) return { outline, panels, ...box, laps: undefined };
  if (base === undefined || body.holes.length > 0) {
    faults.report(diagnose('T37', atSpan(laps.at), { why: base === undefined ? 'none' : 'round' }));
    return 'faulty';
  }
  return { outline, panels, ...box, laps: { from: base.height, thickness } };
}

function isNonEmpty<T>(all: readonly T[]): all is NonEmpty<T> {
  return all.length > 0;
}
