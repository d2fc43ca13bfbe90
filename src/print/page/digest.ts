import type { Made, SpecFile } from '../../model/index.ts';

/**
 * Eight hex digits of all texts that were read and all counts that were asked for, so that two prints can be
 * told apart. Not a proof of anything.
 *
 * @source FNV-1a, 32 bits (IETF draft-eastlake-fnv): offset basis 2166136261, prime 16777619
 */
export function digestOf({ spec, batch }: Pick<Made, 'spec' | 'batch'>): string {
  const texts = spec.files.flatMap(textsOf);
  const counts = batch.tiles.map(({ name, count }) => `${count} ${name}`);
  return digestOfTexts([...new Set(texts), ...counts]);
}

export function digestOfTexts(texts: readonly string[]): string {
  let hash = 2166136261;
  for (const character of texts.join('\0')) {
    for (let code = character.codePointAt(0) ?? 0; ; code = Math.floor(code / 256)) {
      hash = Math.imul(hash ^ (code % 256), 16777619) >>> 0;
      if (code < 256) break;
    }
  }
  return hash.toString(16).padStart(8, '0');
}

function textsOf({ source, uses, drawer }: SpecFile): readonly string[] {
  return [source.text, ...uses.flatMap(textsOf), ...(drawer === undefined ? [] : [drawer.source.text])];
}
