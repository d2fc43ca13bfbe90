import { zero } from '../../measure/index.ts';
import type {
  AsFits,
  Batch,
  Loop,
  Master,
  MaterialDemand,
  Outline,
  PartKind,
  PartMember,
  Side,
} from '../../model/index.ts';
import { mirrored, outlineKey, reversed, tellsHands, turned } from '../../outline/index.ts';

/** Parts that are traced from a master, and how it lies then. */
export interface Traced {
  /** As it is written on the part, e.g. `RW cheek`. */
  readonly label: string;
  /** Undefined for a loose part. */
  readonly tile: string | undefined;
  readonly part: string;
  readonly material: string;
  /** Over the whole batch; of what is made as often as it fits, what is known before it is laid out: 0. */
  readonly count: number;
  /** Where it is made as often as it fits. */
  readonly asFits: AsFits | undefined;
  /** So many holes of each are traced from it; 0: the part itself is. */
  readonly holes: number;
  /** The printed face of the master up, or down. */
  readonly face: 'up' | 'down';
  /** Which side of the master runs with the grain. */
  readonly grain: Side | 'any';
}

/** A master with all that is traced from it, in the order of the batch. */
export interface TracedMaster {
  readonly master: Master;
  readonly parts: readonly Traced[];
  /** Labels of parts that it helps to draw, but that are not traced from it: it is cut away from them, say. */
  readonly shapes: readonly string[];
  /** True where its mirror image is another part. */
  readonly hasHands: boolean;
}

export function tracedMasters(batch: Batch): readonly TracedMaster[] {
  return (batch.masters ?? []).map((master) => ({
    master,
    parts: batch.materials.flatMap((demand) =>
      kindsOf(demand).flatMap((kind) =>
        kind.members.flatMap((member) => tracedFrom(master, kind, member, demand.material.name)),
      ),
    ),
    shapes: shapedBy(master, batch),
    hasHands: tellsHands(master.outline),
  }));
}

/** What is counted, and what is made as often as it fits: both are traced. */
function kindsOf({ parts, fillers = [] }: MaterialDemand): readonly PartKind[] {
  return [...parts, ...fillers];
}

function shapedBy({ name }: Master, { materials }: Batch): readonly string[] {
  const members = materials.flatMap((demand) => kindsOf(demand).flatMap((kind) => kind.members));
  const shaped = members.filter(({ drawn }) => drawn?.drawnWith?.includes(name) === true);
  return [...new Set(shaped.map(({ label }) => label))];
}

function tracedFrom(master: Master, kind: PartKind, member: PartMember, material: string): readonly Traced[] {
  const { drawn, label, tile, part, count, asFits } = member;
  if (drawn === undefined) return [];
  const who = { label, tile, part, material, count, asFits };
  if (drawn.master !== master.name) {
    const holes = drawn.outline?.holes.filter((hole) => isDrawnAs(hole, master.outline)).length ?? 0;
    return holes === 0 ? [] : [{ ...who, holes, face: 'up', grain: 'any' }];
  }
  const face = drawn.isMirrored ? 'down' : 'up';
  const quarters = [member.isTurned === true, isOnItsSide(master.outline, drawn.outline)];
  const grain = quarters.filter((it) => it).length === 1 ? otherSide(kind.grain) : kind.grain;
  return [{ ...who, holes: 0, face, grain }];
}

/** True for a hole that has the rim of the master, as it is drawn or turned by quarters. */
function isDrawnAs(hole: Loop, { rim }: Outline): boolean {
  const alone = (loop: Loop): Outline => ({ rim: loop, holes: [], marks: [], within: zero });
  const [own, key] = [alone(reversed(hole)), outlineKey(alone(rim))];
  return [own, turned(own, 90), turned(own, 180), turned(own, 270)].some((it) => outlineKey(it) === key);
}

/** True where the part is the master turned by a quarter. A part that is cut further is taken to lie as drawn. */
function isOnItsSide(master: Outline, part: Outline | undefined): boolean {
  if (part === undefined) return false;
  const key = outlineKey(part);
  const isLike = (by: 90 | 180 | 270): boolean =>
    [master, mirrored(master)].some((it) => outlineKey(turned(it, by)) === key);
  const isUpright = [master, mirrored(master)].some((it) => outlineKey(it) === key) || isLike(180);
  return !isUpright && (isLike(90) || isLike(270));
}

function otherSide(grain: Side | 'any'): Side | 'any' {
  return grain === 'any' ? grain : grain === 'length' ? 'width' : 'length';
}

/** What is said of a master that nothing is traced from. */
export function untracedWords({ shapes }: TracedMaster): string {
  if (shapes.length === 0) return 'No part of this batch is traced from it.';
  return `Nothing is traced from it; it is part of the drawing of ${shapes.join(', ')}.`;
}

/** The side of the master that all its parts have along the grain; undefined where they don't agree on one. */
export function grainOf({ parts }: TracedMaster): Side | undefined {
  const sides = new Set(parts.flatMap(({ grain, holes }) => (holes === 0 ? grain : [])));
  const [only] = sides;
  return sides.size === 1 && only !== 'any' ? only : undefined;
}
