/**
 * The glyph of a character; 0 where the font has none.
 *
 * @source OpenType 1.9, "cmap: Character to Glyph Index Mapping Table" (formats 4 and 12)
 */
export function glyphsByCharacter(cmap: DataView): (codePoint: number) => number {
  const at = bestSubtable(cmap);
  if (at === undefined) return () => 0;
  return cmap.getUint16(at) === 12 ? byGroups(cmap, at) : bySegments(cmap, at);
}

/** The one with the most characters that this reads. */
function bestSubtable(cmap: DataView): number | undefined {
  const all = Array.from({ length: cmap.getUint16(2) }, (_, index) => cmap.getUint32(4 + 8 * index + 4));
  return all.find((at) => cmap.getUint16(at) === 12) ?? all.find((at) => cmap.getUint16(at) === 4);
}

function byGroups(cmap: DataView, at: number): (codePoint: number) => number {
  const count = cmap.getUint32(at + 12);
  return (codePoint) => {
    for (let group = at + 16; group < at + 16 + 12 * count; group += 12) {
      const first = cmap.getUint32(group);
      if (codePoint < first || codePoint > cmap.getUint32(group + 4)) continue;
      return cmap.getUint32(group + 8) + codePoint - first;
    }
    return 0;
  };
}

function bySegments(cmap: DataView, at: number): (codePoint: number) => number {
  const twice = cmap.getUint16(at + 6);
  const ends = at + 14;
  const starts = ends + twice + 2;
  return (codePoint) => {
    for (let segment = 0; segment < twice; segment += 2) {
      if (codePoint > cmap.getUint16(ends + segment)) continue;
      const start = cmap.getUint16(starts + segment);
      if (codePoint < start) return 0;
      const delta = cmap.getUint16(starts + twice + segment);
      const ranges = starts + 2 * twice + segment;
      const offset = cmap.getUint16(ranges);
      if (offset === 0) return (codePoint + delta) & 0xffff;
      const glyph = cmap.getUint16(ranges + offset + 2 * (codePoint - start));
      return glyph === 0 ? 0 : (glyph + delta) & 0xffff;
    }
    return 0;
  };
}
