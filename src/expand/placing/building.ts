import { compare, inches, millimetres, rational, showExact, zero } from '../../measure/index.ts';
import {
  atSpan,
  type Build,
  diagnose,
  didYouMean,
  type Edge,
  type EdgeSpec,
  type FileUnits,
  type FrameSpec,
  type GridSpec,
  type Length,
  type LevelSide,
  type Placed,
  type Rack,
  type RowSpec,
  type Side,
  type Span,
  type StandingFitting,
  type StandingPart,
} from '../../model/index.ts';
import { lengthOf, wholeOf } from '../evaluate.ts';
import { otherHand } from '../hands.ts';
import type { TileView } from '../like.ts';
import { theOne } from '../meaning.ts';
import { leastBendOf, thicknessOfMaterial } from '../names.ts';
import { closedParts, hasTwoHands, isRest, type OpenPart, type WorkedPart } from '../parts.ts';
import { otherHandOf } from '../shapes.ts';
import { cladToStand, stripsAsTheyStand } from '../strips.ts';
import { fileScope, type Workings } from '../workings.ts';
import { alikeBored, bored } from './boring.ts';
import { drawnToStand } from './cheeks.ts';
import { asEdged, checkEdges, hasEdges } from './edgesCut.ts';
import { drawnAsStrip } from './foldedRound.ts';
import { lettingIn } from './lettingIn.ts';
import { notAlike } from './notAlike.ts';
import type { Member, PartToStand, Row } from './rows.ts';
import type { Sizing } from './sizing.ts';
import { asInclined, showNear } from './slopes.ts';
import { uprightSide } from './stance.ts';
import { type Standing, stand } from './standing.ts';
import { type RowWorkings, unknownPart, workedAdded, workedBody } from './working.ts';

/** What a build makes of a tile's parts: how it stands, and what is cut for it. */
export interface Built {
  readonly build: Build | undefined;
  readonly parts: readonly WorkedPart[];
}

/**
 * Builds a tile: works its rows out, stands its parts up, and counts them.
 *
 * @param ground  across and along; undefined where the tile has none, which is told unless it has been
 * @param find    a part of the tile by its name, or a shared one; undefined where there is none
 */
export function built(
  tile: TileView,
  ground: Build['footprint'] | undefined,
  own: readonly OpenPart[],
  find: (name: Placed<string>) => OpenPart | 'faulty' | undefined,
  known: readonly string[],
  workings: Workings,
): Built {
  const { build: outer, added = [] } = tile;
  if (outer === undefined) return { build: undefined, parts: [] };
  const used = new Map<string, OpenPart>();
  const grid = gridOf(tile, workings);
  const it: RowWorkings = {
    tile,
    workings,
    glueLine: grid.glueLine,
    part: (name) => {
      const part = find(name);
      if (part === undefined) unknownPart(name, known, workings);
      if (part === undefined || part === 'faulty') return undefined;
      used.set(part.name, part);
      return toStand(part, known, workings);
    },
  };
  const row = outermost(outer, it);
  const beside = added.map((member) => workedAdded(member, it));
  if (ground === undefined && tile.footprint === 'none') {
    workings.faults.report(diagnose('E63', atSpan(outer.at), { tile: tile.name }));
  }
  const wholeBeside = beside.filter((member) => member !== undefined);
  if (row === undefined || ground === undefined || wholeBeside.length < beside.length) {
    return { build: undefined, parts: [] };
  }
  const pieces = [row, ...wholeBeside.map(({ member }) => member)].reduce((all, it) => all + piecesIn(it), 0);
  if (pieces > mostPieces) {
    const [part = '', count = 0] = mostRepeated([row, ...wholeBeside.map(({ member }) => member)]);
    const facts = { tile: tile.name, most: mostPieces, pieces, part, count };
    workings.faults.report(diagnose('E71', atSpan(outer.at), facts));
    return { build: undefined, parts: [] };
  }
  const height = heightOf(tile, workings);
  const unitsAt = (at: Span): FileUnits => workings.sights.fileOf(at).units ?? 'mm';
  const sizing: Sizing = {
    glueLine: grid.glueLine,
    report: (fault) => workings.faults.report(fault),
    show: (length, at) => showExact(length, unitsAt(at)),
    showNear: (length, at) => showNear(length, unitsAt(at)),
    unitsAt,
  };
  const standing = stand(
    {
      tile: tile.name,
      footprint: ground,
      height: height?.value,
      heightAt: height?.at,
      glueLine: grid.glueLine,
      row,
      added: wholeBeside,
    },
    sizing,
  );
  if (standing === undefined) return { build: undefined, parts: [] };
  const fittings = lettingIn(tile, standing, ground, workings);
  const parts = partsOf(standing, { tile: tile.name, own, used, fittings }, known, sizing, workings);
  const squares = squaresOf(tile, workings);
  const lets = [...new Map([...own.map((part) => [part.name, part] as const), ...used]).values()].flatMap(
    (part) => part.lets,
  );
  const build: Build = {
    tile: tile.name,
    at: outer.at,
    footprint: ground,
    squares,
    height,
    ...grid,
    beyond: beyondOf(tile, workings),
    ...standing,
    edges: edgesOf(tile, squares, workings),
    rack: rackOf(tile, workings),
    ...(fittings.length === 0 ? {} : { fittings }),
    glueOrder: glueOrderOf(tile, standing, workings),
    ...(lets.length === 0 ? {} : { lets }),
  };
  return { build, parts };
}

