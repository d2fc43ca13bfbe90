import type { MaterialPlan, Savings } from '../../model/index.ts';
import { whyWords } from '../whyWords.ts';
import type { Flow } from './flow.ts';
import type { Sizes } from './sizes.ts';
import { leadingOf } from './type.ts';

/** Why each material takes so many sheets, and what would save one; nothing where nobody asked. */
export function whyPage(
  flow: Flow,
  sizes: Sizes,
  plans: readonly MaterialPlan[],
  savings: readonly Savings[] | undefined,
): void {
  if (savings === undefined || plans.length === 0) return;
  const told = plans.flatMap((plan, i) => {
    const its = savings[i];
    return its === undefined ? [] : [{ name: plan.demand.material.name, words: wordsOf(plan, its, sizes) }];
  });
  if (flow.room() < leastRoomMm) flow.open('why so many sheets');
  else flow.down(gapMm);
  flow.bookmark('Why so many sheets');
  for (const { name, words } of told) {
    // A heading never stands alone at the foot of a page.
    if (flow.room() < 4 * leadingOf('text')) flow.carryOn('why so many sheets');
    flow.say('heading', `Why so many sheets: ${name}`);
    for (const reason of words.reasons) flow.say('text', reason);
    if (words.lead !== undefined) flow.say('text', words.lead);
    for (const saving of words.savings) flow.say('text', `· ${saving}`, 4);
    flow.down(2);
  }
}

/** With less room it begins on a page of its own. */
const leastRoomMm = 60;
const gapMm = 7;

function wordsOf(plan: MaterialPlan, savings: Savings, sizes: Sizes) {
  return whyWords(plan, savings, {
    length: (length) => `${sizes.full(length)}\u00a0${sizes.unit === 'mm' ? 'mm' : 'in'}`,
    pair: (length, width) => `${sizes.pair(length, width)}\u00a0${sizes.unit === 'mm' ? 'mm' : 'in'}`,
    clean: (text) => text,
  });
}
