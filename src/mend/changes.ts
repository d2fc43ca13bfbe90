import { equal, toFraction } from '../measure/index.ts';
import type { Batch, Bore, Fault, PartKind, PartMember, TileFit } from '../model/index.ts';
import { edgesKey, outlineKey } from '../outline/index.ts';

/** A part that is cut otherwise, and what of it. */
export interface PartChange {
  /** Undefined for a loose part. */
  readonly tile: string | undefined;
  readonly part: string;
  readonly what: readonly ChangedTrait[];
}

export type ChangedTrait = 'length' | 'width' | 'outline' | 'bevels' | 'rebates' | 'holes';

/** Something that is wrong with a tile and was not before. */
export interface NewFault {
  readonly tile: string;
  readonly fault: Fault;
}

/** The parts of a batch that are cut otherwise in another, in the order of the first. */
export function partChanges(before: Batch, after: Batch): readonly PartChange[] {
  const [old, anew] = [traitsOfParts(before), traitsOfParts(after)];
  return [...old].flatMap(([key, { tile, part, traits }]): readonly PartChange[] => {
    const there = anew.get(key)?.traits;
    const what = there === undefined ? [] : changedTraits(traits, there);
    return what.length === 0 ? [] : [{ tile, part, what }];
  });
}

/** What is wrong in one look at the tiles and is not in the other; habits, which are no measures, are left out. */
export function newFaults(before: readonly TileFit[], after: readonly TileFit[]): readonly NewFault[] {
  const known = new Set(before.flatMap(keysOf));
  return after.flatMap((fit) => {
    const { tile } = fit.build;
    return measuredIn(fit)
      .filter((it) => !known.has(faultKey(it, tile)))
      .map((fault) => ({ tile, fault }));
  });
}

export function keysOf(fit: TileFit): readonly string[] {
  return measuredIn(fit).map((it) => faultKey(it, fit.build.tile));
}

function measuredIn({ faults }: TileFit): readonly Fault[] {
  return faults.filter(({ kind }) => kind !== 'habit' && kind !== 'does not close as marked');
}

/** The same text for the same fault, whatever its numbers are. */
export function faultKey(fault: Fault, tile: string): string {
  const about = 'part' in fault ? fault.part.name : 'what' in fault ? fault.what : '';
  const way = 'way' in fault ? fault.way : 'side' in fault ? fault.side : '';
  return [tile, fault.kind, about, way].join('\n');
}

interface Traits {
  readonly length: PartKind['length'];
  readonly width: PartKind['length'];
  /** As texts, so that two are soon compared. */
  readonly outline: string;
  readonly bevels: string;
  readonly rebates: string;
  readonly holes: string;
}

interface PartTraits {
  readonly tile: string | undefined;
  readonly part: string;
  readonly traits: Traits;
}

function traitsOfParts({ materials }: Batch): ReadonlyMap<string, PartTraits> {
  return new Map(
    materials.flatMap(({ parts, fillers = [] }) =>
      [...parts, ...fillers].flatMap((kind) =>
        kind.members.map((member) => {
          const { tile, part } = member;
          return [`${tile ?? ''}\n${part}`, { tile, part, traits: traitsOf(kind, member) }] as const;
        }),
      ),
    ),
  );
}

function traitsOf(kind: PartKind, { isTurned, drawn }: PartMember): Traits {
  const [length, width] = isTurned === true ? [kind.width, kind.length] : [kind.length, kind.width];
  return {
    length,
    width,
    outline: drawn?.outline === undefined ? '' : outlineKey(drawn.outline),
    bevels: edgesKey({ bevels: drawn?.bevels ?? [] }),
    rebates: edgesKey({ rebates: drawn?.rebates ?? [] }),
    holes: (drawn?.bores ?? []).map(boreKey).sort().join(' | '),
  };
}

function boreKey({ fitting, diameter, deep, into }: Bore): string {
  const place =
    into.kind === 'face'
      ? [into.face, toFraction(into.at.x), toFraction(into.at.y)]
      : [into.side, toFraction(into.along), toFraction(into.up)];
  return [fitting, toFraction(diameter), deep && toFraction(deep), ...place].join(' ');
}

function changedTraits(old: Traits, anew: Traits): readonly ChangedTrait[] {
  const sizes = (['length', 'width'] as const).filter((it) => !equal(old[it], anew[it]));
  const texts = (['outline', 'bevels', 'rebates', 'holes'] as const).filter((it) => old[it] !== anew[it]);
  // An outline is another one wherever its box is; and a hole right through is in the outline, too.
  const isTold = sizes.length > 0 || texts.includes('holes');
  return [...sizes, ...texts.filter((it) => it !== 'outline' || !isTold)];
}
