import { minus, showExact, sum, unitOfRule, zero } from '../../measure/index.ts';
import type { Batch, Fault, Length, Settings, TileFit, Turning } from '../../model/index.ts';
import {
  clean,
  counted,
  type Lines,
  type Look,
  padEnd,
  paragraph,
  signsOf,
  widthOf,
} from '../columns/index.ts';
import { listed } from '../enumerated.ts';
import { inclinedParts, takenWhole } from '../inclinedWords.ts';
import { drawBuild } from './buildDrawing.ts';
import { showingOf } from './lengths.ts';

/**
 * One line for each tile, and one for the loose parts: how it stands and what it is made of. A tile that
 * doesn't fit is drawn. The faults themselves are told elsewhere.
 */
export function printCheck(batch: Batch, fits: readonly TileFit[], look: Look): string {
  const byTile = new Map(fits.map((fit) => [fit.build.tile, fit]));
  const partsByName = partsByTile(batch);
  const partsOf = (tile: string | undefined) => partsByName.get(tile) ?? [];
  const loose = partsOf(undefined);
  const all = [
    ...batch.tiles.map(({ name, label }) => ({
      label: clean(label),
      parts: partsOf(name),
      fit: byTile.get(name),
    })),
    ...(loose.length === 0 ? [] : [{ label: 'loose parts', parts: loose, fit: undefined }]),
  ];
  if (all.length === 0) return 'ok  no tiles and no loose parts here\n';
  const most = Math.min(24, Math.floor(look.width * 0.35));
  const widest = Math.max(0, ...all.map(({ label }) => widthOf(label)).filter((it) => it <= most));
  const drawn = new Map<string, string>();
  const lines = all.flatMap(({ label, parts, fit }) => {
    const isDrawn = fit !== undefined && !isSound(fit) && !isOnlyUnmarked(fit);
    const alike = isDrawn ? drawn.get(sameFaults(fit)) : undefined;
    const drawAt = alike === undefined ? '' : `as drawn at "${alike}"; `;
    if (isDrawn && alike === undefined) drawn.set(sameFaults(fit), label);
    const verdict = `${verdictOf(fit, batch.settings, look)}${drawAt}`;
    const told = line({ label, verdict, parts, isBuilt: fit !== undefined }, widest, look, isSound(fit));
    return isDrawn && alike === undefined ? [...told, ...drawing(fit, batch.settings, look)] : told;
  });
  return `${lines.join('\n')}\n`;
}

/** Variants take a tile's faults over with its build: the same in the same place is drawn once. */
function sameFaults({ faults }: TileFit): string {
  const told = faults.filter(({ kind }) => !warnings.includes(kind));
  return told.map((fault) => sameness(fault)).join('\n');
}

function sameness(it: unknown): string {
  // Of a piece or a place it matters where it was written, and of the pieces where they stand.
  return JSON.stringify(it, (key, value) =>
    key === 'source' ? undefined : typeof value === 'bigint' ? `${value}` : value,
  );
}

const warnings: readonly Fault['kind'][] = ['habit', 'hangs on a curve'];

function isSound(fit: TileFit | undefined): boolean {
  return fit === undefined || fit.faults.every(({ kind }) => warnings.includes(kind));
}

/** True where all closes but for the marks it would be cut to: drawn, it would look sound. */
function isOnlyUnmarked({ faults }: TileFit): boolean {
  return faults.every(({ kind }) => warnings.includes(kind) || kind === 'does not close as marked');
}

function drawing(fit: TileFit, settings: Settings, look: Look): Lines {
  const { full } = showingOf({ ...settings, units: { ...settings.units, value: settings.firstUnit } }, look);
  return drawBuild(fit, full, look);
}

