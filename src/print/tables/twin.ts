import {
  bareExact,
  compare,
  isZero,
  larger,
  millimetres,
  minus,
  mixedText,
  opposite,
  rational,
  roundToStep,
  scaled,
  showExact,
  smaller,
  sum,
  toInches,
  zero,
} from '../../measure/index.ts';
import type { Batch, Build, ByWay, Length, ShownUnits, StandingPart, TileSide } from '../../model/index.ts';
import { type Look, signsOf } from '../columns/index.ts';
import { numbers, type PlainTable, type TableSheet, wordy } from './table.ts';

/** How a modeller wants places told. */
export interface TwinWishes {
  /** Where the tile's origin lies: a corner of its footprint, or the middle of it; on the table either way. */
  readonly origin: 'corner' | 'centre';
  readonly up: 'z' | 'y';
  readonly axes: 'right-handed' | 'left-handed';
  /** What is to be left free at each side for printing. */
  readonly clearance: Readonly<Record<TileSide, Length>>;
  readonly step: Length;
  readonly units: ShownUnits;
}

export interface Twin {
  readonly wishes: TwinWishes;
  readonly tiles: readonly TwinTile[];
}

export interface TwinTile {
  readonly tile: string;
  /** The box of all its parts. */
  readonly envelope: AxisBox;
  /** As much of the envelope as may be printed. */
  readonly printable: AxisBox;
  readonly pieces: readonly TwinPiece[];
  /** Glued on by eye: they have no place. */
  readonly loose: readonly {
    readonly part: string;
    readonly count: number;
    readonly size: readonly Length[];
  }[];
}

export interface TwinPiece {
  readonly name: string;
  readonly material: string;
  readonly exact: AxisBox;
  /** Each face to the nearest step: what touches exactly still touches. */
  readonly rounded: AxisBox;
  readonly facing: TileSide;
  readonly hand: 'as drawn' | 'turned over';
  /** True where it fills less than its box. */
  readonly isShaped: boolean;
}

/** x, y and z of two corners. */
export interface AxisBox {
  readonly low: readonly [Length, Length, Length];
  readonly high: readonly [Length, Length, Length];
}

/**
 * The parts of every tile as a modeller places them.
 *
 *        z up, right-handed      z up, left-handed      y up, right-handed     y up, left-handed
 *   x    to the right            to the right           to the right           to the right
 *   y    to the back             to the front           up                     up
 *   z    up                      up                     to the front           to the back
 */
export function twinOf(batch: Batch, wishes: TwinWishes): Twin {
  return { wishes, tiles: batch.builds.map((build) => twinTile(build, batch, wishes)) };
}

function twinTile(build: Build, batch: Batch, wishes: TwinWishes): TwinTile {
  const blocks = build.parts.map(({ block }) => block);
  const [first] = blocks;
  const around = (pick: (way: 'across' | 'along' | 'up') => Length): ByWay<Length> => ({
    across: pick('across'),
    along: pick('along'),
    up: pick('up'),
  });
  const low = around((way) => blocks.map((it) => it.low[way]).reduce(smaller, first?.low[way] ?? zero));
  const high = around((way) => blocks.map((it) => it.high[way]).reduce(larger, first?.high[way] ?? zero));
  const { left, right, front, back, bottom, top } = wishes.clearance;
  const inside = {
    low: { across: sum(low.across, left), along: sum(low.along, front), up: sum(low.up, bottom) },
    high: { across: minus(high.across, right), along: minus(high.along, back), up: minus(high.up, top) },
  };
  const placed = (block: { readonly low: ByWay<Length>; readonly high: ByWay<Length> }) =>
    onAxes(block, build, wishes);
  const standing = new Set(build.parts.map(({ part }) => part));
  return {
    tile: build.tile,
    envelope: placed({ low, high }),
    printable: placed(inside),
    pieces: build.parts.map((part) => twinPiece(part, placed(part.block), wishes.step)),
    loose: looseParts(build.tile, standing, batch),
  };
}

function twinPiece(part: StandingPart, exact: AxisBox, step: Length): TwinPiece {
  const round = ([x, y, z]: AxisBox['low']): AxisBox['low'] => [near(x, step), near(y, step), near(z, step)];
  return {
    name: part.name,
    material: part.material,
    exact,
    rounded: { low: round(exact.low), high: round(exact.high) },
    facing: part.facing,
    hand: part.isTurnedOver ? 'turned over' : 'as drawn',
    isShaped: part.outline !== undefined,
  };
}

function near(length: Length, step: Length): Length {
  return roundToStep(length, step, 'half up');
}

