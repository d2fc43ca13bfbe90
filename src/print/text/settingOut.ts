import { compare, millimetres, rational, scaled, subtract, toFraction, zero } from '../../measure/index.ts';
import type { DrawnMark, DrawnPart, Length, MaterialPlan, Outline, Point } from '../../model/index.ts';
import { compassStepsOf, outlineKey } from '../../outline/index.ts';
import { clean, indented, type Lines, paragraph } from '../columns/index.ts';
import { offsetsOf } from '../offsets.ts';
import { near, type Showing } from './lengths.ts';
import type { Setting } from './material.ts';
import { offsetTable } from './offsetTable.ts';

/**
 * How to set each outline out in its blank by hand: what is left on, in which order to work, the height of its
 * edge at steps along the base, and where to set the compass.
 */
export function settingOut({ demand }: MaterialPlan, setting: Setting): Lines {
  const groups = new Map<string, { readonly drawn: DrawnPart; readonly labels: string[] }>();
  for (const { label, drawn } of demand.parts.flatMap(({ members }) => members)) {
    if (drawn === undefined) continue;
    const key = keyOf(drawn);
    const known = groups.get(key);
    if (known === undefined) groups.set(key, { drawn, labels: [label] });
    else known.labels.push(label);
  }
  const shapes = [...groups.values()].map(({ drawn, labels }) => ofOne(drawn, labels.join(', '), setting));
  if (shapes.length === 0) return [];
  const lead = 'each in its blank, once the sheets are cut up.';
  return ['', ...paragraph(lead, setting.look.width, 'Shapes  '), ...shapes.flatMap((it) => ['', ...it])];
}

/** Parts of different tiles may be drawn alike. */
function keyOf({ outline, net, master, isMirrored, leave }: DrawnPart): string {
  const left = leave === undefined ? [] : [leave.left, leave.right, leave.bottom, leave.top];
  const sizes = [net.length, net.width, ...left].map(toFraction);
  return [outline === undefined ? '' : outlineKey(outline), master, isMirrored, ...sizes].join('\n');
}

function ofOne(drawn: DrawnPart, labels: string, { showing, look }: Setting): Lines {
  const { outline, net, master, isMirrored, leave, roundedTo } = drawn;
  const said = [
    `net size ${showing.pair(net.length, net.width)}`,
    ...(roundedTo === undefined ? [] : [`rounded outward to ${showing.full(roundedTo)}`]),
    ...(master === undefined
      ? []
      : [`traced from the master ${clean(master)}${isMirrored ? ', face down' : ''}`]),
    ...(leave === undefined ? [] : [`${leaveWords(leave, showing)}: trim flush after gluing`]),
  ];
  const rest = outline === undefined ? [] : outlineLines(outline, { showing, look });
  return [...paragraph(`${clean(labels)}: ${said.join('; ')}.`, look.width), ...indented(rest, 2)];
}

function leaveWords(leave: NonNullable<DrawnPart['leave']>, { brief }: Showing): string {
  const sides = (['left', 'right', 'bottom', 'top'] as const).filter((it) => leave[it].numerator > 0n);
  const [first] = sides;
  const isAll = sides.length === 4 && sides.every((it) => compare(leave[it], leave.left) === 0);
  if (first !== undefined && isAll) return `the blank is ${brief(leave[first])} larger all round`;
  return `the blank is larger by ${sides.map((it) => `${brief(leave[it])} at its ${it}`).join(', ')}`;
}

function outlineLines(outline: Outline, { showing, look }: Setting): Lines {
  const columns = look.width - 2;
  const loops = [outline.rim, ...outline.holes].map(
    (rim): Outline => ({ ...outline, rim, holes: [], marks: [] }),
  );
  return [
    ...paragraph(`${orderWords(outline)}.`, columns),
    ...paragraph('All from the left bottom corner of the net size, seen from its good side.', columns),
    ...loops.flatMap((it, i) => loopLines(it, i === 0 ? 'The edge' : 'The hole', { showing, look })),
    ...outline.marks.flatMap((it) => paragraph(markWords(it, showing), columns)),
  ];
}

