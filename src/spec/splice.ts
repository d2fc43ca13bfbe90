import type { Fix, Source } from '../model/index.ts';

/**
 * A text with some of its characters written anew; every other character stays what it was, so comments, order,
 * quotes, anchors and line ends can't be touched.
 *
 * @param edits  of that source, none of them over another
 */
export function spliced({ text }: Source, edits: readonly Fix[]): string {
  const inOrder = [...edits].sort((a, b) => a.span.start - b.span.start || a.span.end - b.span.end);
  let [result, at] = ['', 0];
  for (const { span, text: written } of inOrder) {
    result += text.slice(at, span.start) + written;
    at = span.end;
  }
  return result + text.slice(at);
}
