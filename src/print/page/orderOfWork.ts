import type { MaterialPlan } from '../../model/index.ts';
import { hasOrder, orderLead, orderRows } from '../orderWords.ts';
import type { Chunk } from './cuttingList.ts';
import { columnGap, drawAt, type Entry, entryOf, halfOf, heightOfAll } from './entries.ts';
import type { Flow } from './flow.ts';
import { rectangle } from './mark.ts';
import type { Sizes } from './sizes.ts';
import { leadingOf, shortened, widthOf, words } from './type.ts';

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
  return gridsOf(flow, rows).map((columns, index): Chunk => {
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

const mostRows = 24;

/** Short rows in three columns, others in two, filled one after the other; not too many, to stay together. */
function gridsOf(flow: Flow, rows: readonly string[]): readonly (readonly (readonly Entry[])[])[] {
  const third = (flow.width - 2 * columnGap) / 3;
  const isShort = rows.every((row) => widthOf(flow.face, 'text', row) <= third - boxMm);
  const [count, widthMm] = isShort ? [3, third] : [2, halfOf(flow)];
  return Array.from({ length: Math.ceil(rows.length / mostRows) }, (_, grid) => {
    const own = rows.slice(grid * mostRows, (grid + 1) * mostRows);
    const height = Math.ceil(own.length / count);
    return Array.from({ length: count }, (_column, at) =>
      own.slice(at * height, (at + 1) * height).flatMap((row) => ticked(flow, row, widthMm)),
    );
  });
}

function headingOf({ demand, order, settingsByPicture }: MaterialPlan): string {
  const settings = order.length === 1 ? '1 setting' : `${order.length} settings`;
  return `Order of work: ${demand.material.name}, ${settings} (${settingsByPicture} picture by picture)`;
}

const boxMm = 7;

function ticked(flow: Flow, text: string, widthMm: number): readonly Entry[] {
  return entryOf(flow.face, text, boxMm, widthMm, ({ x, y }) => [
    rectangle('tick box', { left: x + 0.4, right: x + 3.9, top: y + 0.7, bottom: y + 4.2 }),
  ]);
}
