import type { Span } from './source.ts';

/** Where a span stands, as people and editors count: lines and columns from 1, in code points. */
export interface Position {
  readonly line: number;
  readonly column: number;
  /** Code points of the span that stand on its first line. */
  readonly length: number;
}

export function positionOf({ source, start, end }: Span): Position {
  const before = source.text.slice(0, start);
  const lineStart = afterLastBreak(before);
  const shown = firstLine(source.text.slice(start, end));
  return {
    line: 1 + countBreaks(before, source.text[start]),
    column: 1 + countCodePoints(before.slice(lineStart)),
    length: countCodePoints(shown),
  };
}

/** The whole line that a span begins on, without its line break. */
export function lineOf({ source, start }: Pick<Span, 'source' | 'start'>): string {
  const lineStart = afterLastBreak(source.text.slice(0, start));
  return firstLine(source.text.slice(lineStart));
}

// YAML 1.2.2, section 5.4: a line ends with LF, CR LF or a lone CR.
function countBreaks(text: string, next: string | undefined): number {
  let breaks = 0;
  for (let i = 0; i < text.length; i++) {
    const follower = i + 1 < text.length ? text[i + 1] : next;
    if (text[i] === '\n' || (text[i] === '\r' && follower !== '\n')) breaks++;
  }
  return breaks;
}

function afterLastBreak(text: string): number {
  return Math.max(text.lastIndexOf('\n'), text.lastIndexOf('\r')) + 1;
}

function firstLine(text: string): string {
  const end = text.search(/[\r\n]/);
  return end === -1 ? text : text.slice(0, end);
}

function countCodePoints(text: string): number {
  let count = 0;
  for (const _ of text) count++;
  return count;
}
