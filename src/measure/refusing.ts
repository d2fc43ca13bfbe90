import {
  anyDash,
  countDigits,
  mostCharacters,
  mostDigits,
  oneOver,
  parse,
  slash,
  space,
  vulgar,
} from './notation.ts';
import { type Fault, type Refusal, type Rule, rule, shown, toRefusal } from './refusal.ts';
import { numberRules } from './wrongNumbers.ts';
import { unitRules } from './wrongUnits.ts';

/**
 * Says why a text is no measure. The rules are tried in turn, the telling ones first; what no rule finds is
 * a stray character, so that there always is an answer.
 *
 * @param text one that `parse` gave up on
 */
export function refuse(text: string): Refusal {
  for (const find of rules) {
    const fault = find(text);
    if (fault !== undefined) return toRefusal(text, fault);
  }
  return toRefusal(text, strayCharacters(text));
}

const begins = `^${space}*`;
const minus = '[-\\u2212]?';

/** What is wrong before the first number is. */
const beginningRules: readonly Rule[] = [
  // `(2 + 3)`
  rule('M23', `${begins}(?<fault>\\(.*)`, ({ text }) => ({ found: shown(text) })),
  // `+3`, `- 3`, `--3`, `–3`
  rule(
    'M26',
    `${begins}(?<fault>[+\\u2010-\\u2015]|${anyDash}${space}+|[-+\\u2212]{2,})(?=[\\d.]|${vulgar}|${oneOver})`,
    (match) => {
      const size = match.text.slice(match.end);
      const sign = match.text.slice(match.start, match.end).trim();
      const instead = sign === '+' ? [size] : sign.length > 1 ? [size, `-${size}`] : [`-${size}`];
      return { found: sign, instead };
    },
  ),
  // `/8`, `.`, `⅟`, `-`
  rule('M21', `${begins}${minus}(?<fault>${slash}|${oneOver}(?!\\d)|\\.(?!\\d)|[-\\u2212]$)`),
  // `about 3 in`, `"`
  rule('M02', `${begins}(?!${space}|${minus}(?:[\\d.]|${vulgar}|${oneOver}))(?<fault>[^]+)`, ({ text }) => ({
    instead: [text.replace(/^[^\d]*/u, '')],
  })),
];

const rules: readonly Rule[] = [
  (text) => (/^\s*$/u.test(text) ? { code: 'M01', start: 0, end: text.length } : undefined),
  tooLong,
  ...numberRules.ofOtherScripts,
  ...beginningRules,
  ...numberRules.ofPlainDigits,
  ...unitRules,
];

function tooLong(text: string): Fault | undefined {
  const digits = countDigits(text);
  if (digits <= mostDigits && text.length <= mostCharacters) return undefined;
  const found = digits > mostDigits ? `${digits} digits` : `${text.length} characters`;
  return { code: 'M18', start: 0, end: text.length, found };
}

/** What stands behind the longest beginning that would be read. */
function strayCharacters(text: string): Fault {
  const last = text.length - (spaceBehind.exec(text)?.[0].length ?? 0);
  for (let end = last - 1; end > 0; end--) {
    const beginning = text.slice(0, end);
    if (parse(beginning) === undefined) continue;
    const start = end + (spaceBefore.exec(text.slice(end))?.[0].length ?? 0);
    // `3-inch` lacks no more than a space.
    const spaced = `${beginning} ${text.slice(start).replace(new RegExp(`^${anyDash}`, 'u'), '')}`;
    return { code: 'M24', start, end: last, instead: [parse(spaced) === undefined ? beginning : spaced] };
  }
  const start = spaceBefore.exec(text)?.[0].length ?? 0;
  return { code: 'M24', start, end: Math.max(last, start + 1) };
}

// Not `\s`, which takes U+FEFF for a space: here it is a stray character.
const spaceBefore = new RegExp(begins, 'u');
const spaceBehind = new RegExp(`${space}*$`, 'u');
