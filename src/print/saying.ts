import { add, priceFor, roundedDecimal, whole } from '../measure/index.ts';
import type { CostProof, MaterialPlan, Proof, Rational, SheetKind, SheetPlan } from '../model/index.ts';
import { boughtKinds } from './bought.ts';

/**
 * What one material takes, and how good that is known to be: `2 sheets (6.60 EUR), the fewest possible, and
 * 1 offcut`. What is claimed is claimed of the sheets that are bought; offcuts are used up first.
 */
export function needWords({ sheets, bound, proof }: MaterialPlan): string {
  const bought = countOf(sheets, ({ isOffcut }) => !isOffcut);
  const uncut = countOf(sheets, ({ isUncut }) => isUncut === true);
  const offcuts = countOf(sheets, ({ isOffcut, isUncut }) => isOffcut && isUncut !== true);
  const atHand = [
    ...(uncut === 0 ? [] : [`${sheetCount(uncut)} at hand`]),
    ...(offcuts === 0 ? [] : [`${offcuts} ${offcuts === 1 ? 'offcut' : 'offcuts'}`]),
  ].join(' and ');
  if (bought === 0) return proof.kind === 'fewest' ? `${atHand}, nothing to buy` : atHand;
  const known = proofWords(proof, bound.isForBlanks ? 'for these blanks' : 'possible');
  const ofBought = `${sheetCount(bought)}${costWords(sheets)}${known}`;
  return atHand === '' ? ofBought : `${ofBought}${known === '' ? '' : ','} and ${atHand}`;
}

/** What a person calls it. */
export function sheetWord({ isOffcut, isUncut, block }: SheetKind): 'sheet' | 'offcut' | 'layer' {
  if (block !== undefined) return 'layer';
  return isOffcut && isUncut !== true ? 'offcut' : 'sheet';
}

function sheetCount(count: number): string {
  return `${count} ${count === 1 ? 'sheet' : 'sheets'}`;
}

function countOf(sheets: readonly SheetPlan[], isSo: (sheet: SheetKind) => boolean): number {
  return sheets.filter(({ sheet }) => isSo(sheet)).reduce((sum, { times }) => sum + times, 0);
}

/** What the sheets cost that have a price; offcuts have been paid for. */
function costWords(sheets: readonly SheetPlan[]): string {
  const sums = new Map<string, Rational>();
  for (const { sheet, count } of boughtKinds(sheets)) {
    const price = priceFor(sheet, count);
    if (price !== undefined)
      sums.set(price.currency, add(sums.get(price.currency) ?? whole(0), price.amount));
  }
  if (sums.size === 0) return '';
  return ` (${[...sums].map(([currency, sum]) => `${roundedDecimal(sum, 2)}\u00a0${currency}`).join(' + ')})`;
}

function costProofWords(cost: CostProof | undefined, of: string): string {
  if (cost === undefined) return '';
  if (cost.kind === 'cheapest') return `, no way${of} is cheaper`;
  return `, at most ${roundedDecimal(cost.by.amount, 2)}\u00a0${cost.by.currency} dearer than the cheapest way${of}`;
}

export function proofWords(proof: Proof, among: 'possible' | 'for these blanks'): string {
  const of = among === 'possible' ? '' : ' of cutting these blanks';
  switch (proof.kind) {
    case 'fewest':
      return `, the fewest ${among}${costProofWords(proof.cost, of)}`;
    case 'within':
      return proof.cost === undefined
        ? `, at most ${proof.sheets} more than the fewest ${among}`
        : costProofWords(proof.cost, of);
    case 'none':
      return '';
  }
}
