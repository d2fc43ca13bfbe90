import {
  compare,
  equal,
  inches,
  larger,
  millimetres,
  minus,
  rational,
  smaller,
  sum,
  whole,
} from '../measure/index.ts';
import type {
  Box,
  CountedLabel,
  CutLine,
  Given,
  Length,
  NonEmpty,
  PartMember,
  Run,
  Step,
  Strip,
} from '../model/index.ts';
import { sizeAcross } from './parting.ts';
import { type CutPiece, farSide, type LeftOverPiece, type PartPiece, type Piece, start } from './pieces.ts';

export interface SheetSteps {
  /** All after squaring up, numbered from 2. */
  readonly steps: readonly Step[];
  /** Parts and leftovers in the order of the tree, each with the steps that free it. */
  readonly freedBy: readonly (readonly [PartPiece | LeftOverPiece, readonly number[]])[];
  readonly strips: readonly Strip[];
}

/** Pieces in hand that are equal in size and cut alike: one step does them all. */
interface Alike {
  readonly name: string;
  readonly pieces: NonEmpty<CutPiece>;
}

/**
 * The order of the hands: round by round, as the trade works. First the whole sheet is cut one way, then all
 * its strips the other way, then what these gave.
 *
 *   round 1  sheet ── rip ──▶ strip A · strip A · strip B · left over
 *   round 2  strip A ── crosscut ──▶ …     (both of them at one setting)
 *            strip B ── crosscut ──▶ …
 */
export function stepsOf(
  root: Piece,
  members: readonly PartMember[],
  keepOf: (box: Box) => string | undefined,
  leastStrip: Length,
): SheetSteps {
  const steps: Step[] = [];
  const strips: Strip[] = [];
  const names = new Map<Piece, string>();
  const freeing = new Map<Piece, readonly number[]>();
  const nameOf = (piece: Piece): Given['name'] => {
    if (piece.kind === 'part') return members[piece.place]?.label ?? '';
    if (piece.kind === 'left over') return keepOf(piece.box) ?? 'scrap';
    return names.get(piece) ?? '';
  };
  const next = () => steps.length + 2;
  const labelFirst = (groups: readonly (readonly Piece[])[]) => {
    const [first, ...more] = countLabels(groups, nameOf);
    if (first !== undefined) steps.push({ kind: 'label', number: next(), labels: [first, ...more] });
  };

  if (root.kind === 'part') labelFirst([[root]]);
  let round: readonly Alike[] = root.kind === 'cut' ? [{ name: 'sheet', pieces: [root] }] : [];
  while (round.length > 0) {
    const groups = round.flatMap((alike) => alike.pieces.map((piece) => piece.into));
    const given = groups.flat();
    const following = nameStrips(given, new Set(names.values()).size);
    for (const { name, pieces } of following) {
      for (const piece of pieces) {
        names.set(piece, name);
        strips.push({ name, box: piece.box });
      }
    }
    labelFirst(groups);
    for (const alike of round) {
      const number = next();
      steps.push(cutStep(alike, number, { nameOf, isKept: (box) => keepOf(box) !== undefined, leastStrip }));
      for (const piece of alike.pieces) {
        for (const child of piece.into) freeing.set(child, [...(freeing.get(piece) ?? []), number]);
      }
    }
    round = following;
  }
  return { steps, strips, freedBy: leavesOf(root).map((leaf) => [leaf, freeing.get(leaf) ?? []]) };
}

function nameStrips(given: readonly Piece[], namesBefore: number): readonly Alike[] {
  const alike = new Map<string, [CutPiece, ...CutPiece[]]>();
  for (const piece of given) {
    if (piece.kind !== 'cut') continue;
    const sofar = alike.get(piece.likeness);
    if (sofar === undefined) alike.set(piece.likeness, [piece]);
    else sofar.push(piece);
  }
  return [...alike.values()].map((pieces, i) => ({ name: `strip ${letters(namesBefore + i)}`, pieces }));
}

/** A … Z, AA, AB, … */
function letters(index: number): string {
  const last = String.fromCharCode(65 + (index % 26));
  return index < 26 ? last : letters(Math.floor(index / 26) - 1) + last;
}

/**
 * What comes off narrower than this is a sliver that nobody lays a rule on or picks up: it has no two marks of the rule to
 * lie between, or stands on its edge rather than lies, as it is narrower than it is thick; of thick stuff anything of a
 * width that a blade can still guide is a strip.
 *
 * @source common practice, no source
 */
export function leastStripOf(thickness: Length, graduation: Length): Length {
  return larger(graduation, smaller(thickness, widestSliver));
}

const widestSliver = millimetres(whole(2));

/** A narrower side leaves no room to write. Source: common practice, no source. */
const leastWritten = inches(rational(3n, 4n));
/** Fewer are as quickly labelled as kept together. Source: common practice, no source. */
const fewestKeptTogether = 4;

