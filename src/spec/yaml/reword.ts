import {
  atSpan,
  type Beside,
  type Code,
  type Diagnostic,
  diagnose,
  positionOf,
  type Source,
} from '../../model/index.ts';
import { clipped, firstLineOf, span } from './node.ts';

/** What the YAML library says of a fault, in its own code and words. */
export interface LibraryFault {
  readonly code: string;
  readonly start: number;
  readonly message: string;
}

/** Brackets and quotes: once one of them is amiss, what the library says of the rest is noise. */
const derailing: readonly Code[] = ['S11', 'S12', 'S27'];

/** All faults that don't follow from an earlier one, in their order. */
export function independentFaults(source: Source, faults: readonly LibraryFault[]): readonly Diagnostic[] {
  const said: Diagnostic[] = [];
  let [lastLine, lastCode]: [number, Code | undefined] = [-1, undefined];
  for (const fault of [...faults].sort((a, b) => a.start - b.start)) {
    const diagnostic = reworded(source, fault);
    if (diagnostic.place.kind !== 'span') continue;
    const { span: at } = diagnostic.place;
    const { line } = positionOf(at);
    // One line has one cause, and lines in a row that are all indented alike have one too.
    const follows =
      line <= lastLine || (line === lastLine + 1 && diagnostic.code === 'S15' && lastCode === 'S15');
    [lastLine, lastCode] = [Math.max(line, lastLine), diagnostic.code];
    if (!follows) said.push(diagnostic);
    const quotes = source.text.slice(at.start, at.end).match(/"|'/g) ?? [];
    const isOpen = diagnostic.code === 'S14' && quotes.length % 2 === 1;
    if (derailing.includes(diagnostic.code) || isOpen) break;
  }
  return said;
}

/**
 * YAML's own faults in a maker's words. The library speaks of implicit keys and flow sequences; what a maker
 * did is a quote, a bracket, a tab or an indentation, and that is looked for at the place it names.
 */
function reworded(source: Source, fault: LibraryFault): Diagnostic {
  const { text } = source;
  const lineStart =
    Math.max(text.lastIndexOf('\n', fault.start - 1), text.lastIndexOf('\r', fault.start - 1)) + 1;
  const at = {
    source,
    text,
    lineStart,
    start: Math.min(fault.start, text.length),
    line: lineFrom(text, lineStart),
  };
  return (
    bySign(at, fault) ??
    byQuote(at, fault) ??
    byComma(at, fault) ??
    byBracket(at, fault) ??
    byColon(at, fault) ??
    misaligned(at)
  );
}

interface Spot {
  readonly source: Source;
  readonly text: string;
  readonly start: number;
  readonly lineStart: number;
  readonly line: string;
}

function bySign(
  { source, text, start, lineStart, line }: Spot,
  { code, message }: LibraryFault,
): Diagnostic | undefined {
  if (code === 'TAB_AS_INDENT' || /^ *\t/u.test(line)) {
    const tab = text.indexOf('\t', lineStart);
    return diagnose('S10', atSpan(span(source, tab, tab + 1)), {});
  }
  if (code === 'BAD_DQ_ESCAPE') {
    return diagnose('S25', atSpan(span(source, start, start + 2)), { found: text.slice(start, start + 2) });
  }
  // `> 2 in` and `|x` are faulty behind their sign, which is what has to be quoted.
  const sign = /block scalar header|Not a YAML token/iu.test(message)
    ? text.slice(lineStart, start).search(/[>|]\S*\s*$/u)
    : -1;
  const first = sign >= 0 ? lineStart + sign : start;
  const isSpecial =
    code === 'BAD_SCALAR_START' || code === 'BAD_ALIAS' || code === 'BAD_DIRECTIVE' || sign >= 0;
  if (!isSpecial) return undefined;
  const found = textFrom(text, first);
  return diagnose('S13', atSpan(span(source, first, first + found.length)), {
    found,
    sign: text[first] ?? '',
  });
}

function byQuote(
  { source, text, start, lineStart, line }: Spot,
  { code, message }: LibraryFault,
): Diagnostic | undefined {
  // Anything right behind a closing quote: `"4"", 3` and `"4" in`.
  const behind =
    /(?:^|[[{,:-]\s*|\s)(?<quoted>(?<quote>["'])(?:(?!\k<quote>).)*\k<quote>)(?<rest>\s*[^\s,\]}:#][^,\]}]*)/u.exec(
      line,
    );
  if (behind?.groups?.quoted !== undefined && code !== 'BAD_INDENT') {
    const { quoted, rest = '' } = behind.groups;
    const first = lineStart + line.indexOf(quoted + rest, behind.index);
    const inner = quoted.slice(1, -1);
    const written = (quoted + rest).trimEnd();
    return diagnose('S14', atSpan(span(source, first, first + written.length)), { found: written, inner });
  }
  if (!/Missing closing ["']quote/u.test(message)) return undefined;
  const quote = /closing (?<quote>["'])/u.exec(message)?.groups?.quote ?? '"';
  const opened = lastOpened(text.slice(0, start), quote);
  return diagnose('S11', atSpan(span(source, opened, opened + 1)), { quote });
}

/** A comma left out in brackets: YAML then sees a key inside of a value, or something behind its end. */
function byComma({ source, text, start }: Spot, { code, message }: LibraryFault): Diagnostic | undefined {
  const isKeyInValue = code === 'BLOCK_IN_FLOW' || code === 'MULTILINE_IMPLICIT_KEY';
  const isBehindEnd = /at node end$|^Missing , /u.test(message) && !/[\]}]/u.test(text[start] ?? '');
  if (!(isKeyInValue || isBehindEnd) || bracketsOpenAt(text, start).length === 0) return undefined;
  const rest = isKeyInValue ? text.slice(start) : textFrom(text, start);
  const item = (/^[^,\]}]*/u.exec(rest)?.[0] ?? '').trimEnd();
  const upToKey = /^.*?:(?=\s|$)/su.exec(item)?.[0] ?? item;
  const hasTwo = !isBehindEnd && /\s/u.test(upToKey);
  const found = hasTwo ? upToKey : item === '' ? (text[start] ?? '') : item;
  const at = atSpan(firstLineOf(span(source, start, start + found.length)));
  if (isKeyInValue && !hasTwo) return diagnose('S26', at, { found: clipped(found) });
  return diagnose('S27', at, { found: clipped(found), isBehind: isBehindEnd });
}

function byBracket({ source, text, start }: Spot, { code, message }: LibraryFault): Diagnostic | undefined {
  const isOpen = code === 'BAD_INDENT' || code === 'MISSING_CHAR' || code === 'UNEXPECTED_TOKEN';
  if (!isOpen || !/flow (?:sequence|map|collection)|flow-(?:seq|map)-end|and end with a/iu.test(message))
    return undefined;
  if (text[start] === ',')
    return diagnose('S15', atSpan(span(source, start, start + 1)), { why: 'two commas' });
  const open = bracketsOpenAt(text, start);
  const found = text[start] ?? '';
  // A bracket whose partner is open further out shows that the innermost one was forgotten.
  const isStray = /^[\]}]$/u.test(found) && !open.some((it) => partners[text[it] ?? ''] === found);
  if (isStray) {
    return diagnose('S12', atSpan(span(source, start, start + 1)), { bracket: found, missing: 'opening' });
  }
  const opened = open.at(-1);
  if (opened === undefined) return undefined;
  const facts = { bracket: text[opened] ?? '[', missing: 'closing' } as const;
  return diagnose(
    'S12',
    atSpan(span(source, opened, opened + 1)),
    facts,
    hidingRemark(source, opened, start),
  );
}

/** A # inside the brackets that hides one which closes them, as in `{ label: wall #2 }`. */
function hidingRemark(source: Source, start: number, end: number): Beside {
  const found = /(?<=\S[ \t])#[^\r\n]*[\]}]/u.exec(source.text.slice(start, end));
  if (found === null) return {};
  const first = start + found.index;
  return {
    hints: ['quotes around a text that holds a #, which begins a remark otherwise'],
    related: [{ place: atSpan(span(source, first, first + found[0].length)), message: 'this is a remark' }],
  };
}

function byColon(
  { source, text, start, line, lineStart }: Spot,
  { code, message }: LibraryFault,
): Diagnostic | undefined {
  const glued = /^\s*(?:- )?(?<key>[\p{L}][\p{L} ]*):(?<rest>\S.*)$/u.exec(line);
  if (glued?.groups?.key !== undefined && code === 'MISSING_CHAR') {
    const first = lineStart + line.indexOf(glued.groups.key);
    const found = line.trim().replace(/^- /u, '');
    return diagnose('S23', atSpan(span(source, first, first + found.length)), {
      found,
      instead: `${glued.groups.key}: ${glued.groups.rest}`,
    });
  }
  if (/Implicit|implicit/u.test(message) && code !== 'BLOCK_AS_IMPLICIT_KEY') {
    const found = textFrom(text, start);
    return diagnose('S15', atSpan(span(source, start, start + Math.max(found.length, 1))), {
      why: 'no colon',
    });
  }
  if (code === 'BLOCK_AS_IMPLICIT_KEY') {
    const found = textFrom(text, start);
    const second = found.search(/:(?:\s|$)/u);
    if (second < 0) return undefined; // the second colon stands on a later line, so that line is indented too far
    return diagnose('S26', atSpan(span(source, start, start + found.length)), { found });
  }
  if (/^\s*[^#]*:\s+- /u.test(line))
    return diagnose('S15', atSpan(span(source, start, start + 1)), { why: 'dash behind a key' });
  return undefined;
}

function misaligned({ source, text, start, line, lineStart }: Spot): Diagnostic {
  if (text[start] === ',')
    return diagnose('S15', atSpan(span(source, start, start + 1)), { why: 'comma outside' });
  // Of a value that goes on where a key stands, the next line is the one that is indented too far.
  const isWholeLine = /^\s*$/u.test(text.slice(lineStart, start));
  const from = isWholeLine ? lineStart : lineStart + line.length;
  const passed = /^(?:[ \t]*(?:#[^\r\n]*)?(?:\r\n|[\r\n]))*/u.exec(text.slice(from))?.[0].length ?? 0;
  // At the end of the text there is no next line.
  const found = from + passed < text.length ? from + passed : lineStart;
  const first = found + (/^\s*/u.exec(lineFrom(text, found))?.[0].length ?? 0);
  const length = Math.max(textFrom(text, first).length, 1);
  return diagnose('S15', atSpan(span(source, first, first + length)), { why: 'indentation' });
}

function lineFrom(text: string, start: number): string {
  const end = text.slice(start).search(/[\r\n]/u);
  return end < 0 ? text.slice(start) : text.slice(start, start + end);
}

/** The rest of the line, without a comment and what may close a list. */
function textFrom(text: string, start: number): string {
  return lineFrom(text, start)
    .replace(/\s#.*$/u, '')
    .trimEnd();
}

/** The quote that was opened last and not closed. Quotes inside plain texts (`4"`) open nothing. */
function lastOpened(text: string, quote: string): number {
  const opening = new RegExp(`(?<=^|[\\s[{,])${quote}`, 'gu');
  let found = text.lastIndexOf(quote);
  let from = 0;
  for (let match = opening.exec(text); match !== null; match = opening.exec(text)) {
    if (match.index < from) continue;
    found = match.index;
    const close = text.indexOf(quote, match.index + 1);
    if (close < 0) break;
    from = close + 1;
    opening.lastIndex = from;
  }
  return Math.max(found, 0);
}

/** The brackets that are still open at `end`, the innermost last; quotes, comments and what closes nothing are passed over. */
function bracketsOpenAt(text: string, end: number): readonly number[] {
  const open: number[] = [];
  const sign = /"(?:[^"\\]|\\.)*"|'[^']*'|(?<=^|\s)#[^\r\n]*|[[\]{}]/gu;
  for (const match of text.slice(0, end).matchAll(sign)) {
    if (match[0] === '[' || match[0] === '{') open.push(match.index);
    else if (match[0] === partners[text[open.at(-1) ?? -1] ?? '']) open.pop();
  }
  return open;
}

const partners: Readonly<Record<string, string>> = { '[': ']', '{': '}' };
