import { readMeasure } from '../measure/index.ts';
import {
  atSpan,
  diagnose,
  didYouMean,
  type Expression,
  nearest,
  type PaperName,
  type PaperSpec,
  type Placed,
  type Price,
  type Rest,
  type SizeSpec,
  type Span,
  type TrimSpec,
} from '../model/index.ts';
import { unseenCharacterIn } from './characters.ts';
import type { Faults } from './faults.ts';
import { type Fields, readFields, wrongSort } from './fields.ts';
import { readAmount } from './sum/readAmount.ts';
import { clipped, type ListNode, type Node, type TextNode } from './yaml/node.ts';

/** Reads the value of a key, if the key is there. */
export function optional<T>(
  fields: Fields,
  key: string,
  read: (value: Node, key: string) => T | undefined,
): T | undefined {
  const entry = fields.get(key);
  return entry === undefined ? undefined : read(entry.value, key);
}

/** Two measures, and where the list of them stands. */
export interface Pair<T = Expression> {
  readonly at: Span;
  readonly first: T;
  readonly second: T;
}

/** The simple readers, bound to where faults are told. */
export class Values {
  readonly #faults: Faults;

  constructor(faults: Faults) {
    this.#faults = faults;
  }

  /** What can't be read is told, and stands there as faulty, so that whoever needs it stays quiet. */
  readonly amount = (node: Node): Expression => this.#readable(node) ?? { kind: 'faulty', at: node.at };

