/** A stretch of a text. */
export interface Stretch {
  readonly start: number;
  readonly end: number;
}

export interface ScannedJson {
  /** Where the value stands that a way leads to; the last on the way that is there. */
  readonly found: Stretch;
  /** Where it stops being JSON; undefined where it is. */
  readonly brokenAt: Stretch | undefined;
}

const token =
  /"(?:[^"\\\p{Cc}]|[\x7f-\x9f]|\\(?:["\\/bfnrt]|u[0-9a-fA-F]{4}))*"|-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][+-]?\d+)?|true|false|null|[[\]{},:]/uy;
const blanks = /[ \t\r\n]*/y;

/** What may come next: `first` ones also end an empty list or object. */
type Wanted = 'value' | 'first value' | 'key' | 'first key' | 'colon' | 'comma' | 'nothing';

interface Open {
  readonly isList: boolean;
  at: string | number;
}

/**
 * Goes through a JSON text once, however deep it is: the parser of the system gives values, but not their places.
 *
 * @source  RFC 8259, sections 2 to 7; a key is compared as it is written, escapes and all
 */
export function scanJson(text: string, way: readonly (string | number)[] = []): ScannedJson {
  const open: Open[] = [];
  let wanted: Wanted = 'value';
  let found: Stretch = { start: 0, end: Math.min(1, text.length) };
  let deepest = -1;
  let last = found;
  for (let at = pastBlanks(text, 0); at < text.length; at = pastBlanks(text, last.end)) {
    token.lastIndex = at;
    const word = token.exec(text)?.[0];
    const here = { start: at, end: at + (word?.length ?? 1) };
    const next: Wanted | undefined = word === undefined ? undefined : after(word, wanted, open);
    if (next === undefined) return { found, brokenAt: here };
    if (wanted.endsWith('value') && word !== ']' && isOn(way, open, word)) {
      const depth = open.length - (isOpening(word) ? 1 : 0);
      if (depth > deepest) [found, deepest] = [here, depth];
    }
    wanted = next;
    last = here;
  }
  const isWhole = wanted === 'nothing' && open.length === 0;
  return { found, brokenAt: isWhole ? undefined : last };
}

function pastBlanks(text: string, from: number): number {
  blanks.lastIndex = from;
  return from + (blanks.exec(text)?.[0].length ?? 0);
}

/** What may follow a word, or undefined where the word may not stand there. Opens and closes lists and objects. */
function after(word: string, wanted: Wanted, open: Open[]): Wanted | undefined {
  const inner = open.at(-1);
  const closed = (): Wanted => (open.length === 0 ? 'nothing' : 'comma');
  if (word === ']' || word === '}') {
    const isList = word === ']';
    const mayClose = wanted === 'comma' || wanted === (isList ? 'first value' : 'first key');
    if (inner?.isList !== isList || !mayClose) return undefined;
    open.pop();
    return closed();
  }
  if (word === ',') {
    if (wanted !== 'comma' || inner === undefined) return undefined;
    if (typeof inner.at === 'number') inner.at++;
    return inner.isList ? 'value' : 'key';
  }
  if (word === ':') return wanted === 'colon' ? 'value' : undefined;
  if (wanted === 'key' || wanted === 'first key') {
    if (!word.startsWith('"') || inner === undefined) return undefined;
    inner.at = word.slice(1, -1);
    return 'colon';
  }
  if (wanted !== 'value' && wanted !== 'first value') return undefined;
  if (!isOpening(word)) return closed();
  open.push({ isList: word === '[', at: word === '[' ? 0 : '' });
  return word === '[' ? 'first value' : 'first key';
}

function isOpening(word: string | undefined): boolean {
  return word === '[' || word === '{';
}

/** True of a value that the way leads to or through; what was opened by the word itself is within it. */
function isOn(way: readonly (string | number)[], open: readonly Open[], word: string | undefined): boolean {
  const depth = open.length - (isOpening(word) ? 1 : 0);
  if (depth > way.length) return false;
  return open.slice(0, depth).every(({ at }, i) => `${at}` === `${way[i]}`);
}
