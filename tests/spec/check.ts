import { expect } from 'vitest';
import { type Diagnostic, type Outcome, positionOf, type Spec } from '../../src/model/index.ts';
import { type Loaded, readSpec } from '../../src/spec/index.ts';

const encoder = new TextEncoder();

/** Reads texts as files; the first is the one on the command line, the others are there to be used. */
export function read(text: string, others: Readonly<Record<string, string>> = {}): Outcome<Spec> {
  return readSpec([{ path: 'kit.yaml', bytes: encoder.encode(text) }], (path): Loaded => {
    const found = others[path];
    if (found === undefined) return { kind: 'missing', reason: 'there is no such file' };
    return { kind: 'bytes', bytes: encoder.encode(found) };
  });
}

/**
 * Reads a text with its faults marked in place and compares every diagnostic: code, place and words.
 *
 *   grid: { sqaure: 3 }
 *   #       ^^^^^^ error S34: unknown key …       carets under the faulty words of the line above
 *   ^^^^ error …                                  a fault at the very start of the line above
 *   ! fatal S04: the file is empty                a fault of the file as a whole
 *
 * A text that names no kind of file is a session, which may hold the most.
 */
export function check(fixture: string, others: Readonly<Record<string, string>> = {}): void {
  const { text, marks } = unmarked(fixture.replace(/^\n/u, ''));
  const isWhole = /cardwr/u.test(text);
  const head = isWhole ? '' : 'cardwright: session\n';
  const found = read(head + text, others).diagnostics.map((it) => shown(it, isWhole ? 0 : 1));
  expect([...found].sort()).toEqual([...marks].sort());
}

const mark = /^(?<carets>#? *\^+)? ?(?<said>!? ?(?:fatal|error|warning|note) [A-Z]\d\d: .*)$/u;

export function unmarked(fixture: string): { readonly text: string; readonly marks: readonly string[] } {
  const lines: string[] = [];
  const marks: string[] = [];
  for (const line of fixture.split('\n')) {
    const found = mark.exec(line)?.groups;
    if (found?.said === undefined || (found.carets === undefined && !found.said.startsWith('!'))) {
      lines.push(line);
    } else if (found.carets === undefined) {
      marks.push(found.said.replace(/^! /u, 'file '));
    } else {
      const column = found.carets.indexOf('^');
      marks.push(`${lines.length}:${column + 1}+${found.carets.length - column} ${found.said}`);
    }
  }
  return { text: lines.join('\n'), marks };
}

function shown(diagnostic: Diagnostic, headLines: number): string {
  const said = `${diagnostic.severity} ${diagnostic.code}: ${diagnostic.message}`;
  if (diagnostic.place.kind !== 'span') return `file ${said}`;
  const { line, column, length } = positionOf(diagnostic.place.span);
  return `${line - headLines}:${column}+${Math.max(length, 1)} ${said}`;
}