/** Far more than a tile has, and as many as are stood up without a wait. */
const mostPieces = 10_000;

/** How many pieces a member comes to, repeats within repeats counted out. */
function piecesIn(member: Member): number {
  if (member.kind === 'gap') return 0;
  const each = member.kind === 'part' ? 1 : member.members.reduce((all, it) => all + piecesIn(it), 0);
  return each * member.own.times;
}

/** The part that stands most often, and how often. */
function mostRepeated(members: readonly Member[]): readonly [string, number] | [] {
  const counts = new Map<string, number>();
  const count = (member: Member, times: number): void => {
    if (member.kind === 'gap') return;
    const all = times * member.own.times;
    if (member.kind === 'row') for (const it of member.members) count(it, all);
    else counts.set(member.part.name, (counts.get(member.part.name) ?? 0) + all);
  };
  for (const it of members) count(it, 1);
  return [...counts].sort(([, a], [, b]) => b - a)[0] ?? [];
}

function outermost(spec: RowSpec | FrameSpec, it: RowWorkings): Row | undefined {
  const body = workedBody(spec, undefined, it);
  return body?.kind === 'row' ? body : undefined;
}

function toStand(part: OpenPart, known: readonly string[], workings: Workings): PartToStand | undefined {
  const thickness = thicknessOfMaterial(part.material, workings);
  const clad = cladToStand(part, known, workings);
  if (thickness === undefined || clad === 'faulty') return undefined;
  const { name, at, material, length, width, grain, flutes, lies, isFloor, isHanded, accepted, drawn } = part;
  const { drawnLater, goodSide, body } = part;
  return {
    goodSide,
    name,
    at,
    material: material.name,
    thickness: body === undefined ? thickness : (body.laps?.thickness ?? body.height),
    length: body?.length ?? (isRest(length) ? 'rest' : length),
    width: body?.tray?.width ?? (isRest(width) ? 'rest' : width),
    lies,
    hasGrain: material.value.grain?.value ?? false,
    hasFlutes: material.value.flutes?.value ?? false,
    grain: grain?.value ?? 'any',
    flutes: flutes?.value ?? 'any',
    unsaid: [
      ...(grain === undefined ? ['grain' as const] : []),
      ...(flutes === undefined ? ['flutes' as const] : []),
    ],
    leastBend: leastBendOf(part.material, workings),
    isFloor,
    isHanded,
    // Once it is folded, its blank is of no matter.
    outline: body === undefined ? drawn?.outline : undefined,
    master: drawn?.master,
    drawnLater:
      drawnLater &&
      ((net) => {
        const outline = drawnLater(net)?.outline;
        const shown = body === undefined ? outline : undefined;
        return { outline: shown, isHanded: hasTwoHands(outline, goodSide) };
      }),
    accepted,
    clad,
    ...(body === undefined
      ? {}
      : {
          folded: body,
          blank: (net) => (drawnLater?.({ length: net, width: net }) ?? drawn)?.outline,
        }),
    clads: undefined,
  };
}

interface Stood {
  readonly tile: string;
  readonly own: readonly OpenPart[];
  readonly used: ReadonlyMap<string, OpenPart>;
  readonly fittings: readonly StandingFitting[];
}

