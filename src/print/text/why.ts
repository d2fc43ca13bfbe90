import type { Made, MaterialPlan, Savings } from '../../model/index.ts';
import { clean, type Lines, type Look, paragraph, signsOf } from '../columns/index.ts';
import { whyWords } from '../whyWords.ts';
import { showingOf } from './lengths.ts';
import type { Setting } from './material.ts';

/** The reasons alone, material by material, for whoever has the sheets in a form that does not hold them. */
export function printWhy(made: Made, look: Look): string {
  const setting = { showing: showingOf(made.batch.settings, look), look };
  const lines = made.plans.flatMap((plan, i) => {
    const savings = made.savings?.[i];
    if (savings === undefined) return [];
    return [...paragraph(clean(plan.demand.material.name), look.width), ...writeWhy(plan, savings, setting)];
  });
  return lines.map((line) => `${line.trimEnd()}\n`).join('');
}

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