/** A loop by its corners where these and the compass tell it, and by its heights where it has curves. */
function loopLines(outline: Outline, name: string, { showing, look }: Setting): Lines {
  const columns = look.width - 2;
  const { rim } = outline;
  const compass = compassStepsOf(outline).flatMap((it) => {
    const set = `Compass: point at ${at(it.centre, showing)}, open to ${near(it.radius, showing)}`;
    const ends = it.isWhole ? ', all round' : `, from ${at(it.from, showing)} to ${at(it.to, showing)}`;
    return paragraph(`${set}${ends}.`, columns);
  });
  const isRound = rim.every(({ kind }) => kind === 'arc');
  const isPlain = name === 'The edge' && rim.length === 4 && rim.every(({ kind }) => kind === 'line');
  if (isPlain && isUpright(outline)) return [];
  if (isRound || rim.some(({ kind }) => kind === 'curve')) {
    return [...(isRound ? [] : heightLines(outline, name, { showing, look })), ...compass];
  }
  const corners = rim.map(({ from }) => at(from, showing)).join('; ');
  const isTold = rim.some(({ kind }) => kind === 'arc') && name === 'The edge';
  return [
    ...paragraph(`${name} runs by ${corners}.`, columns),
    ...compass,
    ...(isTold ? heightLines(outline, name, { showing, look }) : []),
  ];
}

function isUpright({ rim }: Outline): boolean {
  return rim.every(({ from, to }) => compare(from.x, to.x) === 0 || compare(from.y, to.y) === 0);
}

function heightLines(outline: Outline, name: string, { showing, look }: Setting): Lines {
  const pitch = pitchFor(outline, showing);
  const offsets = offsetsOf(outline, pitch, netCorner);
  const lead = `${name}, every ${showing.full(pitch)} along`;
  return offsetTable(offsets, lead, showing, { ...look, width: look.width - 2 });
}

/** Holes and marks too are told from there. */
const netCorner: Point = { x: zero, y: zero };

/** Straight cuts before curves, since a rule needs the edges of the blank to lie along. */
function orderWords({ rim, holes, marks }: Outline): string {
  const hasCurves = rim.some(({ kind }) => kind !== 'line');
  const isNotched = rim.filter(({ kind }) => kind === 'line').length > 4;
  return [
    'Rip the blank',
    ...(marks.some(({ kind }) => kind === 'centre line') ? ['mark the centre line'] : []),
    ...(holes.length === 0 ? [] : [`cut ${holes.length === 1 ? 'the hole' : 'the holes'}`]),
    ...(isNotched || !hasCurves ? ['cut what is straight'] : []),
    ...(hasCurves ? ['cut the curve last'] : []),
  ].join(', then ');
}

function markWords(mark: DrawnMark, showing: Showing): string {
  if (mark.kind === 'cross') return `Mark, not cut: a cross at ${at(mark.at, showing)}.`;
  return `Mark, not cut: a ${mark.kind} from ${at(mark.from, showing)} to ${at(mark.to, showing)}.`;
}

function at({ x, y }: Point, { brief }: Showing): string {
  return `${brief(x)} along, ${brief(y)} up`;
}

const mostRows = 13n;
const steps: readonly bigint[] = [1n, 2n, 4n, 8n, 16n, 40n, 80n, 160n, 400n, 1600n];

/** A quarter of an inch or 5 mm, or as many of these as keep the table short. */
function pitchFor(outline: Outline, { unit }: Showing): Length {
  const least = millimetres(unit === 'in' ? rational(127n, 20n) : rational(5n));
  const ends = outline.rim.map(({ from }) => from.x).sort(compare);
  const [first = zero, last = zero] = [ends[0], ends.at(-1)];
  const span = millimetres(subtract(last, first));
  const fits = steps.map((it) => scaled(least, rational(it)));
  return fits.find((it) => compare(scaled(it, rational(mostRows)), span) >= 0) ?? fits.at(-1) ?? least;
}
