import { inches, millimetres, readMeasure } from '../measure/index.ts';
import type { Length } from '../model/index.ts';

/** A measure on the command line, or why it is none. A bare number says no unit, so --units has to. */
export function readTyped(text: string, units: string | undefined): Length | string {
  const reading = readMeasure(text);
  if (reading.kind === 'refused') return `no measure is written as "${text}"`;
  if (reading.kind === 'length') return reading.length;
  if (units === 'in') return inches(reading.number);
  if (units === 'mm') return millimetres(reading.number);
  return `${text} in or ${text} mm?`;
}
