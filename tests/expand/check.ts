import { expect } from 'vitest';
import { expand } from '../../src/expand/index.ts';
import {
  type Batch,
  type Diagnostic,
  inReadingOrder,
  type Overrides,
  type Spec,
} from '../../src/model/index.ts';
import { type Loaded, readSpec } from '../../src/spec/index.ts';

/** What every example may use, if it doesn't say what kind of file it is: one loose part, so that it asks for something. */
const opening = `cardwright: session
units: in
grid: { square: 3 }
materials: { greyboard: { thickness: 1/16 }, card: { thickness: 1/32, grain: yes, flutes: yes } }
loose: { post: { of: greyboard, size: [2, 1/2] } }
`;

export type Files = Readonly<Record<string, string>>;

/**
 * Expands a text in which faults are marked in place, and compares every one of them: code, severity, the
 * characters it points at, its message.
 *
 *     lengths: { step: (risee / 3) }
 *     #                 ^^^^^ error E01: unknown name "risee"
 *
 * @param others  further files that the text `uses`; faults in these are not marked
 */
export function check(marked: string, others: Files = {}): void {
  const text = marked.startsWith('\n') ? marked.slice(1) : marked;
  const bare = text
    .split('\n')
    .filter((line) => !isMark(line))
    .join('\n');
  const whole = complete(bare);
  const { diagnostics } = expandText(bare, others);
  expect(annotated(whole, inReadingOrder(diagnostics))).toBe(complete(text));
}

/** Expands a text that has no faults. */
export function batchOf(text: string, others: Files = {}, overrides: Overrides = {}): Batch {
  const { value, diagnostics } = expandText(text, others, overrides);
  expect(diagnostics.map(({ code, message }) => `${code} ${message}`)).toEqual([]);
  if (value === undefined) throw new Error('there is no batch');
  return value;
}

export function expandText(text: string, others: Files = {}, overrides: Overrides = {}) {
  return expand(specOf(text, others), overrides);
}

/** Reads a text that has nothing wrong before it is expanded. */
export function specOf(text: string, others: Files = {}): Spec {
  const bytes = (it: string) => new TextEncoder().encode(it);
  const load = (path: string): Loaded => {
    const found = others[path];
    return found === undefined
      ? { kind: 'missing', reason: 'no such file' }
      : { kind: 'bytes', bytes: bytes(found) };
  };
  const { value, diagnostics } = readSpec([{ path: 'it.yaml', bytes: bytes(complete(text)) }], load);
  expect(diagnostics.map(({ code, message }) => `${code} ${message}`)).toEqual([]);
  if (value === undefined) throw new Error('there is no spec');
  return value;
}

function complete(text: string): string {
  return /^cardwright:/m.test(text) ? text : `${opening}${text}`;
}

function isMark(line: string): boolean {
  return /^#\s*(\^+|whole file) (error|warning|note|fatal) [A-Z]\d\d: /.test(line);
}

/** The text with a line under each fault, as `check` is given it. */
function annotated(text: string, diagnostics: readonly Diagnostic[]): string {
  const lines = text.split('\n');
  let start = 0;
  const marked = lines.flatMap((line) => {
    const marks = diagnostics.flatMap((it) => markUnder(it, start, line));
    start += line.length + 1;
    return [line, ...marks];
  });
  const whole = diagnostics.filter(({ place }) => place.kind !== 'span');
  const ending = whole.map((it) => `# whole file ${it.severity} ${it.code}: ${it.message}`);
  return [...marked, ...ending].join('\n');
}

function markUnder(
  { place, severity, code, message }: Diagnostic,
  start: number,
  line: string,
): readonly string[] {
  if (place.kind !== 'span' || place.span.source.path !== 'it.yaml') return [];
  const column = place.span.start - start;
  if (column < 0 || column > line.length) return [];
  const carets = '^'.repeat(Math.max(1, Math.min(place.span.end - start, line.length) - column));
  return [`#${' '.repeat(column - 1)}${carets} ${severity} ${code}: ${message}`];
}
