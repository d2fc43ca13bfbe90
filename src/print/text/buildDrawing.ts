import { compare, minus, toDrawnMm, zero } from '../../measure/index.ts';
import type { Block, Build, Fault, Length, StandingPart, TileFit, Way } from '../../model/index.ts';
import { blankCanvas } from './canvas.ts';
import type { Lines } from './lines.ts';
import type { Look } from './signs.ts';
import { clean, widthOf } from './width.ts';

/** How a length stands in the drawing. */
export type ShowBriefly = (length: Length) => string;

/**
 * A tile that doesn't fit, as a section and a plan: every part with its letter, the room that it has between
 * heavy lines, and the dimension that is off below or beside it. Thin layers are drawn thicker than they are.
 *
 *     ┏━┯━━━━━━━━━━┯━┳┐
 *     ┃a│    b     │a┃│
 *     ┗━┷━━━━━━━━━━┷━┻┘
 *     ├───── 3 1/16 ──┤   3 to fill: 1/16 over
 */
export function drawBuild({ build, faults }: TileFit, show: ShowBriefly, look: Look): Lines {
  const letters = lettersOf(build);
  const level = faults.map(wayOf).find((way) => way === 'across' || way === 'along') ?? 'along';
  const views: readonly View[] = [
    {
      title: level === 'along' ? 'section, front to the left' : 'section, seen from the front',
      across: level,
      up: 'up',
      cut: level === 'along' ? 'across' : 'along',
    },
    { title: 'plan, front below', across: 'across', up: 'along', cut: undefined },
  ];
  const legend = [...letters].map(([part, letter]) => `${letter} ${clean(part)}`).join('   ');
  return [
    ...views.flatMap((view) => drawView(view, build, faults, letters, show, look)),
    `    ${legend}`,
    '',
  ];
}

interface View {
  readonly title: string;
  readonly across: Way;
  readonly up: Way;
  /** The direction in which the tile is cut through its middle; undefined: seen from above. */
  readonly cut: Way | undefined;
}

/** a, b, c, … by part, in the order of the build; then aa, ab, … */
function lettersOf({ parts }: Build): ReadonlyMap<string, string> {
  const names = [...new Set(parts.map(({ part }) => part))];
  const letter = (index: number): string =>
    (index >= 26 ? letter(Math.floor(index / 26) - 1) : '') + String.fromCharCode(97 + (index % 26));
  return new Map(names.map((name, index) => [name, letter(index)]));
}

/** The direction that a fault is about; undefined where it has none. */
function wayOf(fault: Fault): Way | undefined {
  switch (fault.kind) {
    case 'does not close':
    case 'overlaps':
    case 'does not fit the rack':
      return fault.way;
    case 'sticks out':
      return fault.side === 'left' || fault.side === 'right'
        ? 'across'
        : fault.side === 'front' || fault.side === 'back'
          ? 'along'
          : 'up';
    default:
      return undefined;
  }
}

function drawView(
  view: View,
  build: Build,
  faults: readonly Fault[],
  letters: ReadonlyMap<string, string>,
  show: ShowBriefly,
  look: Look,
): Lines {
  const shown = view.cut === undefined ? build.parts : build.parts.filter((it) => isCut(it, build, view.cut));
  const room = roomOf(build);
  const columns = axis([...endsOf(shown, view.across), zero, room[view.across] ?? zero], 3, look.width - 34);
  const rows = axis(
    [...endsOf(shown, view.up), zero, room[view.up] ?? zero],
    2,
    view.cut === undefined ? 12 : 24,
  );
  const canvas = blankCanvas(columns.size + 1, rows.size + 1);
  const frame = (block: Block, weight: 1 | 2): void => {
    const [left, right] = [columns.at(block.low[view.across]), columns.at(block.high[view.across])];
    const [bottom, top] = [rows.size - rows.at(block.low[view.up]), rows.size - rows.at(block.high[view.up])];
    canvas.line({ column: left, row: top }, { column: right, row: top }, weight);
    canvas.line({ column: left, row: bottom }, { column: right, row: bottom }, weight);
    canvas.line({ column: left, row: top }, { column: left, row: bottom }, weight);
    canvas.line({ column: right, row: top }, { column: right, row: bottom }, weight);
  };
  for (const { block } of shown) frame(block, 1);
  const envelope: Block = {
    low: { across: zero, along: zero, up: zero },
    high: { ...build.footprint, up: room.up ?? build.row.block.high.up },
  };
  frame(envelope, 2);
  // From above, what lies on top writes over what is below it.
  for (const { block, part } of [...shown].sort((a, b) => compare(a.block.high.up, b.block.high.up))) {
    const column = Math.floor((columns.at(block.low[view.across]) + columns.at(block.high[view.across])) / 2);
    const row = rows.size - Math.ceil((rows.at(block.low[view.up]) + rows.at(block.high[view.up])) / 2);
    canvas.write({ column, row }, letters.get(part) ?? '?');
  }
  const drawing = canvas.toLines(look.ascii).map((line) => `    ${line}`);
  const below = faults.flatMap((fault) => dimension(fault, view.across, columns.size, show, look));
  const beside = faults.flatMap((fault) => dimensionBeside(fault, view, show));
  return [
    `    ${view.title}`,
    ...drawing.map((line, index) => (beside[index] === undefined ? line : `${line}   ${beside[index]}`)),
    ...below.map((line) => `    ${line}`),
    '',
  ];
}

