import { measurePrefix, readMeasure } from '../../measure/index.ts';
import { type Diagnostic, diagnose, didYouMean, type Place, type Rational } from '../../model/index.ts';
import { dividingWords, nameWord } from './words.ts';

/** A piece of a sum; `start` and `end` are offsets in its text. */
export type Token = { readonly start: number; readonly end: number } & (
  | { readonly kind: 'measure'; readonly amount: Rational; readonly unit: 'bare' | 'length' }
  | { readonly kind: 'name'; readonly name: string }
  | { readonly kind: 'size of'; readonly size: Size; readonly name: string; readonly nameStart: number }
  | { readonly kind: 'sign'; readonly sign: '+' | '-' | '*' | '/' }
  | { readonly kind: 'open' | 'close' | 'smaller' | 'larger' | 'and' }
  | { readonly kind: 'up to' | 'down to' | 'nearest' }
);

type Size = 'thickness' | 'length' | 'width' | 'developed length';

/** What is wrong in a sum, and which of its characters. */
export interface SumFault {
  readonly start: number;
  readonly end: number;
  readonly toDiagnostic: (place: Place) => Diagnostic;
}

/** The pieces of a sum up to its first fault, and that fault. */
export interface Lexed {
  readonly tokens: readonly Token[];
  readonly fault: SumFault | undefined;
}

/**
 * Takes a sum apart. Lengths are read here, exactly, and names may have spaces: whatever parses the result
 * sees neither.
 */
export function lex(text: string): Lexed {
  const tokens: Token[] = [];
  let at = afterSpaces(text, 0);
  while (at < text.length) {
    const next = nextTokens(text, at, tokens.at(-1));
    if ('toDiagnostic' in next) return { tokens, fault: next };
    tokens.push(...next);
    at = afterSpaces(text, next.at(-1)?.end ?? text.length);
  }
  return { tokens, fault: undefined };
}

function nextTokens(text: string, at: number, last: Token | undefined): readonly Token[] | SumFault {
  const character = String.fromCodePoint(text.codePointAt(at) ?? 0);
  if (character === '(') return [{ kind: 'open', start: at, end: at + 1 }];
  if (character === ')') return [{ kind: 'close', start: at, end: at + 1 }];
  const sign = signs[character];
  if (sign !== undefined) return signAt(text, at, at + 1, sign, last);
  const measured = measurePrefix(text, at);
  if (measured > 0) return measureAt(text, at, at + measured);
  if (/\p{L}/u.test(character)) return wordsAt(text, at, last);
  return {
    start: at,
    end: at + character.length,
    toDiagnostic: (place) => diagnose('S65', place, { found: character }),
  };
}

const signs: Readonly<Record<string, '+' | '-' | '*' | '/'>> = {
  '+': '+',
  '-': '-',
  '\u2212': '-',
  '*': '*',
  '\u00d7': '*',
  '\u00b7': '*',
  '/': '/',
  '\u00f7': '/',
};

function signAt(
  text: string,
  start: number,
  end: number,
  sign: '+' | '-' | '*' | '/',
  last: Token | undefined,
): readonly Token[] | SumFault {
  const isInFront = last === undefined || !endsOperand(last);
  const isSpaced = /\s/u.test(text[start - 1] ?? ' ') && /\s/u.test(text[end] ?? ' ');
  if (isInFront || isSpaced) return [{ kind: 'sign', sign, start, end }];
  const written = text.slice(start, end);
  const before = text.slice(last.start, last.end);
  const behind = /^\s*(?<word>[^\s()]*)/u.exec(text.slice(end))?.groups?.word ?? '';
  return {
    start,
    end,
    toDiagnostic: (place) =>
      diagnose('S62', place, { sign: written, instead: `${before} ${written} ${behind}`.trim() }),
  };
}

/** True where an operand ends, so that a sign that follows stands between two of them. */
export function endsOperand({ kind }: Token): boolean {
  return kind === 'measure' || kind === 'name' || kind === 'size of' || kind === 'close';
}

function measureAt(text: string, start: number, end: number): readonly Token[] | SumFault {
  const reading = readMeasure(text.slice(start, end));
  switch (reading.kind) {
    case 'length':
      return [{ kind: 'measure', start, end, amount: reading.length, unit: 'length' }];
    case 'bare':
      return [{ kind: 'measure', start, end, amount: reading.number, unit: 'bare' }];
    case 'refused':
      return { ...reading, start: start + reading.start, end: start + reading.end };
  }
}

