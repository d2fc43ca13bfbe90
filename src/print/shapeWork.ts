import {
  compare,
  millimetres,
  minus,
  nearestHalfUp,
  opposite,
  ratio,
  rational,
  scaled,
  sum,
  toFraction,
  zero,
} from '../measure/index.ts';
import type {
  Bore,
  DrawnMark,
  DrawnPart,
  FileUnits,
  Length,
  MaterialPlan,
  Outline,
  PartMember,
  Point,
  SharedBlank,
} from '../model/index.ts';
import { compassStepsOf, curvedStretches, edgesKey, outlineKey, type Stretch } from '../outline/index.ts';
import { boreWords } from './boreWords.ts';
import { edgeRows } from './edgeWords.ts';
import { type FoldMark, foldedFrom, foldRows } from './foldWords.ts';
import { inclinedAbout, inclinedKey, inclinedRows, near } from './inclinedWords.ts';
import { partOrder } from './memberWords.ts';
import { apartOnRule, hasCurve, type Ordinate, offsetsOf, standsOnItsBase } from './offsets.ts';
import { hasRounded, roundedWords } from './roundedWords.ts';
import { isTiny, tellsApart } from './tinyEdges.ts';

/** How lengths and names are set. */
export interface ShapeStyle {
  readonly unit: FileUnits;
  /** Graduation of the rule that sizes are read on first. */
  readonly step: Length;
  /** A mark, with its error where no rule has it. */
  readonly brief: (length: Length) => string;
  /** What stands between two sizes. */
  readonly times?: string;
  /** With the unit. */
  readonly full: (length: Length) => string;
  /** What is too small for the marks of most rules. */
  readonly fine: (length: Length) => string;
  readonly pair: (length: Length, width: Length) => string;
  readonly clean: (text: string) => string;
  /**
   * Which edges are told by their heights too. Who prints pages prints masters as well, and has a compass: there the
   * smooth curves that no master has are left.
   */
  readonly heightsOf: 'each curve' | 'what nothing else draws';
}

/** How one shape is set out in its blank by hand. */
export interface ShapeWork {
  /** Whose it is, and what its blank is. */
  readonly about: string;
  readonly rows: readonly (string | OffsetTable)[];
}

/** Heights of an edge over places along its base. */
export interface OffsetTable {
  readonly lead: string;
  readonly headings: readonly string[];
  readonly rows: readonly (readonly string[])[];
}

/** What stands before the shapes of a material. */
export function shapeLead(shapes: readonly ShapeWork[]): string {
  const texts = shapes.flatMap(({ about, rows }) => [
    about,
    ...rows.flatMap((row) => (typeof row === 'string' ? [row] : row.rows.flat())),
  ]);
  return hasRounded(texts) ? `${lead} ${roundedWords}` : lead;
}

const lead =
  'each in its blank, once the sheets are cut up. All places are from the left bottom corner of the net size, seen ' +
  'from the good side; of the blank, where two share one.';

/**
 * How to set each outline out in its blank by hand: what is left on, in which order to work, the height of its
 * edge at steps along the base, and where to set the compass.
 */
export function shapeWorkOf(plans: readonly MaterialPlan[], style: ShapeStyle): readonly ShapeWork[] {
  const groups = new Map<string, Group>();
  const all = plans.flatMap(({ demand }) => demand.parts.flatMap(({ members }) => members));
  for (const { label, drawn, shared } of all) {
    if (drawn === undefined) continue;
    const key = keyOf(drawn);
    const known: Group = groups.get(key) ?? { drawn, labels: [], isBevelShared: false };
    groups.set(key, shared?.slant === undefined ? known : { ...known, isBevelShared: true });
    for (const it of shared?.labels ?? [label]) if (!known.labels.includes(it)) known.labels.push(it);
  }
  return [
    ...all.flatMap((it) => partingOf(it, style)),
    ...[...groups.values()].map((it) => ofOne(it, style)),
  ];
}

/** Parts that are worked alike. */
interface Group {
  readonly drawn: DrawnPart;
  readonly labels: string[];
  /** Some of them lie end to end with another. */
  readonly isBevelShared: boolean;
}