/** What is known of a build: what it closes to, how it can be turned, how many go in its rack. */
function verdictOf(fit: TileFit | undefined, settings: Settings, look: Look): string {
  if (fit === undefined) return '';
  const { build, rack, turns, marks, wander, unchecked, thinnestWall } = fit;
  const { pair, brief, unit, otherPair, otherUnit, full } = showingOf(settings, look);
  const { across, along } = build.footprint;
  const high = otherPair === undefined ? `${brief(topOf(fit))}\u00a0${unit}` : full(topOf(fit));
  const inOther = otherPair === undefined ? '' : ` [${otherPair(across, along)}\u00a0${otherUnit}]`;
  if (!isSound(fit)) {
    if (isOnlyUnmarked(fit)) return 'closes, but not cut to the marks of your rule; ';
    const count = fit.faults.filter(({ kind }) => !warnings.includes(kind)).length;
    return [count === 1 ? 'one fault' : `${count} faults`, ...takenWhole(build.parts, clean), ''].join('; ');
  }
  const chosen = marks.filter(({ isChosen }) => isChosen);
  const inPlay = [
    `closes ${pair(across, along)}${inOther}, ${high}\u00a0high`,
    ...chosen.map(
      ({ part, size, mark, scale }) => `mark the ${size} of ${clean(part)} at ${markOn(mark, scale)}`,
    ),
    ...(Object.values(build.edges).some((edge) => edge !== undefined) ? [turnsText(turns)] : []),
    ...(unchecked.length === 0 ? [] : [`the level at the ${listed(unchecked)} hangs on a curve`]),
    ...(rack === undefined
      ? []
      : [`${rack.stack} high and ${rack.sideBySide} side by side in ${clean(rack.rack)}`]),
    ...(thinnestWall === undefined ? [] : [`${brief(thinnestWall)} or more left beside each hole`]),
    ...inclinedParts(build.parts, { brief, clean }),
    ...takenWhole(build.parts, clean),
    ...wander
      .filter(({ way }) => way !== 'up')
      .map(({ way, least, most }) => `with the knife's wander ${brief(least)} to ${brief(most)} ${way}`),
  ];
  return `${inPlay.join('; ')}; `;
}

/** As it is read on its rule, which may be of the other unit than all else here. */
function markOn(mark: Length, scale: Length): string {
  return showExact(mark, unitOfRule(scale)).replaceAll(' ', '\u00a0');
}

function topOf({ build }: TileFit) {
  return build.parts.reduce((top, { block }) => {
    const more = minus(block.high.up, top);
    return more.numerator > 0n ? sum(top, more) : top;
  }, zero);
}

function turnsText(turns: readonly Turning[]): string {
  const plain = turns.filter(({ mirrored }) => !mirrored).map(({ turned }) => turned);
  if (plain.length === 4) return 'turns any way';
  const others = plain.filter((turned) => turned !== 'not');
  return others.length === 0 ? 'lies one way' : `also turned ${others.join(', ')}`;
}

interface PartsOf {
  readonly material: string;
  /** In one tile. */
  readonly each: number;
}

/** Loose parts stand under `undefined`. */
function partsByTile({ materials }: Batch): ReadonlyMap<string | undefined, readonly PartsOf[]> {
  const byTile = new Map<string | undefined, PartsOf[]>();
  for (const { material, parts } of materials) {
    const each = new Map<string | undefined, number>();
    for (const member of parts.flatMap((kind) => kind.members)) {
      each.set(member.tile, (each.get(member.tile) ?? 0) + member.each);
    }
    for (const [tile, count] of each) {
      const all = byTile.get(tile) ?? [];
      all.push({ material: material.name, each: count });
      byTile.set(tile, all);
    }
  }
  return byTile;
}

interface Told {
  readonly label: string;
  readonly verdict: string;
  readonly parts: readonly PartsOf[];
  readonly isBuilt: boolean;
}

/**
 * Of a tile without a build there is no more to say than what it is made of. A name too long for its column has a line
 * of its own.
 */
function line({ label, verdict, parts, isBuilt }: Told, widest: number, look: Look, isWell: boolean): Lines {
  const count = parts.reduce((total, { each }) => total + each, 0);
  const materials = parts.map(({ material, each }) => counted(each, material, signsOf(look)));
  const number = count === 0 ? 'no parts' : `${count}\u00a0${count === 1 ? 'part' : 'parts'}`;
  const words = isBuilt || count === 0 ? number : `${number}: ${materials.join(', ')}`;
  const mark = `${isWell ? 'ok' : 'no'}  `;
  const told = `${verdict}${words}`;
  if (widthOf(label) <= widest) return paragraph(told, look.width, `${mark}${padEnd(label, widest)}  `);
  const name = paragraph(label, look.width, mark);
  return [...name, ...paragraph(told, look.width, ' '.repeat(mark.length + widest + 2))];
}
