import type { MaterialPlan } from '../../model/index.ts';
import { hasOrder, orderLead, orderRows } from '../orderWords.ts';
import type { Chunk } from './cuttingList.ts';
import { columnGap, drawAt, type Entry, entriesOf, entryOf, halfOf, heightOfAll } from './entries.ts';
import type { Flow } from './flow.ts';
import { rectangle } from './mark.ts';
import type { Sizes } from './sizes.ts';
import { leadingOf, shortened, widthOf, words, wrapped } from './type.ts';

/**
 * The order of work over all pictures of a material: what is set out, and which steps it serves. Nothing where
 * the steps of the pictures, one after the other, need no more settings.
 *
 * @param isFirst  how it is read is only said once
 */
export function orderOfWork(
  flow: Flow,
  sizes: Sizes,
  plan: MaterialPlan,
  { isFirst }: { readonly isFirst: boolean },
): readonly Chunk[] {
  if (!hasOrder(plan)) return [];
  const { face, column } = flow;
  const name = shortened(face, 'heading', headingOf(plan), flow.width) ?? '';
  const lead = isFirst ? entryOf(face, orderLead, 0, flow.width) : [];
  const headMm = leadingOf('heading') + heightOfAll(lead);
  const rows = orderRows(plan, { length: sizes.mark, range: '–', sheet: 'sheet' }).map(
    ({ set, cut }) => `Set ${set}: ${cut}`,
  );
  return gridsOf(flow, rows, headMm).map((columns, index): Chunk => {
    const gridMm = Math.max(...columns.map(heightOfAll));
    const apart = (flow.width + columnGap) / columns.length;
    const isHead = index === 0;
    return {
      heightMm: gridMm + (isHead ? headMm : 0),
      isFirst: isHead,
      atTopMm: isHead ? 0 : leadingOf('heading'),
      draw: () => {
        if (isHead || flow.isAtTop()) {
          flow.add([
            words(face, 'heading', name, { x: column.left, y: flow.y() + leadingOf('heading') * 0.76 }),
          ]);
          flow.down(leadingOf('heading'));
        }
        if (isHead) {
          drawAt(flow, lead, column.left, flow.y());
          flow.down(heightOfAll(lead));
        }
        for (const [at, entries] of columns.entries())
          drawAt(flow, entries, column.left + at * apart, flow.y());
        flow.down(gridMm);
      },
    };
  });
}

const mostGridMm = 45;
/** Of one row that stay together, so that rows of any length find room on any paper. */
const mostLines = 6;

/** Short rows in three columns, others in two, filled one after the other; not too many, to stay together. */
function gridsOf(
  flow: Flow,
  rows: readonly string[],
  headMm: number,
): readonly (readonly (readonly Entry[])[])[] {
  const third = (flow.width - 2 * columnGap) / 3;
  const isShort = rows.every((row) => widthOf(flow.face, 'text', row) <= third - boxMm);
  const [count, widthMm] = isShort ? [3, third] : [2, halfOf(flow)];
  const entries = rows.flatMap((row) => ticked(flow, row, widthMm));
  const tallest = Math.max(...entries.map(({ heightMm }) => heightMm));
  const most = Math.min(mostGridMm, flow.fullMm - headMm - tallest);
  return runsOf(entries, most * count).map((own) => columnsIn(own, count));
}

/** Neighbours together up to a height. */
function runsOf(entries: readonly Entry[], mostMm: number): readonly (readonly Entry[])[] {
  const runs: Entry[][] = [[]];
  let filled = 0;
  for (const entry of entries) {
    filled += entry.heightMm;
    if (filled > mostMm && filled > entry.heightMm) {
      runs.push([]);
      filled = entry.heightMm;
    }
    runs[runs.length - 1]?.push(entry);
  }
  return runs;
}

/** Columns one after the other, each at least its share of the height: none is more than one entry above it. */
function columnsIn(entries: readonly Entry[], count: number): readonly (readonly Entry[])[] {
  const share = heightOfAll(entries) / count;
  const columns: Entry[][] = Array.from({ length: count }, () => []);
  let above = 0;
  for (const entry of entries) {
    columns[Math.min(count - 1, Math.floor(above / share + 1e-9))]?.push(entry);
    above += entry.heightMm;
  }
  return columns;
}

function headingOf({ demand, order, settingsByPicture }: MaterialPlan): string {
  const settings = order.length === 1 ? '1 setting' : `${order.length} settings`;
  return `Order of work: ${demand.material.name}, ${settings} (${settingsByPicture} picture by picture)`;
}

const boxMm = 7;

function ticked({ face }: Flow, text: string, widthMm: number): readonly Entry[] {
  const lines = wrapped(face, 'text', text, widthMm - boxMm).map((row) => ({ text: row, indentMm: boxMm }));
  const lead: Entry['draw'] = ({ x, y }) => [
    rectangle('tick box', { left: x + 0.4, right: x + 3.9, top: y + 0.7, bottom: y + 4.2 }),
  ];
  return entriesOf(face, lines, lead, 0.4, mostLines);
}
