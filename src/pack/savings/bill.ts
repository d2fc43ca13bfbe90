import { add, compareRationals, multiply, priceFor, whole } from '../../measure/index.ts';
import type { MaterialLayouts, Rational } from '../../model/index.ts';

/** What has to be bought; offcuts have been paid for. */
export interface Bill {
  readonly sheets: number;
  readonly area: Rational;
  /** Undefined where not every sheet has a price in the same money. */
  readonly cost: { readonly amount: Rational; readonly currency: string } | undefined;
}

export function billOf({ demand, layouts }: Pick<MaterialLayouts, 'demand' | 'layouts'>): Bill {
  const bought = demand.sheets.map(() => 0);
  for (const { sheet, times } of layouts) bought[sheet]! += demand.sheets[sheet]!.isOffcut ? 0 : times;
  let [sheets, area, amount] = [0, whole(0), whole(0)];
  const currencies = new Set<string | undefined>();
  for (const [i, count] of bought.entries()) {
    if (count === 0) continue;
    const sheet = demand.sheets[i]!;
    const price = priceFor(sheet, count);
    sheets += count;
    area = add(area, multiply(multiply(sheet.length, sheet.width), whole(count)));
    if (price !== undefined) amount = add(amount, price.amount);
    currencies.add(price?.currency);
  }
  const [currency] = currencies;
  const isPriced = currencies.size === 1 && currency !== undefined;
  return { sheets, area, cost: isPriced ? { amount, currency } : undefined };
}

/** Where the two can't be compared, not. */
export function costsMore(bill: Bill, now: Bill): boolean {
  if (bill.cost === undefined || bill.cost.currency !== now.cost?.currency) return false;
  return compareRationals(bill.cost.amount, now.cost.amount) > 0;
}
