import type { Fault } from '../../model/index.ts';
import { clean } from '../columns/index.ts';

/** What is wrong in a few words, without its numbers. */
export function briefly(fault: Fault): string {
  switch (fault.kind) {
    case 'does not close':
      return `the ${clean(fault.what)} does not close`;
    case 'does not close as marked':
      return `the ${clean(fault.what)} does not close as marked`;
    case 'sticks out':
      return `${clean(fault.part.name)} sticks out at the ${fault.side}`;
    case 'overlaps':
      return `${clean(fault.part.name)} and ${clean(fault.other.name)} are in one place`;
    case 'floats':
      return `${clean(fault.part.name)} touches nothing`;
    case 'hangs on a curve':
      return `${clean(fault.part.name)} hangs on a curve`;
    case 'level is off':
      return `the floor at the ${fault.side} is off its level`;
    case 'no floor':
      return `no floor at the ${fault.side}`;
    case 'steps':
      return `the floor at the ${fault.side} steps`;
    case 'not closed':
      return `the ${fault.side} is not closed`;
    case 'does not fit the rack':
      return `it is too large for ${clean(fault.rack)}`;
    case 'habit':
      return `${clean(fault.part.name)}: ${fault.habit}`;
    case 'thin wall':
      return `a hole leaves too little of ${clean(fault.part.name)}`;
    case 'hole in the air':
      return `a hole at the ${fault.hole.side} has no square part around it`;
    case 'does not meet':
      return `${clean(fault.hole.fitting)} at the ${fault.side} misses ${clean(fault.other)}`;
    case 'holes meet':
      return 'holes come too near each other';
  }
}
