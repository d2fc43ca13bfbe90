import type { MaterialPlan } from '../../model/index.ts';
import { type OffsetTable, type ShapeWork, shapeLead, shapeWorkOf } from '../shapeWork.ts';
import { type Entry, entryOf, halfOf, heightOfAll } from './entries.ts';
import type { Flow } from './flow.ts';
import { line, type Mark, type Pausing, rectangle } from './mark.ts';
import { partOfItsOwn } from './partOfItsOwn.ts';
import type { Sizes } from './sizes.ts';
import { leadingOf, type Typeface, widthOf, wordsEndingAt } from './type.ts';

/** How each shape is set out in its blank by hand: nothing where all parts are rectangles. */
export function* shapePages(flow: Flow, sizes: Sizes, plans: readonly MaterialPlan[]): Pausing {
  const isInches = sizes.unit === 'inches';
  const style = {
    unit: isInches ? 'in' : 'mm',
    step: sizes.step,
    brief: sizes.mark,
    fine: sizes.fine,
    full: (length: Parameters<Sizes['full']>[0]) => `${sizes.full(length)}\u00a0${isInches ? 'in' : 'mm'}`,
    pair: sizes.pair,
    clean: (text: string) => text,
    heightsOf: 'what nothing else draws',
  } as const;
  const shapes = shapeWorkOf(plans, style);
  yield;
  if (shapes.length === 0) return;
  const entries = shapes.flatMap((it) => ofShape(flow.face, it, halfOf(flow)));
  partOfItsOwn(flow, 'Shapes, set out by hand', shapeLead(shapes), entries);
}

const indentMm = 7;

/** A box to tick and what it is, then one paragraph or table below the other. */
function ofShape(face: Typeface, { about, rows }: ShapeWork, widthMm: number): readonly Entry[] {
  const lead = ({ x, y }: { readonly x: number; readonly y: number }): readonly Mark[] => [
    rectangle('tick box', { left: x + 0.4, right: x + 3.9, top: y + 0.7, bottom: y + 4.2 }),
  ];
  const entries = [
    ...entryOf(face, about, indentMm, widthMm, lead),
    ...rows.flatMap((row) =>
      typeof row === 'string' ? entryOf(face, row, indentMm, widthMm) : tableOf(face, row, widthMm),
    ),
  ];
  // Apart from the next.
  return entries.map((it, index) =>
    index === entries.length - 1 ? { ...it, heightMm: it.heightMm + 2 } : it,
  );
}

const betweenMm = 5;
/** Of one table that stay together, so that they find room on small paper too. */
const mostRows = 14;

/** Figures stand right in their columns, each as wide as it has to be; twice beside each other where that fits. */
function tableOf(face: Typeface, { lead, headings, rows }: OffsetTable, widthMm: number): readonly Entry[] {
  const widths = headings.map((heading, column) =>
    Math.max(...[heading, ...rows.map((row) => row[column] ?? '')].map((it) => widthOf(face, 'text', it))),
  );
  const onceMm = widths.reduce((all, it) => all + it + betweenMm, 0);
  const times = Math.max(1, Math.min(3, Math.floor((widthMm - indentMm + betweenMm) / onceMm)));
  const height = Math.ceil(rows.length / times);
  const lines = Array.from({ length: height }, (_, row) =>
    Array.from({ length: times }, (_column, at) => rows[at * height + row]),
  );
  const leading = leadingOf('text');
  const set = (row: readonly string[], left: number, base: number): readonly Mark[] => {
    let end = left;
    return row.map((text, column): Mark => {
      end += (widths[column] ?? 0) + (column === 0 ? 0 : betweenMm);
      return wordsEndingAt(face, 'text', text, { x: end, y: base });
    });
  };
  const parts = Math.ceil(height / mostRows);
  const apiece = Math.ceil(height / parts);
  const grids = Array.from({ length: parts }, (_, part): Entry => {
    const own = lines.slice(part * apiece, (part + 1) * apiece);
    return {
      heightMm: (own.length + 1) * leading + 1.4,
      draw: ({ x, y }) => {
        const left = x + indentMm;
        const used = Array.from({ length: times }, (_, at) => left + at * onceMm).filter(
          (_, at) => own[0]?.[at] !== undefined,
        );
        const rule = y + leading + 0.2;
        return [
          ...used.flatMap((from) => [
            ...set(headings, from, y + 3.6),
            line('table rule', { x: from, y: rule }, { x: from + onceMm - betweenMm, y: rule }),
          ]),
          ...own.flatMap((row, index) =>
            row.flatMap((cells, at) =>
              cells === undefined ? [] : set(cells, left + at * onceMm, y + 4.3 + (index + 1) * leading),
            ),
          ),
        ];
      },
    };
  });
  const [first, ...others] = grids;
  const said = entryOf(face, lead, indentMm, widthMm);
  return first === undefined ? said : [together([...said, first]), ...others];
}

/** What is never parted. */
function together(entries: readonly Entry[]): Entry {
  return {
    heightMm: heightOfAll(entries),
    draw: ({ x, y }) => {
      let top = y;
      return entries.flatMap((it) => {
        const marks = it.draw({ x, y: top });
        top += it.heightMm;
        return marks;
      });
    },
  };
}
