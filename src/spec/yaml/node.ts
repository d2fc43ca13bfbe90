import type { Source, Span } from '../../model/index.ts';

/** A YAML text as `spec/` sees it: texts, lists and maps, each with its place; every alias is followed. */
export type Node = TextNode | ListNode | MapNode | NothingNode | FaultyNode;

export interface TextNode {
  readonly kind: 'text';
  readonly at: Span;
  /** As YAML reads it: quotes taken off, lines joined. */
  readonly text: string;
  readonly isQuoted: boolean;
}

export interface ListNode {
  readonly kind: 'list';
  readonly at: Span;
  readonly items: readonly Node[];
}

export interface MapNode {
  readonly kind: 'map';
  readonly at: Span;
  readonly entries: readonly Entry[];
}

export interface Entry {
  readonly key: TextNode;
  readonly value: Node;
}

/** Where a value could stand and none does. */
export interface NothingNode {
  readonly kind: 'nothing';
  readonly at: Span;
}

/** What can't be read and has been told already: whoever meets it says no more about it. */
export interface FaultyNode {
  readonly kind: 'faulty';
  readonly at: Span;
}

/** Never beyond the text: what is missing at its end is pointed at there. */
export function span(source: Source, start: number, end: number): Span {
  const last = source.text.length;
  return { source, start: Math.min(start, last), end: Math.min(Math.max(start, end), last) };
}

/** What a message calls a node that is not what was wanted. */
export function kindInWords(node: Node): string {
  switch (node.kind) {
    case 'text':
      return `"${clipped(node.text)}"`;
    case 'list':
      return 'a list';
    case 'map':
      return 'a map';
    case 'nothing':
    case 'faulty':
      return 'nothing';
  }
}

/** A text short enough for a message. */
export function clipped(text: string): string {
  const points = [...text.replace(/\s+/gu, ' ')];
  return points.length <= 60 ? points.join('') : `${points.slice(0, 57).join('')}…`;
}

/**
 * The place of characters `start` to `end` of a node's text. Where quotes with escapes or joined lines make
 * it doubtful which characters of the file those are, the place of the whole text.
 */
export function within({ at, text, isQuoted }: TextNode, start: number, end: number): Span {
  const { source } = at;
  const written = source.text.slice(at.start, at.end);
  if (written === text) return span(source, at.start + start, at.start + end);
  if (isQuoted && written.slice(1, -1) === text) {
    return span(source, at.start + 1 + start, at.start + 1 + end);
  }
  const offsets = isQuoted ? undefined : offsetsOfJoined(written, text);
  const [first, last] = [offsets?.[start], offsets?.[Math.max(start, end - 1)]];
  return first === undefined || last === undefined ? at : span(source, at.start + first, at.start + last + 1);
}

/** Where each character of a plain text of several lines is written; undefined where they don't run together. */
function offsetsOfJoined(written: string, text: string): readonly number[] | undefined {
  const offsets: number[] = [];
  let at = 0;
  for (const character of text.split('')) {
    if (character === ' ' && /\s/u.test(written[at] ?? '')) {
      offsets.push(at);
      while (/\s/u.test(written[at] ?? '')) at++;
    } else if (written[at] === character) {
      offsets.push(at++);
    } else {
      return undefined;
    }
  }
  return offsets;
}

/** Its first line: enough to point at what is large. */
export function firstLineOf({ source, start, end }: Span): Span {
  const line = source.text.slice(start, end).search(/[\r\n]/u);
  return line < 0 ? span(source, start, end) : span(source, start, start + line);
}