  /** A text that is printed. */
  readonly text = (node: Node, key: string): Placed<string> | undefined => {
    if (node.kind !== 'text')
      return wrongSort(node, `the text of ${key}`, `${key}: some words`, this.#faults);
    const why = node.text === '' ? `an empty text stands behind "${key}"` : unprintable(node);
    if (why !== undefined)
      return this.#faults.report(diagnose('S43', atSpan(node.at), { what: `the ${key}`, why }));
    this.#warnOfRemark(node);
    return { value: node.text.replace(/\s*[\r\n]\s*/gu, ' '), at: node.at };
  };

  /** A name that stands for something described elsewhere. */
  readonly reference = (node: Node, key: string): Placed<string> | undefined => {
    if (node.kind !== 'text') {
      return wrongSort(node, `the name behind ${key}`, `${key}: NAME`, this.#faults) ?? this.#faults.tear();
    }
    return { value: node.text.normalize('NFC'), at: node.at };
  };

  readonly flag = (node: Node, key: string): Placed<boolean> | undefined =>
    this.#flag(node, key) ?? this.#faults.tear();

  readonly #flag = (node: Node, key: string): Placed<boolean> | undefined => {
    if (node.kind !== 'text') return wrongSort(node, 'yes or no', `${key}: yes`, this.#faults);
    if (node.text === 'yes' || node.text === 'no') return { value: node.text === 'yes', at: node.at };
    const instead = /^(?:true|on|y|yes)$/iu.test(node.text)
      ? 'yes'
      : /^(?:false|off|n|no)$/iu.test(node.text)
        ? 'no'
        : undefined;
    return this.#faults.report(
      diagnose(
        'S40',
        atSpan(node.at),
        { found: clipped(node.text), key },
        instead === undefined ? {} : { fix: { span: node.at, text: instead } },
      ),
    );
  };

  /** One word of a closed set. */
  readonly word =
    <T extends string>(known: readonly T[], later: readonly string[] = []) =>
    (node: Node, key: string): Placed<T> | undefined => {
      if (node.kind !== 'text')
        return wrongSort(node, `one of ${known.join(', ')}`, `${key}: ${known[0]}`, this.#faults);
      const found = known.find((it) => it === node.text);
      if (found !== undefined) return { value: found, at: node.at };
      if (later.includes(node.text)) return this.notBuilt(node);
      const meant = nearest(node.text, known);
      const facts = {
        found: clipped(node.text),
        key,
        meant: meant === undefined ? '' : didYouMean(node.text, [meant]),
        known,
      };
      const fix = meant === undefined ? {} : { fix: { span: node.at, text: meant } };
      this.#faults.report(diagnose('S39', atSpan(node.at), facts, fix));
      return this.#faults.tear();
    };

  /** Two measures in square brackets. */
  readonly pair = (node: Node): Pair => {
    const faulty: Expression = { kind: 'faulty', at: node.at };
    return this.#readablePair(node, this.amount) ?? { at: node.at, first: faulty, second: faulty };
  };

  /** Two measures, either of which may be what the build leaves. */
  readonly pairWithRests = (node: Node): Pair<Expression | Rest> => {
    const faulty: Expression = { kind: 'faulty', at: node.at };
    const read = (it: Node): Expression | Rest =>
      it.kind === 'text' && it.text === 'rest' ? { kind: 'rest', at: it.at } : this.amount(it);
    return this.#readablePair(node, read) ?? { at: node.at, first: faulty, second: faulty };
  };

  #readable(node: Node): Expression | undefined {
    if (node.kind !== 'text')
      return wrongSort(node, 'a measure, a name or a sum', '2 3/8, or (square / 2)', this.#faults);
    return readAmount(node, this.#faults);
  }

  #readablePair<T>(node: Node, read: (node: Node) => T): Pair<T> | undefined {
    if (node.kind !== 'list') {
      const sides =
        node.kind === 'text' ? /^(?<a>.+?)\s*[x×,]\s*(?<b>.+)$/u.exec(node.text)?.groups : undefined;
      const example = sides === undefined ? '[3, 2 1/2]' : `[${sides.a}, ${sides.b}]`;
      return wrongSort(node, 'a list of two measures', example, this.#faults);
    }
    if (this.#isTornApart(node)) return undefined;
    const [first, second] = node.items;
    if (node.items.length !== 2 || first === undefined || second === undefined) {
      return this.#faults.report(
        diagnose('S37', atSpan(node.at), {
          found: node.items.length,
          wanted: 'two are wanted',
          comma: decimalComma(node),
          missing: missingComma(node),
        }),
      );
    }
    return { at: node.at, first: read(first), second: read(second) };
  }

  readonly list = <T>(
    node: Node,
    what: string,
    example: string,
    read: (item: Node) => T | undefined,
  ): readonly T[] => {
    if (node.kind !== 'list') {
      this.#faults.tear();
      return wrongSort(node, `a list of ${what}`, example, this.#faults) ?? [];
    }
    return node.items.map(read).filter((it) => it !== undefined);
  };

  /** A named size, or two measures. */
  readonly size = (node: Node, key: string): SizeSpec => {
    if (node.kind !== 'text' || !/^\p{L}/u.test(node.text)) return this.#sizeOfPair(node);
    const name = paperNames.find((it) => it === node.text.toLowerCase());
    if (name !== undefined) return { kind: 'named', at: node.at, name };
    return this.#noSize(node, key, ['[length, width]']);
  };

  /** A named size, `landscape` where its longer side lies across; or how wide and how high. */
  readonly paper = (node: Node, key: string): PaperSpec => {
    if (node.kind !== 'text' || !/^\p{L}/u.test(node.text)) return this.#sizeOfPair(node);
    const [first = '', second, ...others] = node.text.toLowerCase().split(/ +/u);
    const { at } = node;
    if (first === 'landscape' && second === undefined)
      return { kind: 'named', at, name: 'shared', isLandscape: true };
    const name = paperNames.find((it) => it === first);
    if (name === undefined || others.length > 0 || (second !== undefined && second !== 'landscape'))
      return this.#noSize(node, key, ['A4 landscape', 'landscape', '[width, height]']);
    return { kind: 'named', at, name, isLandscape: second !== undefined };
  };

  #noSize(node: TextNode, key: string, others: readonly string[]): SizePair {
    const meant = didYouMean(node.text, paperNames);
    const known = [...paperNames.map((it) => (it.length === 2 ? it.toUpperCase() : it)), ...others];
    this.#faults.report(diagnose('S39', atSpan(node.at), { found: clipped(node.text), key, meant, known }));
    const faulty: Expression = { kind: 'faulty', at: node.at };
    return { kind: 'pair', at: node.at, length: faulty, width: faulty };
  }

  #sizeOfPair(node: Node): SizePair {
    const { at, first, second } = this.pair(node);
    return { kind: 'pair', at, length: first, width: second };
  }

  readonly trim = (node: Node): TrimSpec | undefined => {
    if (node.kind === 'map') {
      const fields = readFields(
        node,
        { where: 'a trim', keys: ['left', 'right', 'bottom', 'top'] },
        this.#faults,
      );
      if (fields === undefined) return undefined;
      const side = (name: string): Expression | undefined => optional(fields, name, this.amount);
      return {
        at: node.at,
        left: side('left'),
        right: side('right'),
        bottom: side('bottom'),
        top: side('top'),
      };
    }
    const all = this.amount(node);
    return { at: node.at, left: all, right: all, bottom: all, top: all };
  };

  readonly price = (node: Node, key: string): Placed<Price> | undefined => {
    if (node.kind !== 'text') return wrongSort(node, 'a price', `${key}: 2.40 EUR`, this.#faults);
    const { amount, currency } =
      /^(?<amount>\d{1,12}(?:\.\d{1,6})?) +(?<currency>[A-Z]{3})$/u.exec(node.text)?.groups ?? {};
    const reading = amount === undefined ? undefined : readMeasure(amount);
    if (reading?.kind !== 'bare' || currency === undefined) {
      return this.#faults.report(diagnose('S45', atSpan(node.at), { found: clipped(node.text) }));
    }
    return { value: { amount: reading.number, currency }, at: node.at };
  };

  notBuilt(node: TextNode): undefined {
    return this.#faults.report(diagnose('S33', atSpan(node.at), { what: clipped(node.text) }));
  }

  /** `label: wall #2` ends before the #; two spaces before it show that a remark is meant. */
  #warnOfRemark({ at, text, isQuoted }: TextNode): void {
    const lost = /^ (?<lost>#[^\r\n]*)/u.exec(at.source.text.slice(at.end))?.groups?.lost;
    if (isQuoted || lost === undefined) return;
    this.#faults.report(diagnose('S24', atSpan(at), { text: clipped(text), lost: clipped(lost.trimEnd()) }));
  }

  /** `[(a + b, c), 2]`: the comma in the bracket made items of it; told once, at the bracket. */
  #isTornApart({ items }: ListNode): boolean {
    const torn = items.find((it) => it.kind === 'text' && countOf('(', it.text) > countOf(')', it.text));
    if (torn === undefined) return false;
    this.amount(torn);
    return true;
  }
}

type SizePair = Extract<SizeSpec, { readonly kind: 'pair' }>;

const paperNames: readonly PaperName[] = ['a0', 'a1', 'a2', 'a3', 'a4', 'a5', 'letter', 'legal', 'ledger'];

function countOf(sign: string, text: string): number {
  return text.split(sign).length - 1;
}

/** `[16, 12]` for the list `[16 12]`, which has one item that is no measure. */
function missingComma({ items }: ListNode): string | undefined {
  const [only, second] = items;
  if (only?.kind !== 'text' || second !== undefined || readMeasure(only.text).kind !== 'refused')
    return undefined;
  const sizes = /^(?<a>[^\s()]+)\s+(?<b>[^\s()]+)$/u.exec(only.text)?.groups;
  return sizes && `[${sizes.a}, ${sizes.b}]`;
}

/** `1.25 in` for the list `[1,25 in, 3]`, which has an item too many. */
function decimalComma({ items }: ListNode): string | undefined {
  for (const [index, item] of items.entries()) {
    const next = items[index + 1];
    if (item.kind !== 'text' || next?.kind !== 'text' || next.at.start !== item.at.end + 1) continue;
    if (/^\d+$/u.test(item.text) && /^\d/u.test(next.text)) return `${item.text}.${next.text}`;
  }
  return undefined;
}

/** Why a text can't be printed on one line; undefined where it can. Line ends that were typed become spaces. */
export function unprintable({ text, isQuoted }: TextNode): string | undefined {
  const isEscaped = isQuoted && /[\r\n]/u.test(text);
  const found =
    unseenCharacterIn(text) ??
    (text.includes('\t') ? { name: 'a tab' } : isEscaped ? { name: 'a line end' } : undefined);
  return found === undefined ? undefined : `the text holds ${found.name}, which can't be printed`;
}
