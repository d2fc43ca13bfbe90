import type { Drawn, Outline } from '../../model/index.ts';
import { boxOf } from '../box.ts';
import { union } from '../combine.ts';
import { drawn, fault, undrawn } from '../fault.ts';
import { mirrorAt } from '../loop.ts';
import { laid } from './turned.ts';

//   `{ half: OUTLINE }`: it and its mirror image to the right of it, in one.
//
//        ╭──┐              ╭─────╮
//        │  │      →       │     │
//        └──┘              └─────┘
export function wholeOfHalf(half: Outline): Drawn {
  const { right } = boxOf(half);
  const other = laid(half, mirrorAt(right.hi));
  const [whole, ...others] = union(half, other);
  if (whole === undefined || others.length > 0) return undrawn(fault('T18', ['half'], () => ({})));
  return drawn({ ...whole, marks: [...half.marks, ...other.marks] });
}
