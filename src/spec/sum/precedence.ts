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
 * Says which sign goes before which: × and ÷ before + and −, and of equals the left one. Takes only the
 * symbols of `check`: no text of a user's gets here, so whatever is not on the list below is a bug.
 *
 *   sum      = product { ("+" | "-") product }
 *   product  = operand { ("*" | "/") operand }
 *   operand  = "t3" | "t3(" sum { "," sum } ")"
 */
export function treeOf(symbols: string): Tree {
  const words = symbols.match(/t\d+|[^\s]/g) ?? [];
  let next = 0;
  const take = (): string => {
    const word = words[next++];
    if (word === undefined) throw new Error(`"${symbols}" ends too soon`);
    return word;
  };
  const row = (signs: Signs, member: () => Tree): Tree => {
    let left = member();
    for (let kind = signs[words[next] ?? '']; kind !== undefined; kind = signs[words[next] ?? '']) {
      next++;
      left = { kind, left, right: member() };
    }
    return left;
  };
  const sum = (): Tree => row(weak, () => row(strong, operand));
  const operand = (): Tree => {
    const word = take();
    if (!word.startsWith('t')) throw new Error(`"${word}" stands where "${symbols}" wants an operand`);
    const token = Number(word.slice(1));
    if (words[next] !== '(') return { kind: 'operand', token };
    const of: Tree[] = [];
    for (let sign = take(); sign !== ')'; sign = take()) {
      if (sign !== '(' && sign !== ',') throw new Error(`"${sign}" stands where "${symbols}" wants a comma`);
      of.push(sum());
    }
    return { kind: 'call', token, of };
  };
  const whole = sum();
  if (next < words.length) throw new Error(`"${symbols}" goes on behind its end`);
  return whole;
}

type Signs = Readonly<Record<string, Exclude<Tree['kind'], 'operand' | 'call'> | undefined>>;

const weak: Signs = { '+': 'sum', '-': 'difference' };
const strong: Signs = { '*': 'product', '/': 'quotient' };