/** How two parts lie in the blank that they share, and how it is parted. */
function partingOf({ label, shared }: PartMember, style: ShapeStyle): readonly ShapeWork[] {
  if (shared === undefined) return [];
  const { length, width, at: places, parting, slant } = shared;
  if (parting !== undefined && slant !== undefined) {
    const lies = `${style.clean(label)}: two end to end in one blank of ${style.pair(length, width)}.`;
    return [{ about: lies, rows: slantRows({ places, parting, slant }, style) }];
  }
  const isFirst = places[0].x.numerator === 0n && places[0].y.numerator === 0n;
  const [one, other] = isFirst ? ['left bottom', 'right top'] : ['right top', 'left bottom'];
  const lies =
    `${style.clean(label)}: two in one blank of ${style.pair(length, width)}, one turned half round in the plane, ` +
    'never over.';
  const where = `The one as drawn lies in its ${one} corner, the turned one in its ${other} corner, good side up.`;
  const how =
    parting === undefined
      ? 'Rip the blank, trace both, then cut along the first, then along the second.'
      : `Rip the blank, then part it along the straight line from ${at(parting.from, style)} to ` +
        `${at(parting.to, style)}: an edge of the one as drawn; let the tool take what lies beyond it.`;
  return [{ about: lies, rows: [where, how] }];
}

/** How a cut lies that is a bevel of both of two parts. */
function slantRows(
  {
    places: [one, other],
    parting,
    slant,
  }: {
    readonly places: readonly [Point, Point];
    readonly parting: NonNullable<SharedBlank['parting']>;
    readonly slant: NonNullable<SharedBlank['slant']>;
  },
  { brief }: ShapeStyle,
): readonly string[] {
  const isAcross = compare(parting.from.x, parting.to.x) === 0;
  const up = isAcross ? parting.from.x : parting.from.y;
  const way = isAcross ? 'along' : 'up';
  const isFirst = compare(one.x, other.x) < 0 || compare(one.y, other.y) < 0;
  const which = isFirst ? 'at its beginning' : 'at its end';
  return [
    `Rip the blank square. Part it by one slanting cut, from ${brief(up)} ${way} on the face that lies up to ` +
      `${brief(slant.below)} on the face below: it is a bevel of both. Let the tool take what lies beyond it, seen ` +
      'from the one as drawn.',
    slant.isFaceDown
      ? `The one ${which} lies as drawn; the other lies face down, so turn that over before you go on.`
      : 'Both lie as drawn.',
  ];
}

/** Parts of different tiles may be drawn alike. */
function keyOf(drawn: DrawnPart): string {
  const { outline, net, master, isMirrored, leave, folds, bores = [] } = drawn;
  const left = leave === undefined ? [] : [leave.left, leave.right, leave.bottom, leave.top];
  const sizes = [net.length, net.width, ...left].map(toFraction);
  return [
    outline === undefined ? '' : outlineKey(outline),
    master,
    isMirrored,
    ...sizes,
    ...bores.map(boreKey),
    ...(folds?.walls ?? []),
    edgesKey(drawn),
    inclinedKey(drawn),
  ].join('\n');
}

function boreKey({ fitting, diameter, deep, into }: Bore): string {
  const place = into.kind === 'face' ? [into.face, into.at.x, into.at.y] : [into.side, into.along, into.up];
  return [fitting, diameter, deep ?? 'through', ...place]
    .map((it) => (typeof it === 'string' ? it : toFraction(it)))
    .join(' ');
}

function ofOne({ drawn, labels, isBevelShared }: Group, style: ShapeStyle): ShapeWork {
  const { outline, net, master, isMirrored, leave, roundedTo, folds } = drawn;
  const said = [
    `net size ${style.pair(net.length, net.width)}`,
    ...(roundedTo === undefined ? [] : [`rounded outward to ${style.fine(roundedTo)}`]),
    ...inclinedAbout(drawn, style),
    ...(folds === undefined ? [] : [foldedFrom(folds, style.brief, style.times)]),
    ...(folds === undefined || roundedTo === undefined ? [] : [`truly ${near(folds.developed, style)} long`]),
    ...(master === undefined
      ? []
      : [`traced from the master ${style.clean(master)}${isMirrored ? ', face down' : ''}`]),
    ...(leave === undefined ? [] : [`${leaveWords(leave, style)}: trim flush after gluing`]),
  ];
  return {
    about: `${style.clean(labels.join(', '))}: ${said.join('; ')}.`,
    rows: [
      ...(outline === undefined ? [] : rowsOf(outline, master !== undefined, style)),
      ...edgeRows(drawn, { isShared: isBevelShared, isBegun: outline !== undefined }, style),
      ...boreWords(drawn.bores ?? [], style),
      ...inclinedRows(drawn, style),
    ],
  };
}

