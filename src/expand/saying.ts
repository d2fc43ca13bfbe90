import { floor, isNegative, negate, rational, subtract, toFraction, toInches } from '../measure/index.ts';
import type { Expression, FileUnits, Length, Rational, Span } from '../model/index.ts';

/** The user's own words, as they stand in the file; on one line. */
export function textOf({ at }: { readonly at: Span }): string {
  return at.source.text.slice(at.start, at.end).replace(/\s+/g, ' ');
}

/** Exact, in the user's own unit: `2 3/8 in`, `60.325 mm`. */
export function showLength(length: Length, units: FileUnits): string {
  return units === 'in' ? `${readingOf(toInches(length))} in` : `${decimalOf(length)} mm`;
}

/** `2 3/8`: a number as a maker reads it. */
export function readingOf(value: Rational): string {
  if (isNegative(value)) return `-${readingOf(negate(value))}`;
  const wholes = floor(value);
  const rest = subtract(value, rational(wholes));
  if (rest.numerator === 0n) return `${wholes}`;
  return wholes === 0n ? toFraction(rest) : `${wholes} ${toFraction(rest)}`;
}

/** A decimal where it ends, else a mixed number: never rounded. */
function decimalOf(value: Rational): string {
  let scale = 1n;
  for (let digits = 0; digits <= 8; digits++, scale *= 10n) {
    if (scale % value.denominator !== 0n) continue;
    const scaled = (value.numerator * scale) / value.denominator;
    const sign = scaled < 0n ? '-' : '';
    const text = `${scaled < 0n ? -scaled : scaled}`.padStart(digits + 1, '0');
    return digits === 0 ? `${sign}${text}` : `${sign}${text.slice(0, -digits)}.${text.slice(-digits)}`;
  }
  return readingOf(value);
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
