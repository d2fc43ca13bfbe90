import { readFileSync } from 'node:fs';

/** The rows of fractions.csv, whose first line tells where they come from. */
export interface FractionRow {
  readonly inches: string;
  readonly numerator: bigint;
  readonly denominator: bigint;
  readonly decimalInches: string;
  readonly mm: string;
}

export const fractionTable: readonly FractionRow[] = readFileSync(
  new URL('fractions.csv', import.meta.url),
  'utf8',
)
  .trim()
  .split('\n')
  .slice(2)
  .map((line) => {
    const [inches = '', numerator = '', denominator = '', decimalInches = '', mm = ''] = line.split(',');
    return { inches, numerator: BigInt(numerator), denominator: BigInt(denominator), decimalInches, mm };
  });