function leaveWords(leave: NonNullable<DrawnPart['leave']>, { brief }: ShapeStyle): string {
  const sides = (['left', 'right', 'bottom', 'top'] as const).filter((it) => leave[it].numerator > 0n);
  const [first] = sides;
  const isAll = sides.length === 4 && sides.every((it) => compare(leave[it], leave.left) === 0);
  if (first !== undefined && isAll) return `the blank is ${brief(leave[first])} larger all round`;
  return `the blank is larger by ${sides.map((it) => `${brief(leave[it])} at its ${it}`).join(', ')}`;
}

function rowsOf(outline: Outline, isTraced: boolean, plain: ShapeStyle): ShapeWork['rows'] {
  const style = asSureAs(outline, plain);
  const all = style.heightsOf === 'each curve';
  const loops = [outline.rim, ...outline.holes].map(
    (rim): Outline => ({ ...outline, rim, holes: [], marks: [] }),
  );
  return [
    `${firstUpper(partOrder(outline, style.step))}.`,
    ...loops.flatMap((it, i) =>
      i === 0
        ? loopRows(it, 'The edge', { arcs: all, curves: all || !isTraced }, style)
        : loopRows(it, 'The hole', { arcs: false, curves: true }, style),
    ),
    ...outline.marks.flatMap((it) => (it.kind === 'fold' || isBore(it) ? [] : [markWords(it, style)])),
    ...foldRows(outline, style.brief),
  ];
}

/** Where points are as near to a mark as they are sure to be anything, they are at the mark. */
function asSureAs({ within }: Outline, style: ShapeStyle): ShapeStyle {
  if (within.numerator === 0n) return style;
  const brief = (length: Length): string => {
    const mark = scaled(style.step, rational(nearestHalfUp(ratio(length, style.step))));
    const off = minus(length, mark);
    const isThere = compare(off, within) <= 0 && compare(opposite(off), within) <= 0;
    return style.brief(isThere ? mark : length);
  };
  return { ...style, brief };
}

/** What of a loop is told by its heights. */
interface ByHeights {
  readonly arcs: boolean;
  readonly curves: boolean;
}

/** A loop by its corners where these and the compass tell it, and by its heights where it has curves. */
function loopRows(
  outline: Outline,
  name: string,
  byHeights: ByHeights,
  style: ShapeStyle,
): ShapeWork['rows'] {
  const { rim } = outline;
  const compass = compassStepsOf(outline).map((it) => {
    const set = `Compass: point at ${at(it.centre, style)}, open to ${near(it.radius, style)}`;
    return `${set}${it.isWhole ? ', all round' : `, from ${at(it.from, style)} to ${at(it.to, style)}`}.`;
  });
  const isSmooth = hasCurve(outline);
  const isRound = !isSmooth && rim.every(({ kind }) => kind === 'arc');
  const isPlain = name === 'The edge' && rim.length === 4 && rim.every(({ kind }) => kind === 'line');
  if (isPlain && isUpright(outline)) return [];
  if (isRound || isSmooth) {
    const isMeasured = isSmooth && byHeights.curves;
    return [...(isMeasured ? [heights(outline, name, style).table] : []), ...compass];
  }
  const corners = toldCorners(rim, style.step)
    .map((it) => at(it, style))
    .join('; ');
  const told = [`${name} runs by ${corners}.`, ...compass];
  if (compass.length === 0 || !byHeights.arcs) return told;
  const { table, isMoreThanCorners } = heights(outline, name, style);
  return isMoreThanCorners ? [...told, table] : told;
}

