import {
  atSpan,
  diagnose,
  didYouMean,
  type EdgeSpec,
  type Expression,
  type LetInSpec,
  type Named,
  type PartSpec,
  type Placed,
  type Span,
  type SpecFile,
  type TileSpec,
} from '../model/index.ts';

import type { Faults } from './faults.ts';
import { theOne, unknown } from './meaning.ts';
import type { Definition, Sights } from './sight.ts';

/** A tile with all that `like` brings it; its sums are not worked out. */
export interface TileView {
  readonly name: string;
  readonly at: Span;
  /** Where the tile itself is written: its grid is this file's. */
  readonly file: SpecFile;
  readonly squares: TileSpec['squares'];
  readonly footprint: TileSpec['footprint'];
  readonly height: Expression | undefined;
  readonly lengths: ReadonlyMap<string, Named<Expression>>;
  readonly numbers: ReadonlyMap<string, Named<Expression>>;
  readonly parts: ReadonlyMap<string, Named<PartSpec>>;
  readonly build: TileSpec['build'];
  readonly added: TileSpec['added'];
  readonly edges: ReadonlyMap<string, Named<EdgeSpec>>;
  readonly beyond: TileSpec['beyond'];
  readonly store: TileSpec['store'];
  readonly takes: ReadonlyMap<string, Named<Expression>>;
  readonly fittings: ReadonlyMap<string, Named<readonly LetInSpec[]>>;
  readonly glueOrder: TileSpec['glueOrder'];
  readonly label: Placed<string> | undefined;
  readonly note: Placed<string> | undefined;
  /** False where what it is like was not found: what is missing then is no fault of its own. */
  readonly isWhole: boolean;
}

/** A part with all that `like` brings it. */
export interface PartView extends Named<PartSpec> {
  readonly isWhole: boolean;
}

/** Puts tiles and parts together with what they are `like`; each once. */
export class Likes {
  readonly #sights: Sights;
  readonly #faults: Faults;
  readonly #tiles = new Map<TileSpec, TileView>();
  readonly #parts = new Map<TileView | undefined, Map<PartSpec, PartView>>();

  constructor(sights: Sights, faults: Faults) {
    this.#sights = sights;
    this.#faults = faults;
  }

  tile(asked: Definition<TileSpec>): TileView {
    const known = this.#tiles.get(asked.value);
    if (known !== undefined) return known;
    const { chain, beyond } = this.#walked(asked, this.#tiles, (it) => this.#baseOf(it));
    let base = beyond;
    for (const variant of chain.toReversed()) {
      base = this.#merged(base, variant, base?.isWhole ?? variant.value.like === undefined);
      this.#tiles.set(variant.value, base);
    }
    return base ?? this.#merged(undefined, asked, false);
  }

  /** A part of a tile, or (without a tile) a shared or loose one, with all that `like` brings it. */
  part(tile: TileView | undefined, asked: Named<PartSpec>): PartView {
    const merged = this.#parts.get(tile) ?? new Map<PartSpec, PartView>();
    this.#parts.set(tile, merged);
    const known = merged.get(asked.value);
    if (known !== undefined) return known;
    const { chain, beyond } = this.#walked(asked, merged, (it) => this.#basePartOf(tile, it));
    let base = beyond;
    for (const variant of chain.toReversed()) {
      const { name, at, value } = variant;
      const isWhole = base?.isWhole ?? (value.like === undefined && (tile?.isWhole ?? true));
      base = { name, at, value: base === undefined ? value : mergedPart(base, variant), isWhole };
      merged.set(value, base);
    }
    return base ?? { ...asked, isWhole: false };
  }

