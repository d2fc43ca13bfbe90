import { type ReferenceTable, ruleOf, showExact } from '../../measure/index.ts';
import { numbers, type TableSheet } from './table.ts';

/** Every mark of a rule in the other unit, for the wall. The rounding rule stands in the heading. */
export function referenceSheet({ step, unit, to, halves, rows }: ReferenceTable): TableSheet {
  const other = unit === 'in' ? 'mm' : 'in';
  const nearest = `to ${showExact(to, other)}, ${halves}`;
  const columns =
    unit === 'in'
      ? [numbers('in'), numbers('decimal'), numbers('mm, exact'), numbers(nearest), numbers('error')]
      : [numbers('mm'), numbers('in, decimal'), numbers(nearest), numbers('error')];
  return {
    title: unit === 'in' ? 'Inches to millimetres' : 'Millimetres to inches',
    heading: `every ${showExact(step, unit)}`,
    notes: [
      '1 in is 25.4 mm exactly.',
      `Rounded ${ruleOf(halves)}; the error is the true length less the rounded one, in ${other === 'in' ? 'inches' : 'millimetres'}${unit === 'mm' ? '; ~ marks a decimal that is rounded' : ''}.`,
    ],
    tables: [
      {
        title: undefined,
        notes: [],
        columns,
        rows: rows.map((it) =>
          unit === 'in'
            ? [it.onRule, it.decimal, it.exact, it.nearest, it.error]
            : [it.onRule, it.exact, it.nearest, it.error],
        ),
      },
    ],
  };
}
