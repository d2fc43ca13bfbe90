/** `a, b and c`, or with another word before the last. */
export function listed(words: readonly string[], before: 'and' | 'or' = 'and'): string {
  const last = words.at(-1) ?? '';
  return words.length < 2 ? last : `${words.slice(0, -1).join(', ')} ${before} ${last}`;
}
