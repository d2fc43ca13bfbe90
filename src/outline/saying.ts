import { oneInch, oneMm, rational, roundToStep, scaled, showExact } from '../measure/index.ts';
import {
  type FileUnits,
  type Length,
  type OutlineFault,
  outlineCodes,
  type ShowLength,
} from '../model/index.ts';

/** Lengths in words of a fault: exact, or to 1/64 in or 1/100 mm where they are not rational. */
export function showIn(unit: FileUnits): ShowLength {
  const step: Length = unit === 'in' ? scaled(oneInch, rational(1n, 64n)) : scaled(oneMm, rational(1n, 100n));
  return (length, rounded) =>
    showExact(rounded === undefined || isShort(length) ? length : toStep(length, step, rounded), unit);
}

/** As long as a fraction of a rule, or a decimal that somebody may have typed. */
function isShort({ denominator }: Length): boolean {
  return denominator < 10n ** 6n;
}

function toStep(length: Length, step: Length, rounded: 'up' | 'near'): Length {
  return roundToStep(length, step, rounded === 'up' ? 'up' : 'half up');
}

/** What a fault says and what would do, in words. */
export function inWords(
  fault: OutlineFault,
  show: ShowLength,
): { readonly message: string; readonly hint: string | undefined } {
  // The entry of a code takes that code's facts; the compiler can't follow one code through both.
  const entry = outlineCodes[fault.code] as {
    say: (facts: unknown) => string;
    hint?: (facts: unknown) => string | undefined;
  };
  const facts = fault.facts(show);
  return { message: entry.say(facts), hint: entry.hint?.(facts) };
}
