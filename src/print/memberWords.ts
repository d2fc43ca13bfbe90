import {
  add,
  divide,
  equal,
  errorText,
  floor,
  minus,
  multiply,
  rational,
  showExact,
  showThickness,
  subtract,
  unitOfRule,
  whole,
} from '../measure/index.ts';
import type {
  CutMark,
  FileUnits,
  Length,
  MaterialDemand,
  MaterialPlan,
  Outline,
  PartKind,
  PartMember,
  Rational,
  Segment,
} from '../model/index.ts';
import { edgesBriefly } from './edgeWords.ts';
import { foldWork } from './foldWords.ts';
import { inclinedBriefly } from './inclinedWords.ts';
import { tellsApart, withoutTiny } from './tinyEdges.ts';

/** `turn 3 over`: so many of them stand with their other side out. */
export function turnWords({ turnedOver, count, shared }: PartMember): string | undefined {
  if (turnedOver === undefined || turnedOver === 0) return undefined;
  return turnedOver === count * (shared === undefined ? 1 : 2) ? 'turn over' : `turn ${turnedOver} over`;
}

/** `2 × SR cheek head to tail, 41 % less than two of 3 × 3/4`: what comes from one blank. */
export function sharedWords(
  { shared, drawn }: PartMember,
  pair: (length: Length, width: Length) => string,
  times = '×',
): string | undefined {
  if (shared === undefined || drawn === undefined) return undefined;
  const [one, other] = shared.labels;
  const { length, width } = drawn.net;
  const two = multiply(multiply(length, width), rational(2n));
  const straight = shared.parting === undefined ? 'to be cut along both' : 'parted by one straight cut';
  const [how, parted] =
    shared.slant === undefined
      ? ['head to tail', straight]
      : ['end to end', 'parted by one slanting cut, a bevel of both'];
  return (
    `${one === other ? `2\u00a0${times}\u00a0${one}` : `${one} and ${other}`} ${how} in one blank, ` +
    `${hundredths(shared.saved, two)} less than two of ${pair(length, width)}, ${parted}`
  );
}

/** How much less all blanks of a material take, since some are shared; undefined where none is. */
export function savedWords({ parts }: MaterialDemand): string | undefined {
  let [saved, taken] = [rational(0n), rational(0n)];
  for (const { length, width, count, members } of parts) {
    taken = add(taken, multiply(multiply(length, width), whole(count)));
    for (const { shared, count: blanks } of members) {
      if (shared !== undefined) saved = add(saved, multiply(shared.saved, whole(blanks)));
    }
  }
  if (saved.numerator === 0n) return undefined;
  return `Blanks that two parts share take ${hundredths(saved, add(saved, taken))} off all its parts`;
}

/** Which outlines were looked at, where trying all of them might have saved a sheet. */
export function triedWords({ demand, bound }: Pick<MaterialPlan, 'demand' | 'bound'>): string | undefined {
  if (demand.triedInPairs === undefined || bound.isForBlanks !== true) return undefined;
  const { tried, of } = demand.triedInPairs;
  return `Of ${of} outlines that might lie head to tail along a curve, the ${tried} that could save most were tried`;
}

/** Rounded down. */
function hundredths(part: Rational, all: Rational): string {
  const share = floor(divide(multiply(part, whole(100)), all));
  return share === 0n ? 'under 1\u00a0%' : `about ${share}\u00a0%`;
}

/**
 * The order of work for one part: straight cuts before curves, since a rule needs the edges of the blank to lie
 * along, and a centre line before the edges that it is measured from are cut into. Edges too short for a rule of
 * this step are not spoken of. Folds are scored while all edges are whole, and folded when all is cut.
 */
export function partOrder(outline: Outline, step: Length): string {
  const { holes, marks } = outline;
  const rim = withoutTiny(outline, tellsApart(step));
  const hasCurves = rim.some(({ kind }) => kind !== 'line');
  const isUpright = rim.every(
    ({ kind, from, to }) => kind !== 'line' || equal(from.x, to.x) || equal(from.y, to.y),
  );
  const folds = foldWork(outline);
  const works = [
    'rip the blank',
    ...(marks.some(({ kind }) => kind === 'centre line') ? ['mark the centre line'] : []),
    ...(marks.some(({ kind }) => kind === 'line' || kind === 'cross') ? ['draw the marks'] : []),
    ...folds.first,
    ...(rim.some((it, i) => isHollow(it, rim[(i + 1) % rim.length] ?? it)) ? ['notch'] : []),
    ...(isUpright ? [] : ['cut what slopes']),
    ...(holes.length === 0 ? [] : [holes.length === 1 ? 'cut the hole' : 'cut the holes']),
    ...(marks.some((it) => it.kind === 'cross' && it.bore !== undefined) ? ['bore'] : []),
    ...(hasCurves ? ['cut the curve last'] : []),
    ...folds.last,
  ];
  return works.join(', then ');
}

/** A corner that goes into the part: the edge turns to the right there. */
function isHollow(edge: Segment, next: Segment): boolean {
  if (edge.kind !== 'line' || next.kind !== 'line') return false;
  const turn = subtract(
    multiply(minus(edge.to.x, edge.from.x), minus(next.to.y, next.from.y)),
    multiply(minus(edge.to.y, edge.from.y), minus(next.to.x, next.from.x)),
  );
  return turn.numerator < 0n;
}

/** What is to be made of a blank, beside its picture: `traced from shoulder, face down; net 3 × 1, trim flush …`. */
export function shapeWords(
  { drawn, isTurned = false }: PartMember,
  {
    pair,
    mark,
    fine,
  }: {
    readonly pair: (length: Length, width: Length) => string;
    readonly mark: (length: Length) => string;
    readonly fine: (length: Length) => string;
  },
): string | undefined {
  if (drawn === undefined) return undefined;
  const { master, isMirrored, leave, net, folds } = drawn;
  const words = [
    ...(folds === undefined ? [] : ['folded']),
    ...(master === undefined ? [] : [`traced from ${master}${isMirrored ? ', face down' : ''}`]),
    ...(leave === undefined ? [] : [`net ${pair(net.length, net.width)}, trim flush after gluing`]),
    ...inclinedBriefly(drawn, isTurned, { brief: mark }),
    ...edgesBriefly(drawn, isTurned, { brief: mark, fine }),
  ];
  return words.length === 0 ? undefined : words.join('; ');
}

/**
 * `cut to the mark: 2 55/64 in wide for 73 mm (+0.015)`, `cut to the mark: 73 mm wide`: a mark that stands in
 * for a size, with how much more the size is; or one of a rule in the other unit.
 *
 * @param unit  what sizes and errors are shown in
 */
export function markWords(
  { length, width }: PartKind,
  { cutTo }: PartMember,
  unit: FileUnits,
): string | undefined {
  if (cutTo === undefined) return undefined;
  const sizes = [...toMark(length, cutTo.length, 'long', unit), ...toMark(width, cutTo.width, 'wide', unit)];
  return sizes.length === 0 ? undefined : `cut to the mark: ${sizes.join(' and ')}`;
}

function toMark(mark: Length, it: CutMark | undefined, way: string, unit: FileUnits): readonly string[] {
  if (it === undefined) return [];
  const { exact, scale } = it;
  const rule = unitOfRule(scale);
  const isOff = !equal(exact, mark);
  if (!isOff && rule === unit) return [];
  const off = isOff ? ` for ${showThickness(exact, unit)} (${errorText(minus(exact, mark), unit)})` : '';
  return [`${showExact(mark, rule)} ${way}${off}`];
}
