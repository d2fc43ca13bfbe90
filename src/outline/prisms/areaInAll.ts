import { add, multiply, rational, subtract } from '../../measure/index.ts';
import type { Rational } from '../../model/index.ts';
import type { Facets } from '../flatten.ts';
import { slabs } from '../slabs.ts';

/** What all of some shapes have in common, bit by bit. */
export function* areasInAll(shapes: readonly Facets[]): Generator<Rational> {
  for (const { from, to, layers } of slabs(shapes)) {
    for (const layer of layers) {
      if (!layer.isEmpty && !layer.isIn.includes(false)) yield multiply(subtract(to, from), layer.height);
    }
  }
}

export function areaInAll(shapes: readonly Facets[]): Rational {
  let area = rational(0n);
  for (const it of areasInAll(shapes)) area = add(area, it);
  return area;
}
