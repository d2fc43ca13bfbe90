import {
  type Alias,
  Composer,
  type CST,
  type Document,
  isAlias,
  isMap,
  isScalar,
  isSeq,
  type Pair,
  type ParsedNode,
  Parser,
  Scalar,
} from 'yaml';
import {
  atSpan,
  type Diagnostic,
  diagnose,
  fine,
  type Outcome,
  refused,
  type Source,
} from '../../model/index.ts';
import { type Entry, firstLineOf, type MapNode, type Node, span, type TextNode } from './node.ts';
import { independentFaults } from './reword.ts';

/** How deep lists and maps may lie in each other. */
const deepest = 64;
/** How many times over aliases may repeat what a file holds. */
const mostRepeats = 10;

/**
 * The one document of a YAML text, as our own nodes. Everything that is written stays text (YAML's own
 * numbers and flags would lose what was typed).
 *
 * The only file that knows the library. Its parser is run in two steps, since between them the depth can be
 * counted before anything recurses into it.
 */
export function compose(source: Source): Outcome<MapNode> {
  const tokens = parsedTokens(source);
  if (tokens.value === undefined) return refused(...tokens.diagnostics);
  const options = { schema: 'failsafe', uniqueKeys: false, prettyErrors: false, logLevel: 'silent' } as const;
  const documents = [
    ...new Composer(options).compose(tokens.value, true, source.text.length),
  ] as Document.Parsed[]; // the end is forced, so there is one
  const [first, second] = documents;
  if (first === undefined) return refused(emptyFile(source));

  const faults = first.errors.map(({ code, pos, message }) => ({ code, start: pos[0], message }));
  const [fault, ...others] = independentFaults(source, faults);
  if (fault !== undefined) return refused(fault, ...others);
  if (second !== undefined) {
    // The line that ends the first document; what is left of the text may hold such signs too, but not first.
    const before = source.text.slice(0, second.range[0] + '---'.length);
    const separator = [...before.matchAll(/^(---|\.\.\.)/gm)].at(-1)?.index ?? 0;
    return refused(diagnose('S20', atSpan(span(source, separator, separator + 3)), {}));
  }
  return new Reading(source).whole(first.contents);
}

/** The tokens of the text, if none lies too deep and none is a tag. */
function parsedTokens(source: Source): Outcome<readonly CST.Token[]> {
  const tooDeep = (at: number): Diagnostic => diagnose('S21', atSpan(span(source, at, at + 1)), {});
  let tokens: readonly CST.Token[];
  try {
    tokens = [...new Parser().parse(source.text)];
  } catch (fault) {
    if (fault instanceof RangeError) return refused(tooDeep(0)); // the parser's own stack is used up
    throw fault;
  }
  const { beyond, tags } = survey(tokens);
  if (beyond !== undefined) return refused(tooDeep(beyond));
  if (tags.length === 0) return fine(tokens);
  return refused(
    ...tags.map(({ offset, source: tag }) =>
      diagnose('S17', atSpan(span(source, offset, offset + tag.length)), { tag }),
    ),
  );
}

/** The first list or map that lies too deep, and all tags. Walks with a stack of its own: depth is its business. */
function survey(tokens: readonly CST.Token[]): {
  readonly beyond: number | undefined;
  readonly tags: readonly CST.SourceToken[];
} {
  const waiting: { readonly token: CST.Token; readonly depth: number }[] = [];
  const tags: CST.SourceToken[] = [];
  let beyond: number | undefined;
  // Most tokens hold no others: these are looked at where they stand, and never wait.
  const look = (depth: number, token: CST.Token | null | undefined): void => {
    if (token === null || token === undefined) return;
    if (token.type === 'tag') tags.push(token);
    else if (token.type === 'document' || 'items' in token) waiting.push({ token, depth });
  };
  for (const token of tokens) look(0, token);
  for (let next = waiting.pop(); next !== undefined; next = waiting.pop()) {
    const { token, depth } = next;
    if (token.type === 'document') {
      for (const it of token.start) look(depth, it);
      look(depth, token.value);
    }
    if (!('items' in token)) continue;
    if (depth + 1 > deepest) {
      beyond = Math.min(beyond ?? token.offset, token.offset);
      continue;
    }
    for (const item of token.items) {
      for (const it of item.start) look(depth + 1, it);
      for (const it of item.sep ?? []) look(depth + 1, it);
      look(depth + 1, item.key);
      look(depth + 1, item.value);
    }
  }
  return { beyond, tags };
}

function emptyFile(source: Source): Diagnostic {
  return diagnose('S04', { kind: 'file', path: source.path }, {});
}