/** How far the heavy lines reach: the footprint, and the height if the tile states one. */
function roomOf({ footprint, height }: Build): {
  readonly across: Length;
  readonly along: Length;
  readonly up: Length | undefined;
} {
  return { ...footprint, up: height?.value };
}

/** Whether the plane through the middle of the tile goes through a piece. */
function isCut({ block }: StandingPart, { footprint }: Build, way: Way | undefined): boolean {
  if (way === undefined || way === 'up') return true;
  // Twice the plane's place, so that nothing is halved.
  const [low, high] = [block.low[way], block.high[way]];
  const whole = footprint[way];
  return compare(twice(low), whole) < 0 && compare(twice(high), whole) > 0;
}

function twice(length: Length): Length {
  return minus(length, minus(zero, length));
}

function endsOf(parts: readonly StandingPart[], way: Way): readonly Length[] {
  return parts.flatMap(({ block }) => [block.low[way], block.high[way]]);
}

interface Axis {
  readonly size: number;
  readonly at: (length: Length) => number;
}

/** Places in characters: in proportion where there is room, and never less than `least` apart. */
function axis(ends: readonly Length[], least: number, most: number): Axis {
  const distinct = [...ends]
    .sort(compare)
    .filter((it, index, all) => index === 0 || compare(it, all[index - 1] ?? it) !== 0);
  const [first, last] = [distinct[0] ?? zero, distinct.at(-1) ?? zero];
  const span = toDrawnMm(minus(last, first)) || 1;
  const places: number[] = [];
  let place = 0;
  for (const [index, end] of distinct.entries()) {
    const before = distinct[index - 1];
    if (before !== undefined) {
      const share = (toDrawnMm(minus(end, before)) / span) * Math.max(10, most * 0.6);
      place += Math.max(least - 1, Math.round(share));
    }
    places.push(place);
  }
  const at = (length: Length): number => places[distinct.findIndex((it) => compare(it, length) === 0)] ?? 0;
  return { size: place, at };
}

/** The dimension line below a view, for a sum in its level direction. */
function dimension(fault: Fault, way: Way, size: number, show: ShowBriefly, look: Look): Lines {
  const text = sumText(fault, show);
  if (text === undefined || wayOf(fault) !== way) return [];
  const [left, line, right] = look.ascii ? ['|', '-', '|'] : ['├', '─', '┤'];
  const room = size - 1 - widthOf(` ${text.comesTo} `);
  if (room < 2)
    return [`${left}${line.repeat(Math.max(0, size - 1))}${right}`, `${text.comesTo}; ${text.miss}`];
  const before = Math.floor(room / 2);
  return [
    `${left}${line.repeat(before)} ${text.comesTo} ${line.repeat(room - before)}${right}   ${text.miss}`,
  ];
}

/** What stands beside a view, for what is off upward. */
function dimensionBeside(fault: Fault, view: View, show: ShowBriefly): readonly string[] {
  if (view.up !== wayOf(fault)) return [];
  const text = sumText(fault, show);
  return text === undefined ? [] : [`${view.up}: ${text.comesTo}`, text.miss];
}

function sumText(
  fault: Fault,
  show: ShowBriefly,
): { readonly comesTo: string; readonly miss: string } | undefined {
  if (fault.kind === 'does not close') {
    const by = minus(fault.extent, fault.room);
    const isOver = compare(by, zero) > 0;
    const amount = show(isOver ? by : minus(zero, by));
    return {
      comesTo: show(fault.extent),
      miss: `${show(fault.room)} to fill: ${amount} ${isOver ? 'over' : 'short'}`,
    };
  }
  if (fault.kind === 'sticks out') {
    return { comesTo: clean(fault.part.name), miss: `${show(fault.by)} out at the ${fault.side}` };
  }
  if (fault.kind === 'overlaps') {
    return {
      comesTo: `${clean(fault.part.name)}, ${clean(fault.other.name)}`,
      miss: `${show(fault.shared[fault.way])} in one place`,
    };
  }
  return undefined;
}
