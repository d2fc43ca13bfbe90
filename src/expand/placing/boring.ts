import { compare, equal, minus, toFraction, zero } from '../../measure/index.ts';
import {
  type Bore,
  type ByWay,
  type DrawnSide,
  endOfSide,
  type Length,
  type Outline,
  type Side,
  type StandingFitting,
  type StandingPart,
} from '../../model/index.ts';
import {
  bodyOf,
  circle,
  middleThrough,
  rectangle,
  standsSquare,
  stretchIn,
  withCuts,
  withMarks,
} from '../../outline/index.ts';
import { otherHand } from '../hands.ts';
import type { WorkedPart } from '../parts.ts';
import { isQuarterTurned } from './stance.ts';

/** Pieces of one part whose holes are the same. */
export interface AlikeBored {
  readonly standings: readonly StandingPart[];
  /** In the frame of the part's drawing. */
  readonly holes: readonly Bore[];
}

/** As much of a part as tells how its drawing is seen. */
type PartBored = Pick<WorkedPart, 'name' | 'goodSide'>;

/** Sorts the pieces of a part by the holes that fittings need in them; those without come first. */
export function alikeBored(
  standings: readonly StandingPart[],
  fittings: readonly StandingFitting[],
  part: PartBored,
): readonly AlikeBored[] {
  if (fittings.length === 0) return [{ standings, holes: [] }];
  const groups = new Map<string, { standings: StandingPart[]; holes: readonly Bore[] }>([
    ['', { standings: [], holes: [] }],
  ]);
  for (const piece of standings) {
    const holes = holesIn(piece, fittings, part);
    const key = keyOf(holes);
    const known = groups.get(key);
    if (known === undefined) groups.set(key, { standings: [piece], holes });
    else known.standings.push(piece);
  }
  return [...groups.values()].filter(({ standings: some }) => some.length > 0);
}

/**
 * A part with the holes of some of its pieces: what goes right through is cut out of its outline, what doesn't is
 * marked on it.
 */
export function bored(part: WorkedPart, holes: readonly Bore[]): WorkedPart {
  if (holes.length === 0) return part;
  const isOnFace = holes.some(({ into }) => into.kind === 'face');
  const plain = part.drawn?.outline ?? (isOnFace ? rectangle(part.length, part.width).value : undefined);
  const drawn = {
    master: undefined,
    isMirrored: false,
    leave: undefined,
    roundedTo: undefined,
    ...part.drawn,
    outline: plain && withBlindMarks(withThrough(plain, holes), holes),
    bores: holes,
  };
  return { ...part, drawn };
}

/** One that would break out of the part is left out: whoever judges the build tells of it. */
function withThrough(plain: Outline, holes: readonly Bore[]): Outline {
  return holes.reduce((outline, { into, diameter, deep }) => {
    if (into.kind !== 'face' || deep !== undefined) return outline;
    const round = circle(diameter).value;
    if (round === undefined) return outline;
    const made = withCuts(outline, [
      { kind: 'hole', outline: round, place: { centre: into.at }, repeat: undefined },
    ]);
    return made.value ?? outline;
  }, plain);
}

function withBlindMarks(outline: Outline, holes: readonly Bore[]): Outline {
  const marks = holes.flatMap(({ into, deep, diameter }) =>
    into.kind === 'face' && deep !== undefined
      ? [{ kind: 'cross', at: into.at, bore: diameter } as const]
      : [],
  );
  return withMarks(outline, marks);
}

