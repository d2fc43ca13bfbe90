import type { printCodes } from '../../model/catalogue/print.ts';
import type { ExplainPage } from '../explainPage.ts';

/** A page for each code of `print/`; the type holds it complete. */
export const printPages: Readonly<Record<keyof typeof printCodes, ExplainPage>> = {
  O20: {
    why: 'The printed sheets carry their own font, so that they look the same on every printer. It has the Latin, Greek and Cyrillic letters, but no emoji and no other scripts. What it lacks would come out as an empty box, so a mark is set in its place and you are told. The text form of the sheets shows every character that your terminal has.',
    failing: { files: { 'kit.yaml': padKit('moon 🌙') }, run: ['cut', 'kit.yaml', '-o', 'pad.pdf'] },
    mended: { files: { 'kit.yaml': padKit('moon') }, run: ['cut', 'kit.yaml', '-o', 'pad.pdf'] },
  },
  O21: {
    why: 'Every printed page has a bar of 100 mm and one of 4 in, to check the printer by. Paper that has no room for them within its margins, or for a few lines above them, makes no cutting sheet.',
    failing: { files: { 'kit.yaml': onPaper('[90, 140]') }, run: ['cut', 'kit.yaml', '-o', 'pad.pdf'] },
    mended: { files: { 'kit.yaml': onPaper('A5') }, run: ['cut', 'kit.yaml', '-o', 'pad.pdf'] },
  },
  O23: {
    why: 'A page of a PDF that is longer than 200 in, 14 400 units of 1/72 in, is cut off or refused by most readers and printers. Such a size is mostly a slip of the unit.',
    failing: { files: { 'kit.yaml': onPaper('[9000, 9000]') }, run: ['cut', 'kit.yaml', '-o', 'pad.pdf'] },
    mended: { files: { 'kit.yaml': onPaper('[900, 900]') }, run: ['cut', 'kit.yaml', '-o', 'pad.pdf'] },
  },
  O24: {
    why: 'A master that is larger than the paper goes over several pages, which are joined by their crosses. Each joint adds its error, and over so many the master is no longer true.',
    failing: {
      files: { 'kit.yaml': withMaster('[5000, 3000]') },
      run: ['masters', 'kit.yaml', '-o', 'm.pdf'],
    },
    mended: { files: { 'kit.yaml': withMaster('[500, 300]') }, run: ['masters', 'kit.yaml', '-o', 'm.pdf'] },
  },
};

function withMaster(size: string): string {
  return `cardwright: kit
units: mm
materials: { card: { thickness: 1.5 } }
sheets: { card: [{ size: [6000, 4000] }] }
masters: { board: { rectangle: ${size} } }
tiles:
  pad: { footprint: none, parts: { base: { of: card, outline: { master: board } } } }
`;
}

function padKit(label: string): string {
  return `cardwright: kit
units: mm
materials: { card: { thickness: 1.5 } }
sheets: { card: [{ size: [200, 120] }] }
tiles:
  pad: { footprint: none, parts: { base: { of: card, size: [80, 50], label: ${label} } } }
`;
}

function onPaper(paper: string): string {
  return `${padKit('base')}print: { paper: ${paper} }\n`;
}
