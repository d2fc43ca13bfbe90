import type { Expression, FileUnits, Span } from '../model/index.ts';

/** The user's own words, as they stand in the file; on one line. */
export function textOf({ at }: { readonly at: Span }): string {
  return at.source.text.slice(at.start, at.end).replace(/\s+/g, ' ');
}

/** The sum with a unit behind its last bare number: `(2 x 3/4 in)`; undefined where it has none. */
export function withUnit(expression: Expression, units: FileUnits): string | undefined {
  const last = lastBareNumber(expression);
  if (last === undefined) return undefined;
  const { source, start, end } = expression.at;
  return `${source.text.slice(start, last.end)} ${units}${source.text.slice(last.end, end)}`.replace(
    /\s+/g,
    ' ',
  );
}

function lastBareNumber(expression: Expression): Span | undefined {
  switch (expression.kind) {
    case 'measure':
      return expression.unit === 'bare' ? expression.at : undefined;
    case 'name':
    case 'faulty':
      return undefined;
    case 'negative':
      return lastBareNumber(expression.of);
    case 'smaller':
    case 'larger':
      return expression.of.map(lastBareNumber).findLast((it) => it !== undefined);
    case 'up to':
    case 'down to':
    case 'nearest':
      return lastBareNumber(expression.step) ?? lastBareNumber(expression.of);
    default:
      return lastBareNumber(expression.right) ?? lastBareNumber(expression.left);
  }
}
