/** What stands once where a decimal is rounded, told by its sign. */
export const roundedWords = '~ marks a decimal that is rounded; in brackets how much more it truly is.';

export function hasRounded(texts: readonly string[]): boolean {
  return texts.some((it) => it.includes('~'));
}
