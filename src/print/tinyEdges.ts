import { absolute, compare, minus, multiply, rational } from '../measure/index.ts';
import type { Length, Outline, Segment } from '../model/index.ts';

/** Nearer than this, two points are one to whoever lays a rule on: half of its graduation. */
export function tellsApart(step: Length): Length {
  return multiply(step, rational(1n, 2n)) as Length; // half of a length is one
}

/**
 * The rim without straight edges so short that no rule tells their ends apart, such as the chamfer that a clearance
 * leaves where an arch springs. For words alone: what lies beside them is as it is, and does not meet any more.
 */
export function withoutTiny({ rim }: Pick<Outline, 'rim'>, least: Length): readonly Segment[] {
  return rim.filter((_, at) => !isTiny(rim, at, least));
}

/** True for a straight edge whose ends no rule tells apart, but not for one of a run of them, which leads somewhere. */
export function isTiny(rim: readonly Segment[], at: number, least: Length): boolean {
  const beside = [rim.at(at - 1), rim[(at + 1) % rim.length]];
  const edge = rim.at(at);
  return (
    edge !== undefined &&
    isShort(edge, least) &&
    !beside.some((it) => it !== undefined && it !== edge && isShort(it, least))
  );
}

function isShort({ kind, from, to }: Segment, least: Length): boolean {
  return kind === 'line' && isWithin(minus(to.x, from.x), least) && isWithin(minus(to.y, from.y), least);
}

/** True where a distance, either way, is less. */
export function isWithin(distance: Length, least: Length): boolean {
  return compare(absolute(distance), least) < 0;
}
