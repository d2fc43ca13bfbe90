import { type Example, kit } from '../explainPage.ts';

interface LetIn {
  /** What is said of the fitting. */
  readonly fitting?: string;
  readonly edges?: string;
  readonly size?: string;
  readonly slack?: string;
}

/** A block of foam with a magnet let in, so that an example shows that alone. */
export function letIn(place: string, { fitting, edges, size, slack }: LetIn = {}): Example {
  const sides = edges === undefined ? '' : `    edges: ${edges}\n`;
  return kit(`cardwright: kit
units: in
grid: { square: 3${slack === undefined ? '' : `, slack: ${slack}`} }
materials: { foam: { thickness: 1/2 } }
sheets: { foam: [{ size: [24, 12] }] }
fittings: { disc magnet: { ${fitting ?? 'diameter: 6 mm, depth: 2 mm'} } }
tiles:
  terrace:
    parts: { slab: { of: foam, size: ${size ?? '[3, 3]'} } }
    build: { up: [slab] }
    fittings: { disc magnet: ${place} }
${sides}`);
}
