import { create, type MathNode, parseDependencies } from 'mathjs/number';

/** The shape of a sum: which sign goes before which. Numbers are those of its tokens. */
export type Tree =
  | { readonly kind: 'operand'; readonly token: number }
  | { readonly kind: 'call'; readonly token: number; readonly of: readonly Tree[] }
  | {
      readonly kind: 'sum' | 'difference' | 'product' | 'quotient';
      readonly left: Tree;
      readonly right: Tree;
    };

/**
 * Says which sign goes before which. Takes only the symbols of `check`: no text of a user's gets here, and
 * whatever comes back that is not on the list below is a bug.
 *
 * The only file that knows the library; of it, nothing but the parser, made when the first sum is met. Symbols are
 * numbered from the start of each sum, so most sums of a kit have the shape of one that was parsed before.
 */
export function treeOf(symbols: string): Tree {
  const known = trees.get(symbols);
  if (known !== undefined) return known;
  parser ??= create(parseDependencies ?? {}, {}) as unknown as Parser; // the library's own types know no such subset
  const tree = toTree(parser.parse(symbols));
  if (trees.size < mostTrees) trees.set(symbols, tree);
  return tree;
}

const trees = new Map<string, Tree>();
/** A kit has a few dozen; a watch that goes on for days shall not gather them without end. */
const mostTrees = 1000;

interface Parser {
  readonly parse: (text: string) => MathNode;
}

let parser: Parser | undefined;

const kinds = { add: 'sum', subtract: 'difference', multiply: 'product', divide: 'quotient' } as const;

/** What the parser gives of its nodes; its own types are a class for each. */
interface ParsedNode {
  readonly type: string;
  readonly name?: string;
  readonly fn?: unknown;
  readonly args?: readonly ParsedNode[];
}

function toTree(node: ParsedNode): Tree {
  const { type, name, fn, args = [] } = node;
  if (type === 'SymbolNode' && name !== undefined) return { kind: 'operand', token: tokenOf(name) };
  if (type === 'FunctionNode') {
    const called = (fn as ParsedNode).name ?? ''; // a function node's fn is a symbol node
    return { kind: 'call', token: tokenOf(called), of: args.map(toTree) };
  }
  const [left, right] = args;
  if (type === 'OperatorNode' && isKnown(fn) && left !== undefined && right !== undefined) {
    return { kind: kinds[fn], left: toTree(left), right: toTree(right) };
  }
  throw new Error(`a sum was parsed into an unexpected ${type}`);
}

function isKnown(fn: unknown): fn is keyof typeof kinds {
  return typeof fn === 'string' && Object.hasOwn(kinds, fn);
}

function tokenOf(symbol: string): number {
  return Number(symbol.slice(1));
}
