import { readFileSync } from 'node:fs';
import type { Outline, Settings } from '../../../src/model/index.ts';
import { type Bars, composeMasters, trueBars } from '../../../src/print/masters/index.ts';
import type { Composed } from '../../../src/print/paged/index.ts';
import { mastersMade } from './evening.ts';

export const program = {
  version: '0.0.0',
  readFont: (name: string) => readFileSync(new URL(`../../../shared/fonts/${name}`, import.meta.url)),
};

export function composed(
  all: Readonly<Record<string, Outline>>,
  { bars = trueBars, ...more }: Partial<Settings> & { readonly bars?: Bars } = {},
): Composed {
  const choice = { name: undefined, bars, mayTurn: true };
  const { value, diagnostics } = composeMasters(mastersMade(all, more), choice, program);
  if (value === undefined) throw new Error(diagnostics.map(({ message }) => message).join());
  return value;
}
