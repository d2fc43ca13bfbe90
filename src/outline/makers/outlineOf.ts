import { zero } from '../../measure/index.ts';
import type { Length, Loop, Outline } from '../../model/index.ts';
import { areaWithin } from '../area.ts';
import { reversed } from '../loop.ts';
import { hair } from '../root.ts';

/** An outline without holes, its rim turned against the clock whichever way it was drawn. */
export function outlineOf(
  rim: Loop,
  { isExact }: { readonly isExact: boolean } = { isExact: true },
): Outline {
  const within: Length = isExact ? zero : hair;
  return { rim: leftHanded(rim), holes: [], marks: [], within };
}

function leftHanded(loop: Loop): Loop {
  return areaWithin(loop).hi.numerator < 0n ? reversed(loop) : loop;
}
