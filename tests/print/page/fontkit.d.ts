/** What the tests use of fontkit, which publishes no types. */
declare module 'fontkit' {
  export interface Font {
    readonly unitsPerEm: number;
    layout(text: string): { readonly advanceWidth: number };
    hasGlyphForCodePoint(codePoint: number): boolean;
  }
  export function create(bytes: Uint8Array): unknown;
}
