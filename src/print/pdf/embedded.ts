import type { Font, SetGlyph } from '../font/index.ts';

/** A font that the file carries: of its glyphs, those that were drawn. */
export interface EmbeddedFont {
  /** In the resources of each page. */
  readonly name: string;
  /** The operand and operator that show a text: glyphs, with what kerning takes away or adds. */
  readonly show: (text: string, sizePt: number) => string;
  /** What the resources name. */
  readonly reference: () => unknown;
}

/** A font as pdfkit keeps it, and gathers the glyphs that its file needs; its published types don't tell. */
export interface PdfFont {
  readonly id: string;
  readonly ref: () => unknown;
  /** Gives a glyph of the font its number in the file. */
  readonly subset: { includeGlyph(glyph: number): number };
  /** By number in the file: thousandths of an em, and the characters it stands for. */
  readonly widths: (number | undefined)[];
  readonly unicode: (readonly number[] | undefined)[];
}

export function embedded(font: Font, carried: PdfFont): EmbeddedFont {
  const shown = new Map<string, string>();
  const numberOf = ({ glyph, text }: SetGlyph): string => {
    const number = carried.subset.includeGlyph(glyph);
    carried.widths[number] ??= (font.advanceOf(glyph) * 1000) / font.unitsPerEm;
    carried.unicode[number] ??= Array.from(text, (letter) => letter.codePointAt(0) ?? 0);
    return number.toString(16).padStart(4, '0');
  };
  return {
    name: carried.id,
    reference: () => carried.ref(),
    show: (text, sizePt) => {
      const before = shown.get(text);
      if (before !== undefined) return before;
      const set = font.set(text);
      const operations = showing(set, font, sizePt, numberOf);
      // How far an accent is raised depends on the size.
      if (set.every(({ y }) => y === 0)) shown.set(text, operations);
      return operations;
    },
  };
}

/**
 * Glyphs side by side as they are, with the difference wherever the next stands nearer or farther.
 *
 *   [<00210038> 42 <0015>] TJ      the third is drawn nearer by 42 thousandths
 */
function showing(
  set: readonly SetGlyph[],
  font: Font,
  sizePt: number,
  numberOf: (glyph: SetGlyph) => string,
): string {
  const perMille = 1000 / font.unitsPerEm;
  const operations: string[] = [];
  let row: string[] = [];
  let run = '';
  const endRun = (): void => {
    if (run !== '') row.push(`<${run}>`);
    run = '';
  };
  const endRow = (): void => {
    endRun();
    const [only, ...others] = row;
    if (only !== undefined) operations.push(others.length === 0 ? `${only} Tj` : `[${row.join(' ')}] TJ`);
    row = [];
  };
  // How far the pen is from where the next glyph begins, and how high above the line.
  let off = 0;
  let raised = 0;
  for (const placed of set) {
    const { glyph, advance, x, y } = placed;
    if (y !== raised) {
      endRow();
      operations.push(`${rounded((y / font.unitsPerEm) * sizePt)} Ts`);
      raised = y;
    }
    if (off + x !== 0) {
      endRun();
      row.push(`${rounded(-(off + x) * perMille)}`);
    }
    run += numberOf(placed);
    off = advance - font.advanceOf(glyph) - x;
  }
  endRow();
  if (raised !== 0) operations.push('0 Ts');
  return operations.join(' ');
}

function rounded(number: number): number {
  return Math.round(number * 1000) / 1000;
}
