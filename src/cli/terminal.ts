import type { Sink, World } from './world.ts';

/** How a stream wants its text: how wide, and whether in plain ASCII. */
export interface Look {
  readonly width: number;
  readonly ascii: boolean;
}

export function lookOf(sink: Sink, environment: World['environment']): Look {
  return { width: widthOf(sink, environment), ascii: !promisesUtf8(environment) };
}

/** What a file holds is the same everywhere. */
export const fileLook: Look = { width: 80, ascii: false };

const narrowest = 40;
const usual = 80;

/** The terminal's width, else COLUMNS, else 80; never below what can be read. */
function widthOf(sink: Sink, environment: World['environment']): number {
  const stated = Number(environment.COLUMNS);
  const width = sink.columns || (Number.isInteger(stated) && stated > 0 ? stated : usual);
  return Math.max(width, narrowest);
}

/** POSIX: the first of the three that is set and not empty decides. */
function promisesUtf8({ LC_ALL, LC_CTYPE, LANG }: World['environment']): boolean {
  return /utf-?8/i.test(LC_ALL || LC_CTYPE || LANG || '');
}

/** Our own signs where UTF-8 is not promised. What stands in double quotes are the user's words and stays. */
export function inAscii(text: string): string {
  return text
    .split(/("[^"\n]*")/)
    .map((piece, i) => (i % 2 === 1 ? piece : plain(piece)))
    .join('');
}

const signs: Readonly<Record<string, string>> = {
  '½': '1/2',
  '¼': '1/4',
  '¾': '3/4',
  '⅛': '1/8',
  '⅜': '3/8',
  '⅝': '5/8',
  '⅞': '7/8',
  '″': ' in',
  '′': ' ft',
  '⁄': '/',
  '×': 'x',
  '÷': '/',
  '→': '->',
  '←': '<-',
  '−': '-',
  '–': '-',
  '—': '-',
  '…': '...',
  '≤': '<=',
  '≥': '>=',
  '±': '+-',
  '·': '*',
  µ: 'u',
  '“': '"',
  '”': '"',
  '‘': "'",
  '’': "'",
  '\u00a0': ' ',
};

function plain(text: string): string {
  return text
    .replace(/(\d)([½¼¾⅛⅜⅝⅞])/g, '$1 $2')
    .replace(/[½¼¾⅛⅜⅝⅞″′⁄×÷→←−–—…≤≥±·µ“”‘’\u00a0]/g, (sign) => signs[sign] ?? sign);
}