/** The library's nodes turned into ours, in the order of the text, which is what aliases go by. */
class Reading {
  readonly #source: Source;
  readonly #diagnostics: Diagnostic[] = [];
  readonly #anchors = new Map<string, Node | 'open'>();
  /** How many nodes stand under each, with those that an alias repeats; from the first anchor on, as none repeats before. */
  readonly #weights = new Map<Node, number>();
  #written = 0;

  constructor(source: Source) {
    this.#source = source;
  }

  whole(contents: ParsedNode | null): Outcome<MapNode> {
    if (contents === null || (isScalar(contents) && contents.source === ''))
      return refused(emptyFile(this.#source));
    const node = this.#node(contents, 0);
    if (node.kind !== 'map') {
      // A file of one line `gap:1/4` is a text to YAML.
      return refused(...this.#diagnostics, diagnose('S30', atSpan(firstLineOf(node.at)), {}));
    }
    if ((this.#weights.get(node) ?? 0) > mostRepeats * this.#written + 1000) {
      return refused(...this.#diagnostics, diagnose('S19', atSpan(firstLineOf(node.at)), {}));
    }
    return { value: node, diagnostics: this.#diagnostics };
  }

  #node(node: ParsedNode | null, before: number): Node {
    if (node === null) return this.#nothing(before);
    if (isAlias(node)) return this.#followed(node);
    this.#written++;
    const [start, end] = node.range;
    if (node.anchor !== undefined) this.#anchors.set(node.anchor, 'open');
    const ours = this.#ours(node, start, end);
    if (node.anchor !== undefined) this.#anchors.set(node.anchor, ours);
    if (this.#anchors.size > 0) this.#weights.set(ours, this.#weightOf(ours));
    return ours;
  }

  #ours(node: Exclude<ParsedNode, Alias.Parsed>, start: number, end: number): Node {
    const at = span(this.#source, start, end);
    if (isSeq(node)) {
      return { kind: 'list', at, items: (node.items as ParsedNode[]).map((it) => this.#node(it, start)) };
    }
    if (isMap(node)) return { kind: 'map', at, entries: this.#entries(node.items as MapItem[]) };
    if (!isScalar(node)) return this.#nothing(start);
    const isQuoted = node.type === Scalar.QUOTE_DOUBLE || node.type === Scalar.QUOTE_SINGLE;
    if (node.source === '' && node.type === Scalar.PLAIN) return this.#nothing(start);
    const isBlock = node.type === Scalar.BLOCK_FOLDED || node.type === Scalar.BLOCK_LITERAL;
    const text = isBlock ? `${node.value}`.replace(/\s+$/u, '') : `${node.value}`;
    return { kind: 'text', at: isBlock ? firstLineOf(at) : at, text, isQuoted };
  }

  #entries(items: readonly MapItem[]): readonly Entry[] {
    const entries: Entry[] = [];
    const seen = new Map<string, TextNode>();
    for (const item of items) {
      const key = this.#node(item.key, 0);
      const value = this.#node(item.value, key.at.end);
      if (key.kind !== 'text') {
        const found = key.kind === 'nothing' ? 'nothing' : `a ${key.kind}`;
        this.#diagnostics.push(diagnose('S22', atSpan(firstLineOf(key.at)), { found }));
        continue;
      }
      const earlier = seen.get(key.text);
      if (earlier !== undefined) {
        this.#diagnostics.push(
          diagnose(
            'S16',
            atSpan(key.at),
            { key: key.text },
            { related: [{ place: atSpan(earlier.at), message: 'here first' }] },
          ),
        );
        continue;
      }
      seen.set(key.text, key);
      // A key that YAML took alone, e.g. `{gap:1/4}`, has no place behind its colon.
      entries.push({ key, value: item.value === null ? { kind: 'nothing', at: key.at } : value });
    }
    return entries;
  }

  #followed(alias: Alias.Parsed): Node {
    const [start, end] = alias.range;
    const at = span(this.#source, start, end);
    const target = this.#anchors.get(alias.source);
    if (target === undefined)
      this.#diagnostics.push(diagnose('S13', atSpan(at), { found: `*${alias.source}`, sign: '*' }));
    if (target === 'open') this.#diagnostics.push(diagnose('S18', atSpan(at), { name: alias.source }));
    if (target === undefined || target === 'open') return { kind: 'faulty', at };
    return target;
  }

  #nothing(at: number): Node {
    return { kind: 'nothing', at: span(this.#source, at, at) };
  }

  #weightOf(node: Node): number {
    const weight = (it: Node): number => this.#weights.get(it) ?? 1;
    if (node.kind === 'list') return node.items.reduce((sum, it) => sum + weight(it), 1);
    if (node.kind === 'map') return node.entries.reduce((sum, it) => sum + 1 + weight(it.value), 1);
    return 1;
  }
}

type MapItem = Pair<ParsedNode, ParsedNode | null>;
