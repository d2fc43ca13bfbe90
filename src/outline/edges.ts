import { toFraction } from '../measure/index.ts';
import type { Bevel, Rebate } from '../model/index.ts';

/** The same text for bevels that are cut alike, at whichever side. */
export function bevelKey({ longFace, back, thickness }: Bevel): string {
  return `bevel ${longFace} ${[back.lo, back.hi, thickness].map(toFraction).join(' ')}`;
}

/** The same text for rebates that are cut alike, at whichever side. */
export function rebateKey({ longFace, wide, stays }: Rebate): string {
  return `rebate ${longFace} ${[wide, stays].map(toFraction).join(' ')}`;
}

/** The same text for the same edges of a drawing, in whichever order. */
export function edgesKey({
  bevels = [],
  rebates = [],
}: {
  readonly bevels?: readonly Bevel[];
  readonly rebates?: readonly Rebate[];
}): string {
  return [
    ...bevels.map((it) => `${it.side} ${bevelKey(it)}`),
    ...rebates.map((it) => `${it.side} ${rebateKey(it)}`),
  ]
    .sort()
    .join(', ');
}
