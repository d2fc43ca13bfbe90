import { bytesOf, type Font, outlinesOf, plainFont, type SetGlyph, type Table } from '../font/index.ts';
import { digestOfTexts } from '../page/index.ts';
import { hexOfNumber, latin1, type PdfFile, type Reference } from './objects.ts';

/** A font of the file: remembers which glyphs were drawn, and carries no others. */
export interface EmbeddedFont {
  /** The operand and operator that show a text, glyph numbers with what kerning takes away or adds. */
  readonly show: (text: string, sizePt: number) => string;
  /** Writes the font, once all that is drawn with it is known. */
  readonly finish: (file: PdfFile, at: Reference) => void;
}

/**
 * A composite font whose codes are the glyphs' own numbers.
 *
 * @param name of the face, without what marks a subset
 * @source ISO 32000-1:2008, 9.6.6 (subsets), 9.7 (composite fonts), 9.8 (descriptors), 9.10.3 (ToUnicode);
 *   OpenType 1.9, "head", "hhea", "OS/2"
 */
export function embedded(font: Font, name: string): EmbeddedFont {
  const used = new Map<number, string>();
  const shown = new Map<string, string>();
  const perMille = 1000 / font.unitsPerEm;
  return {
    show: (text, sizePt) => {
      const before = shown.get(text);
      if (before !== undefined) return before;
      const set = font.set(text);
      for (const { glyph, text: own } of set) if (!used.has(glyph)) used.set(glyph, own);
      const operations = showing(set, font, sizePt);
      // How far an accent is raised depends on the size.
      if (set.every(({ y }) => y === 0)) shown.set(text, operations);
      return operations;
    },
    finish: (file, at) => {
      const glyphs = [...used.keys()].sort((a, b) => a - b);
      const subset = `${markOf(glyphs)}+${name}`;
      const inside = file.addStream('', fileOf(font, glyphs));
      const descriptor = file.add(descriptorOf(font, subset, inside));
      const widths = glyphs.map((glyph) => `${glyph} [${rounded(font.advanceOf(glyph) * perMille)}]`);
      const descendant = file.add(
        `<</Type /Font /Subtype /CIDFontType2 /BaseFont /${subset} /CIDSystemInfo <</Registry (Adobe) /Ordering (Identity) /Supplement 0>> /FontDescriptor ${descriptor} /CIDToGIDMap /Identity /DW 0 /W [${widths.join(' ')}]>>`,
      );
      const meanings = file.addStream('', latin1(toUnicode(glyphs, used)));
      file.put(
        at,
        `<</Type /Font /Subtype /Type0 /BaseFont /${subset} /Encoding /Identity-H /DescendantFonts [${descendant}] /ToUnicode ${meanings}>>`,
      );
    },
  };
}

/**
 * Glyphs side by side as they are, with the difference wherever the next stands nearer or farther.
 *
 *   [<00210038> 42 <0015>] TJ      the third is drawn nearer by 42 thousandths
 */
function showing(set: readonly SetGlyph[], font: Font, sizePt: number): string {
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
  for (const { glyph, advance, x, y } of set) {
    if (y !== raised) {
      endRow();
      operations.push(`${rounded((y / font.unitsPerEm) * sizePt)} Ts`);
      raised = y;
    }
    if (off + x !== 0) {
      endRun();
      row.push(`${rounded(-(off + x) * perMille)}`);
    }
    run += hexOfNumber(glyph);
    off = advance - font.advanceOf(glyph) - x;
  }
  endRow();
  if (raised !== 0) operations.push('0 Ts');
  return operations.join(' ');
}

/** What a printer needs of the font: outlines of these glyphs, and how to fit them to its grid. */
function fileOf({ tables }: Font, glyphs: readonly number[]): Uint8Array {
  const kept = ['hhea', 'maxp', 'hmtx', 'cvt ', 'fpgm', 'prep'].flatMap((tag): readonly Table[] => {
    const table = tables(tag);
    return table === undefined ? [] : [[tag, bytesOf(table)]];
  });
  return plainFont([...kept, ...outlinesOf(tables, glyphs)]);
}

const symbolic = 4;

function descriptorOf({ tables, unitsPerEm }: Font, name: string, file: Reference): string {
  const [head, hhea, os2] = [tables('head'), tables('hhea'), tables('OS/2')];
  if (head === undefined || hhea === undefined || os2 === undefined) throw new Error('no metrics');
  const scaled = (units: number): number => rounded((units * 1000) / unitsPerEm);
  const box = [36, 38, 40, 42].map((at) => scaled(head.getInt16(at)));
  const weight = os2.getUint16(4);
  // Nothing tells how thick stems are; a usual guess from the weight, used only where the font is replaced.
  const stem = Math.round(50 + (weight / 65) ** 2);
  const heights = `/Ascent ${scaled(hhea.getInt16(4))} /Descent ${scaled(hhea.getInt16(6))} /CapHeight ${scaled(os2.getInt16(88))}`;
  return `<</Type /FontDescriptor /FontName /${name} /Flags ${symbolic} /FontBBox [${box.join(' ')}] /ItalicAngle 0 ${heights} /StemV ${stem} /FontFile2 ${file}>>`;
}

/** Six letters that tell one subset of the font from another. */
function markOf(glyphs: readonly number[]): string {
  let left = Number.parseInt(digestOfTexts(glyphs.map(String)), 16);
  let mark = '';
  for (let letter = 0; letter < 6; letter++) {
    mark += String.fromCharCode(65 + (left % 26));
    left = Math.floor(left / 26);
  }
  return mark;
}

/** So many lines are allowed between one `beginbfchar` and its end. */
const mostLines = 100;

/** For search and for reading aloud: which characters a glyph stands for. */
function toUnicode(glyphs: readonly number[], used: ReadonlyMap<number, string>): string {
  const lines = glyphs.map((glyph) => {
    const text = used.get(glyph) ?? '';
    const codes = Array.from({ length: text.length }, (_, at) => hexOfNumber(text.charCodeAt(at)));
    return `<${hexOfNumber(glyph)}> <${codes.join('')}>`;
  });
  const blocks: string[] = [];
  for (let at = 0; at < lines.length; at += mostLines) {
    const block = lines.slice(at, at + mostLines);
    blocks.push(`${block.length} beginbfchar\n${block.join('\n')}\nendbfchar\n`);
  }
  return `/CIDInit /ProcSet findresource begin
12 dict begin
begincmap
/CIDSystemInfo <</Registry (Adobe) /Ordering (UCS) /Supplement 0>> def
/CMapName /Adobe-Identity-UCS def
/CMapType 2 def
1 begincodespacerange
<0000> <FFFF>
endcodespacerange
${blocks.join('')}endcmap
CMapName currentdict /CMap defineresource pop
end
end
`;
}

function rounded(number: number): number {
  return Math.round(number * 1000) / 1000;
}
