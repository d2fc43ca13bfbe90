import type { MaterialPlan, Savings } from '../../model/index.ts';
import { whyWords } from '../whyWords.ts';
import { type Lines, paragraph } from './lines.ts';
import type { Setting } from './material.ts';
import { signsOf } from './signs.ts';
import { clean } from './width.ts';

/** Why it takes so many sheets, and what would save one. */
export function writeWhy(plan: MaterialPlan, savings: Savings, { showing, look }: Setting): Lines {
  const { full: length, pair } = showing;
  const words = whyWords(plan, savings, {
    length,
    pair: (a, b) => `${pair(a, b)}\u00a0${showing.unit}`,
    clean,
  });
  const { dot } = signsOf(look);
  return [
    ...paragraph(words.reasons.join(' '), look.width, 'Why      '),
    ...(words.lead === undefined ? [] : paragraph(words.lead, look.width, 'To save  ')),
    ...words.savings.flatMap((it) => paragraph(it, look.width, `         ${dot} `)),
    '',
  ];
}
