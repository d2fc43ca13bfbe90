import { bareAsMillimetres } from '../expand/index.ts';
import { millimetres } from '../measure/index.ts';
import type {
  Build,
  Expression,
  Length,
  MemberSpec,
  PartSpec,
  Rest,
  Side,
  SlopeSpec,
  Spec,
  SpecFile,
  TileSpec,
} from '../model/index.ts';

/** A size that could be written anew: where it stands, and what it is worth now. */
export interface Candidate {
  readonly expression: Expression;
  readonly now: Length;
  /** True where a plain measure stands there; a sum says more than its worth, so it is the second choice. */
  readonly isLiteral: boolean;
  /** The tiles that may follow from it; undefined where any of them may. */
  readonly tiles: ReadonlySet<string> | undefined;
  /** What it is called, where the fault itself can't name it: `panel 2 of roof`. */
  readonly what?: string;
}

/**
 * The sizes that a tile's build follows from: those of its parts and their panels, its gaps, how far slopes go and rise,
 * and the lengths that these lean on. A size that is a mere name stands for what is written under that name, since its other users lean on
 * it too. Thicknesses, the grid, heights and levels are given, not free.
 */
export function candidates(build: Build, spec: Spec): readonly Candidate[] {
  const files = filesOf(spec);
  const tiles = chainOf(build.tile, files);
  const lengths = new Map<string, Expression>();
  for (const { name, value } of [
    ...files.flatMap((it) => it.lengths),
    ...[...tiles].reverse().flatMap((it) => it.lengths),
  ]) {
    if (value !== 'none') lengths.set(name, value);
  }
  const found = new Map<Expression, Candidate>();
  const look = (expression: Expression, now: Length | undefined, depth: number, what?: string): void => {
    if (depth > 20 || found.has(expression)) return;
    if (expression.kind === 'name' && expression.reference.kind === 'own') {
      const named = lengths.get(expression.reference.name);
      if (named !== undefined) look(named, now, depth + 1);
      return;
    }
    const literal = literalOf(expression, files);
    const value = literal ?? now;
    if (value !== undefined) {
      const owner = tiles.find((it) => sizesIn(it).includes(expression));
      found.set(expression, {
        expression,
        now: value,
        isLiteral: literal !== undefined,
        tiles: owner && tilesLike(owner, files),
        ...(what === undefined ? {} : { what }),
      });
    }
    for (const inner of namesIn(expression)) look(inner, undefined, depth + 1);
  };
  for (const { part, size, expression } of sizesOf(build, tiles, files)) {
    const standing = build.parts.find((it) => it.part === part);
    if (standing !== undefined && expression.kind !== 'rest') look(expression, standing.size[size], 0);
  }
  for (const { part, what, expression } of panelsOf(build, tiles, files)) {
    look(expression, undefined, 0, `${what} of ${part}`);
  }
  for (const { build: row, added } of tiles) {
    const members = [...(row === undefined ? [] : [row]), ...(added ?? []).map(({ member }) => member)];
    for (const gap of members.flatMap(gapsIn)) look(gap, undefined, 0);
    for (const { part, rise, run } of members.flatMap(slopesIn)) {
      if (run !== undefined) look(run, undefined, 0);
      if (rise.kind === 'rise') look(rise.by, undefined, 0, `rise of ${part}`);
    }
  }
  return [...found.values()];
}

function filesOf(spec: Spec): readonly SpecFile[] {
  const reached = new Set<SpecFile>(spec.files);
  for (const file of reached) for (const used of file.uses) reached.add(used);
  return [...reached];
}

/** A tile and what it is like, itself first. */
function chainOf(name: string, files: readonly SpecFile[]): readonly TileSpec[] {
  const chain: TileSpec[] = [];
  let next: string | undefined = name;
  while (next !== undefined) {
    const wanted: string = next;
    const found: TileSpec | undefined = files
      .flatMap(({ tiles }) => tiles)
      .find((it) => it.name === wanted)?.value;
    if (found === undefined || chain.includes(found)) break;
    chain.push(found);
    next = found.like?.value;
  }
  return chain;
}

/** What is written in a tile itself, not in what it shares with others. */
function sizesIn({ parts, lengths, build, added }: TileSpec): readonly unknown[] {
  const members = [...(build === undefined ? [] : [build]), ...(added ?? []).map(({ member }) => member)];
  return [
    ...parts.flatMap(({ value }) =>
      value === 'none' || value.size === undefined ? [] : [value.size.length, value.size.width],
    ),
    ...lengths.map(({ value }) => value),
    ...members.flatMap(gapsIn),
    ...members
      .flatMap(slopesIn)
      .flatMap(({ run, rise }) => [run, rise.kind === 'rise' ? rise.by : undefined]),
    ...parts.flatMap(({ value }) =>
      value === 'none' ? [] : panelsIn(value).map(({ expression }) => expression),
    ),
  ];
}

