/**
 * Characters that no file may hold: controls (but for tab and line ends), those that turn the direction of
 * writing, which can make a text read otherwise than it is, the byte order mark inside a text, and the
 * separators of lines and paragraphs.
 */
const unseen =
  /[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f-\u009f\u061c\u200e\u200f\u2028-\u202e\u2066-\u2069\ufeff\ufffe\uffff]/u;

/** Where the first such character of a text stands. */
export function unseenCharacterIn(
  text: string,
): { readonly index: number; readonly name: string } | undefined {
  const found = unseen.exec(text);
  return found === null ? undefined : { index: found.index, name: nameOf(found[0]) };
}

function nameOf(character: string): string {
  return `U+${(character.codePointAt(0) ?? 0).toString(16).toUpperCase().padStart(4, '0')}`;
}