function holesIn(
  piece: StandingPart,
  fittings: readonly StandingFitting[],
  part: PartBored,
): readonly Bore[] {
  const found: Bore[] = [];
  for (const it of fittings) {
    if (stretchIn(it, piece.block) === undefined || !standsSquare(piece)) continue;
    const [stretch] = middleThrough(it, bodyOf(piece));
    if (stretch === undefined) continue;
    const { way, end } = endOfSide[it.side];
    const { fitting, diameter } = it;
    const deep = minus(stretch.high, stretch.low);
    if (way === piece.stance.thickness) {
      const at = { x: alongSize('length', it.middle, piece), y: alongSize('width', it.middle, piece) };
      const seen = asDrawn(at, piece, part);
      const isThrough = equal(deep, piece.size.thickness);
      // Right through it is the same hole from both sides.
      const face = isThrough ? 'good' : faceOf(piece, end, part);
      const into = { kind: 'face', face, at: seen } as const;
      found.push({ fitting, diameter, deep: isThrough ? undefined : deep, into });
      continue;
    }
    // What begins in the middle of a piece is bored once it is glued up.
    if (!equal(stretch[end], piece.block[end][way])) continue;
    found.push({ fitting, diameter, deep, into: edgeOf(it, piece, part) });
  }
  return found;
}

function alongSize(side: Side, at: ByWay<Length>, { stance, block }: StandingPart): Length {
  return minus(at[stance[side]], block.low[stance[side]]);
}

/** Where something of a piece lies in its part's drawing, which is seen from the good side if it has one. */
function asDrawn<T extends { readonly x: Length; readonly y: Length }>(
  { x, y }: T,
  piece: StandingPart,
  part: PartBored,
): { readonly x: Length; readonly y: Length } {
  const { length, width } = piece.size;
  const isAbout = piece.flip === 'length' || piece.flip === 'both';
  const isOver = piece.flip === 'width' || piece.flip === 'both';
  const isMirrored = isSeenFromBehind(piece, part) !== isAbout;
  return { x: isMirrored ? minus(length, x) : x, y: isOver ? minus(width, y) : y };
}

/** A piece with a good side that faces about shows it where the drawing of the others has its back. */
function isSeenFromBehind(piece: StandingPart, { name, goodSide }: PartBored): boolean {
  // The other hand is drawn from its own good side once all is worked out for both.
  if (piece.part === otherHand(name)) return false;
  return goodSide && piece.isTurnedOver !== isFlippedOver(piece);
}

/** Turned over with its drawing; a quarter turn swaps its top and bottom and turns nothing over. */
function isFlippedOver({ flip, stance }: StandingPart): boolean {
  return (flip === 'length' || flip === 'width') !== isQuarterTurned(stance);
}

/** Which face of the drawing a hole opens to that comes in from that end. */
function faceOf(piece: StandingPart, end: 'low' | 'high', part: PartBored): 'good' | 'other' {
  const { end: looks } = endOfSide[piece.facing];
  // Without a good side a drawing that only faces about stays where it is, seen from the side that then looks away.
  const isBehind = !part.goodSide && piece.isTurnedOver !== isFlippedOver(piece);
  return (end === looks) === isBehind ? 'other' : 'good';
}

function edgeOf(it: StandingFitting, piece: StandingPart, part: PartBored): Bore['into'] {
  const { way, end } = endOfSide[it.side];
  const { stance, block } = piece;
  // The edge that it goes into, which may lie behind another part.
  const opening = { ...it.middle, [way]: block[end][way] };
  const at = { x: alongSize('length', opening, piece), y: alongSize('width', opening, piece) };
  const seen = asDrawn(at, piece, part);
  const low = minus(it.middle[stance.thickness], block.low[stance.thickness]);
  const up = faceOf(piece, 'low', part) === 'good' ? minus(piece.size.thickness, low) : low;
  const isLengthwise = way === stance.length;
  const there = isLengthwise ? seen.x : seen.y;
  const isLow = compare(there, zero) === 0;
  const side: DrawnSide = isLengthwise ? (isLow ? 'left' : 'right') : isLow ? 'bottom' : 'top';
  return { kind: 'edge', side, along: isLengthwise ? seen.y : seen.x, up };
}

function keyOf(holes: readonly Bore[]): string {
  const texts = holes.map(({ fitting, diameter, deep, into }) => {
    const size = [fitting, toFraction(diameter), deep === undefined ? 'through' : toFraction(deep)];
    return into.kind === 'face'
      ? [...size, into.face, toFraction(into.at.x), toFraction(into.at.y)].join(' ')
      : [...size, into.side, toFraction(into.along), toFraction(into.up)].join(' ');
  });
  return texts.sort().join('\n');
}
