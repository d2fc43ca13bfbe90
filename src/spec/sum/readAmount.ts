import { readMeasure } from '../../measure/index.ts';
import {
  atSpan,
  type Diagnostic,
  diagnose,
  type Expression,
  type NonEmpty,
  type Reference,
  type Span,
} from '../../model/index.ts';
import type { Faults } from '../faults.ts';
import { span, type TextNode, within } from '../yaml/node.ts';
import { type CutBy, check, type Symbols } from './check.ts';
import { lex, type SumFault, type Token } from './lex.ts';
import { type Tree, treeOf } from './precedence.ts';

/** The longest sum that is read. */
const mostCharacters = 500;

/**
 * Reads what stands where a measure may stand: a measure, a name, or a sum in round brackets. A measure
 * never begins with a letter and a name always does, so nothing is read two ways.
 *
 * @errors S60 to S69, and those of the measures in it; the first of each text alone
 */
export function readAmount(node: TextNode, faults: Faults): Expression | undefined {
  const { text } = node;
  const tell = ({ start, end, toDiagnostic }: SumFault): undefined =>
    faults.report(toDiagnostic(atSpan(within(node, start, end))));

  if (text.length > mostCharacters && text.includes('(')) {
    return faults.report(diagnose('S64', atSpan(node.at), { why: 'long', count: text.length }));
  }
  if (text.trimStart().startsWith('(')) return readSum(node, tell, faults);
  if (/^\s*\p{L}/u.test(text)) return readName(node, tell, faults);

  const reading = readMeasure(text);
  switch (reading.kind) {
    case 'length':
      return { kind: 'measure', at: node.at, amount: reading.length, unit: 'length' };
    case 'bare':
      return { kind: 'measure', at: node.at, amount: reading.number, unit: 'bare' };
    case 'refused': {
      const isSum = /\p{L}{2}|[()]|^\s*[-\u2212]\s*\p{L}/u.test(text) && lacksBrackets(text);
      return isSum ? faults.report(withoutBrackets(node)) : tell(reading);
    }
  }
}

type Tell = (fault: SumFault) => undefined;

function readSum(node: TextNode, tell: Tell, faults: Faults): Expression | undefined {
  const { tokens, fault } = lex(node.text);
  // An open bracket that YAML cut off is the cause of whatever looks odd before it.
  const checked = fault === undefined ? check(node.text, tokens, cutBehind(node)) : fault;
  if ('toDiagnostic' in checked) {
    return lacksBrackets(node.text) ? faults.report(withoutBrackets(node)) : tell(checked);
  }
  if (checked.closing.get(0) !== tokens.length - 1) return faults.report(withoutBrackets(node));
  return new Building(node, tokens, checked).expression(treeOf(checked.text));
}

