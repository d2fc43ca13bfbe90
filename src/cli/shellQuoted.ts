/** As it can be pasted into a shell. */
export function shellQuoted(path: string): string {
  const quoted = /^[\w@%+=:,./-]+$/.test(path) ? path : `'${path.replaceAll("'", `'\\''`)}'`;
  return path.startsWith('-') ? `-- ${quoted}` : quoted;
}
