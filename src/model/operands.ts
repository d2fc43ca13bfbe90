import type { Expression } from './spec.ts';

/** The amounts that an amount is put together from. */
export function operandsOf(expression: Expression): readonly Expression[] {
  switch (expression.kind) {
    case 'negative':
      return [expression.of];
    case 'sum':
    case 'difference':
    case 'product':
    case 'quotient':
      return [expression.left, expression.right];
    case 'smaller':
    case 'larger':
      return expression.of;
    case 'up to':
    case 'down to':
    case 'nearest':
      return [expression.of, expression.step];
    default:
      return [];
  }
}