/** Of two corners that no rule tells apart, the one that no arc ends at: that of an arc the compass tells. */
function toldCorners(rim: Outline['rim'], step: Length): readonly Point[] {
  const least = tellsApart(step);
  return rim.flatMap(({ from }, i) => {
    const endsAtArc = rim.at(i - 1)?.kind === 'arc' && isTiny(rim, i, least);
    const isSecond = isTiny(rim, i - 1, least) && rim.at(i - 2)?.kind !== 'arc';
    return endsAtArc || isSecond ? [] : [from];
  });
}

function isUpright({ rim }: Outline): boolean {
  return rim.every(({ from, to }) => compare(from.x, to.x) === 0 || compare(from.y, to.y) === 0);
}

/** Where the edge is curved: what is straight lies between its corners. */
function heights(outline: Outline, name: string, style: ShapeStyle): Heights {
  const stretches = curvedStretches(outline);
  const pitch = pitchFor(stretches, style);
  const offsets = apartOnRule(offsetsOf(outline, pitch, netCorner, stretches), style.step);
  const lead = `${name}, every ${style.full(pitch)} along where it is curved`;
  return {
    table: offsetTableOf(offsets, lead, style),
    isMoreThanCorners: offsets.some(({ isCorner }) => !isCorner),
  };
}

interface Heights {
  readonly table: OffsetTable;
  readonly isMoreThanCorners: boolean;
}

/** A table of offsets to mark an edge out by; where all begin on the base, that is not said in each row. */
export function offsetTableOf(
  offsets: readonly Ordinate[],
  lead: string,
  style: Pick<ShapeStyle, 'brief'>,
): OffsetTable {
  const isPlain = standsOnItsBase(offsets);
  return {
    lead: `${lead}, and at each point it is drawn by (*):`,
    headings: isPlain ? ['along', 'up'] : ['along', 'from', 'up to'],
    rows: offsets.map(({ along, bottom, top, isCorner }) => {
      const here = `${isCorner ? '* ' : ''}${style.brief(along)}`;
      return isPlain ? [here, near(top, style)] : [here, near(bottom, style), near(top, style)];
    }),
  };
}

/** Holes and marks too are told from there. */
const netCorner: Point = { x: zero, y: zero };

function firstUpper(words: string): string {
  return `${words.slice(0, 1).toUpperCase()}${words.slice(1)}`;
}

/** What is bored is told with its depth. */
function isBore(mark: DrawnMark): boolean {
  return mark.kind === 'cross' && mark.bore !== undefined;
}

function markWords(mark: Exclude<DrawnMark, FoldMark>, style: ShapeStyle): string {
  if (mark.kind === 'cross') return `Mark, not cut: a cross at ${at(mark.at, style)}.`;
  return `Mark, not cut: a ${mark.kind} from ${at(mark.from, style)} to ${at(mark.to, style)}.`;
}

/** Where a point lies from the corner; the middle of a flat arc may lie below the base. */
export function at({ x, y }: Point, { brief }: Pick<ShapeStyle, 'brief'>): string {
  const across = isBelow(x) ? `${brief(scaled(x, rational(-1n)))} to the left` : `${brief(x)} along`;
  return isBelow(y) ? `${across}, ${brief(scaled(y, rational(-1n)))} down` : `${across}, ${brief(y)} up`;
}

function isBelow(length: Length): boolean {
  return compare(length, zero) < 0;
}

const mostRows = 13n;
const steps: readonly bigint[] = [1n, 2n, 4n, 8n, 16n, 40n, 80n, 160n, 400n, 1600n];

/** A quarter of an inch or 5 mm, or as many of these as keep the table short. */
function pitchFor(over: readonly Stretch[], { unit }: ShapeStyle): Length {
  const least = millimetres(unit === 'in' ? rational(127n, 20n) : rational(5n));
  const span = sum(...over.map(({ from, to }) => minus(to, from)));
  const fits = steps.map((it) => scaled(least, rational(it)));
  return fits.find((it) => compare(scaled(it, rational(mostRows)), span) >= 0) ?? fits.at(-1) ?? least;
}
