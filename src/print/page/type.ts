import type { Area, Point, Weight, Words, WordsRole } from './mark.ts';

/** What stands for a character that the font lacks: never an empty box. */
export const missingMark = '\ufffd';

/** What composition has to know of a font; a renderer hands it in. */
export interface Typeface {
  /** Along the baseline, kerning and built-up fractions as they will be drawn. */
  readonly widthMm: (text: string, weight: Weight, sizePt: number) => number;
  readonly has: (codePoint: number) => boolean;
}

export const mmPerPt = 25.4 / 72;

/** Above and below the baseline, in parts of the size: room for the tallest and deepest letters. */
const rise = 0.78;
const fall = 0.24;

/** Arm's length: nothing below the first, no built-up fraction below the second. */
export const leastPt = 9;
export const leastFractionPt = 11;
const fractionSlash = '\u2044';

interface Style {
  readonly weight: Weight;
  readonly sizePt: number;
}

const styles: Readonly<Record<WordsRole, Style>> = {
  statement: { weight: 'semibold', sizePt: 17 },
  title: { weight: 'semibold', sizePt: 15 },
  heading: { weight: 'semibold', sizePt: 12 },
  text: { weight: 'regular', sizePt: 11 },
  caption: { weight: 'regular', sizePt: 9 },
  'part label': { weight: 'semibold', sizePt: 10 },
  'tight label': { weight: 'semibold', sizePt: 9 },
  'part size': { weight: 'regular', sizePt: 11 },
  'left over': { weight: 'regular', sizePt: 9.5 },
  key: { weight: 'semibold', sizePt: 9 },
  'running mark': { weight: 'regular', sizePt: 11 },
  'strip name': { weight: 'regular', sizePt: 10 },
  'step number': { weight: 'semibold', sizePt: 9 },
  'scale bar': { weight: 'regular', sizePt: 9 },
};

export function sizePtOf(role: WordsRole, text: string): number {
  const { sizePt } = styles[role];
  return text.includes(fractionSlash) ? Math.max(sizePt, leastFractionPt) : sizePt;
}

export function widthOf(face: Typeface, role: WordsRole, text: string): number {
  return face.widthMm(settable(face, text), styles[role].weight, sizePtOf(role, text));
}

/** Height from the deepest to the tallest letter. */
export function heightOf(role: WordsRole, text = ''): number {
  return (rise + fall) * sizePtOf(role, text) * mmPerPt;
}

/** From one baseline to the next of running text. */
export function leadingOf(role: WordsRole): number {
  return 1.16 * Math.max(styles[role].sizePt, leastFractionPt) * mmPerPt;
}

/** @param at where the baseline starts */
export function words(face: Typeface, role: WordsRole, text: string, at: Point, turned = false): Words {
  const { weight } = styles[role];
  const set = settable(face, text);
  const sizePt = sizePtOf(role, set);
  const widthMm = face.widthMm(set, weight, sizePt);
  return { kind: 'words', role, text: set, at, turned, weight, sizePt, widthMm };
}

export function wordsEndingAt(face: Typeface, role: WordsRole, text: string, at: Point): Words {
  return words(face, role, text, { x: at.x - widthOf(face, role, text), y: at.y });
}

/** Centred on a point both ways; turned texts run upwards. */
export function wordsAround(
  face: Typeface,
  role: WordsRole,
  text: string,
  centre: Point,
  turned = false,
): Words {
  return centred(words(face, role, text, centre, turned), centre);
}

/** The same words about another place. */
export function centred(it: Words, { x, y }: Point): Words {
  const half = it.widthMm / 2;
  // A line looks centred when its capitals and figures are, not its box.
  const drop = 0.35 * it.sizePt * mmPerPt;
  return { ...it, at: it.turned ? { x: x + drop, y: y + half } : { x: x - half, y: y + drop } };
}

/** The box that its letters may reach. */
export function areaOf({ at, turned, sizePt, widthMm }: Words): Area {
  const up = rise * sizePt * mmPerPt;
  const down = fall * sizePt * mmPerPt;
  return turned
    ? { left: at.x - up, right: at.x + down, top: at.y - widthMm, bottom: at.y }
    : { left: at.x, right: at.x + widthMm, top: at.y - up, bottom: at.y + down };
}

/** Breaks at spaces; a word wider than the column is broken where it must be. */
export function wrapped(face: Typeface, role: WordsRole, text: string, widthMm: number): readonly string[] {
  return rowsIn(paragraphOf(face, role, text), widthMm);
}