function onAxes(
  { low, high }: { readonly low: ByWay<Length>; readonly high: ByWay<Length> },
  { footprint }: Build,
  { origin, up, axes }: TwinWishes,
): AxisBox {
  const half = rational(1n, 2n);
  const from = (way: 'across' | 'along') => (origin === 'centre' ? scaled(footprint[way], half) : zero);
  const across = [minus(low.across, from('across')), minus(high.across, from('across'))] as const;
  const isBackwards = (up === 'z') === (axes === 'left-handed');
  const back = [minus(low.along, from('along')), minus(high.along, from('along'))] as const;
  // Counted from the back: what is farthest comes first.
  const depth = origin === 'centre' ? zero : footprint.along;
  const front = [sum(depth, opposite(back[1])), sum(depth, opposite(back[0]))] as const;
  const along = isBackwards ? front : back;
  const high2 = [low.up, high.up] as const;
  const [second, third] = up === 'z' ? [along, high2] : [high2, along];
  return { low: [across[0], second[0], third[0]], high: [across[1], second[1], third[1]] };
}

function looseParts(tile: string, standing: ReadonlySet<string>, batch: Batch): TwinTile['loose'] {
  return batch.materials.flatMap(({ material, parts }) =>
    parts.flatMap(({ length, width, members }) =>
      members
        .filter((it) => it.tile === tile && !standing.has(it.part))
        .map(({ part, each, drawn }) => ({
          part,
          count: each,
          size: [drawn?.net.length ?? length, drawn?.net.width ?? width, material.thickness],
        })),
    ),
  );
}

/** The twin as words and tables. */
export function twinSheet({ wishes, tiles }: Twin, title: string, look: Look): TableSheet {
  return {
    title,
    heading: 'for the modeller',
    notes: notesOf(wishes),
    tables: tiles.map((tile) => tileTable(tile, wishes, look)),
  };
}

function notesOf({ origin, up, axes, clearance, step, units }: TwinWishes): readonly string[] {
  const isBackwards = (up === 'z') === (axes === 'left-handed');
  const way = isBackwards ? 'to the front' : 'to the back';
  const corner = isBackwards ? 'left back bottom corner' : 'left front bottom corner';
  const where =
    origin === 'corner' ? `the ${corner} of its footprint` : 'the middle of its footprint, on the table';
  const axesText = up === 'z' ? `x to the right, y ${way}, z up` : `x to the right, y up, z ${way}`;
  const free = (Object.entries(clearance) as readonly [TileSide, Length][]) // its keys are typed as these
    .filter(([, it]) => !isZero(it))
    .map(([side, it]) => `${side} ${showExact(it, 'mm')}`);
  return [
    `All in millimetres${units === 'mm' ? '' : ', with inches in square brackets where they are short'}. Origin of each tile: ${where}. Axes, ${axes}: ${axesText}.`,
    `Rounded: each face to the nearest ${showExact(step, 'mm')}, half up, so that what touches still touches.`,
    `Clearance for printing, taken off the envelope: ${free.length === 0 ? 'none' : free.join(', ')}.`,
    'Good: the side of the tile that the good side looks to. Turned over: its other side looks where the good one would; a part with two hands is named as the other hand.',
  ];
}

function tileTable(
  { tile, envelope, printable, pieces, loose }: TwinTile,
  { units }: TwinWishes,
  look: Look,
): PlainTable {
  const { times } = signsOf(look);
  const between = ` ${times} `;
  const sizes = (box: AxisBox, as: ShownUnits): readonly string[] =>
    box.low.map((it, at) => shown(minus(box.high[at] ?? zero, it), as));
  const size = (box: AxisBox): string => sizes(box, units).join(between);
  const at = (box: AxisBox): string => box.low.map((it) => shown(it, 'mm')).join(', ');
  const free = printable.low.every((it, index) => compare(it, printable.high[index] ?? zero) < 0);
  return {
    title: tile,
    notes: [
      `envelope ${size(envelope)}, from ${at(envelope)}; ${free ? `print within ${size(printable)}, from ${at(printable)}` : 'the clearance leaves nothing to print'}`,
      ...loose.map(
        ({ part, count, size: own }) =>
          `by eye: ${count} of ${part}, ${own.map((it) => shown(it, units)).join(between)}`,
      ),
    ],
    columns: [
      wordy('part'),
      numbers(`${['x', 'y', 'z'].join(times)}, exact`),
      numbers('rounded'),
      numbers('at x, y, z'),
      wordy('good'),
    ],
    rows: pieces.map((it) => [
      it.isShaped ? `${it.name} (shaped)` : it.name,
      held(sizes(it.exact, units).join(times)),
      held(sizes(it.rounded, 'mm').join(between)),
      held(at(it.exact)),
      it.hand === 'as drawn' ? it.facing : `${it.facing}, ${it.hand}`,
    ]),
  };
}

function held(text: string): string {
  return text.replaceAll(' ', '\u00a0');
}

/** An exact decimal, or a fraction; in inches as well where both are wanted and the inches are short. */
function shown(length: Length, units: ShownUnits): string {
  const inch = toInches(length);
  const isShort = units !== 'mm' && 64n % inch.denominator === 0n;
  return isShort ? `${bareExact(length, 'mm')} [${mixedText(inch)}]` : bareExact(length, 'mm');
}

/** Source: common practice, no source: what printed parts that stand side by side are kept apart by. */
export const usualClearance: Length = millimetres(rational(1n, 10n));