/** The parts as they are cut: their rests and what is upright by how they stand, their counts by how many do. */
function partsOf(
  standing: Standing,
  { tile, own, used, fittings }: Stood,
  known: readonly string[],
  sizing: Sizing,
  workings: Workings,
): readonly WorkedPart[] {
  const pieces = new Map<string, StandingPart[]>();
  for (const piece of standing.parts) {
    if (piece.isWall === true) continue;
    const known = pieces.get(piece.part);
    if (known === undefined) pieces.set(piece.part, [piece]);
    else known.push(piece);
  }
  const all = new Map([...own.map((part) => [part.name, part] as const), ...used]);
  return [...all.values()].flatMap((part): readonly WorkedPart[] => {
    const [ofThis, ofOther] = [part.name, otherHand(part.name)].map((name) => pieces.get(name) ?? []);
    const standings = [...(ofThis ?? []), ...(ofOther ?? [])];
    if (part.fits !== undefined) return filler(part, used.has(part.name), known, workings);
    const count = standings.length + (part.byEye ?? 0);
    if (part.count !== undefined && part.count.value !== count && count > 0) {
      const facts = { part: part.name, count: part.count.value, stands: standings.length };
      workings.faults.report(diagnose('E52', atSpan(part.count.at), facts));
    }
    if (count === 0) {
      workings.faults.report(diagnose('E51', atSpan(part.at), { part: part.name }));
      return [];
    }
    const [length, width] = (['length', 'width'] as const).map((size) =>
      sizeAsItStands(part, size, standings, { tile, show: sizing.show }, workings),
    );
    const [grain, flutes] = (['grain', 'flutes'] as const).map((what) =>
      runAsItStands(part, what, standings, workings),
    );
    if (length === undefined || width === undefined || grain === undefined || flutes === undefined) return [];
    const flat =
      drawnAsStrip(part, { length, width }, standings, workings) ??
      drawnToStand(part, standings, tile, sizing) ??
      part.drawnLater?.({ length, width }) ??
      part.drawn;
    const drawn = asEdged(asInclined(flat, standings), part.name, standings);
    if (drawn !== undefined) checkEdges(part, drawn, standings, workings);
    const worked = { ...part, length, width, grain, flutes, count, drawn };
    const strips = stripsAsTheyStand(worked, part, pieces, known, workings);
    return [...asBored(worked, standings, fittings), ...strips];
  });
}

/** Pieces of one part that fittings need bored in different ways are parts of their own. */
function asBored(
  part: WorkedPart,
  standings: readonly StandingPart[],
  fittings: readonly StandingFitting[],
): readonly WorkedPart[] {
  const groups = alikeBored(standings, fittings, part);
  const byEye = part.count - standings.length;
  return groups.flatMap(({ standings: pieces, holes }, index) => {
    const count = pieces.length + (index === 0 ? byEye : 0);
    const others = pieces.filter((it) => it.part === otherHand(part.name)).length;
    // The first group has none, if any has.
    const plain = groups[0]?.holes.length === 0 ? 1 : 0;
    const number = groups.length - plain === 1 ? undefined : index + 1 - plain;
    const all = groups.length === 1 || holes.length === 0 ? part : boredApart(part, number);
    return handsOf(bored({ ...all, count }, holes), pieces, others);
  });
}

/** What is made as often as it fits is cut beside the build, as it is written; how many stand would be a number. */
function filler(
  part: OpenPart,
  stands: boolean,
  known: readonly string[],
  workings: Workings,
): readonly WorkedPart[] {
  if (!stands || part.fits === undefined) return closedParts(part, known, workings);
  workings.faults.report(diagnose('E99', atSpan(part.fits.at), { part: part.name, by: 'the build' }));
  return [];
}

/** Names have no commas, so no maker can give one like it to a part. */
function boredApart(part: WorkedPart, number: number | undefined): WorkedPart {
  const which = number === undefined ? '' : ` ${number}`;
  return {
    ...part,
    name: `${part.name}, bored${which}`,
    label: `${part.label} bored${which}`,
    standsAs: part.name,
  };
}