interface Word {
  readonly text: string;
  readonly start: number;
  readonly end: number;
}

/** A name, with the word behind it that divides it from what follows. */
function wordsAt(text: string, at: number, last: Token | undefined): readonly Token[] | SumFault {
  const { words, divider } = nameAt(text, at);
  if (divider?.text === 'to' && /^(?:up|down)$/u.test(words.at(-1)?.text ?? '')) {
    const way = words.at(-1) ?? divider;
    const kind = way.text === 'up' ? 'up to' : 'down to';
    return [...nameOf(words.slice(0, -1)), { kind, start: way.start, end: divider.end }];
  }
  if (divider?.text === 'of') return askedOf(text, words, divider);
  if (words.length > 0) return nameOf(words);
  if (divider?.text === 'and' || divider?.text === 'nearest') {
    return [{ kind: divider.text, start: divider.start, end: divider.end }];
  }
  const { start, end } = divider ?? { start: at, end: at + 1 };
  if (divider?.text === 'x') return signAt(text, start, end, '*', last);
  const found = text.slice(start, end);
  return { start, end, toDiagnostic: (place) => diagnose('S65', place, { found }) };
}

/** `thickness of card`, `smaller of …`. */
function askedOf(text: string, words: readonly Word[], of: Word): readonly Token[] | SumFault {
  const asked = words.at(-1);
  const isDeveloped = words.at(-2)?.text === 'developed' && asked?.text === 'length';
  const start = words.at(isDeveloped ? -2 : -1)?.start ?? of.start;
  const front = nameOf(words.slice(0, isDeveloped ? -2 : -1));
  switch (asked?.text) {
    case 'smaller':
    case 'larger':
      return [...front, { kind: asked.text, start, end: of.end }];
    case 'thickness':
    case 'length':
    case 'width': {
      const named = nameAt(text, afterSpaces(text, of.end)).words;
      // `up` and `down` before `to` belong to the rounding that follows.
      const isRounded =
        /^(?:up|down)$/u.test(named.at(-1)?.text ?? '') && /^\s+to\b/u.test(text.slice(named.at(-1)?.end));
      const [name] = nameOf(isRounded ? named.slice(0, -1) : named);
      if (name?.kind !== 'name') return missingBehind(text.slice(start, of.end), of.end, 'a name');
      const size = isDeveloped ? 'developed length' : asked.text;
      return [
        ...front,
        { kind: 'size of', size, name: name.name, nameStart: name.start, start, end: name.end },
      ];
    }
    default: {
      const found = asked?.text ?? '';
      const meant = didYouMean(found, ['thickness', 'length', 'width', 'smaller', 'larger']);
      return { start, end: of.end, toDiagnostic: (place) => diagnose('S69', place, { found, meant }) };
    }
  }
}

/** Something that is missing at `at`; points at what stands before it. */
export function missingBehind(before: string, at: number, wanted: string): SumFault {
  return {
    start: Math.max(0, at - Math.max(before.length, 1)),
    end: at,
    toDiagnostic: (place) => diagnose('S63', place, { before, wanted }),
  };
}

const wordPattern = new RegExp(nameWord, 'uy');

function nameAt(
  text: string,
  from: number,
): { readonly words: readonly Word[]; readonly divider: Word | undefined } {
  const words: Word[] = [];
  for (let at = from; at < text.length; at = afterSpaces(text, at)) {
    wordPattern.lastIndex = at;
    const found = wordPattern.exec(text)?.[0];
    if (found === undefined) break;
    const word = { text: found, start: at, end: at + found.length };
    if (dividingWords.includes(found)) return { words, divider: word };
    // A number with a fraction behind a name is no word of it.
    if (/^[/.\u2044]/u.test(text.slice(word.end)) && /^\d/u.test(found)) break;
    words.push(word);
    at = word.end;
  }
  return { words, divider: undefined };
}

function nameOf(words: readonly Word[]): readonly Token[] {
  const [first, last] = [words[0], words.at(-1)];
  if (first === undefined || last === undefined) return [];
  const name = words
    .map(({ text }) => text)
    .join(' ')
    .normalize('NFC');
  return [{ kind: 'name', name, start: first.start, end: last.end }];
}

function afterSpaces(text: string, from: number): number {
  let at = from;
  while (/\s/u.test(text[at] ?? '')) at++;
  return at;
}
