import { compare, minus, rational, scaled, sum, zero } from '../../measure/index.ts';
import {
  atSpan,
  type Block,
  type Build,
  type ByWay,
  diagnose,
  didYouMean,
  endOfSide,
  type FaceSpec,
  type FittingSpec,
  type Length,
  type LetInSpec,
  type Pole,
  type StandingFitting,
  type StandingMember,
  seenFromOutside,
} from '../../model/index.ts';
import { lengthOf, numberOf } from '../evaluate.ts';
import { fittingCalled } from '../fittings.ts';
import type { TileView } from '../like.ts';
import type { Definition } from '../sight.ts';
import { fileScope, type Workings } from '../workings.ts';
import type { Standing } from './standing.ts';

/**
 * Finds the place of every fitting that a tile lets in.
 *
 * @returns  those that could be placed; what could not be is told
 * @errors E86 no such fitting, E95 its size is not known, E96 nothing called so, E97 poles that do not agree, E98 no
 *         places for so many
 */
export function lettingIn(
  tile: TileView,
  standing: Standing,
  footprint: Build['footprint'],
  workings: Workings,
): readonly StandingFitting[] {
  if (tile.fittings.size === 0) return [];
  const blocks = blocksByName(standing, footprint);
  return [...tile.fittings.values()].flatMap(({ name, at, value }) => {
    const fitting = fittingCalled(name, at, workings);
    return fitting === undefined ? [] : value.flatMap((it) => letIn(it, fitting, blocks, { tile, workings }));
  });
}

interface Around {
  readonly tile: TileView;
  readonly workings: Workings;
}

function letIn(
  spec: LetInSpec,
  fitting: Definition<FittingSpec>,
  blocks: ReadonlyMap<string, Block>,
  { tile, workings }: Around,
): readonly StandingFitting[] {
  const hole = holeFor(spec, fitting, { tile, workings });
  const faces = spec.into.map((face) => blockOf(face, blocks, workings));
  if (hole === undefined) return [];
  return spec.into.flatMap((face, index): readonly StandingFitting[] => {
    const block = faces[index];
    const places = block && placesOn(spec, face, block, { tile, workings });
    if (places === undefined) return [];
    const poles = polesFor(spec, fitting, places.length, workings);
    return places.map(
      (middle, i): StandingFitting => ({
        fitting: fitting.name,
        at: spec.at,
        side: face.side,
        middle,
        ...hole,
        pole: poles[i],
      }),
    );
  });
}

function holeFor(
  { at, deep }: LetInSpec,
  { name, value }: Definition<FittingSpec>,
  { tile, workings }: Around,
): Pick<StandingFitting, 'diameter' | 'deep' | 'leastWall'> | undefined {
  const lacks = value.diameter === undefined ? 'diameter' : 'depth';
  const depth = deep ?? value.depth;
  if (value.diameter === undefined || depth === undefined) {
    workings.faults.report(diagnose('E95', atSpan(at), { fitting: name, lacks }));
    return undefined;
  }
  const diameter = lengthOf(value.diameter, 'above zero', fileScope, workings);
  const play = value.clearance === undefined ? zero : lengthOf(value.clearance, 'zero', fileScope, workings);
  const wall = value.leastWall === undefined ? zero : lengthOf(value.leastWall, 'zero', fileScope, workings);
  const goesIn = lengthOf(depth, 'above zero', deep === undefined ? fileScope : { tile }, workings);
  if (diameter === undefined || play === undefined || wall === undefined || goesIn === undefined)
    return undefined;
  return { diameter: sum(diameter, play), deep: goesIn, leastWall: wall };
}

function blockOf(
  { of }: FaceSpec,
  blocks: ReadonlyMap<string, Block>,
  { faults }: Workings,
): Block | undefined {
  const block = blocks.get(of.value);
  if (block !== undefined) return block;
  const known = [...blocks.keys()];
  faults.report(
    diagnose('E96', atSpan(of.at), { name: of.value, meant: didYouMean(of.value, known), known }),
  );
  return undefined;
}