/** @param groups  what each piece in hand is parted into */
function countLabels(
  groups: readonly (readonly Piece[])[],
  nameOf: (piece: Piece) => string,
): readonly CountedLabel[] {
  const found = new Map<string, { count: number; isSmall: boolean; isAlone: boolean }>();
  for (const group of groups) {
    const parts = group.filter(({ kind }) => kind === 'part');
    const isAlone = new Set(parts.map(nameOf)).size === 1;
    for (const part of parts) {
      const before = found.get(nameOf(part));
      found.set(nameOf(part), {
        count: (before?.count ?? 0) + 1,
        isSmall: compare(smaller(part.box.length, part.box.width), leastWritten) < 0,
        isAlone: isAlone && (before?.isAlone ?? true),
      });
    }
  }
  return [...found].map(([label, { count, isSmall, isAlone }]) => {
    const isRun = isAlone && count >= fewestKeptTogether;
    return { label, count, on: isSmall || isRun ? 'slip' : 'each' };
  });
}

interface Naming {
  readonly nameOf: (piece: Piece) => string;
  readonly isKept: (box: Box) => boolean;
  /** What is narrower does not come off as a strip. */
  readonly leastStrip: Length;
}

function cutStep({ name, pieces }: Alike, number: number, naming: Naming): Step {
  const [first] = pieces;
  const { direction, marks, box } = first;
  const lastPiece = first.into[first.into.length - 1]!;
  const reachesEdge = equal(farSide(lastPiece.box, direction), farSide(box, direction));
  const remains =
    reachesEdge && marks.length < first.into.length ? sizeAcross(lastPiece.box, direction) : undefined;
  const runs = runsOf(pieces, naming);
  const last = runs[runs.length - 1]!;
  const isScrap = last.cuts === 0 && last.gives.every(({ what }) => what === 'scrap');
  const isThin = remains !== undefined && compare(remains, naming.leastStrip) < 0;
  return {
    kind: direction,
    number,
    piece: { name, box, count: pieces.length },
    marks,
    runs,
    remains,
    ...(isThin && isScrap ? { isTrimmed: true as const } : {}),
    lines: pieces.flatMap((piece) => piece.marks.map((mark) => lineAt(piece, mark))),
  };
}

function runsOf(pieces: NonEmpty<CutPiece>, naming: Naming): NonEmpty<Run> {
  const [{ direction, into, box }] = pieces;
  const sizeAt = (i: number) => sizeAcross(into[i]!.box, direction);
  const runs: Run[] = [];
  for (let from = 0, to = 0; from < into.length; from = to) {
    while (to < into.length && equal(sizeAt(to), sizeAt(from))) to++;
    if (endsInRest(into.slice(from, to), farSide(box, direction), direction)) to--;
    const farEnd = farSide(into[to - 1]!.box, direction);
    const isAtEdge = equal(farEnd, farSide(box, direction));
    runs.push({
      size: sizeAt(from),
      count: to - from,
      cuts: to - from - (isAtEdge ? 1 : 0),
      endsAt: minus(farEnd, start(box, direction)),
      gives: givenBy(
        pieces.flatMap((piece) => piece.into.slice(from, to)),
        naming,
      ),
    });
  }
  return runs as [Run, ...Run[]]; // a cut gives at least one piece
}

/** True where the last of equal pieces is no more than what the cuts leave over: a run of its own. */
function endsInRest(equals: readonly Piece[], end: Length, direction: CutPiece['direction']): boolean {
  const [before, last] = equals.slice(-2);
  if (last === undefined || before === undefined || before.kind === 'left over') return false;
  return last.kind === 'left over' && equal(farSide(last.box, direction), end);
}

function givenBy(pieces: readonly Piece[], { nameOf, isKept }: Naming): NonEmpty<Given> {
  const given = new Map<string, Given>();
  for (const piece of pieces) {
    const what = whatIs(piece, isKept);
    const name = nameOf(piece);
    const key = `${what} ${name}`;
    given.set(key, { what, name, count: (given.get(key)?.count ?? 0) + 1 });
  }
  return [...given.values()] as [Given, ...Given[]]; // runs are never empty
}

function whatIs(piece: Piece, isKept: (box: Box) => boolean): Given['what'] {
  if (piece.kind === 'part') return 'part';
  if (piece.kind === 'cut') return 'strip';
  return isKept(piece.box) ? 'keep' : 'scrap';
}

function lineAt({ box, direction }: CutPiece, mark: Length): CutLine {
  return direction === 'rip'
    ? {
        from: { left: box.left, bottom: sum(box.bottom, mark) },
        to: { left: sum(box.left, box.length), bottom: sum(box.bottom, mark) },
      }
    : {
        from: { left: sum(box.left, mark), bottom: box.bottom },
        to: { left: sum(box.left, mark), bottom: sum(box.bottom, box.width) },
      };
}

function leavesOf(piece: Piece): readonly (PartPiece | LeftOverPiece)[] {
  return piece.kind === 'cut' ? piece.into.flatMap(leavesOf) : [piece];
}