/** A part, and its other hand as a part of its own; or one part, of which some are turned over. */
function handsOf(
  part: WorkedPart,
  standings: readonly StandingPart[],
  others: number,
): readonly WorkedPart[] {
  if (others === 0) {
    // What has bevels has its long face told, whichever way it looks.
    const over = standings.filter((it) => it.isTurnedOver && !hasEdges(it)).length;
    // Where most of them face about, it is the few that don't that are turned.
    return [{ ...part, turnedOver: Math.min(over, standings.length - over) }];
  }
  const { name, label, count } = part;
  const other = {
    ...part,
    name: otherHand(name),
    ...(part.standsAs === undefined ? {} : { standsAs: otherHand(part.standsAs) }),
    label: otherHand(label),
    count: others,
    drawn: part.drawn && otherHandOf(part.drawn, part.length),
  };
  return count === others ? [other] : [{ ...part, count: count - others }, other];
}

function sizeAsItStands(
  part: OpenPart,
  size: Side,
  standings: readonly StandingPart[],
  { tile, show }: Pick<Sizing, 'show'> & { readonly tile: string },
  { faults }: Workings,
): Length | undefined {
  const given = part[size];
  if (!isRest(given)) return given;
  const [first, ...others] = standings;
  if (first === undefined) {
    faults.report(diagnose('E64', atSpan(given.at), { part: part.name, size }));
    return undefined;
  }
  // What is folded up is as long in the flat as its strip.
  const sizeOf = (it: StandingPart): Length => (size === 'length' && it.strip?.length) || it.size[size];
  const other = others.find((it) => compare(sizeOf(it), sizeOf(first)) !== 0);
  if (other === undefined) return sizeOf(first);
  const comesTo = (it: StandingPart) => show(sizeOf(it), given.at);
  faults.report(notAlike({ tile, part: part.name, at: given.at, size, pieces: [first, other], comesTo }));
  return undefined;
}

function runAsItStands(
  part: OpenPart,
  what: 'grain' | 'flutes',
  standings: readonly StandingPart[],
  { faults }: Workings,
): Side | 'any' | undefined {
  const rule = part[what];
  if (rule === undefined) {
    const [{ inclined, strip } = {}] = standings;
    const isThere = part.material.value[what]?.value === true;
    if (strip !== undefined && isThere) return 'width';
    return inclined?.how.kind === 'bend' && isThere ? otherSize(inclined.size) : 'any';
  }
  if (
    standings[0]?.strip !== undefined &&
    rule.value === 'length' &&
    !part.accepted.includes('folds across')
  ) {
    faults.report(diagnose('T36', atSpan(rule.at), { part: part.name, what }));
  }
  if (rule.value !== 'upright') return rule.value;
  const sides = new Set(standings.map(({ stance }) => uprightSide(stance)));
  const [side] = sides;
  if (sides.size === 1 && side !== undefined) return side;
  const why = sides.size === 0 ? 'no build' : sides.has(undefined) ? 'lies' : 'differs';
  faults.report(diagnose('E61', atSpan(rule.at), { part: part.name, what, why }));
  return undefined;
}

/** What is bent has its grain and flutes along the axis of its bend, unless it says otherwise. */
function otherSize(size: Side): Side {
  return size === 'length' ? 'width' : 'length';
}

/** What the grid that a tile goes by says of fitting; its built-in measures where it says nothing. */
function gridOf(tile: TileView, workings: Workings): Pick<Build, 'slack' | 'lip' | 'tallest' | 'glueLine'> {
  const grids = [tile.file.grid, ...workings.sights.from(tile.file).grids.map(({ grid }) => grid)];
  const said = (key: 'slack' | 'lip' | 'tallest' | 'glueLine'): Length | undefined => {
    const expression = grids.map((grid: GridSpec | undefined) => grid?.[key]).find((it) => it !== undefined);
    if (expression === undefined) return undefined;
    return lengthOf(expression, key === 'tallest' ? 'above zero' : 'zero', fileScope, workings);
  };
  const usual = tile.file.units === 'in' ? inches(rational(1n, 64n)) : millimetres(rational(4n, 10n));
  return {
    slack: said('slack') ?? usual,
    lip: said('lip') ?? usual,
    tallest: said('tallest'),
    glueLine: said('glueLine') ?? zero,
  };
}

function heightOf(tile: TileView, workings: Workings): Placed<Length> | undefined {
  const { height } = tile;
  const value = height && lengthOf(height, 'above zero', { tile }, workings);
  return height === undefined || value === undefined ? undefined : { value, at: height.at };
}

function squaresOf(tile: TileView, workings: Workings): Build['squares'] {
  const { squares } = tile;
  const count = (way: 'across' | 'along'): number =>
    (squares && tile.footprint === undefined
      ? wholeOf(squares[way], { least: 1, what: 'squares' }, { tile }, workings)
      : undefined) ?? 1;
  return { across: count('across'), along: count('along') };
}

