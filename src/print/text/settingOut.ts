import type { MaterialPlan } from '../../model/index.ts';
import { clean, indented, type Lines, paragraph, signsOf } from '../columns/index.ts';
import { type ShapeWork, shapeLead, shapeWorkOf } from '../shapeWork.ts';
import type { Setting } from './material.ts';
import { offsetTable } from './offsetTable.ts';

/** How to set each outline out in its blank by hand. */
export function settingOut(plan: MaterialPlan, { showing, look }: Setting): Lines {
  const { times } = signsOf(look);
  const style = { ...showing, fine: showing.thickness, clean, times, heightsOf: 'each curve' } as const;
  const shapes = shapeWorkOf([plan], style);
  if (shapes.length === 0) return [];
  return [
    '',
    ...paragraph(shapeLead(shapes), look.width, 'Shapes  '),
    ...shapes.flatMap((it) => ['', ...ofOne(it, look)]),
  ];
}

function ofOne({ about, rows }: ShapeWork, look: Setting['look']): Lines {
  const inner = { ...look, width: look.width - 2 };
  const lines = rows.flatMap((row) =>
    typeof row === 'string' ? paragraph(row, inner.width) : offsetTable(row, inner),
  );
  return [...paragraph(about, look.width), ...indented(lines, 2)];
}
