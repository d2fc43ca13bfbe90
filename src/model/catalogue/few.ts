/** As many names as one can take in at a glance. */
export function few(names: readonly string[]): string {
  const shown = [...new Set(names)];
  return shown.length <= 8
    ? shown.join(', ')
    : `${shown.slice(0, 8).join(', ')} and ${shown.length - 8} more`;
}
