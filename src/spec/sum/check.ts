import { diagnose } from '../../model/index.ts';
import { missingBehind, type SumFault, type Token } from './lex.ts';

/**
 * A sum as a text of plain symbols: each operand is `t` and the number of its token, and so is each bracket,
 * minus in front and choice, written as a function. Nothing is left in it that a parser could misread.
 *
 *   (core / bays down to 1/32)               t0(t1 / t3, t5)
 *   (smaller of a and (b + c))               t0(t1(t2, t4(t5 + t7)))
 */
export interface Symbols {
  readonly text: string;
  /** For the token that opens a bracket: the one that closes it. */
  readonly closing: ReadonlyMap<number, number>;
  /** For the token that opens a bracket: the `up to`, `down to` or `nearest` in it. */
  readonly rounding: ReadonlyMap<number, number>;
}

/** How deep brackets may lie in each other. */
const deepest = 40;

/** What is open: a bracket, a minus that waits for its operand, a choice with so many operands. */
type Frame =
  | { readonly kind: 'bracket'; readonly token: number; step: 'none' | 'open' | 'done' }
  | { readonly kind: 'negative'; readonly token: number }
  | { readonly kind: 'choice'; readonly token: number; operands: number };

/** Checks the order of a sum's tokens: operands and signs in turn, brackets in pairs, rounding last. */
export function check(text: string, tokens: readonly Token[], cutBy?: CutBy): Symbols | SumFault {
  return new Check(text, tokens, cutBy).run();
}

/** What YAML took for the end of the text, so that a bracket may have stayed open. */
export type CutBy = 'comma' | 'remark' | undefined;

class Check {
  readonly #text: string;
  readonly #tokens: readonly Token[];
  readonly #cutBy: CutBy;
  readonly #frames: Frame[] = [];
  readonly #closing = new Map<number, number>();
  readonly #rounding = new Map<number, number>();
  #symbols = '';
  #next = 0;
  #isOperandWanted = true;

  constructor(text: string, tokens: readonly Token[], cutBy: CutBy) {
    this.#text = text;
    this.#tokens = tokens;
    this.#cutBy = cutBy;
  }