function polesFor(
  { at, poles }: LetInSpec,
  { name, value }: Definition<FittingSpec>,
  count: number,
  { faults }: Workings,
): readonly (Pole | undefined)[] {
  const hasPoles = value.poles?.value ?? false;
  const report = (of: number | undefined): void => {
    const place = atSpan(poles[0]?.at ?? at);
    faults.report(diagnose('E97', place, { fitting: name, poles: poles.length, count: of }));
  };
  if (!hasPoles) {
    if (poles.length > 0) report(undefined);
    return [];
  }
  if (poles.length !== 1 && poles.length !== count) {
    report(count);
    return [];
  }
  return Array.from({ length: count }, (_, i) => (poles[i] ?? poles[0])?.value);
}

function placesOn(
  { place }: LetInSpec,
  { side }: FaceSpec,
  block: Block,
  { tile, workings }: Around,
): readonly ByWay<Length>[] | undefined {
  const { right, from, up } = seenFromOutside[side];
  const { way, end } = endOfSide[side];
  const [wide, high] = [right, up].map((it) => minus(block.high[it], block.low[it])) as [Length, Length]; // two of two
  const points =
    place.kind === 'points'
      ? pointsOf(place, { tile, workings })
      : atInset(place, wide, high, { tile, workings });
  return points?.map(({ x, y }) => {
    const there = { ...block[end] };
    there[way] = block[end][way];
    there[right] = from === 'low' ? sum(block.low[right], x) : minus(block.high[right], x);
    there[up] = sum(block.low[up], y);
    return there;
  });
}

interface At {
  readonly x: Length;
  readonly y: Length;
}

function pointsOf(
  { points }: Extract<LetInSpec['place'], { kind: 'points' }>,
  { tile, workings }: Around,
): readonly At[] | undefined {
  const worked = points.flatMap(({ x, y }): readonly At[] => {
    const [along, up] = [x, y].map((it) => lengthOf(it, 'any', { tile }, workings));
    return along === undefined || up === undefined ? [] : [{ x: along, y: up }];
  });
  return worked.length === points.length ? worked : undefined;
}

/** Four in the corners, or two at the ends of the middle line of the longer way. */
function atInset(
  { inset, count }: Extract<LetInSpec['place'], { kind: 'inset' }>,
  wide: Length,
  high: Length,
  { tile, workings }: Around,
): readonly At[] | undefined {
  const off = lengthOf(inset, 'zero', { tile }, workings);
  const asked = count === undefined ? undefined : numberOf(count, { tile }, workings);
  if (off === undefined || (count !== undefined && asked === undefined)) return undefined;
  const many = asked === undefined ? 4 : asked.denominator === 1n ? Number(asked.numerator) : undefined;
  const [x, y] = [
    [off, minus(wide, off)],
    [off, minus(high, off)],
  ] as [[Length, Length], [Length, Length]];
  if (many === 4) return [x[0], x[1]].flatMap((it) => [y[0], y[1]].map((up) => ({ x: it, y: up })));
  if (many === 2) {
    const isWide = compare(wide, high) >= 0;
    return isWide ? x.map((it) => ({ x: it, y: halfOf(high) })) : y.map((it) => ({ x: halfOf(wide), y: it }));
  }
  const found = asked === undefined ? 0 : Number(asked.numerator) / Number(asked.denominator);
  workings.faults.report(diagnose('E98', atSpan(count?.at ?? inset.at), { count: found }));
  return undefined;
}

function halfOf(length: Length): Length {
  return scaled(length, rational(1n, 2n));
}

function blocksByName({ row, added }: Standing, footprint: Build['footprint']): ReadonlyMap<string, Block> {
  const tile: Block = {
    low: { across: zero, along: zero, up: zero },
    high: { ...footprint, up: row.block.high.up },
  };
  const blocks = new Map<string, Block>([['tile', tile]]);
  const learn = (member: StandingMember): void => {
    if (member.kind === 'gap') return;
    if (member.name !== undefined && !blocks.has(member.name)) blocks.set(member.name, member.block);
    if (member.kind === 'row') for (const it of member.members) learn(it);
  };
  for (const member of [row, ...added]) learn(member);
  return blocks;
}