  /**
   * From a thing up to the first one that is like no other, or is put together already. Walked, not recursed,
   * since a file can hold a very long chain.
   *
   * @returns  the chain, the thing asked for first; `beyond` is what its last one is like, if that is known
   */
  #walked<T extends Named<object>, V>(
    asked: T,
    known: ReadonlyMap<T['value'], V>,
    baseOf: (thing: T) => T | undefined,
  ): { readonly chain: readonly T[]; readonly beyond: V | undefined } {
    const chain = new Map<T['value'], T>();
    let next: T | undefined = asked;
    while (next !== undefined && !known.has(next.value)) {
      if (chain.has(next.value)) {
        const members = [...chain.values()];
        this.#reportRing(members.slice([...chain.keys()].indexOf(next.value)));
        return { chain: members, beyond: undefined };
      }
      chain.set(next.value, next);
      next = baseOf(next);
    }
    return { chain: [...chain.values()], beyond: next === undefined ? undefined : known.get(next.value) };
  }

  #baseOf({ name, value: { like }, file }: Definition<TileSpec>): Definition<TileSpec> | undefined {
    if (like === undefined) return undefined;
    const { tiles } = this.#sights.from(file);
    const found = tiles.get(like.value);
    if (found === undefined) {
      const { facts, beside } = unknown(
        like.value,
        atSpan(like.at),
        [...tiles.keys()].filter((it) => it !== name),
      );
      this.#faults.report(diagnose('E22', atSpan(like.at), facts, beside));
      return undefined;
    }
    return theOne(found, atSpan(like.at), () => 'a tile', this.#faults);
  }

  /**
   * What a part is like: another part of its tile, else a shared one. A part that is like its own name takes
   * up the shared part of that name: `bed: { like: bed }`.
   */
  #basePartOf(tile: TileView | undefined, part: Named<PartSpec>): Named<PartSpec> | undefined {
    const { like } = part.value;
    if (like === undefined) return undefined;
    const ofTile = tile?.parts;
    const isOfTile = ofTile?.get(part.name) === part;
    if (isOfTile && like.value !== part.name) {
      const sibling = ofTile?.get(like.value);
      if (sibling !== undefined) return sibling;
    }
    const { parts } = this.#sights.from(this.#sights.fileOf(like.at));
    const shared = parts.get(like.value);
    if (shared !== undefined) return theOne(shared, atSpan(like.at), () => 'a part', this.#faults);
    const known = [
      ...(isOfTile ? [...(ofTile?.keys() ?? [])].filter((it) => it !== part.name) : []),
      ...parts.keys(),
    ];
    const { facts, beside } = unknown(like.value, atSpan(like.at), known);
    const { loose } = this.#sights.fileOf(like.at);
    const isLoose = loose.some(({ name }) => name === like.value);
    this.#faults.report(diagnose('E21', atSpan(like.at), { ...facts, isLoose }, beside));
    return undefined;
  }

  #merged(
    base: TileView | undefined,
    { name, at, value: own, file }: Definition<TileSpec>,
    isWhole: boolean,
  ): TileView {
    const taken = new Set(own.takenAway.map(({ value }) => value));
    const kept = <K extends keyof TileView>(key: K): TileView[K] | undefined =>
      taken.has(key) ? undefined : base?.[key];
    const saysItsGround = own.squares !== undefined || own.footprint !== undefined;
    return {
      name,
      at,
      file,
      squares: saysItsGround ? own.squares : kept('squares'),
      footprint: saysItsGround ? own.footprint : kept('footprint'),
      height: own.height === 'none' ? undefined : (own.height ?? kept('height')),
      lengths: this.#mergedByName(base, kept('lengths'), own.lengths),
      numbers: this.#mergedByName(base, kept('numbers'), own.numbers),
      parts: this.#mergedParts(base, kept('parts'), own.parts),
      build: own.build ?? kept('build'),
      added: own.added ?? kept('added'),
      edges: this.#mergedByName(base, kept('edges'), own.edges),
      beyond: own.beyond ?? kept('beyond'),
      store: own.store ?? kept('store'),
      takes: this.#mergedByName(base, kept('takes'), own.takes ?? []),
      fittings: this.#mergedByName(base, kept('fittings'), own.fittings ?? []),
      glueOrder: own.glueOrder ?? (taken.has('glue order') ? undefined : base?.glueOrder),
      // A label is the name of one thing; a variant has a name of its own.
      label: own.label,
      note: own.note ?? kept('note'),
      isWhole,
    };
  }

  #mergedByName<T>(
    base: TileView | undefined,
    theirs: ReadonlyMap<string, Named<T>> | undefined,
    ours: readonly Named<T | 'none'>[],
  ): Map<string, Named<T>> {
    const merged = new Map(theirs);
    for (const { name, at, value } of ours) {
      if (value !== 'none') merged.set(name, { name, at, value });
      else if (!merged.delete(name)) this.#reportNothingTaken(base, name, at, merged.keys());
    }
    return merged;
  }

  #mergedParts(
    base: TileView | undefined,
    theirs: ReadonlyMap<string, Named<PartSpec>> | undefined,
    ours: readonly Named<PartSpec | 'none'>[],
  ): Map<string, Named<PartSpec>> {
    const whole = this.#mergedByName(base, theirs, ours);
    for (const { name, at, value } of ours) {
      const their = theirs?.get(name);
      if (value === 'none' || their === undefined) continue;
      whole.set(name, { name, at, value: mergedVariantPart(their.value, value) });
    }
    return whole;
  }

  #reportNothingTaken(base: TileView | undefined, name: string, at: Span, known: Iterable<string>): void {
    const names = [...known];
    this.#faults.report(
      diagnose('E24', atSpan(at), {
        name,
        base: base?.name,
        meant: didYouMean(name, names),
      }),
    );
  }

  #reportRing(ring: readonly { readonly name: string; readonly at: Span }[]): void {
    const chain = fromItsFirst(ring);
    const [first] = chain;
    if (first === undefined) return;
    this.#faults.report(
      diagnose('E23', atSpan(first.at), { chain: [...chain, first].map(({ name }) => name) }),
    );
  }
}