function readName(node: TextNode, tell: Tell, faults: Faults): Expression | undefined {
  const { tokens, fault } = lex(node.text);
  const [first, second] = tokens;
  if (fault === undefined && second === undefined && first !== undefined) {
    const reference = referenceOf(first, node);
    if (reference !== undefined) return { kind: 'name', at: node.at, reference };
  }
  if (lacksBrackets(node.text)) return faults.report(withoutBrackets(node));
  const isTelling = tokens.length > 1 || (fault !== undefined && /\s(?:of|[-+/*])/u.test(node.text));
  const bracketed = isTelling ? faultWithin(node.text) : undefined;
  if (bracketed !== undefined) return tell(bracketed);
  return faults.report(diagnose('S68', atSpan(node.at), { found: node.text }));
}

/** True for a text that only needs brackets around it to be a sum. */
function lacksBrackets(text: string): boolean {
  const { tokens } = lex(`(${text})`);
  return tokens.length > 3 && faultWithin(text) === undefined;
}

/** What is wrong in a text that stands without its brackets, apart from that. */
function faultWithin(text: string): SumFault | undefined {
  const bracketed = `(${text})`;
  const { tokens, fault } = lex(bracketed);
  const checked = fault ?? check(bracketed, tokens);
  if (!('toDiagnostic' in checked)) return undefined;
  const inside = (offset: number): number => Math.min(Math.max(offset - 1, 0), text.length);
  return { ...checked, start: inside(checked.start), end: inside(checked.end) };
}

function withoutBrackets(node: TextNode): Diagnostic {
  return diagnose(
    'S60',
    atSpan(node.at),
    { found: node.text },
    { fix: { span: node.at, text: `(${node.text})` } },
  );
}

/** What YAML took for the end of a text that is not quoted. */
function cutBehind({ at, isQuoted }: TextNode): CutBy {
  if (isQuoted) return undefined;
  const next = /^\s*(?<sign>[,#])/u.exec(at.source.text.slice(at.end))?.groups?.sign;
  return next === ',' ? 'comma' : next === '#' ? 'remark' : undefined;
}

function referenceOf(token: Token, node: TextNode): Reference | undefined {
  if (token.kind === 'size of') {
    return {
      kind: 'size',
      size: token.size,
      of: { value: token.name, at: within(node, token.nameStart, token.end) },
    };
  }
  if (token.kind !== 'name') return undefined;
  switch (token.name) {
    case 'square':
      return { kind: 'square', way: 'both' };
    case 'square across':
      return { kind: 'square', way: 'across' };
    case 'square along':
      return { kind: 'square', way: 'along' };
    case 'tile across':
      return { kind: 'tile', size: 'across' };
    case 'tile along':
      return { kind: 'tile', size: 'along' };
    case 'tile height':
      return { kind: 'tile', size: 'height' };
    default:
      return { kind: 'own', name: token.name };
  }
}

/** Puts tokens and places back into the shape that the parser found. */
class Building {
  readonly #node: TextNode;
  readonly #tokens: readonly Token[];
  readonly #symbols: Symbols;

  constructor(node: TextNode, tokens: readonly Token[], symbols: Symbols) {
    this.#node = node;
    this.#tokens = tokens;
    this.#symbols = symbols;
  }

  expression(tree: Tree): Expression {
    if (tree.kind === 'operand') return this.#operand(this.#token(tree.token));
    if (tree.kind === 'call')
      return this.#call(
        tree.token,
        tree.of.map((it) => this.expression(it)),
      );
    const [left, right] = [this.expression(tree.left), this.expression(tree.right)];
    return { kind: tree.kind, at: span(left.at.source, left.at.start, right.at.end), left, right };
  }

  #operand(token: Token): Expression {
    const at = within(this.#node, token.start, token.end);
    if (token.kind === 'measure') return { kind: 'measure', at, amount: token.amount, unit: token.unit };
    const reference = referenceOf(token, this.#node);
    if (reference === undefined) throw new Error(`a ${token.kind} was parsed as an operand`);
    return { kind: 'name', at, reference };
  }

  #call(index: number, operands: readonly Expression[]): Expression {
    const token = this.#token(index);
    const [first, second] = operands;
    if (first === undefined) throw new Error('a bracket was parsed as empty');
    const from = within(this.#node, token.start, token.end);
    if (token.kind === 'sign')
      return { kind: 'negative', at: span(from.source, from.start, first.at.end), of: first };
    if (token.kind === 'smaller' || token.kind === 'larger') {
      const of: NonEmpty<Expression> = [first, ...operands.slice(1)];
      return { kind: token.kind, at: span(from.source, from.start, (of.at(-1) ?? first).at.end), of };
    }
    const at = this.#bracket(index, from);
    const rounding = this.#symbols.rounding.get(index);
    const way = rounding === undefined ? undefined : this.#token(rounding).kind;
    if (second !== undefined && (way === 'up to' || way === 'down to' || way === 'nearest')) {
      return { kind: way, at, of: first, step: second };
    }
    return { ...first, at };
  }

  #bracket(index: number, from: Span): Span {
    const close = this.#token(this.#symbols.closing.get(index) ?? index);
    return span(from.source, from.start, within(this.#node, close.start, close.end).end);
  }

  #token(index: number): Token {
    const token = this.#tokens[index];
    if (token === undefined) throw new Error(`the parser gave a token ${index} that there is not`);
    return token;
  }
}
