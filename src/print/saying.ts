import { add, multiply, roundedDecimal, whole } from '../measure/index.ts';
import type { CostProof, MaterialPlan, Proof, Rational, SheetPlan } from '../model/index.ts';

/**
 * What one material takes, and how good that is known to be: `2 sheets (6.60 EUR), the fewest possible, and
 * 1 offcut`. What is claimed is claimed of the sheets that are bought; offcuts are used up first.
 */
export function needWords({ sheets, bound, proof }: MaterialPlan): string {
  const bought = countOf(sheets, false);
  const offcuts = countOf(sheets, true);
  const ofOffcuts = `${offcuts} ${offcuts === 1 ? 'offcut' : 'offcuts'}`;
  if (bought === 0) return proof.kind === 'fewest' ? `${ofOffcuts}, nothing to buy` : ofOffcuts;
  const known = proofWords(proof, bound.isForBlanks ? 'for these blanks' : 'possible');
  const ofBought = `${bought} ${bought === 1 ? 'sheet' : 'sheets'}${costWords(sheets)}${known}`;
  return offcuts === 0 ? ofBought : `${ofBought}${known === '' ? '' : ','} and ${ofOffcuts}`;
}

function countOf(sheets: readonly SheetPlan[], isOffcut: boolean): number {
  return sheets.filter(({ sheet }) => sheet.isOffcut === isOffcut).reduce((sum, { times }) => sum + times, 0);
}

/** What the sheets cost that have a price; offcuts have been paid for. */
function costWords(sheets: readonly SheetPlan[]): string {
  const sums = new Map<string, Rational>();
  for (const { sheet, times } of sheets) {
    if (sheet.price === undefined || sheet.isOffcut) continue;
    const { amount, currency } = sheet.price;
    sums.set(currency, add(sums.get(currency) ?? whole(0), multiply(amount, whole(times))));
  }
  if (sums.size === 0) return '';
  return ` (${[...sums].map(([currency, sum]) => `${roundedDecimal(sum, 2)}\u00a0${currency}`).join(' + ')})`;
}

function costProofWords(cost: CostProof | undefined, of: string): string {
  if (cost === undefined) return '';
  if (cost.kind === 'cheapest') return `, no way${of} is cheaper`;
  return `, at most ${roundedDecimal(cost.by.amount, 2)}\u00a0${cost.by.currency} dearer than the cheapest way${of}`;
}

function proofWords(proof: Proof, among: 'possible' | 'for these blanks'): string {
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
