import { unitNames } from '../measure/index.ts';
import { atSpan, type Diagnostic, diagnose, type Named } from '../model/index.ts';
import type { Faults } from './faults.ts';
import { readEntries } from './fields.ts';
import {
  dividingWords,
  groundWords,
  mostOfName,
  nameWord,
  takenByMeasures,
  takenWords,
} from './sum/words.ts';
import { unprintable } from './values.ts';
import { type Node, type TextNode, within } from './yaml/node.ts';

/** Which rules a name has to keep: those of sums, those of sums and counts, or none but that it can be printed. */
export type NameRules = 'thing' | 'measure' | 'free';

/** Reads a map from names that the maker gives to values. A faulty name keeps its value, so that its users stay quiet. */
export function readNamed<T>(
  node: Node,
  where: string,
  rules: NameRules | 'reference',
  read: (value: Node, name: string) => T | undefined,
  faults: Faults,
): readonly Named<T>[] {
  const named: Named<T>[] = [];
  for (const { key, value } of readEntries(node, where, faults)) {
    if (rules !== 'reference') checkName(key, rules, faults);
    const name = key.text.normalize('NFC');
    const made = read(value, name);
    if (made !== undefined) named.push({ name, at: key.at, value: made });
  }
  return named;
}

function checkName(key: TextNode, rules: NameRules, faults: Faults): void {
  const fault = faultOf(key, rules);
  if (fault !== undefined) faults.report(fault);
}

function faultOf(key: TextNode, rules: NameRules): Diagnostic | undefined {
  const { text: name, at } = key;
  const length = [...name].length;
  if (length > mostOfName) return diagnose('S44', atSpan(at), { length });
  const why = whyNot(key, rules);
  if (why !== undefined) return diagnose('S41', atSpan(at), { name, why });
  if (rules === 'free') return undefined;
  const taken = takenIn(name, rules);
  if (taken === undefined) return undefined;
  const start = name.search(new RegExp(`(?<![\\p{L}0-9])${taken}(?![\\p{L}0-9])`, 'u'));
  return diagnose('S42', atSpan(within(key, start, start + taken.length)), { name, word: taken });
}

const sound = new RegExp(`^(?=\\p{L})${nameWord}(?: ${nameWord})*$`, 'u');

function whyNot(key: TextNode, rules: NameRules): string | undefined {
  const { text: name } = key;
  if (name === '') return 'it is empty';
  if (rules === 'free') return name.trim() === name ? unprintable(key) : 'spaces stand at its ends';
  if (sound.test(name)) return undefined;
  if (!/^\p{L}/u.test(name)) return 'it does not begin with a letter';
  const odd = /[^\p{L}\p{M}0-9 '\u2019-]/u.exec(name)?.[0];
  if (odd !== undefined) {
    return /^[\p{C}\p{Z}]$/u.test(odd) ? 'a character that can hardly be seen is in it' : `"${odd}" is in it`;
  }
  if (/ {2}|^ | $/u.test(name)) return 'its spaces are not single ones';
  return 'each word begins and ends with a letter or a digit';
}

function takenIn(name: string, rules: NameRules): string | undefined {
  const words = name.split(' ');
  const dividing = words.find((it) => dividingWords.includes(it));
  if (dividing !== undefined) return dividing;
  if (words[0] === 'gap') return 'gap';
  const isTaken =
    takenWords.includes(name) ||
    groundWords.includes(name) ||
    unitNames.includes(name.toLowerCase()) ||
    (rules === 'measure' && takenByMeasures.includes(name));
  return isTaken ? name : undefined;
}
