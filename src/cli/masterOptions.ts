import { compare, isPositive, millimetres, minus, opposite, rational, showExact } from '../measure/index.ts';
import {
  type Diagnostic,
  diagnose,
  didYouMean,
  fine,
  type Length,
  type Outcome,
  refused,
} from '../model/index.ts';
import { type Bars, barLength, trueBars } from '../print/masters/index.ts';
import type { Request } from './arguments.ts';
import { readTyped } from './typedMeasure.ts';

const axes = ['across', 'up'] as const;
/** A printer that is further off was told to fit the page to the paper. */
const mostOff: Length = millimetres(rational(5n));

/** What the bars measure on paper: `across=99.2mm`, each axis once. */
export function readBars({ bar, units }: Pick<Request, 'bar' | 'units'>): Outcome<Bars> {
  const read = bar.map((text) => readBar(text, units));
  const faults: Diagnostic[] = [];
  let bars = trueBars;
  const seen = new Set<string>();
  for (const [i, it] of read.entries()) {
    const text = bar[i] ?? '';
    const axis = typeof it === 'string' ? undefined : it.axis;
    const why =
      typeof it === 'string' ? it : seen.has(it.axis) ? `"${it.axis}" is measured twice` : undefined;
    if (why !== undefined) {
      faults.push(diagnose('C32', { kind: 'argument', argument: `--bar ${text}` }, { found: text, why }));
    }
    if (typeof it === 'string' || axis === undefined) continue;
    seen.add(axis);
    bars = { ...bars, [axis]: it.length };
  }
  return { value: bars, diagnostics: faults };
}

function readBar(
  text: string,
  units: string | undefined,
): { readonly axis: (typeof axes)[number]; readonly length: Length } | string {
  const equals = text.indexOf('=');
  if (equals === -1) return 'there is no =';
  const typed = text.slice(0, equals).trim().toLowerCase();
  const axis = axes.find((it) => it === typed);
  if (axis === undefined) return `a bar runs across or up, not "${typed}"${didYouMean(typed, axes)}`;
  const length = readTyped(text.slice(equals + 1).trim(), units);
  if (typeof length === 'string') return length;
  if (!isPositive(length)) return 'a bar is longer than nothing';
  const off = minus(length, barLength);
  if (compare(off, mostOff) > 0 || compare(off, opposite(mostOff)) < 0) {
    return `${showExact(length, 'mm')} is more than 5 mm off the 100 mm of a bar; a printer set to actual size is nearer`;
  }
  return { axis, length };
}

/** How far apart ordinates stand; undefined where nothing is said. */
export function readPitch({ pitch, units }: Pick<Request, 'pitch' | 'units'>): Outcome<Length | undefined> {
  if (pitch === undefined) return fine(undefined);
  const length = readTyped(pitch, units);
  const why =
    typeof length === 'string' ? length : isPositive(length) ? undefined : 'a pitch is longer than nothing';
  if (typeof length !== 'string' && why === undefined) return fine(length);
  return refused(pitchFault(pitch, why ?? ''));
}

export function pitchFault(pitch: string, why: string): Diagnostic {
  return diagnose('C33', { kind: 'argument', argument: `--pitch ${pitch}` }, { found: pitch, why });
}