/** The same with a first row that is less wide than those below it, since something stands beside it. */
export function wrappedBeside(
  face: Typeface,
  role: WordsRole,
  text: string,
  { firstMm, widthMm }: { readonly firstMm: number; readonly widthMm: number },
): readonly string[] {
  const paragraph = paragraphOf(face, role, text);
  const narrow = rowsIn(paragraph, firstMm);
  const [first = ''] = narrow;
  const taken = first.split(' ').length;
  const isOfWholeWords =
    paragraph.words
      .slice(0, taken)
      .map((it) => it.text)
      .join(' ') === first;
  if (narrow.length < 2 || !isOfWholeWords) return narrow;
  return [first, ...rowsIn({ ...paragraph, words: paragraph.words.slice(taken) }, widthMm)];
}

/** A text with its words measured, to be broken into rows of any width. */
export interface Paragraph {
  readonly measure: (part: string) => Measured;
  readonly spaceEm: number;
  readonly words: readonly Measured[];
}

interface Measured {
  readonly text: string;
  readonly widthEm: number;
  readonly sizePt: number;
}

export function paragraphOf(face: Typeface, role: WordsRole, text: string): Paragraph {
  const { weight } = styles[role];
  const measure = (part: string): Measured => ({
    text: part,
    widthEm: face.widthMm(part, weight, 1),
    sizePt: sizePtOf(role, part),
  });
  return {
    measure,
    spaceEm: face.widthMm(' ', weight, 1),
    words: settable(face, text).split(' ').map(measure),
  };
}

export function rowsIn({ measure, spaceEm, words }: Paragraph, widthMm: number): readonly string[] {
  const rows: string[] = [];
  let row = measure('');
  for (const word of words) {
    const longer = row.text === '' ? word : joined(row, spaceEm, word);
    if (fits(longer, widthMm)) {
      row = longer;
      continue;
    }
    if (row.text !== '') rows.push(row.text);
    row = word;
    while (!fits(row, widthMm) && row.text.length > 1) {
      const letters: readonly string[] = [...row.text];
      let count = letters.length - 1;
      while (count > 1 && !fits(measure(letters.slice(0, count).join('')), widthMm)) count--;
      rows.push(letters.slice(0, count).join(''));
      row = measure(letters.slice(count).join(''));
    }
  }
  return [...rows, row.text];
}

/** No font of ours kerns beside a space, so a row is as wide as its words and the spaces between them. */
function joined(row: Measured, spaceEm: number, word: Measured): Measured {
  return {
    text: `${row.text} ${word.text}`,
    widthEm: row.widthEm + spaceEm + word.widthEm,
    // One fraction makes the whole row larger.
    sizePt: Math.max(row.sizePt, word.sizePt),
  };
}

function fits({ widthEm, sizePt }: Measured, widthMm: number): boolean {
  return widthEm * sizePt <= widthMm;
}

const plainText = /^[\x20-\x7e\u00a0\u00d7\u2009\u2044\u2212\u00b7\u2026]*$/u;

/**
 * The text as the font can set it: line breaks and tabs are spaces, what can't be seen is left out, and a run
 * of characters that the font lacks (an emoji is often several) is one mark.
 */
export function settable(face: Typeface, text: string): string {
  if (plainText.test(text)) return text;
  let set = '';
  for (const character of text
    .normalize('NFC')
    .replace(/[\s\p{Zl}\p{Zp}]/gu, (it) => (it === '\u00a0' || it === '\u2009' ? it : ' '))) {
    if (/[\p{Cc}\p{Cf}]/u.test(character)) continue;
    if (isIn(face, character)) set += character;
    else if (!set.endsWith(missingMark)) set += missingMark;
  }
  return set;
}

/** The characters of a text that the font lacks, each once. */
export function lackingIn(face: Typeface, text: string): readonly string[] {
  if (plainText.test(text)) return [];
  const seen = [...text.normalize('NFC')].filter((it) => !/[\s\p{Cc}\p{Cf}\p{Zl}\p{Zp}]/u.test(it));
  return [...new Set(seen.filter((it) => !isIn(face, it)))];
}

function isIn(face: Typeface, character: string): boolean {
  return face.has(character.codePointAt(0) ?? 0);
}

/** Fewer letters than these tell no names apart. */
const leastKept = 7;

/** Leaves out the middle of a name that is too long: both ends tell names apart. Undefined if hopeless. */
export function shortened(
  face: Typeface,
  role: WordsRole,
  text: string,
  widthMm: number,
): string | undefined {
  if (widthOf(face, role, text) <= widthMm) return text;
  const letters = [...settable(face, text)];
  for (let kept = letters.length - 1; kept >= leastKept; kept--) {
    const head = letters
      .slice(0, Math.ceil(kept / 2))
      .join('')
      .trimEnd();
    const tail = letters
      .slice(letters.length - Math.floor(kept / 2))
      .join('')
      .trimStart();
    if (widthOf(face, role, `${head}…${tail}`) <= widthMm) return `${head}…${tail}`;
  }
  return undefined;
}
