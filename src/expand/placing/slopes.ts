import {
  decimalPlaces,
  exactDecimal,
  finestInch,
  isPositive,
  minus,
  roundToStep,
  showLength,
  toInches,
} from '../../measure/index.ts';
import {
  atSpan,
  type Bevel,
  type ByWay,
  diagnose,
  type Enclosure,
  endOfSide,
  type FileUnits,
  type Inclined,
  type Length,
  type Outline,
  type Profile,
  type Stance,
  type StandingPart,
  type TileSide,
  type Way,
  ways,
} from '../../model/index.ts';
import { laid, type SlopedBoard, slopedBoard } from '../../outline/index.ts';
import type { WorkedPart } from '../parts.ts';
import { endsOf } from './cladding.ts';
import type { PartMember, Rooms, Sloping } from './rows.ts';
import type { Sizing } from './sizing.ts';

/** A piece that is less than its block, and what its part owes to that. */
export interface Body {
  readonly profile: Profile;
  readonly inclined: Inclined;
  /** Of what slopes and has plumb ends. */
  readonly bevelled?: { readonly high: 'low' | 'high'; readonly back: Length };
  /** How far above its lowest point its top begins. */
  readonly foot?: Length;
}

export interface Slanted {
  readonly length: Length;
  readonly width: Length;
  readonly extent: ByWay<Length>;
  readonly body: Body;
}

/**
 * Works out how large a sloping part is: as long as its slope asks, and in the tile as its run and its rise.
 *
 *        ╱╱│ rise and its own thickness
 *      ╱╱  ┴
 *      ├ run ┤
 *
 * @param other  the size that does not slope
 * @errors E48 a slope that can't be, E49 a size that follows and is stated, E77 a length that has to be rounded,
 *         E53 no room known
 */
export function slanted(
  member: PartMember,
  slope: Sloping,
  stance: Stance,
  other: (side: 'length' | 'width') => Length | undefined,
  rooms: Rooms,
  sizing: Pick<Sizing, 'report' | 'show' | 'showNear' | 'unitsAt'>,
): Slanted | undefined {
  const { report, show } = sizing;
  const { part } = member;
  const { way } = endOfSide[slope.to];
  const side = stance.length === way ? 'length' : 'width';
  const beside = other(side === 'length' ? 'width' : 'length');
  if (part[side] !== 'rest') {
    report(diagnose('E49', atSpan(member.at), { part: part.name, size: side, why: 'slope' }));
    return undefined;
  }
  const run = slope.run ?? rooms[way]?.size;
  if (run === undefined) {
    report(diagnose('E53', atSpan(member.at), { part: part.name, size: side, way }));
    return undefined;
  }
  const tell = (length: Length) => show(length, slope.at);
  const { rise } = slope;
  const isUpright = !isPositive(run);
  if (isUpright || !isPositive(rise)) {
    const why = isUpright ? 'no run' : 'no rise';
    report(diagnose('E48', atSpan(slope.at), { part: part.name, why, run: tell(run), rise: tell(rise) }));
    return undefined;
  }
  const board = slopedBoard({ run, rise, thickness: part.thickness, ends: slope.ends });
  if (!isPositive(minus(board.length.hi, part.thickness))) {
    const thickness = tell(part.thickness);
    const facts = { part: part.name, why: 'too short', run: tell(run), rise: tell(rise), thickness } as const;
    report(diagnose('E48', atSpan(slope.at), facts));
    return undefined;
  }
  const rounded = roundedOutward(member, side, board.length, sizing);
  if (rounded === undefined || beside === undefined) return undefined;
  const extent: Record<Way, Length> = { across: beside, along: beside, up: board.height };
  extent[way] = run;
  return {
    length: side === 'length' ? rounded.size : beside,
    width: side === 'width' ? rounded.size : beside,
    extent,
    body: bodyOf(slope, stance, { run, board, roundedTo: rounded.step }),
  };
}

/** How high it comes, where its run is stated. */
export function heightOf(thickness: Length, { run, rise, ends }: Sloping): Length | undefined {
  if (run === undefined || !isPositive(run) || !isPositive(rise)) return run && rise;
  return slopedBoard({ run, rise, thickness, ends }).height;
}

