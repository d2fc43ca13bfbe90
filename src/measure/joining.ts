import { fraction, mark } from './notation.ts';
import { readMeasure } from './reading.ts';
import { unitOf } from './units.ts';

/** A measure of the command line, and whether it was put together from several arguments. */
export interface JoinedArgument {
  readonly text: string;
  readonly isJoined: boolean;
}

/**
 * Puts arguments together that were one measure before the shell took them apart: a whole number and the
 * fraction behind it, a number and its unit, feet and inches that were taken apart too. Two arguments that
 * are measures of their own (`1ft 2in`) stay two.
 *
 *   2 3/8 in 60mm → `2 3/8 in`, `60mm`        1 ft 2 in → `1 ft 2 in`        1 7/4 → `1 7/4`, to be refused
 */
export function joinArguments(args: readonly string[]): readonly JoinedArgument[] {
  const joined: JoinedArgument[] = [];
  for (const text of args) {
    const last = joined.at(-1);
    if (last !== undefined && belongsTo(last.text, text)) {
      joined.splice(-1, 1, { text: `${last.text} ${text}`, isJoined: true });
    } else {
      joined.push({ text, isJoined: false });
    }
  }
  return withInches(joined);
}

const wholeNumber = /^[-\u2212]?\d+$/u;
const number = /^[-\u2212]?[\d.,][^\p{L}]*$|^[-\u2212]?\p{No}$/u;
const beginsWithFraction = new RegExp(`^${fraction}`, 'u');
const endsInUnit = new RegExp(`(?:\\p{L}\\.?|${mark})$`, 'u');

function belongsTo(before: string, text: string): boolean {
  if (wholeNumber.test(before) && beginsWithFraction.test(text)) return true;
  return number.test(before) && !endsInUnit.test(before) && unitOf(text) !== undefined;
}

/** Feet and inches, each put together from a number and a unit of its own, and nothing but these. */
function withInches(joined: readonly JoinedArgument[]): readonly JoinedArgument[] {
  const result: JoinedArgument[] = [];
  for (const it of joined) {
    const last = result.at(-1);
    const together = `${last?.text} ${it.text}`;
    const isOne = last?.isJoined && it.isJoined && reads(together);
    if (isOne) result.splice(-1, 1, { text: together, isJoined: true });
    else result.push(it);
  }
  return result;
}

function reads(text: string): boolean {
  return readMeasure(text).kind !== 'refused';
}