function beyondOf(tile: TileView, workings: Workings): Build['beyond'] {
  const size = (side: LevelSide): Length => {
    const said = tile.beyond?.find(({ name }) => name === side)?.value;
    return (said && lengthOf(said, 'zero', { tile }, workings)) ?? zero;
  };
  return { left: size('left'), right: size('right'), front: size('front'), back: size('back') };
}

function edgesOf(tile: TileView, squares: Build['squares'], workings: Workings): Build['edges'] {
  const edge = (side: LevelSide): Edge | undefined => {
    const spec = tile.edges.get(side);
    return spec && workedEdge(spec.value, side, tile, squares, workings);
  };
  return { left: edge('left'), right: edge('right'), front: edge('front'), back: edge('back') };
}

function workedEdge(
  spec: EdgeSpec,
  side: LevelSide,
  tile: TileView,
  squares: Build['squares'],
  workings: Workings,
): Edge | undefined {
  const { at } = spec;
  if (spec.kind === 'wall') return { kind: 'wall', at };
  if (spec.kind === 'foot') {
    const level = lengthOf(spec.level, 'zero', { tile }, workings);
    return level && { kind: 'foot', at, level };
  }
  const wanted = squares[side === 'front' || side === 'back' ? 'across' : 'along'] + 1;
  const levels = spec.levels.flatMap((it): readonly Placed<Length>[] => {
    const value = lengthOf(it, 'zero', { tile }, workings);
    return value === undefined ? [] : [{ value, at: it.at }];
  });
  if (levels.length < spec.levels.length) return undefined;
  if (spec.isList && levels.length !== wanted) {
    workings.faults.report(diagnose('E65', atSpan(at), { side, wanted, found: levels.length }));
    return undefined;
  }
  const [first] = levels;
  if (first === undefined) return undefined;
  return { kind: 'floor', at, levels: spec.isList ? levels : Array.from({ length: wanted }, () => first) };
}

function rackOf(tile: TileView, workings: Workings): Rack | undefined {
  const { store } = tile;
  if (store === undefined) return undefined;
  const { racks } = workings.sights.from(workings.sights.fileOf(store.at));
  const meanings = racks.get(store.value);
  if (meanings === undefined) {
    const known = [...racks.keys()];
    const meant = didYouMean(store.value, known);
    workings.faults.report(diagnose('E66', atSpan(store.at), { name: store.value, meant, known }));
    return undefined;
  }
  const rack = theOne(meanings, atSpan(store.at), () => 'a rack', workings.faults);
  if (rack === undefined) return undefined;
  const { inside, clearance } = rack.value;
  if (inside === undefined) {
    workings.faults.report(diagnose('E68', atSpan(rack.at), { rack: rack.name }));
    return undefined;
  }
  const [across, along, up] = [inside.across, inside.along, inside.up].map((it) =>
    lengthOf(it, 'above zero', fileScope, workings),
  );
  const play = clearance === undefined ? zero : lengthOf(clearance, 'zero', fileScope, workings);
  if (across === undefined || along === undefined || up === undefined || play === undefined) return undefined;
  return { name: rack.name, at: store.at, inside: { across, along, up }, clearance: play };
}

/** The order that a tile states must name each part of its build once. */
function glueOrderOf(
  tile: TileView,
  { parts }: Standing,
  { faults }: Workings,
): readonly string[] | undefined {
  const { glueOrder } = tile;
  if (glueOrder === undefined) return undefined;
  const standing = new Set(parts.map(({ part }) => part));
  const named = new Set<string>();
  let isFaulty = false;
  const report = (name: string, why: 'unknown' | 'twice' | 'missing', at: Span): void => {
    isFaulty = true;
    faults.report(diagnose('E67', atSpan(at), { name, why }));
  };
  for (const { value, at } of glueOrder.names) {
    if (!standing.has(value)) report(value, 'unknown', at);
    else if (named.has(value)) report(value, 'twice', at);
    named.add(value);
  }
  // Strips that nobody names go on with their part.
  const strips = new Set(parts.filter(({ clads }) => clads !== undefined).map(({ part }) => part));
  for (const name of standing) {
    if (!named.has(name) && !strips.has(name)) report(name, 'missing', glueOrder.at);
  }
  return isFaulty ? undefined : [...named];
}
