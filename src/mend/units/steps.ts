import { compare, inches, millimetres, rational } from '../../measure/index.ts';
import type { FileUnits, Length } from '../../model/index.ts';

/** Source: common practice, no source: the graduations of rules, and what calipers and printers can tell apart. */
const inUse: Readonly<Record<FileUnits, readonly Length[]>> = {
  mm: [rational(1n), ...[2n, 4n, 5n, 10n, 20n, 50n, 100n].map((it) => rational(1n, it))].map(millimetres),
  in: [2n, 4n, 8n, 16n, 32n, 64n, 128n].map((it) => inches(rational(1n, it))),
};

/** Finer steps than one, the coarsest first. */
export function stepsBelow(step: Length, unit: FileUnits): readonly Length[] {
  return inUse[unit].filter((it) => compare(it, step) < 0);
}
