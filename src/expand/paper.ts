import { compare, inches, millimetres, rational } from '../measure/index.ts';
import type { Length, Paper, PaperName } from '../model/index.ts';

/**
 * Named sizes, upright: the length is the longer.
 *
 * @source A0 … A5: ISO 216; letter (ANSI A), ledger (ANSI B): ANSI/ASME Y14.1; legal: `na_legal_8.5x14in` of
 *         PWG 5101.1
 */
export function namedSize(name: PaperName): { readonly length: Length; readonly width: Length } {
  switch (name) {
    case 'a0':
      return { length: mm(1189), width: mm(841) };
    case 'a1':
      return { length: mm(841), width: mm(594) };
    case 'a2':
      return { length: mm(594), width: mm(420) };
    case 'a3':
      return { length: mm(420), width: mm(297) };
    case 'a4':
      return { length: mm(297), width: mm(210) };
    case 'a5':
      return { length: mm(210), width: mm(148) };
    case 'letter':
      return { length: halfInches(22), width: halfInches(17) };
    case 'legal':
      return { length: halfInches(28), width: halfInches(17) };
    case 'ledger':
      return { length: halfInches(34), width: halfInches(22) };
  }
}

/** The size that is called so, in capitals or not. */
export function paperSizeCalled(text: string): ReturnType<typeof namedSize> | undefined {
  const name = paperNames.find((it) => it === text.toLowerCase());
  return name && namedSize(name);
}

export function paperNamed(name: PaperName | 'shared'): Paper {
  if (name === 'shared') return name;
  const { length, width } = namedSize(name);
  return { name, width, height: length };
}

/** The same paper with its longer side across. */
export function lying(paper: Paper): Paper {
  if (paper === 'shared' || paper === 'shared landscape') return 'shared landscape';
  const { width, height } = paper;
  return compare(width, height) >= 0 ? paper : { ...paper, width: height, height: width };
}

/** Across and up, as it lies. What A4 and Letter have in common is as wide as the one and as high as the other. */
export function paperSize(paper: Paper): { readonly width: Length; readonly height: Length } {
  const { width } = namedSize('a4');
  const { length } = namedSize('letter');
  if (paper === 'shared') return { width, height: length };
  if (paper === 'shared landscape') return { width: length, height: width };
  return paper;
}

function mm(amount: number): Length {
  return millimetres(rational(BigInt(amount)));
}

function halfInches(count: number): Length {
  return inches(rational(BigInt(count), 2n));
}

const paperNames: readonly PaperName[] = ['a0', 'a1', 'a2', 'a3', 'a4', 'a5', 'letter', 'legal', 'ledger'];