/** A tile and all that are like it. */
function tilesLike(tile: TileSpec, files: readonly SpecFile[]): ReadonlySet<string> {
  const names = files.flatMap(({ tiles }) => tiles.map(({ name }) => name));
  return new Set(names.filter((name) => chainOf(name, files).includes(tile)));
}

interface SizeOfPart {
  readonly part: string;
  readonly size: Side;
  readonly expression: Expression | Rest;
}

/** The sizes that the parts of a build are written with, theirs or those of what they are like. */
function sizesOf(
  build: Build,
  tiles: readonly TileSpec[],
  files: readonly SpecFile[],
): readonly SizeOfPart[] {
  return specsOfParts(build, tiles, files).flatMap(({ part, specs }): readonly SizeOfPart[] => {
    const sized = specs.find(({ size }) => size !== undefined)?.size;
    if (sized === undefined) return [];
    return [
      { part, size: 'length', expression: sized.length },
      { part, size: 'width', expression: sized.width },
    ];
  });
}

/** The panels that the folded parts of a build are written with, counted from 1; of a tray its sizes. */
function panelsOf(build: Build, tiles: readonly TileSpec[], files: readonly SpecFile[]) {
  return specsOfParts(build, tiles, files).flatMap(({ part, specs }) => {
    const panels = specs.map(panelsIn).find((it) => it.length > 0) ?? [];
    return panels.map((it) => ({ ...it, part }));
  });
}

function panelsIn({
  folds,
}: PartSpec): readonly { readonly what: string; readonly expression: Expression }[] {
  const shape = folds?.shape;
  switch (shape?.kind) {
    case undefined:
      return [];
    case 'strip':
      return shape.panels.map((expression, index) => ({ what: `panel ${index + 1}`, expression }));
    case 'tray':
      return (['length', 'width', 'high'] as const).map((size) => ({
        what: size === 'high' ? 'height of the tray' : `${size} of the tray`,
        expression: shape[size],
      }));
  }
}

/** What is written of each part that stands: in the tile, then in those that it is like. */
function specsOfParts(build: Build, tiles: readonly TileSpec[], files: readonly SpecFile[]) {
  const shared = files.flatMap(({ parts }) => parts);
  const specsOf = (name: string): readonly PartSpec[] => [
    ...tiles
      .flatMap(({ parts }) => parts)
      .flatMap((it) => (it.name === name && it.value !== 'none' ? [it.value] : [])),
    ...shared.flatMap((it) => (it.name === name ? [it.value] : [])),
  ];
  const names = new Set(build.parts.map(({ part }) => part));
  return [...names].map((part) => {
    const own = specsOf(part);
    const likes = own.flatMap(({ like }) => (like === undefined ? [] : specsOf(like.value)));
    return { part, specs: [...own, ...likes] };
  });
}

function gapsIn(member: MemberSpec): readonly Expression[] {
  if (member.kind === 'gap') return member.size === 'rest' ? [] : [member.size];
  if (member.kind === 'frame') return member.inside === undefined ? [] : gapsIn(member.inside);
  return member.kind === 'row' ? member.members.flatMap(gapsIn) : [];
}

function slopesIn(
  member: MemberSpec,
): readonly (Pick<SlopeSpec, 'rise' | 'run'> & { readonly part: string })[] {
  switch (member.kind) {
    case 'part':
      return member.slope === undefined ? [] : [{ ...member.slope, part: member.part.value }];
    case 'frame':
      return member.inside === undefined ? [] : slopesIn(member.inside);
    case 'row':
      return member.members.flatMap(slopesIn);
    case 'gap':
      return [];
  }
}

function literalOf(expression: Expression, files: readonly SpecFile[]): Length | undefined {
  if (expression.kind !== 'measure') return undefined;
  if (expression.unit === 'length') return millimetres(expression.amount);
  const units = files.find(({ source }) => source === expression.at.source)?.units;
  return units === undefined ? undefined : millimetres(bareAsMillimetres(expression.amount, units));
}

/** The names that a sum leans on. */
function namesIn(expression: Expression): readonly Expression[] {
  switch (expression.kind) {
    case 'name':
      return expression.reference.kind === 'own' ? [expression] : [];
    case 'negative':
      return namesIn(expression.of);
    case 'sum':
    case 'difference':
    case 'product':
    case 'quotient':
      return [...namesIn(expression.left), ...namesIn(expression.right)];
    case 'smaller':
    case 'larger':
      return expression.of.flatMap(namesIn);
    case 'up to':
    case 'down to':
    case 'nearest':
      return namesIn(expression.of);
    default:
      return [];
  }
}