/**
 * A length that follows, rounded outward to the step that is asked for; as it is where it is exact and no step is.
 *
 * @returns `step` is undefined where nothing was rounded
 */
export function roundedOutward(
  { at, part, upTo }: PartMember,
  size: 'length' | 'width',
  { lo, hi }: Enclosure<Length>,
  { report, showNear: near, unitsAt }: Pick<Sizing, 'report' | 'showNear' | 'unitsAt'>,
): { readonly size: Length; readonly step: Length | undefined } | undefined {
  const isExact = !isPositive(minus(hi, lo));
  if (upTo === undefined) {
    if (isExact) return { size: hi, step: undefined };
    const found = near(hi, at);
    report(diagnose('E77', atSpan(at), { part: part.name, size, found, units: unitsAt(at) }));
    return undefined;
  }
  const rounded = roundToStep(hi, upTo.value, 'up');
  return { size: rounded, step: isExact && !isPositive(minus(rounded, hi)) ? undefined : upTo.value };
}

function bodyOf(
  { to, rise, ends, from, run: stated }: Sloping,
  stance: Stance,
  {
    run,
    board,
    roundedTo,
  }: { readonly run: Length; readonly board: SlopedBoard; readonly roundedTo: Length | undefined },
): Body {
  const { way, end } = endOfSide[to];
  const size = stance.length === way ? 'length' : 'width';
  const { length, plumb, gap, profile, foot } = board;
  return {
    profile: {
      along: ways.find((it) => it !== way && it !== 'up') ?? 'across',
      outline: end === 'high' ? profile : turnedAbout(profile, run),
    },
    inclined: {
      size,
      truly: length,
      roundedTo,
      how: { kind: 'slope', run, rise, isRunStated: stated !== undefined, from, plumb, ends, gap },
    },
    ...(ends === 'plumb' ? { bevelled: { high: end, back: board.back } } : {}),
    foot,
  };
}

function turnedAbout(outline: Outline, run: Length): Outline {
  return laid(outline, { move: ({ x, y }) => ({ x: minus(run, x), y }), swapsHands: true });
}

/**
 * How the ends of what slopes are bevelled in its part's drawing: at the low end its face below reaches furthest out,
 * at the high end that above.
 */
export function endBevels(
  { bevelled, inclined }: Body,
  member: PartMember,
  facing: TileSide,
): readonly Bevel[] {
  if (bevelled === undefined) return [];
  const { high, back } = bevelled;
  return endsOf(member, inclined.size).map((side, index): Bevel => {
    const isHighEnd = (index === 1) === (high === 'high');
    const isGoodLong = isHighEnd === (facing === 'top');
    return {
      side,
      longFace: isGoodLong ? 'good' : 'other',
      back: { lo: back, hi: back },
      thickness: member.part.thickness,
    };
  });
}

/** A part as it is cut: what it owes to how its pieces slope or bend goes with its drawing. */
export function asInclined(
  drawn: WorkedPart['drawn'],
  [first]: readonly StandingPart[],
): WorkedPart['drawn'] {
  if (first?.inclined === undefined) return drawn;
  const plain = {
    outline: undefined,
    master: undefined,
    isMirrored: false,
    leave: undefined,
    roundedTo: undefined,
  };
  return { ...plain, ...drawn, inclined: first.inclined };
}

/**
 * A length that follows, as one finds it on a rule: exact where a rule of 64ths or a short decimal has it, with the mark
 * beside it where that is another: `0.732 in, 47/64 in scant (-0.0024)`.
 */
export function showNear(length: Length, unit: FileUnits): string {
  const number = unit === 'in' ? toInches(length) : length;
  const onRule = showLength(length, { units: unit, firstUnit: unit, ruler: [finestInch] });
  const places = decimalPlaces(number);
  const isShort = onRule.isRounded && places !== undefined && places <= 4;
  return isShort ? `${exactDecimal(number)} ${unit}, ${onRule.text}` : onRule.text;
}