  run(): Symbols | SumFault {
    for (; this.#next < this.#tokens.length; this.#next++) {
      const [token, index] = [this.#tokens[this.#next], this.#next];
      if (token === undefined) break;
      const fault = this.#isOperandWanted ? this.#operand(token, index) : this.#between(token, index);
      if (fault !== undefined) return fault;
    }
    const open = this.#frames.findLast(({ kind }) => kind === 'bracket');
    if (open !== undefined && (this.#cutBy !== undefined || !this.#isOperandWanted))
      return this.#unclosed(open.token);
    if (this.#isOperandWanted) return this.#missing(this.#tokens.length, 'a name or a measure');
    return { text: this.#symbols, closing: this.#closing, rounding: this.#rounding };
  }

  #operand(token: Token, index: number): SumFault | undefined {
    const top = this.#frames.at(-1);
    switch (token.kind) {
      case 'measure':
      case 'name':
      case 'size of':
        this.#symbols += `t${index}`;
        return this.#endOperand(index);
      case 'open':
        this.#symbols += `t${index}(`;
        this.#frames.push({ kind: 'bracket', token: index, step: 'none' });
        return this.#depth() > deepest ? this.#tooDeep(token) : undefined;
      case 'smaller':
      case 'larger':
        this.#symbols += `t${index}(`;
        this.#frames.push({ kind: 'choice', token: index, operands: 0 });
        return undefined;
      case 'sign':
        if (token.sign !== '-' || top?.kind === 'negative')
          return this.#missing(index, 'a name or a measure');
        this.#symbols += `t${index}(`;
        this.#frames.push({ kind: 'negative', token: index });
        return undefined;
      default:
        return this.#missing(index, 'a name or a measure');
    }
  }

  #between(token: Token, index: number): SumFault | undefined {
    const bracket = this.#frames.at(-1);
    const isStepDone = bracket?.kind === 'bracket' && bracket.step === 'done';
    switch (token.kind) {
      case 'close': {
        if (bracket?.kind !== 'bracket') return this.#closesNothing(token);
        this.#frames.pop();
        this.#symbols += ')';
        this.#closing.set(bracket.token, index);
        return this.#endOperand(index);
      }
      case 'sign':
        if (isStepDone) return this.#roundedTooSoon(bracket.token);
        this.#symbols += ` ${token.sign} `;
        this.#isOperandWanted = true;
        return undefined;
      case 'up to':
      case 'down to':
      case 'nearest':
        if (bracket?.kind !== 'bracket') return this.#misplaced(token);
        if (isStepDone) return this.#roundedTooSoon(bracket.token);
        bracket.step = 'open';
        this.#rounding.set(bracket.token, index);
        this.#symbols += ', ';
        this.#isOperandWanted = true;
        return undefined;
      case 'and':
        return this.#misplaced(token);
      default:
        return this.#sideBySide(token, index);
    }
  }

  /** Behind an operand: closes whatever waited for just one. */
  #endOperand(index: number): SumFault | undefined {
    this.#isOperandWanted = false;
    for (let top = this.#frames.at(-1); top !== undefined; top = this.#frames.at(-1)) {
      if (top.kind === 'bracket') {
        if (top.step === 'open') top.step = 'done';
        return undefined;
      }
      if (top.kind === 'choice') {
        top.operands++;
        if (this.#tokens[index + 1]?.kind === 'and') {
          this.#symbols += ', ';
          this.#isOperandWanted = true;
          this.#next++; // the `and` is dealt with
          return undefined;
        }
        if (top.operands < 2) {
          const open = this.#frames.findLast(({ kind }) => kind === 'bracket');
          const isCut = this.#cutBy !== undefined && index + 1 === this.#tokens.length;
          if (open !== undefined && isCut) return this.#unclosed(open.token);
          return this.#missing(index + 1, 'and, with another to choose from,');
        }
      }
      this.#symbols += ')';
      this.#frames.pop();
    }
    return undefined;
  }

  #depth(): number {
    return this.#frames.filter(({ kind }) => kind === 'bracket').length;
  }

  #missing(index: number, wanted: string): SumFault {
    const before = this.#tokens[index - 1];
    const found = before === undefined ? '' : this.#text.slice(before.start, before.end);
    return missingBehind(found, before?.end ?? this.#text.length, wanted);
  }

  #unclosed(index: number): SumFault {
    return this.#at(this.#tokens[index], (place) =>
      diagnose('S61', place, { missing: 'closing', cutBy: this.#cutBy }),
    );
  }

  #closesNothing(token: Token): SumFault {
    return this.#at(token, (place) => diagnose('S61', place, { missing: 'opening', cutBy: undefined }));
  }

  #tooDeep(token: Token): SumFault {
    const count = deepest + 1;
    return this.#at(token, (place) => diagnose('S64', place, { why: 'deep', count }));
  }

  #misplaced(token: Token): SumFault {
    return this.#at(token, (place) =>
      diagnose('S65', place, { found: this.#text.slice(token.start, token.end) }),
    );
  }

  #roundedTooSoon(bracket: number): SumFault {
    const token = this.#tokens[this.#rounding.get(bracket) ?? bracket];
    return this.#at(token, (place) =>
      diagnose('S66', place, { word: token === undefined ? '' : this.#text.slice(token.start, token.end) }),
    );
  }

  #sideBySide(token: Token, index: number): SumFault {
    const before = this.#tokens[index - 1];
    const text = (it: Token | undefined): string =>
      it === undefined ? '' : this.#text.slice(it.start, it.end);
    return this.#at(token, (place) => diagnose('S67', place, { first: text(before), second: text(token) }));
  }

  #at(token: Token | undefined, toDiagnostic: SumFault['toDiagnostic']): SumFault {
    return { start: token?.start ?? 0, end: token?.end ?? this.#text.length, toDiagnostic };
  }
}
