/** What the tests use of fontkit, which publishes no types. */
declare module 'fontkit' {
  export interface Font {
    readonly unitsPerEm: number;
    layout(text: string): {
      readonly advanceWidth: number;
      readonly glyphs: readonly { readonly id: number }[];
      readonly positions: readonly {
        readonly xAdvance: number;
        readonly xOffset: number;
        readonly yOffset: number;
      }[];
    };
    hasGlyphForCodePoint(codePoint: number): boolean;
    getGlyph(id: number): { readonly path: { toSVG(): string } };
  }
  export function create(bytes: Uint8Array): unknown;
}
