import { divide, equal, exactDecimal, toFraction } from '../../measure/index.ts';
import type { Length } from '../../model/index.ts';
import { boxOf } from '../../outline/index.ts';
import {
  type Area,
  leadingOf,
  type Mark,
  type Sizes,
  type Typeface,
  type WordsRole,
  words,
  wrapped,
} from '../page/index.ts';
import { type Bars, barLength } from './correction.ts';
import { drawnWithin, sizeOf } from './drawing.ts';
import { grainOf, type Traced, type TracedMaster, untracedWords } from './tracing.ts';

export interface Note {
  readonly role: WordsRole;
  readonly text: string;
  readonly indentMm: number;
}

/** What is said of a master beside its drawing. */
export function notesOf(traced: TracedMaster, sizes: Sizes, bars: Bars): readonly Note[] {
  const { master, parts } = traced;
  const size = sizeOf(boxOf(master.outline));
  const about = size.isExact ? '' : 'about ';
  return [
    say(`${about}${sizes.pair(size.length, size.width)} ${sizes.unit}. Cut along the middle of the line.`),
    ...(isCurved(traced)
      ? [say(`Curves are straight edges here, at most ${exactDecimal(drawnWithin)} mm off.`)]
      : []),
    say(keptWords(traced)),
    ...correctionNotes(bars),
    ...(parts.length === 0 ? [say(untracedWords(traced))] : []),
    ...parts.map((it) => say(partWords(it, traced), 4)),
  ];
}

function say(text: string, indentMm = 0): Note {
  return { role: 'text', text, indentMm };
}

/** What it is for, and how its hands are had. */
export function keptWords({ hasHands }: TracedMaster): string {
  const kept = 'The master is kept and traced, not built in: trace every part from it, none from a copy.';
  const hands = hasHands
    ? 'Left hand: trace it with this face up. Right hand: turn it over first.'
    : 'It has no hands: either face may be up.';
  return `${kept} ${hands}`;
}

function isCurved({ master: { outline } }: TracedMaster): boolean {
  return [outline.rim, ...outline.holes].some((loop) => loop.some(({ kind }) => kind !== 'line'));
}

/** `8 × RW cheek (cheek of retaining wall), of greyboard, right hand` */
export function partWords(part: Traced, traced: TracedMaster): string {
  const { tile, part: name, material, holes, face, grain } = part;
  const whose = tile === undefined ? '' : ` (${name} of ${tile})`;
  const hand = !traced.hasHands ? '' : face === 'up' ? ', left hand' : ', right hand';
  const own = grainOf(traced) === undefined && grain !== 'any' ? `, grain along the master's ${grain}` : '';
  if (holes > 0) {
    const what = holes === 1 ? 'a hole' : `${holes} holes`;
    return `${what} in each of ${countedWords(part)}${whose}, of ${material}`;
  }
  return `${countedWords(part)}${whose}, of ${material}${hand}${own}`;
}

/** How many fit is known only once they are laid out, as `cut` does. */
function countedWords({ label, count, asFits }: Traced): string {
  if (asFits === undefined || count > 0) return `${count} × ${label}`;
  const most = asFits.most === undefined ? '' : `, up to ${asFits.most}`;
  return `as many as fit${most}: ${label}`;
}

function correctionNotes({ across, up }: Bars): readonly Note[] {
  const one = (bar: Length, way: string): readonly string[] =>
    equal(bar, barLength)
      ? []
      : [
          `${way} by ${toFraction(divide(barLength, bar))}, for a bar of ${exactDecimal(bar) ?? toFraction(bar)} mm`,
        ];
  const both = [...one(across, 'across'), ...one(up, 'up')];
  if (both.length === 0) return [];
  return [say(`Scaled for your printer: ${both.join('; ')}. The bars on this page must measure true now.`)];
}

export function notesMmOf(face: Typeface, notes: readonly Note[], widthMm: number): number {
  return notes.reduce(
    (sum, { role, text, indentMm }) =>
      sum + wrapped(face, role, text, widthMm - indentMm).length * leadingOf(role),
    0,
  );
}

export function setNotes(
  face: Typeface,
  notes: readonly Note[],
  { left, right, top }: Area,
): readonly Mark[] {
  let y = top;
  return notes.flatMap(({ role, text, indentMm }) =>
    wrapped(face, role, text, right - left - indentMm).map((row) => {
      y += leadingOf(role);
      return words(face, role, row, { x: left + indentMm, y: y - leadingOf(role) * 0.24 });
    }),
  );
}
