import { compare, millimetres, rational, scaled, subtract, toFraction, zero } from '../../measure/index.ts';
import type {
  DrawnMark,
  DrawnPart,
  Length,
  MaterialPlan,
  Outline,
  PartMember,
  Point,
} from '../../model/index.ts';
import { compassStepsOf, outlineKey } from '../../outline/index.ts';
import { clean, indented, type Lines, paragraph } from '../columns/index.ts';
import { partOrder } from '../memberWords.ts';
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
  const all = demand.parts.flatMap(({ members }) => members);
  for (const { label, drawn, shared } of all) {
    if (drawn === undefined) continue;
    const key = keyOf(drawn);
    const known = groups.get(key) ?? { drawn, labels: [] };
    groups.set(key, known);
    for (const it of shared?.labels ?? [label]) if (!known.labels.includes(it)) known.labels.push(it);
  }
  const pairs = all.filter(({ shared }) => shared !== undefined);
  const shapes = [
    ...pairs.map((it) => partingLines(it, setting)),
    ...[...groups.values()].map(({ drawn, labels }) => ofOne(drawn, labels.join(', '), setting)),
  ];
  if (shapes.length === 0) return [];
  const lead = 'each in its blank, once the sheets are cut up.';
  return ['', ...paragraph(lead, setting.look.width, 'Shapes  '), ...shapes.flatMap((it) => ['', ...it])];
}

/** How two parts lie in the blank that they share, and how it is parted. */
function partingLines({ label, shared }: PartMember, { showing, look }: Setting): Lines {
  if (shared === undefined) return [];
  const { length, width, at: places, parting } = shared;
  const isFirst = places[0].x.numerator === 0n && places[0].y.numerator === 0n;
  const [one, other] = isFirst ? ['left bottom', 'right top'] : ['right top', 'left bottom'];
  const lies =
    `${clean(label)}: two in one blank of ${showing.pair(length, width)}, one turned half round in the plane, ` +
    'never over.';
  const where = `The one as drawn lies in its ${one} corner, the turned one in its ${other} corner, good side up.`;
  const how =
    parting === undefined
      ? 'Rip the blank, trace both, then cut along the first, then along the second.'
      : `Rip the blank, then part it along the straight line from ${at(parting.from, showing)} to ` +
        `${at(parting.to, showing)}: an edge of the one as drawn; let the tool take what lies beyond it.`;
  return [
    ...paragraph(lies, look.width),
    ...indented([...paragraph(where, look.width - 2), ...paragraph(how, look.width - 2)], 2),
  ];
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
    ...paragraph(`${firstUpper(partOrder(outline))}.`, columns),
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

function firstUpper(words: string): string {
  return `${words.slice(0, 1).toUpperCase()}${words.slice(1)}`;
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