/** The same ring, told from the member that stands first in the files, so that it is told only once. */
export function fromItsFirst<T extends { readonly at: Span }>(ring: readonly T[]): readonly T[] {
  let first = 0;
  for (const [index, { at }] of ring.entries()) {
    const best = ring[first]?.at;
    if (best === undefined) break;
    const isEarlier =
      at.source.path === best.source.path ? at.start < best.start : at.source.path < best.source.path;
    if (isEarlier) first = index;
  }
  return [...ring.slice(first), ...ring.slice(0, first)];
}

/** A variant's part over the part of the same name in the tile it is like: key by key. */
function mergedVariantPart(base: PartSpec, own: PartSpec): PartSpec {
  const merged = over(base, own);
  const taken = new Set(own.takenAway.map(({ value }) => value));
  return {
    ...merged,
    like: own.like ?? (taken.has('like') ? undefined : base.like),
    label: own.label ?? (taken.has('label') ? undefined : base.label),
    takenAway: [...base.takenAway, ...own.takenAway],
  };
}

/** A part over the one it is `like`; the label goes along only where the name does. */
function mergedPart(base: Named<PartSpec>, variant: Named<PartSpec>): PartSpec {
  const merged = over(base.value, variant.value);
  const takesLabel =
    base.name === variant.name && !variant.value.takenAway.some(({ value }) => value === 'label');
  return {
    ...merged,
    like: variant.value.like,
    label: variant.value.label ?? (takesLabel ? base.value.label : undefined),
    takenAway: [],
  };
}

function over(base: PartSpec, own: PartSpec): PartSpec {
  const taken = new Set(own.takenAway.map(({ value }) => value));
  const theirs = <T>(key: string, value: T): T | undefined => (taken.has(key) ? undefined : value);
  return {
    ...own,
    of: own.of ?? theirs('of', base.of),
    size: own.size ?? theirs('size', base.size),
    grain: own.grain ?? theirs('grain', base.grain),
    flutes: own.flutes ?? theirs('flutes', base.flutes),
    count: own.count ?? theirs('count', base.count),
    goodSide: own.goodSide ?? theirs('good side', base.goodSide),
    byEye: own.byEye ?? theirs('by eye', base.byEye),
    lies: own.lies ?? theirs('lies', base.lies),
    floor: own.floor ?? theirs('floor', base.floor),
    takes: own.takes ?? theirs('takes', base.takes),
    accepted: own.accepted ?? theirs('accepted', base.accepted),
    clad: own.clad ?? theirs('clad', base.clad),
    note: own.note ?? theirs('note', base.note),
    outline: own.outline ?? theirs('outline', base.outline),
    folds: own.folds ?? theirs('folds', base.folds),
    cuts: own.cuts ?? theirs('cuts', base.cuts),
    marks: own.marks ?? theirs('marks', base.marks),
    mirrored: own.mirrored ?? theirs('mirrored', base.mirrored),
    leave: own.leave ?? theirs('leave', base.leave),
  };
}
